"""Straight round tubes in the builder's own world frame."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from clampwright.quantities import Vec3
from clampwright.structure.surroundings import KeepOut, Panel

if TYPE_CHECKING:
    from clampwright.structure.uncertainty import Uncertainty


@dataclass(frozen=True, slots=True)
class Tube:
    """A straight tube from `start` to `end` (mm, world) with outside diameter `od_mm`.

    >>> Tube("upper-left", (0.0, 0.0, 0.0), (300.0, 400.0, 0.0), 19.05).length_mm
    500.0
    """

    name: str
    start: Vec3
    end: Vec3
    od_mm: float
    mark_mm: float | None = None
    """Station of a mark on the tube that a person can find again and measure from; None: there is none."""

    @property
    def length_mm(self) -> float:
        """Length of the axis from start to end."""
        return math.dist(self.start, self.end)

    @property
    def direction(self) -> Vec3:
        """Unit vector from start to end; ZeroDivisionError for a tube without length.

        >>> Tube("t", (0.0, 0.0, 0.0), (300.0, 400.0, 0.0), 19.05).direction
        (0.6, 0.8, 0.0)
        """
        (sx, sy, sz), (ex, ey, ez), long = self.start, self.end, self.length_mm
        return ((ex - sx) / long, (ey - sy) / long, (ez - sz) / long)

    def point(self, station_mm: float) -> Vec3:
        """The point of the axis at a station: its distance from `start`, which may lie past either end.

        >>> Tube("t", (0.0, 0.0, 5.0), (300.0, 400.0, 5.0), 19.05).point(250.0)
        (150.0, 200.0, 5.0)
        """
        (x, y, z), (ax, ay, az) = self.start, self.direction
        return (x + station_mm * ax, y + station_mm * ay, z + station_mm * az)

    def station(self, point: Vec3) -> float:
        """Station of the place on the endless axis that is nearest to a point.

        >>> Tube("t", (0.0, 0.0, 0.0), (100.0, 0.0, 0.0), 19.05).station((30.0, 7.0, -2.0))
        30.0
        """
        return sum((p - s) * a for p, s, a in zip(point, self.start, self.direction, strict=True))


@dataclass(frozen=True, slots=True)
class Node:
    """A place on a tube that must stay visible: a tube end, or a weld where another tube ends on it."""

    tube: str
    station_mm: float
    reason: str


@dataclass(frozen=True, slots=True)
class Structure:
    """The tubes in the order the recipe gives them, and what stands round them."""

    tubes: tuple[Tube, ...]
    panels: tuple[Panel, ...] = ()
    keep_outs: tuple[KeepOut, ...] = ()
    engine_moves_mm: float | None = None
    """How far the engine moves on its isolators, any way; None: the recipe does not say."""
    uncertainty: Uncertainty | None = None
    """How sure the tubes are, where they were surveyed; None: the recipe's measuring error stands for it."""

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the tubes, in order."""
        return tuple(t.name for t in self.tubes)

    def panel(self, name: str) -> Panel:
        """The panel with this name.

        >>> Structure(()).panel("firewall")
        Traceback (most recent call last):
        LookupError: no panel is called "firewall"
        """
        for panel in self.panels:
            if panel.name == name:
                return panel
        raise LookupError(f'no panel is called "{name}"')

    def tube(self, name: str) -> Tube:
        """The tube with this name.

        >>> Structure((Tube("left", (0, 0, 0), (1, 0, 0), 19.05),)).tube("right")
        Traceback (most recent call last):
        LookupError: no tube is called "right"; the tubes are left
        """
        for tube in self.tubes:
            if tube.name == name:
                return tube
        raise LookupError(f'no tube is called "{name}"; the tubes are {", ".join(self.names)}')
