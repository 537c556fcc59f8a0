"""What clamps and components share the plate with, and clamps at trial stations (many trials at once)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.clamps_wanted import ClampWanted
from clampwright.layout.components import SetComponent
from clampwright.layout.outline import Outline
from clampwright.layout.station_room import Room
from clampwright.layout.tube_lines import TubeLine, turns
from clampwright.layout.under_plate import NutUnder
from clampwright.quantities import Vec2

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Bolted:
    """What the bolts of one component, or of the clamps, need: hole, and what hangs under the plate."""

    fastener: str
    hole_mm: float
    nut: NutUnder


@dataclass(frozen=True, slots=True)
class Site:
    """What the clamps have to share the plate with."""

    lines: tuple[TubeLine, ...]
    """Of the tubes that carry clamps."""
    passing: tuple[TubeLine, ...]
    """Of every tube that may pass under the plate, those included."""
    rooms: tuple[Room, ...]
    components: tuple[SetComponent, ...]
    clamp_bolt: Bolted
    bolts: tuple[Bolted, ...]
    """One a component."""
    cut_outs: tuple[tuple[Vec2, float], ...]
    """Centre (from the middle of the clamp holes) and radius of the lightening holes with a given place."""
    outline: Outline | None
    """Where the recipe gives it, from the middle of the clamp holes."""
    stand_off_mm: float
    increment_mm: float


@dataclass(frozen=True, slots=True)
class Trial:
    """One clamp at its trial stations: all arrays have the trials' shape (and u, v)."""

    wanted: ClampWanted
    index: int
    """Of its tube among the site's lines."""
    stations: Array
    hole: Array
    heel: Array
    """Back of the loop, away from the foot, in plan."""
    toe: Array
    """Free end of the feet."""


def trial(wanted: ClampWanted, index: int, stations: Array, site: Site) -> Trial:
    """A clamp's plan at its trial stations: hole at c + turn·reach·across, loop and feet on that line."""
    line = site.lines[index]
    side = turns(line, stations, [o for i, o in enumerate(site.lines) if i != index])
    if wanted.side == "outboard":
        side = -side
    out = side[..., None] * np.array(line.across)
    centre = np.array(line.start) + stations[..., None] * np.array(line.run)
    clamp = wanted.clamp
    return Trial(
        wanted=wanted,
        index=index,
        stations=stations,
        hole=centre + clamp.reach_mm * out,
        heel=centre - clamp.outside_radius_mm * out,
        toe=centre + (clamp.reach_mm + clamp.foot_end_mm) * out,
    )


def middle_of_holes(trials: Sequence[Trial]) -> Array:
    """Middle of the box round the clamp holes, at every trial."""
    holes = np.array([t.hole for t in trials])
    middle: Array = (holes.min(axis=0) + holes.max(axis=0)) / 2
    return middle


def part_heights(trials: Sequence[Trial], site: Site) -> Array:
    """Height of the part's near face at every trial: the highest seat and the stand-off."""
    seats = []
    for one in trials:
        line, seat = site.lines[one.index], one.wanted.clamp.seat_mm
        seats.append(line.seat_height(0.0, seat) + line.rise * one.stations)
    highest: Array = np.max(seats, axis=0) + site.stand_off_mm
    return highest
