"""A view drawn on the page: outlines, hidden lines, hatching, centre lines."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import ArcPath, Circle, Item, Path, Pen
from clampwright.sheets.shop.hatching import hatched
from clampwright.sheets.shop.sizes import DrawingSheet
from clampwright.solids.view_lines import Edge, ViewArc, ViewLines
from clampwright.trade.tables import rule

_WHOLE_DEG = 360.0
_SAME_MM = 1e-4
_CURVE = 8
"""Points from which on a hidden chain is taken for a curve, and dashed as a whole."""
_LEAST_DASHES = 2
_SHORT = 4.0
"""A gap is at most the line's length over this."""

Axis = tuple[Vec2, Vec2]
"""Ends of an axis in a view, mm of the part; the line is drawn on beyond them."""


def outline_pen(sheet: DrawingSheet) -> Pen:
    """For what is seen."""
    return Pen(sheet.wide_mm)


def thin_pen(sheet: DrawingSheet) -> Pen:
    """For dimensions and hatching."""
    return Pen(sheet.narrow_mm)


def hidden_pen(sheet: DrawingSheet) -> Pen:
    """Dashed, for what is hidden.

    >>> from clampwright.sheets.shop.sizes import drawing_sheet
    >>> hidden_pen(drawing_sheet("A3")).dash_mm
    (3.0, 0.75)
    """
    d = sheet.narrow_mm
    return Pen(d, dash_mm=(rule("drawing-dash").value * d, rule("drawing-gap").value * d))


def centre_pen(sheet: DrawingSheet) -> Pen:
    """Long dashes and dots, for axes."""
    d = sheet.narrow_mm
    long, gap, dot = (rule(f"drawing-{word}").value * d for word in ("long-dash", "gap", "dot"))
    return Pen(d, dash_mm=(long, gap, dot, gap))


def view_items(
    view: ViewLines, scale: float, at: Vec2, sheet: DrawingSheet, axes: Sequence[Axis] = ()
) -> tuple[Item, ...]:
    """Everything of a view, drawn.

    Parameters
    ----------
    view : ViewLines
        In mm of the part.
    scale : float
        Millimetres on the page for one of the part.
    at : Vec2
        Where the picture's origin lies on the page.
    sheet : DrawingSheet
        Whose line widths are taken.
    axes : Sequence[Axis]
        Axes to be drawn beside those of whole circles, mm of the part in the picture.
    """
    hatch = [line for rings in view.cut for line in _hatch(rings, scale, at, sheet)]
    return (
        *hatch,
        *(item for edge in view.hidden for item in _dashed(edge, scale, at, hidden_pen(sheet))),
        *(_drawn(edge, scale, at, outline_pen(sheet)) for edge in view.seen),
        *centre_items(view, scale, at, sheet),
        *(line for axis in axes for line in axis_items(axis, scale, at, sheet)),
    )


def centre_items(view: ViewLines, scale: float, at: Vec2, sheet: DrawingSheet) -> tuple[Item, ...]:
    """Crossed centre lines of every whole circle that is seen; of circles round one centre, the largest."""
    items: list[Item] = []
    for arc in _largest(arc for arc in view.seen if isinstance(arc, ViewArc) and _whole(arc)):
        (x, y), r = arc.centre, arc.radius
        for axis in (((x - r, y), (x + r, y)), ((x, y - r), (x, y + r))):
            items += axis_items(axis, scale, at, sheet)
    return tuple(items)


def axis_items(axis: Axis, scale: float, at: Vec2, sheet: DrawingSheet) -> tuple[Item, ...]:
    """A centre line, drawn on beyond its ends; a short one without dots.

    A long one is drawn from its middle both ways, so that a dash and no gap lies there.
    """
    a, b = (_on_page(p, scale, at) for p in axis)
    beyond = rule("drawing-centre-beyond").value
    long = math.dist(a, b)
    way = ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
    a = (a[0] - beyond * way[0], a[1] - beyond * way[1])
    b = (b[0] + beyond * way[0], b[1] + beyond * way[1])
    if math.dist(a, b) <= rule("drawing-centre-plain").value:
        return (Path((a, b), thin_pen(sheet)),)
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    return Path((middle, a), centre_pen(sheet)), Path((middle, b), centre_pen(sheet))


def _drawn(edge: Edge, scale: float, at: Vec2, pen: Pen) -> Item:
    if isinstance(edge, ViewArc):
        centre, radius = _on_page(edge.centre, scale, at), edge.radius * scale
        if _whole(edge):
            return Circle(centre, radius, pen)
        return ArcPath(centre, radius, edge.start_deg, edge.end_deg, pen)
    points = tuple(_on_page(p, scale, at) for p in edge)
    closed = len(points) > 2 and edge[0] == edge[-1]
    return Path(points[:-1] if closed else points, pen, closed)


def _dashed(edge: Edge, scale: float, at: Vec2, pen: Pen) -> Iterator[Item]:
    """An edge with dashes at both ends and at every corner, which take a plain pattern for all of it."""
    if isinstance(edge, ViewArc):
        turn = math.radians(edge.end_deg - edge.start_deg) * edge.radius * scale
        yield _drawn(edge, scale, at, _fitting(pen, turn, round_about=_whole(edge)))
        return
    if len(edge) > _CURVE:
        yield _drawn(edge, scale, at, pen)
        return
    for a, b in pairwise(edge):
        yield _drawn((a, b), scale, at, _fitting(pen, math.dist(a, b) * scale))


def _fitting(pen: Pen, long: float, *, round_about: bool = False) -> Pen:
    """The dashed pen with its dashes stretched a little, so that a line of this length ends in dashes.

    A line too short for two dashes and a gap of their own gets two shorter ones: it has to look dashed.
    """
    dash, gap = pen.dash_mm
    if round_about:
        count = max(_LEAST_DASHES, round(long / (dash + gap)))
        return replace(pen, dash_mm=(_told(long / count - gap), gap))
    gap = min(gap, long / _SHORT)
    count = max(_LEAST_DASHES, round((long + gap) / (dash + gap)))
    return replace(pen, dash_mm=(_told((long + gap) / count - gap), _told(gap)))


def _told(length: float) -> float:
    """Rounded up to a hundredth, so that the last dash does not begin before the line's end."""
    return math.ceil(length * 100 - 1e-6) / 100


def _hatch(rings: Sequence[Sequence[Vec2]], scale: float, at: Vec2, sheet: DrawingSheet) -> Iterator[Path]:
    scaled = [[(x * scale, y * scale) for x, y in ring] for ring in rings]
    for a, b in hatched(scaled, rule("drawing-hatch-apart").value):
        yield Path((_on_page(a, 1.0, at), _on_page(b, 1.0, at)), thin_pen(sheet))


def _on_page(p: Vec2, scale: float, at: Vec2) -> Vec2:
    return at[0] + p[0] * scale, at[1] + p[1] * scale


def _whole(arc: ViewArc) -> bool:
    return arc.end_deg - arc.start_deg >= _WHOLE_DEG - _SAME_MM


def _largest(arcs: Iterable[ViewArc]) -> list[ViewArc]:
    """One arc a centre."""
    kept: list[ViewArc] = []
    for arc in sorted(arcs, key=lambda arc: -arc.radius):
        if all(math.dist(arc.centre, other.centre) > _SAME_MM for other in kept):
            kept.append(arc)
    return sorted(kept, key=lambda arc: arc.centre)
