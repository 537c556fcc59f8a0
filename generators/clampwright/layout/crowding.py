"""How far clamps at trial stations are short of the room they need (many trials at once)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import numpy.typing as npt

from clampwright.layout.clamps_wanted import ClampWanted
from clampwright.layout.components import SetComponent
from clampwright.layout.plan_distance import point_to_rectangle, point_to_segment, segment_to_segment
from clampwright.layout.station_room import Room
from clampwright.layout.tube_lines import TubeLine, turns
from clampwright.trade.bolts import bolt
from clampwright.trade.fasteners import nominal_mm
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Site:
    """What the clamps have to share the plate with."""

    lines: tuple[TubeLine, ...]
    rooms: tuple[Room, ...]
    components: tuple[SetComponent, ...]
    bolt: str


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


def shortfall(trials: Sequence[Trial], site: Site) -> Array:
    """Millimetres short of the room needed, all clamps and neighbours together, at every trial."""
    short = np.zeros(trials[0].stations.shape)
    middle = middle_of_holes(trials)
    for one in trials:
        short += _beside_welds(one, site.rooms[one.index])
        short += _beside_components(one, middle, site)
        short += _beside_tubes(one, site)
    for one, other in combinations(trials, 2):
        short += _beside_clamp(one, other)
    return short


def _beside_welds(one: Trial, room: Room) -> Array:
    off = [np.maximum(np.maximum(low - one.stations, one.stations - high), 0.0) for low, high in room]
    least: Array = np.min(off, axis=0)
    return least


def _beside_clamp(one: Trial, other: Trial) -> Array:
    bands = (one.wanted.clamp.band_width_mm + other.wanted.clamp.band_width_mm) / 2
    if one.index == other.index:
        apart: Array = np.abs(one.stations - other.stations)
    else:
        apart = segment_to_segment(one.heel, one.toe, other.heel, other.toe)
    return np.maximum(bands + rule("clamp-clearance").value - apart, 0.0)


def _beside_tubes(one: Trial, site: Site) -> Array:
    """Feet against the other tubes, where those pass at the clamp's own height."""
    short = np.zeros(one.stations.shape)
    clamp, own = one.wanted.clamp, site.lines[one.index]
    height = own.height(float(one.stations.flat[0]))
    for i, line in enumerate(site.lines):
        radius = line.tube.od_mm / 2
        low, high = sorted((line.height(0.0), line.height(line.tube.length_mm)))
        if (
            i == one.index
            or low - radius > height + clamp.seat_mm
            or high + radius < height - clamp.outside_radius_mm
        ):
            continue
        ends = (np.array(p) for p in line.ends)
        apart = segment_to_segment(one.heel, one.toe, *ends)
        need = radius + clamp.band_width_mm / 2 + rule("clamp-clearance").value
        short += np.maximum(need - apart, 0.0)
    return short


def _beside_components(one: Trial, middle: Array, site: Site) -> Array:
    """Bolt head and socket against bodies and component holes; loop and feet against their nuts."""
    short = np.zeros(one.stations.shape)
    hole, heel, toe = one.hole - middle, one.heel - middle, one.toe - middle
    for item in site.components:
        body, own = item.component.body, item.component.fastener
        if body is not None:
            half = (body[0] / 2, body[1] / 2)
            apart = point_to_rectangle(hole, np.array(item.at), item.component.turn_rad, half)
            short += np.maximum(head_room(site.bolt) - apart, 0.0)
        for place in (np.array(p) for p in item.holes):
            apart = np.sqrt(((hole - place) ** 2).sum(axis=-1))
            short += np.maximum(hole_room(site.bolt, own) - apart, 0.0)
            apart = point_to_segment(place, heel, toe)
            short += np.maximum(one.wanted.clamp.band_width_mm / 2 + wrench_radius(own) - apart, 0.0)
    return short


def head_room(fastener: str) -> float:
    """From a bolt's axis to a body beside its head: a wrench, and rule `component-clearance` to the head."""
    size = bolt(fastener)
    corners = size.head_across_flats_mm / np.sqrt(3.0)
    return max(wrench_radius(fastener), float(corners) + rule("component-clearance").value)


def hole_room(one: str, other: str) -> float:
    """From one bolt's axis to another's: rule `pitch-preferred`, and two sockets side by side."""
    diameter = max(nominal_mm(one), nominal_mm(other))
    return max(rule("pitch-preferred").value * diameter, wrench_radius(one) + wrench_radius(other))


def wrench_radius(fastener: str) -> float:
    """Half a socket and rule `wrench-clearance`; for a screw the tables do not know, only the clearance."""
    try:
        socket = bolt(fastener).socket_od_mm
    except LookupError:
        socket = 0.0
    return socket / 2 + rule("wrench-clearance").value
