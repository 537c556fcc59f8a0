"""What a drawing has to say of an outline: its farthest points, its corner radii, or all its corners."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from clampwright.layout.outline import Arc, Line, Outline
from clampwright.quantities import Vec2
from clampwright.trade.tables import rule

_SAME = 1e-6
_SMOOTH = 0.02
"""Radians of turn that are no corner, as `outline` counts them."""
_SHARE = 1e-9


@dataclass(frozen=True, slots=True)
class Corner:
    """A sharp corner, or an arc by its centre (`radius_mm` above 0; `hollow` where it turns inwards)."""

    label: str
    at: Vec2
    radius_mm: float
    hollow: bool
    mark: Vec2
    """A point of the outline that its label stands beside."""


def farthest(outline: Outline, way: Vec2, then: Vec2) -> Vec2:
    """The point of an outline farthest along a unit vector; of several, the farthest along the second.

    >>> square = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]
    >>> sides = Outline(tuple(Line(a, b) for a, b in zip(square, square[1:] + square[:1])))
    >>> farthest(sides, (1.0, 0.0), (0.0, -1.0))
    (4.0, 0.0)
    """
    points = [point for piece in outline.pieces for point in _points(piece, way)]
    most = max(_dot(point, way) for point in points)
    return max((p for p in points if _dot(p, way) > most - _SAME), key=lambda p: _dot(p, then))


def circle(outline: Outline) -> Arc | None:
    """The arc of a round part; None for any other."""
    arcs = [piece for piece in outline.pieces if isinstance(piece, Arc)]
    if len(arcs) != len(outline.pieces):
        return None
    same = all(
        math.dist(arc.centre, arcs[0].centre) < _SAME and abs(arc.radius_mm - arcs[0].radius_mm) < _SAME
        for arc in arcs
    )
    return arcs[0] if same and arcs[0].ccw else None


def datum_sides(outline: Outline) -> tuple[bool, bool]:
    """Whether a straight edge, long enough to set the part against, lies on the left and on the lower side.

    Examples
    --------
    >>> square = [(0.0, 0.0), (40.0, 0.0), (20.0, 40.0)]
    >>> datum_sides(Outline(tuple(Line(a, b) for a, b in zip(square, square[1:] + square[:1]))))
    (False, True)
    """
    least = rule("datum-edge-least").value
    found = []
    for k, low in enumerate(outline.box()[:2]):
        lying = [p for p in outline.pieces if isinstance(p, Line)]
        lying = [p for p in lying if max(abs(p.start[k] - low), abs(p.end[k] - low)) < _SAME]
        found.append(sum(piece.length_mm for piece in lying) >= least - _SAME)
    return found[0], found[1]


def is_box(outline: Outline) -> bool:
    """Whether overall sizes and one corner radius say all: a rectangle with equal corners.

    Its area is then w h - (4 - pi) r², and no other convex outline in the same box has that with such arcs.
    """
    x0, y0, x1, y1 = outline.box()
    arcs = [piece for piece in outline.pieces if isinstance(piece, Arc)]
    radii = [arc.radius_mm for arc in arcs]
    if arcs and (max(radii) - min(radii) > _SAME or not all(arc.ccw for arc in arcs)):
        return False
    lines = [piece for piece in outline.pieces if isinstance(piece, Line) and piece.length_mm > _SAME]
    square = all(min(abs(p.end[k] - p.start[k]) for k in (0, 1)) < _SAME for p in lines)
    r = radii[0] if radii else 0.0
    area = (x1 - x0) * (y1 - y0) - (4 - math.pi) * r * r
    return square and math.isclose(outline.area_mm2(), area, rel_tol=_SHARE)


def corners(outline: Outline) -> tuple[Corner, ...]:
    """Every sharp corner and every arc, counter-clockwise, labelled "P1", "P2" ..."""
    found = list(_corners(outline))
    return tuple(
        Corner(f"P{number}", at, radius, hollow, mark)
        for number, (at, radius, hollow, mark) in enumerate(found, 1)
    )


def _corners(outline: Outline) -> Iterator[tuple[Vec2, float, bool, Vec2]]:
    before = outline.pieces[-1:] + outline.pieces[:-1]
    for last, piece in zip(before, outline.pieces, strict=True):
        turn = math.remainder(piece.headings()[0] - last.headings()[1], 2 * math.pi)
        if abs(turn) > _SMOOTH:
            yield piece.start, 0.0, turn < 0, piece.start
        if isinstance(piece, Arc):
            yield piece.centre, piece.radius_mm, not piece.ccw, _middle(piece)


def _middle(arc: Arc) -> Vec2:
    half = arc.start_angle + (arc.sweep / 2 if arc.ccw else -arc.sweep / 2)
    return arc.centre[0] + arc.radius_mm * math.cos(half), arc.centre[1] + arc.radius_mm * math.sin(half)


def _points(piece: Line | Arc, way: Vec2) -> Iterator[Vec2]:
    yield piece.start
    if isinstance(piece, Arc) and piece.passes(math.atan2(way[1], way[0])):
        r = piece.radius_mm
        yield piece.centre[0] + r * way[0], piece.centre[1] + r * way[1]


def _dot(a: Vec2, b: Vec2) -> float:
    return a[0] * b[0] + a[1] * b[1]
