"""Hoses by their size: outside diameter and least bend radius."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from clampwright.trade.tables import load


@dataclass(frozen=True, slots=True)
class Hose:
    """A rubber hose by its dash: the outside diameter, in sixteenths of an inch, of the tube it replaces."""

    dash: int
    od_mm: float
    id_mm: float
    bend_radius_mm: float
    """Least radius of a bend."""
    max_temperature_c: float
    source: str


def hose(dash: int) -> Hose:
    """The hose of a dash.

    Raises
    ------
    LookupError
        There is no hose of this dash.

    Examples
    --------
    >>> round(hose(6).od_mm / 25.4, 2), round(hose(6).bend_radius_mm / 25.4, 2)
    (0.67, 4.0)
    """
    found = hoses().get(dash)
    if found is None:
        sizes = ", ".join(f"-{each}" for each in hoses())
        raise LookupError(f"no hose -{dash}: the sizes are {sizes}")
    return found


@cache
def hoses() -> dict[int, Hose]:
    """Every hose by its dash, smallest first.

    Examples
    --------
    >>> list(hoses())[:3]
    [3, 4, 5]
    """
    rows = load("hoses").rows
    return {
        row.whole("dash"): Hose(
            row.whole("dash"),
            row.number("od"),
            row.number("id"),
            row.number("bend_radius"),
            row.number("max_temperature"),
            row.source(),
        )
        for row in rows
    }
