"""Two clamps closed on one bolt: spacer, stations and tilt from the bolt's axis and the two sides."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

from clampwright.quantities import Vec3
from clampwright.quantities.directions import along, angle, cross, dot, minus, square_part, turned_round, unit
from clampwright.structure.tubes import Tube
from clampwright.trade.clamps import LoopClamp

SIDES = tuple(product((1, -1), repeat=2))
"""Sides of the tube's and the line's clamp, in the order in which places are found."""


@dataclass(frozen=True, slots=True)
class Pair:
    """A tube with its clamp and a line with its own."""

    tube: Tube
    on_tube: LoopClamp
    line: Tube
    """Its axis is taken as endless; stations count from its start."""
    on_line: LoopClamp


@dataclass(frozen=True, slots=True)
class Closed:
    """Clamps closed on one bolt: the exact geometry of one place for it."""

    axis: Vec3
    """Bolt direction, unit, from the support to the line."""
    foot: Vec3
    """Where the bolt's axis passes the face of the support's foot, or the panel's face."""
    bolt: Vec3
    """Middle of the spacer."""
    turn_tube: int
    turn_line: int
    spacer_mm: float
    station_tube_mm: float
    station_line_mm: float
    own_axis_line: Vec3
    """The line's clamp's own bolt direction: square to the line, towards the support."""
    tilt_rad: float
    line: Tube
    """The line of this place: one for all, unless it follows from the spacer."""


def closed(pair: Pair, axis: Vec3, station_tube_mm: float, turn_tube: int, turn_line: int) -> Closed:
    """The pair closed on a bolt whose direction is square to the tube.

    With n the bolt direction, a and b the directions of tube and line, c the axes' points at the clamps,
    the holes lie at c_A + turn_A · reach_A · (n × a) and c_B + turn_B · reach_B · (m × b), m being −n made
    square to b. The station on the line follows from the hole there lying on the bolt, and the spacer is
    what is left between the two seats along it: (h_B − h_A)·n − seat_A − seat_B / cos tilt.
    """
    a, reach = pair.tube.direction, pair.on_tube.reach_mm
    hole = along(pair.tube.point(station_tube_mm), (cross(axis, a), turn_tube * reach))
    foot = along(hole, (axis, pair.on_tube.seat_mm))
    return held_at(foot, axis, (pair.line, pair.on_line), turn_line, (station_tube_mm, turn_tube))


def held_at(
    foot: Vec3, axis: Vec3, held: tuple[Tube, LoopClamp], turn_line: int, on_tube: tuple[float, int]
) -> Closed:
    """The line's clamp closed on a bolt that passes a point of the support's face."""
    line, clamp = held
    b = line.direction
    own = turned_round(unit(square_part(axis, b)))
    out = unit(cross(own, b))
    past = cross(axis, out)
    station = dot(minus(foot, line.start), past) / dot(b, past)
    hole = along(line.point(station), (out, turn_line * clamp.reach_mm))
    tilt = angle(turned_round(own), axis)
    spacer = dot(minus(hole, foot), axis) + clamp.seat_mm / dot(own, axis)
    bolt = along(foot, (axis, spacer / 2))
    return Closed(axis, foot, bolt, on_tube[1], turn_line, spacer, *(on_tube[0], station), own, tilt, line)
