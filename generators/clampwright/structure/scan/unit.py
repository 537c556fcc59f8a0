"""The unit of a scan: given, or guessed from how long everything in it is."""

from __future__ import annotations

import numpy as np

from clampwright.structure.not_readable import NotReadable
from clampwright.structure.scan.cloud import Array, reach
from clampwright.trade.tables import rule

MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}
"""Millimetres in a unit."""


def unit_of(points: Array, given: str | None) -> tuple[str, str]:
    """The unit, and how it is known.

    Parameters
    ----------
    points : array (n, 3)
        In the file's unit.
    given : str or None
        "mm", "cm", "m" or "in"; None: nobody said.

    Raises
    ------
    NotReadable
        Another unit, or a scan that would be longer than any engine bay in it (rule `scan-size-most`).

    Examples
    --------
    >>> unit_of(np.diag([900.0, 600.0, 700.0]), None)
    ('mm', 'guessed: the scan is 1286 long, which would be 1.29 m: look at the lengths')
    >>> unit_of(np.diag([36.0, 24.0, 28.0]), None)[0], unit_of(np.diag([0.9, 0.6, 0.7]), None)[0]
    ('in', 'm')
    """
    if given is not None and given not in MM:
        raise NotReadable(f'no unit is called "{given}"', f"give one of {', '.join(MM)}")
    long = float(np.linalg.norm(reach(points)))
    unit = given or _guess(long)
    long_mm = long * MM[unit]
    if long_mm > rule("scan-size-most").value:
        raise NotReadable(
            f"the scan would be {long_mm / 1000:.4g} m long in {unit}",
            "give its unit, and cut away what is not of the engine bay",
        )
    if given:
        return given, "given"
    return (
        unit,
        f"guessed: the scan is {long:.4g} long, which would be {long_mm / 1000:.3g} m: look at the lengths",
    )


def _guess(long: float) -> str:
    if long > rule("scan-mm-size").value:
        return "mm"
    return "in" if long > rule("scan-inch-size").value else "m"
