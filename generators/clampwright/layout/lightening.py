"""Lightening holes: where the recipe puts them, or where there is most room."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.increment import down_to, to_nearest
from clampwright.layout.outline import Outline
from clampwright.layout.outline_field import inside_by
from clampwright.layout.plan_distance import point_to_rectangle
from clampwright.quantities import Vec2, show_length
from clampwright.recipe.model import Lightening
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]

_FINE = 0.1
"""Millimetres at which the search over the whole plate ends and a climb from the place found begins."""
_FINEST = 1e-3
_CELLS = 24
"""Cells along the longer side of the first look."""

Circle = tuple[Vec2, float]
"""Centre and radius."""
Rectangle = tuple[Vec2, float, tuple[float, float]]
"""Centre, turn and half sizes."""


@dataclass(frozen=True, slots=True)
class KeepOut:
    """What lightening holes keep clear of: the outline, round places, and footprints on the plate."""

    outline: Outline
    rounds: tuple[Circle, ...]
    rectangles: tuple[Rectangle, ...]

    def room(self, points: Array) -> Array:
        """Largest radius of a hole at each point (k, 2); negative where there is no room at all."""
        web = rule("lightening-web").value
        room = inside_by(self.outline, points) - web
        for (u, v), radius in self.rounds:
            room = np.minimum(room, np.hypot(points[:, 0] - u, points[:, 1] - v) - radius)
        for centre, turn, half in self.rectangles:
            room = np.minimum(room, point_to_rectangle(points, np.array(centre), turn, half) - web)
        return room


def place_lightening(
    asked: Sequence[Lightening], keep_out: KeepOut, increment: float, units: str
) -> tuple[tuple[Circle | None, ...], tuple[tuple[str, str], ...]]:
    """A circle for every lightening hole asked for (None where there is no room), and what was assumed.

    Holes with a place of their own come first; each of the others goes where the plate has most room then,
    nearest to the middle of the outline where several places have as much. A hole without a diameter is the
    largest hole saw that keeps its distances: rounded down to rule `lightening-step`, none over rule
    `lightening-most` and none under rule `lightening-least`.
    Places that the tool finds are rounded to the increment. `units` are those of the notes.
    """
    circles: list[Circle | None] = [None] * len(asked)
    notes = []
    for i in sorted(range(len(asked)), key=lambda i: asked[i].at is None):
        now = _with(keep_out, circles)
        circles[i] = _circle(asked[i], now, increment)
        notes += _notes(i + 1, asked[i], circles[i], units)
    return tuple(circles), tuple(notes)


def most_room(keep_out: KeepOut) -> Vec2:
    """The place where the largest hole fits, by halving the cells that may still hold a larger one.

    Room changes by no more than the distance moved, so a cell holds nothing larger than the room at its
    middle plus half its diagonal.

    >>> from clampwright.layout.outlines import rounded_rectangle
    >>> plate = KeepOut(rounded_rectangle((0.0, 0.0, 80.0, 40.0), 5.0), (((0.0, 20.0), 48.0),), ())
    >>> u, v = most_room(plate)
    >>> abs(u - 60.0) < 0.2, abs(v - 20.0) < 0.2
    (True, True)
    """
    u0, v0, u1, v1 = keep_out.outline.box()
    half = max(u1 - u0, v1 - v0) / (2 * _CELLS)
    across, up = (max(1, math.ceil((b - a) / (2 * half) - 1e-9)) for a, b in ((u0, u1), (v0, v1)))
    us = (u0 + u1) / 2 + half * (2 * np.arange(across) - across + 1)
    vs = (v0 + v1) / 2 + half * (2 * np.arange(up) - up + 1)
    cells: Array = np.stack(np.meshgrid(us, vs), axis=-1).reshape(-1, 2)
    room = keep_out.room(cells)
    while half > _FINE:
        hopeful = cells[room + half * math.sqrt(2) >= room.max()]
        half /= 2
        corners = half * np.array([(-1, -1), (1, -1), (-1, 1), (1, 1)])
        best, best_room = cells[[int(room.argmax())]], room[[int(room.argmax())]]
        quarters = (hopeful[:, None, :] + corners).reshape(-1, 2)
        cells = np.concatenate([best, quarters])
        room = np.concatenate([best_room, keep_out.room(quarters)])
    near = _nearest_middle(cells[room >= room.max() - 2 * _FINE], ((u0 + u1) / 2, (v0 + v1) / 2))
    return _climbed(near, keep_out)


def _nearest_middle(places: Array, middle: Vec2) -> Vec2:
    def far(place: list[float]) -> tuple[float, float, float]:
        return round(math.dist(place, middle), 6), round(place[0], 6), round(place[1], 6)

    u, v = min(places.tolist(), key=far)
    return u, v


def _climbed(place: Vec2, keep_out: KeepOut) -> Vec2:
    """The place, moved to where the room near it is at its most."""
    around = np.array([(u, v) for u in (-1, 0, 1) for v in (-1, 0, 1)], dtype=float)
    at, step = np.array(place), 2 * _FINE
    while step > _FINEST:
        room = keep_out.room(at + step * around)
        best = int(room.argmax())
        if room[best] > room[len(around) // 2] + _FINEST * step:
            at = at + step * around[best]
        else:
            step /= 2
    u, v = at.tolist()
    return u, v


def _circle(asked: Lightening, keep_out: KeepOut, increment: float) -> Circle | None:
    at = asked.at
    if at is None:
        u, v = (to_nearest(x, increment) for x in most_room(keep_out))
        at = (u, v)
    if asked.diameter_mm is not None:
        return at, asked.diameter_mm / 2
    room = 2 * float(keep_out.room(np.array([at]))[0])
    diameter = down_to(min(room, rule("lightening-most").value), rule("lightening-step").value)
    return (at, diameter / 2) if diameter >= rule("lightening-least").value else None


def _with(keep_out: KeepOut, circles: Sequence[Circle | None]) -> KeepOut:
    web = rule("lightening-web").value
    more = tuple((at, radius + web) for at, radius in (c for c in circles if c is not None))
    return KeepOut(keep_out.outline, keep_out.rounds + more, keep_out.rectangles)


def _notes(number: int, asked: Lightening, circle: Circle | None, units: str) -> list[tuple[str, str]]:
    key = f"plate.lightening[{number}]"
    if circle is None:
        least = show_length(rule("lightening-least").value, units)
        return [(key, f"left out (no room for {least} or more)")]
    notes = []
    if asked.at is None:
        notes.append((f"{key}.at", "where there is most room (chosen by the tool)"))
    if asked.diameter_mm is None:
        size = 2 * circle[1]
        why = "the largest hole saw that keeps its distances"
        if size > rule("lightening-most").value - rule("lightening-step").value:
            why = "the largest common hole saw"
        notes.append((f"{key}.diameter", f"{show_length(size, units)} ({why})"))
    return notes
