"""How much room a bolt needs round it in the plate's plane."""

from __future__ import annotations

import math

from clampwright.trade.bolts import bolt
from clampwright.trade.fasteners import nominal_mm
from clampwright.trade.hardware import washers
from clampwright.trade.tables import rule


def head_room(fastener: str) -> float:
    """From a bolt's axis to a body beside its head: a wrench, and rule `component-clearance` to the head.

    >>> round(head_room("AN3"), 2)
    8.56
    """
    corners = bolt(fastener).head_across_flats_mm / math.sqrt(3.0)
    over = max(corners, washer_rim(fastener))
    return max(wrench_radius(fastener), over + rule("component-clearance").value)


def hole_room(one: str, other: str) -> float:
    """From one bolt's axis to another's: rule `pitch-preferred`, and two sockets side by side."""
    return max(pitch(max(nominal_mm(one), nominal_mm(other))), wrench_radius(one) + wrench_radius(other))


def pitch(diameter_mm: float) -> float:
    """Rule `pitch-preferred`: centre to centre of holes, the larger of this diameter.

    >>> pitch(4.85)
    19.4
    """
    return rule("pitch-preferred").value * diameter_mm


def edge_room(fastener: str, hole_mm: float) -> float:
    """From a hole's centre to an edge: rule `edge-distance-preferred`, and the washer flat on metal."""
    flat = washer_rim(fastener) + rule("bearing-clear").value
    return max(rule("edge-distance-preferred").value * hole_mm, flat)


def washer_rim(fastener: str) -> float:
    """Radius of the largest usual washer; 0 where the tables know none."""
    try:
        return max((w.od_mm / 2 for w in washers(fastener) if w.kind != "large"), default=0.0)
    except LookupError:
        return 0.0


def wrench_radius(fastener: str) -> float:
    """Half a socket and rule `wrench-clearance`; for a screw the tables do not know, only the clearance."""
    try:
        socket = bolt(fastener).socket_od_mm
    except LookupError:
        socket = 0.0
    return socket / 2 + rule("wrench-clearance").value
