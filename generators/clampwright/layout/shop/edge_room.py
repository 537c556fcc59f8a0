"""How far a hole and the outline may stray before the hole comes too near to an edge.

A hole's centre lies e from a place (x, y) of the outline, along (a, b). A shop holds ± t in each of the
hole's coordinates, and ± g(x), ± g(y) of that place by the general tolerance; the datum edges themselves are
exact, for they are what is measured from. At worst e shrinks by t (|a| + |b|) + g(x) |a| + g(y) |b|.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, inf

from clampwright.layout.outline import Outline
from clampwright.layout.placed import Hole
from clampwright.recipe.model import Shop
from clampwright.trade.general_tolerances import general
from clampwright.trade.tables import rule

WHY = "so that the edge distance stays"
SOURCE = "edge-1-5d"
_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class EdgeRoom:
    """± in each coordinate of a hole that keeps its edge distance, mm."""

    off_mm: float
    """At most; below 0 where the outline alone may bring the edge too near."""
    nominal: bool
    """Whether the hole keeps its distance where nothing strays: else a check says so, not a tolerance."""


def edge_room(hole: Hole, outline: Outline, shop: Shop) -> EdgeRoom:
    """How far a bolt hole may stray so that e/D stays at least rule `edge-distance-least`.

    Examples
    --------
    A 5 mm hole 9 mm off the lower datum edge of a wide plate keeps 7.5 mm with ± 1.5.

    >>> from clampwright.layout.outlines import rounded_rectangle
    >>> from clampwright.recipe.shop import usual_shop
    >>> hole = Hole("A1", "clamp", "A1", (100.0, 9.0), 5.0, "M5", "5", "")
    >>> edge_room(hole, rounded_rectangle((0, 0, 200, 100), 5), usual_shop("mm"))
    EdgeRoom(off_mm=1.5, nominal=True)
    """
    left, bottom, _, _ = outline.box()
    least = rule("edge-distance-least").value * hole.diameter_mm
    off, nominal = inf, True
    for piece in outline.pieces:
        x, y = piece.nearest(hole.at)
        e = hypot(x - hole.at[0], y - hole.at[1])
        nominal = nominal and e >= least - _NOISE
        if e > _NOISE:
            a, b = abs(x - hole.at[0]) / e, abs(y - hole.at[1]) / e
            stray = _strays(x - left, shop) * a + _strays(y - bottom, shop) * b
            off = min(off, (e - least - stray) / (a + b))
    return EdgeRoom(off, nominal)


def _strays(from_datum_mm: float, shop: Shop) -> float:
    return 0.0 if abs(from_datum_mm) <= _NOISE else general(shop, from_datum_mm).over_mm
