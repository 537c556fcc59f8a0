"""Flat outlines of straight lines and true arcs."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.quantities import Vec2

_SMOOTH = 0.02
"""Radians of turn below which two pieces run on without a corner."""
_FULL = 1e-9
"""Radians of sweep below which an arc that ends where it began is a whole circle."""


@dataclass(frozen=True, slots=True)
class Line:
    """Straight piece from `start` to `end`, mm."""

    start: Vec2
    end: Vec2

    @property
    def length_mm(self) -> float:
        """Length of the piece.

        >>> Line((0.0, 0.0), (3.0, 4.0)).length_mm
        5.0
        """
        return math.dist(self.start, self.end)

    def nearest(self, point: Vec2) -> Vec2:
        """The nearest place on the piece.

        >>> Line((0.0, 0.0), (10.0, 0.0)).nearest((4.0, 3.0))
        (4.0, 0.0)
        """
        du, dv = self.end[0] - self.start[0], self.end[1] - self.start[1]
        square = du * du + dv * dv
        if square == 0:
            return self.start
        t = ((point[0] - self.start[0]) * du + (point[1] - self.start[1]) * dv) / square
        t = min(1.0, max(0.0, t))
        return self.start[0] + t * du, self.start[1] + t * dv

    def headings(self) -> tuple[float, float]:
        """Directions of travel at the start and at the end, radians from u."""
        heading = math.atan2(self.end[1] - self.start[1], self.end[0] - self.start[0])
        return heading, heading


@dataclass(frozen=True, slots=True)
class Arc:
    """Arc from `start` to `end` round `centre`, counter-clockwise where `ccw`; mm."""

    start: Vec2
    end: Vec2
    centre: Vec2
    ccw: bool

    @property
    def radius_mm(self) -> float:
        """Radius.

        >>> Arc((5.0, 0.0), (0.0, 5.0), (0.0, 0.0), True).radius_mm
        5.0
        """
        return math.dist(self.start, self.centre)

    @property
    def start_angle(self) -> float:
        """Angle of the start seen from the centre, radians from u."""
        return math.atan2(self.start[1] - self.centre[1], self.start[0] - self.centre[0])

    @property
    def end_angle(self) -> float:
        """Angle of the end seen from the centre, radians from u."""
        return math.atan2(self.end[1] - self.centre[1], self.end[0] - self.centre[0])

    @property
    def sweep(self) -> float:
        """Angle swept, radians: above 0 and up to 2 pi, whichever way it turns; whole where it closes.

        >>> round(Arc((5.0, 0.0), (0.0, 5.0), (0.0, 0.0), False).sweep / math.pi, 6)
        1.5
        """
        turn = self.end_angle - self.start_angle if self.ccw else self.start_angle - self.end_angle
        turn %= 2 * math.pi
        return 2 * math.pi if min(turn, 2 * math.pi - turn) < _FULL else turn

    @property
    def length_mm(self) -> float:
        """Length along the arc."""
        return self.radius_mm * self.sweep

    def passes(self, angle: float) -> bool:
        """Whether the arc passes through this direction from its centre (radians from u)."""
        turn = angle - self.start_angle if self.ccw else self.start_angle - angle
        return turn % (2 * math.pi) <= self.sweep

    def nearest(self, point: Vec2) -> Vec2:
        """The nearest place on the arc (the start for its own centre).

        >>> Arc((5.0, 0.0), (-5.0, 0.0), (0.0, 0.0), True).nearest((0.0, 9.0))
        (0.0, 5.0)
        """
        away = (point[0] - self.centre[0], point[1] - self.centre[1])
        distance = math.hypot(*away)
        if distance > 0 and self.passes(math.atan2(away[1], away[0])):
            scale = self.radius_mm / distance
            return self.centre[0] + scale * away[0], self.centre[1] + scale * away[1]
        return min(self.start, self.end, key=lambda p: math.dist(p, point))

    def headings(self) -> tuple[float, float]:
        """Directions of travel at the start and at the end, radians from u."""
        quarter = math.pi / 2 if self.ccw else -math.pi / 2
        return self.start_angle + quarter, self.end_angle + quarter

    def within_chord(self, point: Vec2) -> bool:
        """Whether a point lies between the arc and its chord."""
        if math.dist(point, self.centre) > self.radius_mm:
            return False
        if self.sweep >= 2 * math.pi:
            return True
        side = _cross(self.start, self.end, point)
        return side <= 0 if self.ccw else side >= 0


@dataclass(frozen=True, slots=True)
class Outline:
    """A closed, counter-clockwise chain of lines and arcs; each piece starts where the last one ended.

    >>> square = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]
    >>> sides = tuple(Line(a, b) for a, b in zip(square, square[1:] + square[:1]))
    >>> plain = Outline(sides)
    >>> plain.area_mm2(), plain.centroid(), plain.box()
    (16.0, (2.0, 2.0), (0.0, 0.0, 4.0, 4.0))
    >>> plain.distance((1.0, 2.0)), plain.nearest((1.0, 2.0)), plain.contains((5.0, 2.0))
    (1.0, (0.0, 2.0), False)
    >>> plain.least_outside_radius(), plain.least_inside_radius()
    (0.0, None)
    """

    pieces: tuple[Line | Arc, ...]

    def area_mm2(self) -> float:
        """Enclosed area, exact for lines and arcs.

        Half the sum of cross products of the chords, plus (minus, for an arc that turns clockwise)
        r²(sweep − sin sweep)/2 for every arc.
        """
        return math.fsum(area for area, _ in self._parts())

    def centroid(self) -> Vec2:
        """Centroid of the enclosed area: every chord's triangle and every arc's segment, weighed by area.

        A segment's centroid lies 4 r sin³(sweep/2) / (3 (sweep − sin sweep)) from the arc's centre.
        """
        parts = self._parts()
        area = math.fsum(a for a, _ in parts)
        near = self.pieces[0].start
        u = math.fsum(a * (c[0] - near[0]) for a, c in parts) / area
        v = math.fsum(a * (c[1] - near[1]) for a, c in parts) / area
        return near[0] + u, near[1] + v

    def box(self) -> tuple[float, float, float, float]:
        """(u_min, v_min, u_max, v_max), with the bulge of arcs."""
        points = [p for piece in self.pieces for p in _extremes(piece)]
        us, vs = [p[0] for p in points], [p[1] for p in points]
        return min(us), min(vs), max(us), max(vs)

    def distance(self, point: Vec2) -> float:
        """Distance from a point to the nearest place on the outline (never negative)."""
        return math.dist(self.nearest(point), point)

    def nearest(self, point: Vec2) -> Vec2:
        """The nearest place on the outline (the first in the chain where several are as near)."""
        return min((piece.nearest(point) for piece in self.pieces), key=lambda p: math.dist(p, point))

    def contains(self, point: Vec2) -> bool:
        """Whether a point is inside: winding of the chords, plus or minus the segments of the arcs."""
        winding = 0
        for piece in self.pieces:
            winding += _crossing(piece.start, piece.end, point)
            if isinstance(piece, Arc) and piece.within_chord(point):
                winding += 1 if piece.ccw else -1
        return winding > 0

    def least_inside_radius(self) -> float | None:
        """Smallest radius of a concave corner (0 for a sharp one); None where there is none."""
        return self._least_radius(ccw=False)

    def least_outside_radius(self) -> float | None:
        """Smallest radius of a convex corner (0 for a sharp one); None where there is none."""
        return self._least_radius(ccw=True)

    def moved(self, by: Vec2) -> Outline:
        """The same outline elsewhere.

        >>> line = Line((0.0, 0.0), (1.0, 0.0))
        >>> Outline((line,)).moved((1.0, 2.0)).pieces[0].start
        (1.0, 2.0)
        """
        return Outline(tuple(_moved(piece, by) for piece in self.pieces))

    def _parts(self) -> list[tuple[float, Vec2]]:
        """Signed areas with their centroids: a triangle a piece from the first point, a segment an arc."""
        near = self.pieces[0].start
        parts = []
        for piece in self.pieces:
            triangle = _cross(near, piece.start, piece.end) / 2
            middle = tuple((near[i] + piece.start[i] + piece.end[i]) / 3 for i in (0, 1))
            parts.append((triangle, (middle[0], middle[1])))
            if isinstance(piece, Arc):
                parts.append(_segment(piece))
        return parts

    def _least_radius(self, *, ccw: bool) -> float | None:
        radii = [p.radius_mm for p in self.pieces if isinstance(p, Arc) and p.ccw is ccw]
        before = self.pieces[-1:] + self.pieces[:-1]
        for last, piece in zip(before, self.pieces, strict=True):
            turn = math.remainder(piece.headings()[0] - last.headings()[1], 2 * math.pi)
            if (turn if ccw else -turn) > _SMOOTH:
                radii.append(0.0)
        return min(radii) if radii else None


def _cross(a: Vec2, b: Vec2, p: Vec2) -> float:
    """Twice the area of the triangle a, b, p: positive where p is left of a to b."""
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


def _crossing(a: Vec2, b: Vec2, p: Vec2) -> int:
    """+1 or -1 where the edge a to b passes upward left of, or downward right of, a ray from p; else 0."""
    if a[1] <= p[1] < b[1]:
        return 1 if _cross(a, b, p) > 0 else 0
    if b[1] <= p[1] < a[1]:
        return -1 if _cross(a, b, p) < 0 else 0
    return 0


def _segment(arc: Arc) -> tuple[float, Vec2]:
    """Signed area between an arc and its chord, and its centroid."""
    sweep, radius = arc.sweep, arc.radius_mm
    area = radius * radius * (sweep - math.sin(sweep)) / 2
    if area == 0:
        return 0.0, arc.start
    out = 2 * radius**3 * math.sin(sweep / 2) ** 3 / (3 * area)
    middle = arc.start_angle + (sweep / 2 if arc.ccw else -sweep / 2)
    centroid = (arc.centre[0] + out * math.cos(middle), arc.centre[1] + out * math.sin(middle))
    return (area if arc.ccw else -area), centroid


def _extremes(piece: Line | Arc) -> list[Vec2]:
    points = [piece.start, piece.end]
    if isinstance(piece, Arc):
        r, (u, v) = piece.radius_mm, piece.centre
        poles = ((0.0, (u + r, v)), (0.5, (u, v + r)), (1.0, (u - r, v)), (1.5, (u, v - r)))
        points += [pole for angle, pole in poles if piece.passes(angle * math.pi)]
    return points


def _moved(piece: Line | Arc, by: Vec2) -> Line | Arc:
    start = (piece.start[0] + by[0], piece.start[1] + by[1])
    end = (piece.end[0] + by[0], piece.end[1] + by[1])
    if isinstance(piece, Line):
        return Line(start, end)
    return Arc(start, end, (piece.centre[0] + by[0], piece.centre[1] + by[1]), piece.ccw)
