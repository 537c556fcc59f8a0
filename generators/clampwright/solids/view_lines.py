"""A view of a part as a drawing needs it: seen and hidden lines, true arcs kept, cut faces of a section."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.quantities import Vec2
from clampwright.solids.place import Place

Chain = tuple[Vec2, ...]
"""Points of one edge in the picture, mm of the part: x to the right, y up."""


@dataclass(frozen=True, slots=True)
class ViewArc:
    """A circle or arc that is seen square on, mm of the part."""

    centre: Vec2
    radius: float
    start_deg: float
    end_deg: float
    """Counter-clockwise from `start_deg`; 360 more for a whole circle."""


Edge = Chain | ViewArc


@dataclass(frozen=True, slots=True)
class ViewLines:
    """One view, in millimetres of the part; `place` maps the part to it."""

    name: str
    """"front", "top", "right", "left", "section A-A", "flat pattern"."""
    place: Place
    """Frame of the picture in the part's own frame: x to the right, z towards the eye."""
    seen: tuple[Edge, ...]
    hidden: tuple[Edge, ...]
    cut: tuple[tuple[Chain, ...], ...] = ()
    """Faces that a section lays open: outer ring first, then its holes; to be hatched."""

    def point(self, at: tuple[float, float, float]) -> Vec2:
        """Where a point of the part's own frame lies in the picture."""
        x, y = self.place.x, self.place.y
        away = tuple(a - o for a, o in zip(at, self.place.origin, strict=True))
        return (
            sum(a * b for a, b in zip(away, x, strict=True)),
            sum(a * b for a, b in zip(away, y, strict=True)),
        )

    def box(self) -> tuple[float, float, float, float]:
        """(left, bottom, right, top) of everything in the view, mm of the part."""
        xs: list[float] = []
        ys: list[float] = []
        for edge in (*self.seen, *self.hidden):
            points = edge if isinstance(edge, tuple) else arc_corners(edge)
            xs += [p[0] for p in points]
            ys += [p[1] for p in points]
        return min(xs), min(ys), max(xs), max(ys)


def arc_corners(arc: ViewArc) -> Chain:
    """Ends of an arc, and its points farthest right, up, left and down where it passes them."""
    sweep = arc.end_deg - arc.start_deg
    turns = [0.0, sweep, *((quarter - arc.start_deg) % 360 for quarter in (0, 90, 180, 270))]
    angles = [math.radians(arc.start_deg + turn) for turn in turns if turn <= sweep]
    return tuple(
        (arc.centre[0] + arc.radius * math.cos(a), arc.centre[1] + arc.radius * math.sin(a)) for a in angles
    )
