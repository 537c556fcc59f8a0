"""Dimensions of a bent part's folded views: overall sizes that the flat pattern does not say, thickness."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Literal

from clampwright.layout.shop.told import FlatPart
from clampwright.quantities import Vec2
from clampwright.sheets.shop.dimensioning.lanes import extension_rays
from clampwright.sheets.shop.dimensioning.linear import Length
from clampwright.sheets.shop.dimensioning.wording import length
from clampwright.sheets.shop.drawn_view import DrawnView, near
from clampwright.sheets.shop.folded_angles import dimension_angles
from clampwright.sheets.shop.folded_legs import dimension_legs
from clampwright.solids.view_lines import arc_corners

_ACROSS = ("right", "left")
"""Views in which the part's thickness lies across the page; in "top" and "bottom" it lies up and down."""
_EDGES = (*_ACROSS, "top", "bottom")
_LONG = 0.5
"""An edge that shows a face is at least so many thicknesses long."""


def dimension_folded(views: Sequence[DrawnView], part: FlatPart) -> None:
    """Add legs, overall width, height and depth, and the thickness, each once; and angles."""
    sides = views[1:]
    overall = list(_overalls(views, part))
    said = {axis: one.value for axis, _, one, _ in overall}
    thick = _thickness([view for view in sides if view.view.name in _EDGES], part)
    rays = {} if thick is None else {thick[0].view.name: extension_rays(thick[1], thick[2])}
    dimension_legs(sides, part, said, rays)
    for _, view, one, side in overall:
        view.lanes([one], side)
    if thick is not None:
        thick[0].lanes([thick[1]], thick[2])
    dimension_angles(sides, part)


def thickness(views: Sequence[DrawnView], part: FlatPart) -> None:
    """The thickness, in the first view that shows both faces on edge; else only the title block says it."""
    found = _thickness(views, part)
    if found is not None:
        view, one, side = found
        view.lanes([one], side)


def _overalls(views: Sequence[DrawnView], part: FlatPart) -> Iterator[tuple[str, DrawnView, Length, str]]:
    """Sizes that the flat pattern does not say: axis of the part, view, length, side of the view."""
    front, *sides = views
    x0, y0, x1, y1 = part.outline.box()
    a, b, c, d = front.view.box()
    if not near(c - a, x1 - x0, 1e-4):
        yield "x", front, _overall(front, 0, part), "below"
    if not near(d - b, y1 - y0, 1e-4):
        yield "y", front, _overall(front, 1, part), "left"
    deep = next((view for view in sides if view.view.name in _EDGES), None)
    if deep is not None:
        across = deep.view.name in _ACROSS
        yield "z", deep, _overall(deep, 0 if across else 1, part), "below" if across else "right"


def _thickness(views: Sequence[DrawnView], part: FlatPart) -> tuple[DrawnView, Length, str] | None:
    for view in views:
        across = view.view.name in _ACROSS
        ends = _faces(view, 0 if across else 1, part.thickness_mm)
        if ends is not None:
            t, both = part.thickness_mm, (view.point(ends[0]), view.point(ends[1]))
            words = length(t, part.units)
            return (
                view,
                Length("horizontal" if across else "vertical", both, t, words, view.scale),
                ("above" if across else "left"),
            )
    return None


def _overall(view: DrawnView, k: int, part: FlatPart) -> Length:
    points = list(_points(view))
    low = min(points, key=lambda p: (p[k], p[1 - k]))
    high = max(points, key=lambda p: (p[k], -p[1 - k]))
    size = high[k] - low[k]
    kind: Literal["horizontal", "vertical"] = "horizontal" if k == 0 else "vertical"
    return Length(kind, (view.point(low), view.point(high)), size, length(size, part.units), view.scale)


def _faces(view: DrawnView, k: int, t: float) -> tuple[Vec2, Vec2] | None:
    """Ends, on the side where dimension lines stand, of two seen edges one thickness apart: the faces."""
    sign = 1.0 if k == 0 else -1.0
    lines = [
        (a, b) for a, b in _straight(view) if near(a[k], b[k], 1e-4) and abs(a[1 - k] - b[1 - k]) > _LONG * t
    ]
    best: tuple[float, Vec2, Vec2] | None = None
    for one in lines:
        for two in lines:
            if near(two[0][k] - one[0][k], t, 1e-4):
                first, second = (max(each, key=lambda p: sign * p[1 - k]) for each in (one, two))
                reach = min(sign * first[1 - k], sign * second[1 - k])
                if best is None or reach > best[0] + 1e-9:
                    best = reach, first, second
    return None if best is None else best[1:]


def _straight(view: DrawnView) -> Iterator[tuple[Vec2, Vec2]]:
    for edge in view.view.seen:
        if isinstance(edge, tuple):
            yield from pairwise(edge)


def _points(view: DrawnView) -> Iterator[Vec2]:
    for edge in (*view.view.seen, *view.view.hidden):
        yield from edge if isinstance(edge, tuple) else arc_corners(edge)
