"""How far clamps at trial stations are short of the room they need (many trials at once)."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

import numpy as np
import numpy.typing as npt

from clampwright.layout.bolt_room import hole_room, pitch
from clampwright.layout.carried_room import beside_clamps, in_plate, nut_room, over_tubes
from clampwright.layout.plan_distance import point_to_segment, segment_to_segment
from clampwright.layout.station_room import Room
from clampwright.layout.trial_places import Site, Trial, middle_of_holes, part_heights
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]


def shortfall(trials: Sequence[Trial], site: Site) -> Array:
    """Millimetres short of the room needed, all clamps and neighbours together, at every trial.

    What the checks ask for: bands off welds and each other, holes their pitch apart and off cut-outs and
    the edge of a given outline, heads, nuts and their sockets clear of components, tubes and clamps.
    """
    short = np.zeros(trials[0].stations.shape)
    middle, height = middle_of_holes(trials), part_heights(trials, site)
    for one in trials:
        short += _beside_welds(one, site.rooms[one.index])
        short += _beside_tubes(one, site)
        short += in_plate(one.hole - middle, site.clamp_bolt, site.increment_mm / math.sqrt(2.0), site)
    for one, other in combinations(trials, 2):
        short += _beside_clamp(one, other, site)
    for item, bolts in zip(site.components, site.bolts, strict=True):
        at = np.array(item.at)
        short += beside_clamps(item, bolts, at, trials, middle, site)
        short += over_tubes(item, bolts, at, middle, height, site)
    return short


def step_past(band_mm: float, site: Site) -> float:
    """Along the tubes, from one clamp's bolt to another's whose foot passes beside it."""
    bolts, slack = site.clamp_bolt, site.increment_mm * math.sqrt(2.0)
    return max(_pitch(site), band_mm + rule("clamp-clearance").value, nut_room(bolts) + band_mm / 2) + slack


def _pitch(site: Site) -> float:
    bolts = site.clamp_bolt
    return max(pitch(bolts.hole_mm), hole_room(bolts.fastener, bolts.fastener))


def _beside_welds(one: Trial, room: Room) -> Array:
    off = [np.maximum(np.maximum(low - one.stations, one.stations - high), 0.0) for low, high in room]
    least: Array = np.min(off, axis=0)
    return least


def _beside_clamp(one: Trial, other: Trial, site: Site) -> Array:
    """Bands and feet apart, holes their pitch apart however they are rounded, nuts off the other loop."""
    widths, bolts = (one.wanted.clamp.band_width_mm, other.wanted.clamp.band_width_mm), site.clamp_bolt
    slack = site.increment_mm * math.sqrt(2.0)
    least = _pitch(site) + slack
    holes = np.hypot(one.hole[..., 0] - other.hole[..., 0], one.hole[..., 1] - other.hole[..., 1])
    short: Array = np.maximum(least - holes, 0.0)
    if one.index == other.index:
        apart: Array = np.abs(one.stations - other.stations)
    else:
        apart = segment_to_segment(one.heel, one.toe, other.heel, other.toe)
        for a, b, width in ((one, other, widths[1]), (other, one, widths[0])):
            beside = point_to_segment(a.hole, b.heel, b.toe)
            short += np.maximum(nut_room(bolts) + width / 2 - beside, 0.0)
    return short + np.maximum(sum(widths) / 2 + rule("clamp-clearance").value - apart, 0.0)


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
