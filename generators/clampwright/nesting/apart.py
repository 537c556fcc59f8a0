"""How far two contours of lines and true arcs are apart, exactly: no polygon stands in for an arc."""

from __future__ import annotations

import math
from collections.abc import Iterator

from clampwright.layout.outline import Arc, Line, Outline
from clampwright.quantities import Vec2

Box = tuple[float, float, float, float]
_TOUCH = 1e-12


def apart(one: Outline, other: Outline, enough_mm: float = math.inf) -> float:
    """Least distance between two contours, mm: 0 where they cross or one lies within the other.

    Parameters
    ----------
    one, other : Outline
        Closed contours.
    enough_mm : float, optional
        Pieces that are farther apart than this by their boxes are not looked at; the answer is then at least
        this much.

    Examples
    --------
    >>> disc = Outline((Arc((5.0, 0.0), (5.0, 0.0), (0.0, 0.0), True),))
    >>> apart(disc, disc.moved((13.0, 0.0))), apart(disc, disc.moved((1.0, 0.0)))
    (3.0, 0.0)
    """
    if boxes_apart(one.box(), other.box()) > enough_mm:
        return enough_mm
    if one.contains(other.pieces[0].start) or other.contains(one.pieces[0].start):
        return 0.0
    ours = [(piece, box_of(piece)) for piece in one.pieces]
    theirs = [(piece, box_of(piece)) for piece in other.pieces]
    least = enough_mm
    for piece, box in ours:
        for against, its_box in theirs:
            if boxes_apart(box, its_box) < least:
                least = min(least, pieces_apart(piece, against))
    return least


def boxes_apart(one: Box, other: Box) -> float:
    """Distance between two boxes, mm; 0 where they touch."""
    across = max(one[0] - other[2], other[0] - one[2], 0.0)
    along = max(one[1] - other[3], other[1] - one[3], 0.0)
    return math.hypot(across, along)


def box_of(piece: Line | Arc) -> Box:
    """Box of one piece, with its bulge."""
    return Outline((piece,)).box()


def pieces_apart(one: Line | Arc, other: Line | Arc) -> float:
    """Least distance between two pieces, mm: from their ends, where they cross, and between nearest rims.

    Between a circle and a line, or two circles, a least distance that is at no end lies on the line through
    the centres (square to the line).
    """
    if any(_near(one, p) and _near(other, p) for p in _crossings(one, other)):
        return 0.0
    places = [(end, other.nearest(end)) for end in (one.start, one.end)]
    places += [(one.nearest(end), end) for end in (other.start, other.end)]
    places += _facing(one, other)
    return min(math.dist(a, b) for a, b in places)


def _facing(one: Line | Arc, other: Line | Arc) -> Iterator[tuple[Vec2, Vec2]]:
    """Places on both pieces that may be nearest to each other: towards each other's centre, and away."""
    if isinstance(one, Arc):
        rim = _rims(one, other.centre if isinstance(other, Arc) else _foot(other, one.centre))
        yield from ((place, other.nearest(place)) for place in rim)
        at = other.nearest(one.centre)
        yield one.nearest(at), at
    if isinstance(other, Arc):
        rim = _rims(other, one.centre if isinstance(one, Arc) else _foot(one, other.centre))
        yield from ((one.nearest(place), place) for place in rim)
        at = one.nearest(other.centre)
        yield at, other.nearest(at)


def _rims(arc: Arc, towards: Vec2) -> Iterator[Vec2]:
    """Places on the arc towards a point and away from it."""
    heading = math.atan2(towards[1] - arc.centre[1], towards[0] - arc.centre[0])
    for angle in (heading, heading + math.pi):
        if arc.passes(angle):
            r = arc.radius_mm
            yield arc.centre[0] + r * math.cos(angle), arc.centre[1] + r * math.sin(angle)


def _foot(line: Line, point: Vec2) -> Vec2:
    """Foot of the perpendicular on the line drawn out both ways."""
    du, dv = line.end[0] - line.start[0], line.end[1] - line.start[1]
    square = du * du + dv * dv
    if square == 0:
        return line.start
    t = ((point[0] - line.start[0]) * du + (point[1] - line.start[1]) * dv) / square
    return line.start[0] + t * du, line.start[1] + t * dv


def _crossings(one: Line | Arc, other: Line | Arc) -> list[Vec2]:
    """Where the lines or circles that the pieces lie on cross."""
    if isinstance(one, Line):
        return _of_lines(one, other) if isinstance(other, Line) else _of_line_and_circle(one, other)
    if isinstance(other, Line):
        return _of_line_and_circle(other, one)
    return _of_circles(one, other)


def _of_lines(one: Line, other: Line) -> list[Vec2]:
    du, dv = one.end[0] - one.start[0], one.end[1] - one.start[1]
    eu, ev = other.end[0] - other.start[0], other.end[1] - other.start[1]
    cross = du * ev - dv * eu
    if abs(cross) <= _TOUCH * math.hypot(du, dv) * math.hypot(eu, ev):
        return []
    su, sv = other.start[0] - one.start[0], other.start[1] - one.start[1]
    t = (su * ev - sv * eu) / cross
    return [(one.start[0] + t * du, one.start[1] + t * dv)]


def _of_line_and_circle(line: Line, arc: Arc) -> list[Vec2]:
    foot = _foot(line, arc.centre)
    half = arc.radius_mm**2 - math.dist(foot, arc.centre) ** 2
    if half < 0 or line.length_mm == 0:
        return []
    along = math.sqrt(half) / line.length_mm
    du, dv = along * (line.end[0] - line.start[0]), along * (line.end[1] - line.start[1])
    return [(foot[0] + du, foot[1] + dv), (foot[0] - du, foot[1] - dv)]


def _of_circles(one: Arc, other: Arc) -> list[Vec2]:
    far, r, s = math.dist(one.centre, other.centre), one.radius_mm, other.radius_mm
    if far == 0:
        return []
    out = (far * far + r * r - s * s) / (2 * far)
    half = r * r - out * out
    if half < 0:
        return []
    u, v = (other.centre[0] - one.centre[0]) / far, (other.centre[1] - one.centre[1]) / far
    up = math.sqrt(half)
    foot = (one.centre[0] + out * u, one.centre[1] + out * v)
    return [(foot[0] - up * v, foot[1] + up * u), (foot[0] + up * v, foot[1] - up * u)]


def _near(piece: Line | Arc, point: Vec2) -> bool:
    return math.dist(piece.nearest(point), point) <= 1e-9
