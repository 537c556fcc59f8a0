"""Where each view of a part stands on the sheet, in either angle of projection, and at which scale."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Box
from clampwright.solids.view_lines import ViewLines
from clampwright.trade.tables import load

GAP_MM = 25.0
"""Room between two views on the paper, for dimensions."""

_SIDES = {
    "third": {"right": "right", "left": "left", "top": "above", "bottom": "below"},
    "first": {"right": "left", "left": "right", "top": "below", "bottom": "above"},
}
"""On which side of the front view each stands: in the third angle on the side that it is looked at from."""
_LAST = "far right"


@dataclass(frozen=True, slots=True)
class Placement:
    """A view, and where its picture's origin stands from the front view's, mm on the paper."""

    view: ViewLines
    at: Vec2
    scale: float

    def box(self) -> Box:
        """The view on the paper, from the front view's origin."""
        x0, y0, x1, y1 = (side * self.scale for side in self.view.box())
        return x0 + self.at[0], y0 + self.at[1], x1 + self.at[0], y1 + self.at[1]


def arranged(
    views: Sequence[ViewLines], projection: str, gap_mm: float = GAP_MM, scale: float = 1.0
) -> tuple[Placement, ...]:
    """Where the views stand about the first, which is the front view; in the order given.

    "top", "bottom", "right" and "left" stand in line with the front view, on the side that the projection
    has for them. "back", and sections, follow on the right of everything, level with the front view.

    Parameters
    ----------
    views : Sequence[ViewLines]
        The front view first.
    projection : str
        "third" or "first".
    gap_mm : float
        Room between two views, mm on the paper.
    scale : float
        Millimetres on the paper for one of the part.

    Examples
    --------
    >>> from clampwright.solids.shop_looks import LOOKS
    >>> square = ((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0), (0.0, 0.0))
    >>> front = ViewLines("front", LOOKS["front"], (square,), ())
    >>> right = ViewLines("right", LOOKS["right"], (((-2.0, 0.0), (0.0, 30.0)),), ())
    >>> arranged([front, right], "third", 20.0)[1].at, arranged([front, right], "first", 20.0)[1].at
    ((62.0, 0.0), (-20.0, 0.0))
    """
    placed: dict[int, Placement] = {}
    order = sorted(range(len(views)), key=lambda k: _side(views[k], k, projection) == _LAST)
    front = Placement(views[0], (0.0, 0.0), scale)
    for k in order:
        side = _side(views[k], k, projection)
        beside = _round(placed.values()) if side == _LAST else front.box()
        at = (0.0, 0.0) if k == 0 else _at(views[k], side, beside, gap_mm, scale)
        placed[k] = Placement(views[k], at, scale)
    return tuple(placed[k] for k in range(len(views)))


def standard_scales(standard: str) -> tuple[tuple[float, str], ...]:
    """Scales that drawings are made to, largest first.

    >>> standard_scales("iso")[:3]
    ((5.0, '5:1'), (2.0, '2:1'), (1.0, '1:1'))
    """
    rows = [row for row in load("drawing_scales").rows if row.text("kind") == standard]
    return tuple((row.number("scale"), row.text("name")) for row in rows)


def _side(view: ViewLines, k: int, projection: str) -> str:
    return "front" if k == 0 else _SIDES[projection].get(view.name, _LAST)


def _at(view: ViewLines, side: str, beside: Box, gap: float, scale: float) -> Vec2:
    x0, y0, x1, y1 = (edge * scale for edge in view.box())
    return {
        "above": (0.0, beside[3] + gap - y0),
        "below": (0.0, beside[1] - gap - y1),
        "left": (beside[0] - gap - x1, 0.0),
    }.get(side, (beside[2] + gap - x0, 0.0))


def _round(placements: Iterable[Placement]) -> Box:
    boxes = [placement.box() for placement in placements]
    left, bottom, right, top = zip(*boxes, strict=True)
    return min(left), min(bottom), max(right), max(top)
