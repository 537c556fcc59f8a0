"""The unit of a scan: given, or guessed from how long everything in it is."""

from __future__ import annotations

import numpy as np

from clampwright.quantities import show_length
from clampwright.structure.not_readable import NotReadable
from clampwright.structure.scan.cloud import Array, reach
from clampwright.trade.tables import rule

MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}
"""Millimetres in a unit."""
NAMES = {"mm": "millimetres", "cm": "centimetres", "m": "metres", "in": "inches"}


def unit_of(points: Array, given: str | None, units: str = "mm") -> tuple[str, str]:
    """The unit, and how it is known.

    Parameters
    ----------
    points : array (n, 3)
        In the file's unit.
    given : str or None
        "mm", "cm", "m" or "in"; None: nobody said.
    units : str
        "mm" or "in": what a person is told lengths in.

    Raises
    ------
    NotReadable
        Another unit; a scan that would be longer than any engine bay in it (rule `scan-size-most`), or
        shorter than the shortest tube (rules `scan-od-least`, `scan-length-least`).

    Examples
    --------
    >>> unit_of(np.diag([900.0, 600.0, 700.0]), None)
    ('mm', 'guessed: the scan is 1286 long, which would be 1.286 m: look at the lengths')
    >>> unit_of(np.diag([36.0, 24.0, 28.0]), None)[0], unit_of(np.diag([0.9, 0.6, 0.7]), None)[0]
    ('in', 'm')
    >>> unit_of(np.diag([36.0, 24.0, 28.0]), None, "in")[1]
    'guessed: the scan is 51.43 long, which would be 51.43 in: look at the lengths'
    """
    if given is not None and given not in MM:
        raise NotReadable(f'no unit is called "{given}"', f"give one of {', '.join(MM)}")
    long = float(np.linalg.norm(reach(points)))
    unit = given or _guess(long)
    long_mm = long * MM[unit]
    _look_at(long_mm, f"would be {_about(long_mm, units)} long in {NAMES[unit]}", units)
    if given:
        return given, "given"
    said = f"the scan is {long:.4g} long, which would be {_about(long_mm, units)}"
    return unit, f"guessed: {said}: look at the lengths"


def _look_at(long_mm: float, would: str, units: str) -> None:
    """Refuse what is too long for an engine bay, or too short for a tube."""
    if long_mm > rule("scan-size-most").value:
        raise NotReadable(f"the scan {would}", "give its unit, and cut away what is not of the engine bay")
    shortest = rule("scan-od-least").value * rule("scan-length-least").value
    if long_mm < shortest:
        raise NotReadable(
            f"the whole scan {would}, and the shortest tube that is looked for is "
            f"{show_length(shortest, units)}",
            "give the unit that the file was written in",
        )


def _about(mm: float, units: str) -> str:
    """A length to four digits, in inches, or in metres from one metre on."""
    unit = "in" if units == "in" else "m" if mm >= MM["m"] else "mm"
    return f"{mm / MM[unit]:.4g} {unit}"


def _guess(long: float) -> str:
    if long > rule("scan-mm-size").value:
        return "mm"
    return "in" if long > rule("scan-inch-size").value else "m"
