"""A component that does not move: for each hole the tube and side whose clamp comes nearest to it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
import numpy.typing as npt

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.frame import Attitude
from clampwright.layout.mounting.clamp_loops import loops_of
from clampwright.layout.mounting.holders import Holder
from clampwright.layout.mounting.normals import square_to
from clampwright.layout.mounting.ways import Way
from clampwright.layout.placed import Frame
from clampwright.layout.tube_lines import TubeLine, tube_lines
from clampwright.quantities import Vec2, Vec3
from clampwright.recipe.bushing_model import BushingJob
from clampwright.trade.tables import rule

_TRIED = 3
"""Tubes and sides looked at for each hole: those that come nearest."""


@dataclass(frozen=True, slots=True)
class _Near:
    """A clamp that may hold a hole: tube, station, turn, misfit and gap."""

    member: int
    station_mm: float
    turn: int
    misfit: Vec2
    gap_mm: float
    short_mm: float
    """What it is short of, all added up."""


def fixed_ways(job: BushingJob, held: Sequence[Holder], allowed: Sequence[float]) -> list[Way]:
    """Ways to hold it just where it is, the least short of what is needed first.

    Raises
    ------
    CannotLayOut
        Every tube runs along the component's z.
    """
    frame = fixed_frame(job)
    usable = _usable(held, frame.n)
    lines = tube_lines([h.tube for h in usable], Attitude(frame.u, frame.v, frame.n, ()), frame.origin)
    near = [
        sorted(_nears(job, i, usable, lines, allowed[i]), key=lambda each: round(each.short_mm, 6))[:_TRIED]
        for i in range(len(job.component.lugs))
    ]
    chosen = sorted(product(*near), key=lambda each: _rank(each, usable))
    return [_way(frame, usable, lines, each) for each in chosen]


def fixed_frame(job: BushingJob) -> Frame:
    """The component's frame as the recipe fixes it: z along `up`, x along `along` made square to it."""
    pose = job.pose
    if pose.at is None or pose.up is None or pose.along is None:
        raise CannotLayOut("a fixed component needs pose.at, pose.up and pose.along", "give all three")
    n = np.array(pose.up, dtype=float) / np.linalg.norm(pose.up)
    u = square_to(pose.along, n)
    if u is None:
        raise CannotLayOut("pose.along lies along pose.up", "give pose.along as the direction of its x")
    return Frame(pose.at, _vec(u), _vec(np.cross(n, u)), _vec(n))


def _usable(held: Sequence[Holder], n: Vec3) -> list[Holder]:
    most = math.sin(math.radians(rule("tilt-most").value))
    found = [h for h in held if abs(float(np.dot(h.tube.direction, n))) <= most]
    if not found:
        raise CannotLayOut(
            "every tube of clamps.on runs nearly along the component's z", "turn pose.up, or name other tubes"
        )
    return found


def _nears(
    job: BushingJob, hole: int, held: Sequence[Holder], lines: Sequence[TubeLine], allowed_mm: float
) -> Iterator[_Near]:
    lug = job.component.lugs[hole]
    for k, (holder, line) in enumerate(zip(held, lines, strict=True)):
        half = holder.clamp.band_width_mm / 2
        for turn in (1, -1):
            out = turn * holder.clamp.reach_mm
            x, y = (lug.at[i] - out * line.across[i] - line.start[i] for i in (0, 1))
            run = line.run
            foot = (x * run[0] + y * run[1]) / (run[0] ** 2 + run[1] ** 2)
            station = min(max(foot, half), holder.tube.length_mm - half)
            at = line.plan(station)
            misfit = tuple(at[i] + out * line.across[i] - lug.at[i] for i in (0, 1))
            gap = lug.near_face_mm - line.seat_height(station, holder.clamp.seat_mm)
            room = min(max(low - station, station - high, 0.0) for low, high in holder.room)
            short = max(0.0, math.hypot(*misfit) - allowed_mm) + room
            short += max(0.0, job.pose.stand_off_mm - gap) + max(0.0, -gap)
            yield _Near(k, station, turn, (misfit[0], misfit[1]), gap, short)


def _rank(each: Sequence[_Near], held: Sequence[Holder]) -> tuple[float, ...]:
    crowded = 0.0
    for i, one in enumerate(each):
        for other in each[i + 1 :]:
            if one.member == other.member:
                apart = abs(one.station_mm - other.station_mm)
                crowded += max(0.0, held[one.member].apart_mm - apart)
    gaps = [near.gap_mm for near in each]
    total = sum(near.short_mm for near in each) + crowded
    return round(total, 6), len({near.member for near in each}) < 2, round(2 * max(gaps) - min(gaps), 6)


def _way(frame: Frame, held: Sequence[Holder], lines: Sequence[TubeLine], each: Sequence[_Near]) -> Way:
    used = sorted({near.member for near in each})
    theirs, own = tuple(held[k] for k in used), tuple(lines[k] for k in used)
    at = [(used.index(near.member), near.station_mm, near.turn) for near in each]
    loops = loops_of(theirs, own, at)
    return Way(
        frame,
        theirs,
        own,
        loops,
        tuple(near.misfit for near in each),
        tuple(near.gap_mm for near in each),
        0.0,
        0.0,
    )


def _vec(vector: npt.NDArray[np.float64]) -> Vec3:
    x, y, z = (vector + 0.0).tolist()
    return (x, y, z)
