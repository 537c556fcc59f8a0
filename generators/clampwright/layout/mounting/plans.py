"""The lines that clamp bolts can lie on, for every set of tubes, as arrays.

Seen along a set's normal, the bolts of all clamps on one side of a tube lie on one straight line. A hole of
the component that is assigned to it must lie on it: nu . (T + R(theta) h) = d, one equation a hole.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.mounting.holders import Holder
from clampwright.layout.mounting.normals import TubeSet, reference_of
from clampwright.layout.tube_lines import TubeLine
from clampwright.recipe.bushing_model import Lug, Pose
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]
Indices = npt.NDArray[np.intp]
Flags = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Plans:
    """Lines (s, l) of every set s of tubes: line 2k has its bolts at +reach of tube k, line 2k + 1 at -reach.

    Shapes: s sets, l lines (padded; `there` tells which are), r stretches of room. Millimetres, radians.
    """

    there: Flags
    count: Indices
    """Tubes of each set (s,)."""
    holder: Indices
    """Index of the holder (s, l)."""
    turn: Array
    nu: Array
    """Unit normal of the line in plan (s, l, 2): the tube's `across`."""
    offset: Array
    """nu . q of every place q of the line."""
    start: Array
    run: Array
    height: Array
    rise: Array
    seat: Array
    """Seat along n: seat cos tilt."""
    tilt: Array
    length: Array
    radius: Array
    half_band: Array
    apart: Array
    """Least distance of two clamps' stations on the tube."""
    room: Array
    """(s, l, r, 2); stretches that are not there run from +inf to -inf."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is asked of the pose, in every set's plan: place (s, 2) or None, and how far off it may be."""

    place: Array | None
    within_mm: float
    turn_asked: bool
    turn_within_rad: float
    stand_off_mm: float


@dataclass(frozen=True, slots=True)
class Pattern:
    """The component's holes: places (m, 2) and near faces (m,) in its own frame."""

    holes: Array
    near: Array
    radius_mm: float
    """Farthest hole from the middle of the holes: what a turn is counted with."""

    @property
    def count(self) -> int:
        """Holes."""
        return len(self.holes)


def pattern_of(lugs: Sequence[Lug]) -> Pattern:
    """The holes as arrays.

    >>> pattern_of([Lug((-30.0, 0.0), 3.0, 0.0), Lug((30.0, 0.0), 3.0, 2.0)]).radius_mm
    30.0
    """
    holes = np.array([lug.at for lug in lugs], dtype=float)
    radius = float(np.linalg.norm(holes - holes.mean(axis=0), axis=1).max())
    return Pattern(holes, np.array([lug.near_face_mm for lug in lugs], dtype=float), radius)


def wanted_of(pose: Pose, held: Sequence[Holder], sets: Sequence[TubeSet]) -> Wanted:
    """The limits of the pose, rules where the recipe gives none."""
    within = rule("mounting-within").value if pose.within_mm is None else pose.within_mm
    turn = pose.turn_within_rad
    if turn is None:
        turn = math.radians(rule("mounting-turn-within").value)
    place = None
    if pose.at is not None:
        off = np.array(pose.at) - np.array(reference_of(held))
        place = np.array([[off @ np.array(s.stands.u), off @ np.array(s.stands.v)] for s in sets])
    asked = pose.along is not None
    return Wanted(place, within, asked, turn if asked else math.pi, pose.stand_off_mm)


def plans_of(held: Sequence[Holder], sets: Sequence[TubeSet]) -> Plans:
    """The lines of every set."""
    made = _empty(held, sets)
    for s, tubes in enumerate(sets):
        for k, (member, line) in enumerate(zip(tubes.members, tubes.lines, strict=True)):
            _set_in(made, s, 2 * k, member, held[member], line)
    return made


def _set_in(made: Plans, s: int, first: int, member: int, holder: Holder, line: TubeLine) -> None:
    """Both lines of one tube, from place `first` of set s on."""
    both = slice(first, first + 2)
    across = np.array(line.across)
    out = holder.clamp.reach_mm * np.array([1.0, -1.0])
    made.there[s, both] = True
    made.holder[s, both] = member
    made.nu[s, both] = across
    made.offset[s, both] = across @ np.array(line.start) + out
    made.start[s, both], made.run[s, both] = line.start, line.run
    made.height[s, both], made.rise[s, both] = line.height_mm, line.rise
    made.seat[s, both] = holder.clamp.seat_mm * math.cos(line.tilt_rad)
    made.tilt[s, both] = line.tilt_rad
    made.length[s, both] = holder.tube.length_mm
    made.radius[s, both] = holder.tube.od_mm / 2
    made.half_band[s, both] = holder.clamp.band_width_mm / 2
    made.apart[s, both] = holder.apart_mm
    made.room[s, both, : len(holder.room)] = holder.room


def _empty(held: Sequence[Holder], sets: Sequence[TubeSet]) -> Plans:
    most = 2 * max(len(s.members) for s in sets)
    rooms = max(len(h.room) for h in held)
    shape = (len(sets), most)
    return Plans(
        there=np.zeros(shape, bool),
        count=np.array([len(s.members) for s in sets], dtype=np.intp),
        holder=np.zeros(shape, np.intp),
        turn=np.tile(np.array([1.0, -1.0] * (most // 2)), (len(sets), 1)),
        nu=np.zeros((*shape, 2)),
        offset=np.zeros(shape),
        start=np.zeros((*shape, 2)),
        run=np.ones((*shape, 2)),
        height=np.zeros(shape),
        rise=np.zeros(shape),
        seat=np.zeros(shape),
        tilt=np.zeros(shape),
        length=np.zeros(shape),
        radius=np.zeros(shape),
        half_band=np.zeros(shape),
        apart=np.zeros(shape),
        room=np.tile(np.array([math.inf, -math.inf]), (*shape, rooms, 1)),
    )
