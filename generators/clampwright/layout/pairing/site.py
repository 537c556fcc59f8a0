"""What all places for one stand-off's bolt have in common."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.layout.bodies import Body, Box, Capsule
from clampwright.quantities import Vec3, show_length
from clampwright.structure.nodes import nodes
from clampwright.structure.surroundings import KeepOut
from clampwright.structure.tubes import Node, Structure, Tube
from clampwright.trade.clamps import LoopClamp


@dataclass(frozen=True, slots=True)
class Site:
    """Structure, support, both clamps, and what the line is like."""

    structure: Structure
    tube: Tube | None
    """None: a panel holds the line."""
    on_tube: LoopClamp | None
    on_line: LoopClamp
    line_od_mm: float
    ends_known: bool
    """As `Course.ends_known`."""
    bolt: str
    units: str
    welds: tuple[Node, ...]
    """Ends of the tube and welds on it."""

    @property
    def others(self) -> tuple[Tube, ...]:
        """Every tube but the one that holds the line."""
        return tuple(t for t in self.structure.tubes if self.tube is None or t.name != self.tube.name)

    def shown(self, mm: float) -> str:
        """A length in the recipe's units."""
        return show_length(mm, self.units)


def welds_of(structure: Structure, tube: Tube | None) -> tuple[Node, ...]:
    """Ends of the tube and welds on it; none without a tube."""
    return () if tube is None else tuple(n for n in nodes(structure) if n.tube == tube.name)


def keep_out_body(keep: KeepOut) -> Body:
    """The body to stay away from, without the distance.

    >>> pipe = KeepOut("exhaust", (0.0, 0.0, 0.0), (9.0, 0.0, 0.0), 40.0, 50.0, "engine", "hot")
    >>> keep_out_body(pipe)
    Capsule(start=(0.0, 0.0, 0.0), end=(9.0, 0.0, 0.0), radius_mm=20.0)
    """
    if keep.od_mm is not None:
        return Capsule(keep.start, keep.end, keep.od_mm / 2)
    world = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    return Box(_half_of(keep, 1.0), world, _half_of(keep, -1.0))


def _half_of(keep: KeepOut, sign: float) -> Vec3:
    """Half the sum of both corners, or half of what lies between them."""
    x, y, z = (
        abs(e + sign * s) / 2 if sign < 0 else (e + s) / 2 for s, e in zip(keep.start, keep.end, strict=True)
    )
    return (x, y, z)
