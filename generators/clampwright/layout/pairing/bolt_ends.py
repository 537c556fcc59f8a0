"""Both ends of the bolt and its spacer as simple bodies, and the room that tools have on them."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from clampwright.layout.bodies import Body, Cylinder
from clampwright.layout.bolt_room import washer_rim
from clampwright.layout.pairing.closed import Closed
from clampwright.layout.pairing.nearness import clearance_up_to
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along, turned_round
from clampwright.trade.bolts import bolt
from clampwright.trade.clamps import LoopClamp
from clampwright.trade.tables import rule


@dataclass(frozen=True, slots=True)
class BoltEnd:
    """Washer with head or nut on the outer face of a foot: where that face is, and which way it looks."""

    what: str
    face: Vec3
    outward: Vec3
    fastener: str

    @property
    def body(self) -> Cylinder:
        """As wide as washer or corners, as high as the bolt is thick."""
        out = along(self.face, (self.outward, bolt(self.fastener).nominal_mm))
        return Cylinder(self.face, out, _rim(self.fastener))

    @property
    def socket(self) -> Cylinder:
        """What turns it, pulled off along the bolt."""
        away = along(self.face, (self.outward, rule("socket-length").value))
        return Cylinder(self.face, away, bolt(self.fastener).socket_od_mm / 2)


def bolt_ends(
    place: Closed, on_tube: LoopClamp | None, on_line: LoopClamp, fastener: str
) -> tuple[BoltEnd, ...]:
    """The end on the line's side, and before it that on the tube's side, where a tube holds the line."""
    outer = along(place.foot, (place.axis, place.spacer_mm + on_line.feet_mm))
    high = BoltEnd("bolt's end on the line's side", outer, place.axis, fastener)
    if on_tube is None:
        return (high,)
    inner = along(place.foot, (place.axis, -on_tube.feet_mm))
    return (BoltEnd("bolt's end on the tube's side", inner, turned_round(place.axis), fastener), high)


def spacer_body(place: Closed, fastener: str) -> Cylinder | None:
    """The spacer, as wide as a washer; None where there is none."""
    if place.spacer_mm < rule("gap-nothing").value:
        return None
    return Cylinder(place.foot, along(place.foot, (place.axis, place.spacer_mm)), _rim(fastener))


def _rim(fastener: str) -> float:
    """Radius of the widest of washer and head."""
    return max(washer_rim(fastener), bolt(fastener).head_across_flats_mm / math.sqrt(3.0))


def tool_room(ends: Iterable[BoltEnd], others: Iterable[Body]) -> float:
    """Least clearance of the sockets on the bolt's ends from other bodies, up to rule `wrench-clearance`, mm.

    0: one end is not reached with a socket.
    """
    bodies, enough = tuple(others), rule("wrench-clearance").value
    return min(
        (clearance_up_to(end.socket, other, enough) for end in ends for other in bodies), default=enough
    )
