"""The flat pattern as a view: outline and holes with true arcs, straight from the part that is told."""

from __future__ import annotations

import math

from clampwright.layout.outline import Arc, Line
from clampwright.layout.shop.told import FlatPart
from clampwright.solids.place import Place
from clampwright.solids.shop_looks import LOOKS
from clampwright.solids.view_lines import Edge, ViewArc, ViewLines

FLAT = "flat pattern"


def flat_pattern(part: FlatPart) -> ViewLines:
    """The part before it is bent, seen with its face towards the eye."""
    outline = tuple(_edge(piece) for piece in part.outline.pieces)
    holes = tuple(ViewArc(hole.at, hole.diameter_mm / 2, 0.0, 360.0) for hole in part.holes)
    return ViewLines(FLAT, Place(), (*outline, *holes), ())


def edge_view(part: FlatPart) -> ViewLines:
    """The edge of a part that is not bent, along its long side: from the right, or from the top."""
    x0, y0, x1, y1 = part.outline.box()
    t = part.thickness_mm
    if y1 - y0 >= x1 - x0:
        ring = ((-t, y0), (0.0, y0), (0.0, y1), (-t, y1), (-t, y0))
        return ViewLines("right", LOOKS["right"], (ring,), ())
    ring = ((x0, -t), (x1, -t), (x1, 0.0), (x0, 0.0), (x0, -t))
    return ViewLines("top", LOOKS["top"], (ring,), ())


def _edge(piece: Line | Arc) -> Edge:
    if isinstance(piece, Line):
        return piece.start, piece.end
    start, end = (math.degrees(angle) for angle in (piece.start_angle, piece.end_angle))
    first = (start if piece.ccw else end) % 360
    return ViewArc(piece.centre, piece.radius_mm, first, first + math.degrees(piece.sweep))
