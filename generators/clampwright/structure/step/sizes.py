"""Diameters that no tube of an engine bay has: is the file's unit right?"""

from __future__ import annotations

from clampwright.quantities import show_length
from clampwright.trade.tables import rule

_MM = {"mm": 1.0, "in": 25.4, "m": 1000.0, "cm": 10.0}
_ONE = {"mm": "millimetre", "in": "inch", "m": "metre", "cm": "centimetre", "ft": "foot"}
_MANY = {"mm": "millimetres", "in": "inches", "m": "metres"}
_ASKED = ("mm", "in", "m")


def odd_size(od_mm: float, unit: str, units: str) -> tuple[str, ...]:
    """The question about the file's unit, where a diameter is none that a recipe takes; nothing where it is.

    `units` ("mm" or "in") is what lengths are said in.

    >>> odd_size(19.05, "mm", "mm")
    ()
    >>> for said in odd_size(0.75, "mm", "mm")[0].split(": "):
    ...     print(said)
    OD 0.75 mm is thinner than a tube of a recipe may be
    is millimetre the right unit? In inches it would be 19.05 mm.
    """
    if _likely(od_mm):
        return ()
    odd = "thicker" if od_mm > rule("recipe-tube-od-most").value else "thinner"
    number = od_mm / _MM[unit] if unit in _MM else None
    others = [
        f"In {_MANY[name]} it would be {show_length(number * _MM[name], units)}."
        for name in _ASKED
        if number is not None and name != unit and _likely(number * _MM[name])
    ]
    asked = f"is {_ONE.get(unit, unit)} the right unit?"
    asked = f"OD {show_length(od_mm, units)} is {odd} than a tube of a recipe may be: {asked}"
    return (" ".join((asked, *others)),)


def _likely(od_mm: float) -> bool:
    return rule("recipe-tube-od-least").value <= od_mm <= rule("recipe-tube-od-most").value
