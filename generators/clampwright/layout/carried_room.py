"""How far a component is short of room beside clamps, tubes, cut-outs and a given outline."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np
import numpy.typing as npt

from clampwright.layout.bolt_room import edge_room, head_room, hole_room, pitch, wrench_radius
from clampwright.layout.components import SetComponent
from clampwright.layout.outline_field import inside_by
from clampwright.layout.plan_distance import point_to_rectangle, point_to_segment
from clampwright.layout.trial_places import Bolted, Site, Trial
from clampwright.layout.tube_lines import TubeLine
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]


def holes_at(item: SetComponent, at: Array) -> Iterator[Array]:
    """Hole centres of a component whose origin is set at trial places (..., 2)."""
    for u, v in item.holes:
        yield at + np.array((u - item.at[0], v - item.at[1]))


def beside_clamps(
    item: SetComponent, bolts: Bolted, at: Array, trials: Sequence[Trial], middle: Array, site: Site
) -> Array:
    """Heads and sockets of clamp bolts against the body and its holes; loops and feet against its nuts.

    `at` are trial places of the component's origin from the `middle` of the clamp holes; shapes broadcast.
    """
    short = np.zeros(np.broadcast_shapes(at.shape, middle.shape)[:-1])
    clamp, slack = site.clamp_bolt, site.increment_mm / math.sqrt(2.0)
    apart_least = max(hole_room(clamp.fastener, bolts.fastener), pitch(max(clamp.hole_mm, bolts.hole_mm)))
    for one in trials:
        hole, heel, toe = one.hole - middle, one.heel - middle, one.toe - middle
        if item.component.body is not None:
            half = (item.component.body[0] / 2, item.component.body[1] / 2)
            apart = point_to_rectangle(hole, at, item.component.turn_rad, half)
            short += np.maximum(head_room(clamp.fastener) + slack - apart, 0.0)
        beside = one.wanted.clamp.band_width_mm / 2 + nut_room(bolts)
        for place in holes_at(item, at):
            apart = np.hypot(hole[..., 0] - place[..., 0], hole[..., 1] - place[..., 1])
            short += np.maximum(apart_least + slack - apart, 0.0)
            short += np.maximum(beside - point_to_segment(place, heel, toe), 0.0)
    return short


def nut_room(bolts: Bolted) -> float:
    """From a bolt's axis to whatever stands beside its nut: a socket, and rule `component-clearance`."""
    clear = bolts.nut.corners_mm + rule("component-clearance").value
    return max(wrench_radius(bolts.fastener), clear if bolts.nut.corners_mm else 0.0)


def over_tubes(
    item: SetComponent, bolts: Bolted, at: Array, middle: Array, height: Array, site: Site
) -> Array:
    """Nuts and bolt ends of a component, and a socket on each nut, against the tubes under the plate.

    `height` is that of the plate's near face at every trial. The tubes that carry the plate count as endless:
    a place beyond their end is no way out, another tube or the firewall stands there.
    """
    short = np.zeros(np.broadcast_shapes(at.shape, middle.shape)[:-1])
    if bolts.nut.end_mm <= 0:
        return short
    carrying = {line.tube.name for line in site.lines}
    for place in holes_at(item, at + middle):
        for line in site.passing:
            short += _over_tube(place, line, line.tube.name not in carrying, bolts, height)
    return short


def _over_tube(place: Array, line: TubeLine, ends: bool, bolts: Bolted, height: Array) -> Array:
    """The tube as a circle in the plane across it, nut and socket as upright rectangles."""
    nut, radius = bolts.nut, line.tube.od_mm / 2
    (u0, v0), (ru, rv) = line.start, line.run
    station = ((place[..., 0] - u0) * ru + (place[..., 1] - v0) * rv) / (ru * ru + rv * rv)
    if ends:
        station = np.clip(station, 0.0, line.tube.length_mm)
    off = np.hypot(place[..., 0] - u0 - station * ru, place[..., 1] - v0 - station * rv)
    axis = line.height_mm + line.rise * station
    above = axis - (height - nut.face_mm)
    clash = np.hypot(
        np.maximum(off - nut.corners_mm, 0.0),
        np.maximum(np.maximum(above, height - nut.end_mm - axis), 0.0),
    )
    low = height - nut.end_mm - rule("socket-length").value
    access = np.hypot(np.maximum(off - nut.socket_mm, 0.0), np.maximum(np.maximum(above, low - axis), 0.0))
    short: Array = np.maximum(radius + rule("component-clearance").value - clash, 0.0)
    short += np.maximum(radius + rule("wrench-clearance").value - access, 0.0)
    return short


def in_plate(place: Array, bolts: Bolted, slack: float, site: Site) -> Array:
    """A hole (from the middle of the clamp holes) against cut-outs and a given outline.

    Off the outline is off it, however far: an outline that no place suits must not draw the clamps together.
    """
    short = np.zeros(place.shape[:-1])
    room = edge_room(bolts.fastener, bolts.hole_mm) + slack
    for centre, radius in site.cut_outs:
        apart = np.hypot(place[..., 0] - centre[0], place[..., 1] - centre[1])
        short += np.maximum(radius + room - apart, 0.0)
    if site.outline is not None:
        inside = inside_by(site.outline, place.reshape(-1, 2)).reshape(place.shape[:-1])
        short += np.clip(room - inside, 0.0, room)
    return short
