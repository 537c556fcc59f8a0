"""Both ends of the bolt as simple bodies, and the room that tools have on them."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from clampwright.layout.bodies import Body, Cylinder, clearance
from clampwright.layout.bolt_room import washer_rim
from clampwright.layout.clash_bodies import along
from clampwright.layout.pairing.closed import Closed
from clampwright.layout.pairing.directions import turned_round
from clampwright.quantities import Vec3
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
        size = bolt(self.fastener)
        rim = max(washer_rim(self.fastener), size.head_across_flats_mm / math.sqrt(3.0))
        return Cylinder(self.face, along(self.face, (self.outward, size.nominal_mm)), rim)

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


def tool_room(ends: Iterable[BoltEnd], others: Iterable[Body]) -> float:
    """Least clearance of the sockets on the bolt's ends from other bodies, mm; 0: one end is not reached."""
    bodies = tuple(others)
    return min((clearance(end.socket, other) for end in ends for other in bodies), default=math.inf)
