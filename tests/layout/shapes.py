"""Outlines for the outline tests, and the same as fine polygons for shapely, an independent route."""

from __future__ import annotations

from math import cos, sin

from shapely.geometry import Polygon

from clampwright.layout.outline import Arc, Line, Outline
from clampwright.layout.outlines import filleted_polygon, rounded_hull, rounded_rectangle
from clampwright.quantities import Vec2

STEPS = 3000
"""Chords an arc: the polygon then lies within radius · (sweep / STEPS)² / 8 of it."""


def fine_polygon(outline: Outline) -> Polygon:
    points: list[Vec2] = []
    for piece in outline.pieces:
        points += [piece.start] if isinstance(piece, Line) else _chords(piece)
    return Polygon(points)


def _chords(arc: Arc) -> list[Vec2]:
    turn = arc.sweep if arc.ccw else -arc.sweep
    angles = [arc.start_angle + turn * i / STEPS for i in range(STEPS)]
    return [(arc.centre[0] + arc.radius_mm * cos(a), arc.centre[1] + arc.radius_mm * sin(a)) for a in angles]


EL: list[Vec2] = [(0.0, 0.0), (90.0, 0.0), (90.0, 35.0), (40.0, 50.0), (30.0, 80.0), (0.0, 80.0)]
KEYHOLE = Outline(
    (
        Line((-2.0, 0.0), (-2.0, -20.0)),
        Line((-2.0, -20.0), (2.0, -20.0)),
        Line((2.0, -20.0), (2.0, 0.0)),
        Arc((2.0, 0.0), (-2.0, 0.0), (0.0, 4.0), True),
    )
)
"""A slot that ends in an arc of more than half a turn."""

SHAPES = {
    "rectangle": rounded_rectangle((-10.0, -5.0, 110.0, 60.0), 9.0),
    "sharp rectangle": rounded_rectangle((0.0, 0.0, 30.0, 20.0), 0.0),
    "stadium": rounded_rectangle((0.0, 0.0, 60.0, 20.0), 10.0),
    "concave": filleted_polygon(EL, 7.0),
    "keyhole": KEYHOLE,
    "hull": rounded_hull(
        [((0.0, 0.0), 12.0), ((80.0, 10.0), 5.0), ((60.0, 70.0), 20.0), ((30.0, 20.0), 4.0)]
    ),
    "disc": rounded_hull([((3.0, 4.0), 10.0), ((5.0, 4.0), 2.0)]),
}
