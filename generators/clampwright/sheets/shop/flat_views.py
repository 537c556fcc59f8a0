"""The views of a flat or bent part on the paper, each with its dimensions, none in another's way."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from clampwright.layout.shop.told import FlatPart
from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Box, Text
from clampwright.sheets.ink import BLACK
from clampwright.sheets.shop.arrangement import arranged
from clampwright.sheets.shop.bend_lines import bend_lines
from clampwright.sheets.shop.dimensioning.style import Style
from clampwright.sheets.shop.drawn_view import DrawnView, begun
from clampwright.sheets.shop.flat_dimensions import dimension_flat
from clampwright.sheets.shop.flat_pattern import FLAT, edge_view, flat_pattern
from clampwright.sheets.shop.folded_dimensions import dimension_folded, thickness
from clampwright.sheets.shop.hole_places import Where
from clampwright.sheets.shop.sizes import DrawingSheet
from clampwright.solids.view_lines import ViewLines

Stack = Literal["beside", "over"]
"""Whether the flat pattern of a bent part stands beside its folded views, or over them."""

_BETWEEN = 14.0
"""Least room between two views with their dimensions."""
_GROUPS = 26.0
"""Least room between the flat pattern and the bent part's views."""
_CAPTION = 3.2


def drawn_views(
    part: FlatPart,
    views: Sequence[ViewLines],
    sheet: DrawingSheet,
    style: Style,
    scale: float,
    where: Where,
    stack: Stack = "beside",
) -> list[DrawnView]:
    """All views with their dimensions, the one with the holes first; its picture's origin at (0, 0)."""
    flat = next((view for view in views if view.name == FLAT), None)
    others = [view for view in views if view.name != FLAT]
    if not part.bends:
        front = flat or next((view for view in others if view.name == "front"), flat_pattern(part))
        return _plain(part, front, _edge(part, others), sheet, style, scale, where)
    main = begun(flat or flat_pattern(part), scale, sheet, style)
    main.add(bend_lines(main, part))
    dimension_flat(main, part, where)
    folded = _folded(part, others, sheet, style, scale)
    if not folded:
        return [main]
    _captioned(main, "FLAT PATTERN")
    _captioned(folded[0], "BENT", reach_of(folded))
    return [main, *_stacked(main, folded, stack)]


def reach_of(views: Sequence[DrawnView]) -> Box:
    """The box round some views and everything that belongs to them."""
    left, low, right, high = zip(*(view.reach() for view in views), strict=True)
    return min(left), min(low), max(right), max(high)


def _plain(
    part: FlatPart,
    front: ViewLines,
    edge: ViewLines,
    sheet: DrawingSheet,
    style: Style,
    scale: float,
    where: Where,
) -> list[DrawnView]:
    main = begun(front, scale, sheet, style)
    dimension_flat(main, part, where)
    side = begun(edge, scale, sheet, style)
    thickness([side], part)
    return [main, _beside(main, side, part.shop.projection)]


def views_wanted(part: FlatPart) -> tuple[str, ...]:
    """Names of the views of the solid that a drawing of the part takes, the front view first."""
    return ("front", "right", "top") if part.bends else ("front", _upright_or_level(part)[0])


def _upright_or_level(part: FlatPart) -> tuple[str, ...]:
    """Edge views, first those along the part's long side."""
    x0, y0, x1, y1 = part.outline.box()
    upright, level = ("right", "left"), ("top", "bottom")
    return (*upright, *level) if y1 - y0 >= x1 - x0 else (*level, *upright)


def _edge(part: FlatPart, views: Sequence[ViewLines]) -> ViewLines:
    """The edge view that suits the part: along its long side."""
    for name in _upright_or_level(part):
        for view in views:
            if view.name == name:
                return view
    return edge_view(part)


def _beside(main: DrawnView, side: DrawnView, projection: str) -> DrawnView:
    """A view moved to the side of the main view that the projection has for it, clear of dimensions."""
    return side.shifted(_way(main, side, projection))


def _way(main: DrawnView, side: DrawnView, projection: str) -> Vec2:
    reach, other = main.reach(), side.reach()
    at = arranged([main.view, side.view], projection, scale=main.scale)[1].at
    if abs(at[0]) >= abs(at[1]):
        x = reach[2] + _BETWEEN - other[0] if at[0] > 0 else reach[0] - _BETWEEN - other[2]
        return x, main.origin[1]
    y = reach[3] + _BETWEEN - other[1] if at[1] > 0 else reach[1] - _BETWEEN - other[3]
    return main.origin[0], y


def _folded(
    part: FlatPart, views: Sequence[ViewLines], sheet: DrawingSheet, style: Style, scale: float
) -> list[DrawnView]:
    front = next((view for view in views if view.name == "front"), None)
    if front is None:
        return []
    drawn = [begun(view, scale, sheet, style) for view in (front, *(v for v in views if v is not front))]
    dimension_folded(drawn, part)
    placed = drawn[:1]
    for side in drawn[1:]:
        placed.append(_beside(drawn[0], side, part.shop.projection))
    return placed


def _captioned(view: DrawnView, words: str, reach: Box | None = None) -> None:
    left, low, right, _ = reach or view.reach()
    middle = (left + right) / 2
    view.add((Text((middle, low - 7.0), words, _CAPTION, "middle", bold=True, colour=BLACK),))


def _stacked(main: DrawnView, folded: Sequence[DrawnView], stack: Stack) -> list[DrawnView]:
    """The folded views moved clear of the flat pattern, level with its middle."""
    one, other = main.reach(), reach_of(folded)
    if stack == "beside":
        by = (one[2] + _GROUPS - other[0], (one[1] + one[3] - other[1] - other[3]) / 2)
    else:
        by = ((one[0] + one[2] - other[0] - other[2]) / 2, one[1] - _GROUPS - other[3])
    return [view.shifted(by) for view in folded]
