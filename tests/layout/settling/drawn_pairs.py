"""Second route for two clamps on a bolt: tube, line and panel drawn at random, each draw closed anew.

Crossing: the bolt along a × b, both stations where a line beside one axis crosses a line beside the other.
Side by side: the bolt turned about the tube (Newton) until the line's hole lies on it. Own formulas, in
numpy, for all draws at once.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from layout.settling.drawn import unit

Array = npt.NDArray[np.float64]


@dataclass(frozen=True)
class DrawnClamp:
    """A clamp on a drawn axis: start and end (draws, 3), reach and seat (draws,), side."""

    start: Array
    end: Array
    reach: Array
    seat: Array
    turn: int

    @property
    def way(self) -> Array:
        return unit(self.end - self.start)

    def point(self, station: Array) -> Array:
        return np.asarray(self.start + station[:, None] * self.way)


@dataclass(frozen=True)
class Came:
    """Where the clamps came to lie, and the spacer between them, one a draw."""

    on_tube: Array
    on_line: Array
    spacer: Array


def dot(a: Array, b: Array) -> Array:
    return np.asarray(np.sum(a * b, axis=1))


def hole(clamp: DrawnClamp, station: Array, n: Array) -> Array:
    """Its hole, its bolt being n made square to the axis: n × a is that of both."""
    return np.asarray(
        clamp.point(station) + (clamp.turn * clamp.reach)[:, None] * unit(np.cross(n, clamp.way))
    )


def crossing(tube: DrawnClamp, line: DrawnClamp, axis: Array) -> Came:
    """The four unknowns of a crossing pair solved as two straight lines that meet, seen along the bolt."""
    n = unit(np.cross(tube.way, line.way))
    n = n * np.sign(n @ axis)[:, None]
    none = np.zeros(len(n))
    one, other = hole(tube, none, n), hole(line, none, -n)
    both = np.stack([tube.way, -line.way, n], axis=2)
    stations = np.linalg.solve(both, (other - one)[:, :, None])[:, :, 0]
    apart = dot(line.point(stations[:, 1]) - tube.point(stations[:, 0]), n)
    return Came(stations[:, 0], stations[:, 1], apart - tube.seat - line.seat)


def side_by_side(tube: DrawnClamp, line: DrawnClamp, axis: Array, station: Array) -> Came:
    """The bolt square to the tube at its station, turned until it passes through the line's hole."""
    a, b = tube.way, line.way
    first = unit(axis - (a @ axis)[:, None] * a)
    second = np.cross(a, first)

    def off(angle: Array) -> Array:
        n = np.cos(angle)[:, None] * first + np.sin(angle)[:, None] * second
        out = unit(np.cross(-n, b))
        return dot(hole(tube, station, n) - line.start, out) - line.turn * line.reach

    angle = np.zeros(len(a))
    for _ in range(8):
        now = off(angle)
        angle = angle - now * 1e-6 / (off(angle + 1e-6) - now)
    n = np.cos(angle)[:, None] * first + np.sin(angle)[:, None] * second
    on_line = along_line(line, hole(tube, station, n), n)
    return Came(
        station, on_line, dot(line.point(on_line) - tube.point(station), n) - tube.seat - leant(line, n)
    )


def on_panel(line: DrawnClamp, n: Array, face: Array, station: Array) -> Came:
    """The bolt square to a face; `face` (draws,) is where the face lies along n."""
    normals = np.broadcast_to(n, line.start.shape)
    return Came(np.zeros(len(face)), station, line.point(station) @ n - face - leant(line, normals))


def along_line(line: DrawnClamp, bolt: Array, n: Array) -> Array:
    """Station of the line's point abreast of the bolt: the nearest places of both axes."""
    both = np.stack([line.way, -n, np.cross(line.way, n)], axis=2)
    return np.asarray(np.linalg.solve(both, (bolt - line.start)[:, :, None])[:, 0, 0])


def leant(line: DrawnClamp, n: Array) -> Array:
    """The line's seat along a bolt that is not square to it."""
    return np.asarray(line.seat / np.sqrt(1.0 - dot(line.way, n) ** 2))
