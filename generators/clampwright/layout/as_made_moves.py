"""The shift and turn of a part that leaves its tightest hole the most room: a minimax fit in the plane.

Each hole at m wants to meet its bolt at p; the bolt gives `allowed` either way, and where it rides on a
clamp that slides it gives along its tube besides. With the move x -> c + R(m - c) + s the fit is

    least z with |P (c + R (m - c) + s - p)| <= allowed + z for every hole,

P leaving out the direction that gives. The spare of the tightest hole is -z. Turned into steps that are
linear in the turn, each step is convex (`cone_barrier`); steps repeat until they move nothing.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.cone_barrier import Cones, least_squares_within, least_z
from clampwright.quantities import Vec2

Array = npt.NDArray[np.float64]

_STEPS = 12
_STILL = 1e-9
"""Millimetres of a step that is none any more."""
_SAME = 1e-7
"""Millimetres: spares that differ by less are equal, and the fit nearest to all bolts is taken."""
_QUARTER = np.array([[0.0, -1.0], [1.0, 0.0]])


@dataclass(frozen=True, slots=True)
class Meeting:
    """A hole and the bolt that has to pass it."""

    hole: Vec2
    """Its measured centre."""
    bolt: Vec2
    allowed_mm: float
    along: Vec2 | None = None
    """Unit direction in which the bolt follows the hole; None: in none."""
    room_mm: float = 0.0
    """How far it follows either way at the most; more where no fit without is near."""


@dataclass(frozen=True, slots=True)
class Move:
    """x -> about + R(turn)(x - about) + shift."""

    shift: Vec2
    turn_rad: float
    about: Vec2

    def of(self, point: Vec2) -> Vec2:
        """Where a point comes to.

        >>> [round(value, 9) for value in Move((1.0, 0.5), math.pi / 2, (0.0, 0.0)).of((0.0, -2.0))]
        [3.0, 0.5]
        """
        cos, sin = math.cos(self.turn_rad), math.sin(self.turn_rad)
        x, y = point[0] - self.about[0], point[1] - self.about[1]
        return (
            self.about[0] + cos * x - sin * y + self.shift[0],
            self.about[1] + sin * x + cos * y + self.shift[1],
        )


def back(move: Move) -> Move:
    """The move that takes everything back to where it was.

    >>> there = Move((1.0, 2.0), 0.5, (3.0, 4.0))
    >>> [round(value, 9) for value in back(there).of(there.of((7.0, -1.0)))]
    [7.0, -1.0]
    """
    (x, y), (sx, sy) = move.about, move.shift
    return Move((-sx + 0.0, -sy + 0.0), -move.turn_rad + 0.0, (x + sx, y + sy))


NO_MOVE = Move((0.0, 0.0), 0.0, (0.0, 0.0))


def off(meeting: Meeting, move: Move) -> tuple[Vec2, float]:
    """How a hole stands off its bolt after a move: the vector that pinches, and how far its bolt slides.

    >>> off(Meeting((3.0, 4.0), (0.0, 0.0), 0.1, (1.0, 0.0)), NO_MOVE)
    ((0.0, 4.0), 3.0)
    """
    x, y = move.of(meeting.hole)
    dx, dy = x - meeting.bolt[0], y - meeting.bolt[1]
    if meeting.along is None:
        return (dx, dy), 0.0
    ax, ay = meeting.along
    slide = dx * ax + dy * ay
    return (dx - slide * ax, dy - slide * ay), slide


def spare(meetings: Sequence[Meeting], move: Move) -> float:
    """Spare of the tightest hole after a move, mm: negative where it pinches; infinite without holes."""
    return min((m.allowed_mm - math.hypot(*off(m, move)[0]) for m in meetings), default=math.inf)


def least_squares(meetings: Sequence[Meeting]) -> Move:
    """The rigid move that brings all holes nearest to their bolts, in closed form.

    With both sets of points taken from their means, tan(turn) = Σ (m × p) / Σ (m · p); the shift joins the
    means (the plane case of the orthogonal Procrustes problem).

    >>> move = least_squares([Meeting((1.0, 0.0), (0.0, 1.0), 0), Meeting((-1.0, 0.0), (0.0, -1.0), 0)])
    >>> round(math.degrees(move.turn_rad), 9)
    90.0
    """
    holes, bolts = np.array([m.hole for m in meetings]), np.array([m.bolt for m in meetings])
    about, target = holes.mean(axis=0), bolts.mean(axis=0)
    m, p = holes - about, bolts - target
    cross = float(np.sum(m[:, 0] * p[:, 1] - m[:, 1] * p[:, 0]))
    dot = float(np.sum(m * p))
    turn = math.atan2(cross, dot) if cross or dot else 0.0
    return Move(_pair(target - about), turn, _pair(about))


def best_move(meetings: Sequence[Meeting]) -> Move:
    """The move that leaves the tightest hole the most room, and of all that do the nearest to every bolt.

    Examples
    --------
    Two holes 0.2 mm too far apart: each stands half of that off, and nothing turns.

    >>> pair = [Meeting((0.0, 0.0), (0.0, 0.0), 0.3), Meeting((50.2, 0.0), (50.0, 0.0), 0.3)]
    >>> move = best_move(pair)
    >>> [round(value, 6) + 0.0 for value in (*move.shift, move.turn_rad, spare(pair, move))]
    [-0.1, 0.0, 0.0, 0.2]
    """
    if not meetings:
        return NO_MOVE
    start = least_squares(meetings)
    if len(meetings) == 1:
        return Move(start.shift, 0.0, start.about)
    rooms = [max(m.room_mm, abs(off(m, start)[1])) for m in meetings]
    move, steps = start, 0
    while steps < _STEPS:
        move, moved = _step(meetings, rooms, move)
        steps += 1
        if moved <= _STILL:
            break
    return move if spare(meetings, move) >= spare(meetings, start) - _SAME else start


def _step(meetings: Sequence[Meeting], rooms: Sequence[float], move: Move) -> tuple[Move, float]:
    """The best move with the turn linear about the present one, and how far that moves any hole."""
    cos, sin = math.cos(move.turn_rad), math.sin(move.turn_rad)
    about = np.array(move.about)
    arms = (np.array([m.hole for m in meetings]) - about) @ np.array([[cos, sin], [-sin, cos]])
    radius = max(math.sqrt(float(np.mean(np.sum(arms**2, axis=1)))), 1.0)
    rest = about + arms + np.array(move.shift) - np.array([m.bolt for m in meetings])
    change = np.zeros((len(meetings), 2, 3))
    change[:, :, :2] = np.eye(2)
    change[:, :, 2] = arms @ _QUARTER.T / radius
    cones = _cones(meetings, rooms, change, rest)
    found = _nearest_of_the_best(cones, change, rest)
    shift = (move.shift[0] + float(found[0]), move.shift[1] + float(found[1]))
    return Move(shift, move.turn_rad + float(found[2]) / radius, move.about), float(np.abs(found).max())


def _cones(meetings: Sequence[Meeting], rooms: Sequence[float], change: Array, rest: Array) -> Cones:
    """What pinches, with z; and how far clamps slide, without."""
    linear, constant, size, with_z = [], [], [], []
    for meeting, room, matrix, vector in zip(meetings, rooms, change, rest, strict=True):
        along = np.zeros(2) if meeting.along is None else np.array(meeting.along)
        across = np.eye(2) - np.outer(along, along)
        linear.append(across @ matrix)
        constant.append(across @ vector)
        size.append(meeting.allowed_mm)
        with_z.append(1.0)
        if meeting.along is not None:
            linear.append(np.outer(along, along) @ matrix)
            constant.append(np.outer(along, along) @ vector)
            size.append(max(room, abs(float(along @ vector))) + 1e-6)
            with_z.append(0.0)
    return Cones(np.array(linear), np.array(constant), np.array(size), np.array(with_z))


def _nearest_of_the_best(cones: Cones, change: Array, rest: Array) -> Array:
    """Of all moves with the least z, the one with the least squares of all distances, slides included."""
    best, z = least_z(cones)
    flat, target = change.reshape(-1, 3), -rest.reshape(-1)
    nearest: Array = np.asarray(np.linalg.lstsq(flat, target, rcond=None)[0], dtype=np.float64)
    if cones.z_of(nearest) <= z + _SAME and cones.free(nearest):
        return nearest
    return least_squares_within(cones, z + _SAME, best, flat, target)


def _pair(values: Array) -> Vec2:
    return (float(values[0]), float(values[1]))
