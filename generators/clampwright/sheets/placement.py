"""Where a part lies on the page: its frame to the page's, upright or a quarter turn round."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.layout.outline import Arc, Line, Outline
from clampwright.layout.placed import Frame
from clampwright.quantities import Vec2, Vec3
from clampwright.sheets.drawing import ArcPath, Box, Item, Path, Pen

_CHORD_DEG = 15.0


@dataclass(frozen=True, slots=True)
class Placement:
    """The part's origin on the page, and whether u runs up the page (v to the left) or to the right.

    Either way the part is seen from its far face, at full size.
    """

    origin: Vec2
    turned: bool = False

    def page(self, point: Vec2) -> Vec2:
        """A point of the part on the page.

        Examples
        --------
        >>> Placement((10.0, 20.0)).page((3.0, 4.0)), Placement((10.0, 20.0), turned=True).page((3.0, 4.0))
        ((13.0, 24.0), (6.0, 23.0))
        """
        u, v = self.direction(point)
        return self.origin[0] + u, self.origin[1] + v

    def direction(self, vector: Vec2) -> Vec2:
        """A direction of the part on the page."""
        return (-vector[1], vector[0]) if self.turned else vector

    def box(self, box: Box) -> Box:
        """The page's box of a box of the part."""
        (ax, ay), (bx, by) = self.page(box[:2]), self.page(box[2:])
        return min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)


def outline_items(outline: Outline, placement: Placement, pen: Pen) -> tuple[Item, ...]:
    """The outline as lines and true arcs."""
    return tuple(_piece(piece, placement, pen) for piece in outline.pieces)


def _piece(piece: Line | Arc, placement: Placement, pen: Pen) -> Item:
    if isinstance(piece, Line):
        return Path((placement.page(piece.start), placement.page(piece.end)), pen)
    first, last = (piece.start, piece.end) if piece.ccw else (piece.end, piece.start)
    centre = placement.page(piece.centre)
    start, end = (_bearing(centre, placement.page(point)) for point in (first, last))
    return ArcPath(centre, piece.radius_mm, start, end, pen)


def _bearing(centre: Vec2, point: Vec2) -> float:
    return math.degrees(math.atan2(point[1] - centre[1], point[0] - centre[0]))


def polygon(outline: Outline, placement: Placement) -> tuple[Vec2, ...]:
    """The outline as a closed chain of points on the page, arcs in short chords."""
    points: list[Vec2] = []
    for piece in outline.pieces:
        points.append(placement.page(piece.start))
        if isinstance(piece, Arc):
            points += [placement.page(point) for point in _between(piece)]
    return tuple(points)


def _between(arc: Arc) -> list[Vec2]:
    count = max(1, math.ceil(math.degrees(arc.sweep) / _CHORD_DEG))
    return [on_arc(arc, n / count) for n in range(1, count)]


def on_arc(arc: Arc, share: float) -> Vec2:
    """The point that lies `share` of the way along an arc.

    Examples
    --------
    >>> quarter = Arc((5.0, 0.0), (0.0, 5.0), (0.0, 0.0), True)
    >>> [round(coordinate, 3) for coordinate in on_arc(quarter, 0.5)]
    [3.536, 3.536]
    """
    angle = arc.start_angle + share * (arc.sweep if arc.ccw else -arc.sweep)
    return arc.centre[0] + arc.radius_mm * math.cos(angle), arc.centre[1] + arc.radius_mm * math.sin(angle)


def in_plane(frame: Frame, point: Vec3) -> Vec2:
    """A point of the world, seen along n, in the part's u and v."""
    x, y, z = (p - o for p, o in zip(point, frame.origin, strict=True))
    return along_plane(frame, (x, y, z))


def along_plane(frame: Frame, direction: Vec3) -> Vec2:
    """A direction of the world, seen along n, in the part's u and v."""
    x, y, z = direction
    u, v = frame.u, frame.v
    return x * u[0] + y * u[1] + z * u[2], x * v[0] + y * v[1] + z * v[2]
