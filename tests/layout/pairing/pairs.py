"""Pairs of clamps for tests, and measures of them by routes of their own: numpy, nothing of the layout's."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
from hypothesis import strategies as st

from clampwright.layout.pairing.closed import Closed, Pair
from clampwright.quantities import Vec3
from clampwright.structure.tubes import Tube
from clampwright.trade.clamps import LoopClamp, loop_clamp

Array = npt.NDArray[np.float64]


def clamp(reach_mm: float, seat_mm: float, feet_mm: float = 3.0) -> LoopClamp:
    """A clamp with these measures."""
    return loop_clamp(19.05, "CH", reach_mm=reach_mm, seat_mm=seat_mm, feet_mm=feet_mm)


def tube(start: Vec3, end: Vec3, name: str = "tube") -> Tube:
    """A tube of 3/4 in."""
    return Tube(name, start, end, 19.05)


def vec(values: Vec3) -> Array:
    """As an array."""
    return np.array(values, dtype=float)


def tup(values: Array) -> Vec3:
    """As three numbers."""
    x, y, z = (float(v) for v in values)
    return (x, y, z)


@dataclass(frozen=True)
class Measured:
    """What a straightedge would find of a closed pair."""

    off_tube_hole: float
    """Distance of the tube's clamp's hole from the bolt's axis; the same for the line's clamp."""
    off_line_hole: float
    between_feet: float
    """Between the two feet's outer faces, along the bolt."""


def measured(pair: Pair, place: Closed) -> Measured:
    """Holes and feet of both clamps by their definition: hole at c + turn · reach · (m × a), face at seat."""
    n, at = vec(place.axis), vec(place.bolt)
    line = place.line
    centre_a, a = vec(pair.tube.point(place.station_tube_mm)), vec(pair.tube.direction)
    centre_b, b = vec(line.point(place.station_line_mm)), vec(line.direction)
    m = vec(place.own_axis_line)
    hole_a = centre_a + place.turn_tube * pair.on_tube.reach_mm * np.cross(n, a)
    hole_b = centre_b + place.turn_line * pair.on_line.reach_mm * np.cross(m, b)
    face_a = _met(at, n, centre_a + pair.on_tube.seat_mm * n, n)
    face_b = _met(at, n, centre_b + pair.on_line.seat_mm * m, m)
    return Measured(_off(hole_a, at, n), _off(hole_b, at, n), float((face_b - face_a) @ n))


def axes_apart(one: Tube, other: Tube) -> float:
    """Least distance of two endless axes: least squares over both stations."""
    a, b = vec(one.direction), vec(other.direction)
    away = vec(other.start) - vec(one.start)
    stations, *_ = np.linalg.lstsq(np.stack([a, -b], axis=1), away, rcond=None)
    return float(np.linalg.norm(stations[0] * a - stations[1] * b - away))


def _off(point: Array, at: Array, n: Array) -> float:
    return float(np.linalg.norm(np.cross(point - at, n)))


def _met(at: Array, n: Array, face: Array, normal: Array) -> Array:
    """Where a line through `at` along n meets a plane."""
    return np.asarray(at + n * (((face - at) @ normal) / (n @ normal)))


def motion(seed: int) -> tuple[Array, Array]:
    """A turn and a shift, any."""
    rng = np.random.default_rng(seed)
    q, _ = np.linalg.qr(rng.normal(size=(3, 3)))
    return q * np.sign(np.linalg.det(q)), rng.uniform(-500.0, 500.0, 3)


def moved(each: Tube, turn: Array, shift: Array) -> Tube:
    """A tube moved as a whole."""
    return replace(each, start=tup(turn @ vec(each.start) + shift), end=tup(turn @ vec(each.end) + shift))


def reversed_(each: Tube) -> Tube:
    """The same tube, measured from its other end."""
    return replace(each, start=each.end, end=each.start)


@dataclass(frozen=True)
class Known:
    """A pair that was closed on a bolt by hand: what a solver has to find again."""

    pair: Pair
    axis: Array
    bolt: Array
    spacer: float
    station_tube: float
    station_line: float
    turn_tube: int
    turn_line: int


sizes = st.floats(8.0, 40.0)
turns = st.sampled_from((1, -1))


@st.composite
def known_pairs(draw: st.DrawFn, least_deg: float, most_deg: float) -> Known:
    """Two clamps on a bolt, any way round, with a spacer; the line crosses at an angle between these."""
    turn, shift = motion(draw(st.integers(0, 2**32 - 1)))
    a, n = turn[:, 0], turn[:, 2]
    angle = math.radians(draw(st.floats(least_deg, most_deg)))
    b = draw(turns) * (math.cos(angle) * a + draw(turns) * math.sin(angle) * np.cross(n, a))
    on_tube, on_line = clamp(draw(sizes), draw(sizes)), clamp(draw(sizes), draw(sizes))
    turn_tube, turn_line, spacer = draw(turns), draw(turns), draw(st.floats(0.0, 80.0))
    station_tube, station_line = draw(st.floats(20.0, 380.0)), draw(st.floats(20.0, 380.0))
    centre_a = shift + station_tube * a
    foot = centre_a + turn_tube * on_tube.reach_mm * np.cross(n, a) + on_tube.seat_mm * n
    other_foot = foot + spacer * n
    centre_b = other_foot + on_line.seat_mm * n - turn_line * on_line.reach_mm * np.cross(-n, b)
    start_b = centre_b - station_line * b
    line = Tube("line", tup(start_b), tup(start_b + 400.0 * b), 19.05)
    pair = Pair(tube(tup(shift), tup(shift + 400.0 * a)), on_tube, line, on_line)
    bolt = foot + spacer / 2 * n
    return Known(pair, n, bolt, spacer, station_tube, station_line, turn_tube, turn_line)
