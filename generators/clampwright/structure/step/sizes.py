"""Diameters that no tube of an engine bay has: is the file's unit right?"""

from __future__ import annotations

from clampwright.quantities import show_length
from clampwright.trade.tables import rule

_MM = {"mm": 1.0, "in": 25.4, "m": 1000.0, "cm": 10.0}
_ASKED = ("mm", "in", "m")


def odd_size(od_mm: float, unit: str) -> tuple[str, ...]:
    """The question about the unit, where a diameter is none that a recipe takes; nothing where it is.

    >>> odd_size(19.05, "mm")
    ()
    >>> odd_size(0.75, "mm")[0]
    'OD 0.75 mm is thinner than a tube of a recipe may be: is mm the right unit? In in it would be 19.05 mm.'
    """
    if _likely(od_mm):
        return ()
    odd = "thicker" if od_mm > rule("recipe-tube-od-most").value else "thinner"
    number = od_mm / _MM[unit] if unit in _MM else None
    others = [
        f"In {name} it would be {show_length(number * _MM[name], 'mm')}."
        for name in _ASKED
        if number is not None and name != unit and _likely(number * _MM[name])
    ]
    asked = (
        f"OD {show_length(od_mm, 'mm')} is {odd} than a tube of a recipe may be: is {unit} the right unit?"
    )
    return (" ".join((asked, *others)),)


def _likely(od_mm: float) -> bool:
    return rule("recipe-tube-od-least").value <= od_mm <= rule("recipe-tube-od-most").value
