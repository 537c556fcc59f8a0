"""What the layout of a "stand-off" recipe hands on: two clamps on one bolt, or one on a panel."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from clampwright.layout.bushing_parts import BushingPart, CutList
from clampwright.layout.joined import Joint, Loop, Named
from clampwright.layout.known_to import KnownTo
from clampwright.layout.placed import HardwareLine
from clampwright.quantities import Vec3
from clampwright.structure.surroundings import Panel
from clampwright.structure.tubes import Tube

if TYPE_CHECKING:
    from clampwright.recipe.model import Recipe


@dataclass(frozen=True, slots=True)
class BoltPlace:
    """One place that the bolt may have: sides of both clamps, spacer, stations, clocks."""

    number: int
    """From 1, best first, as `check` lists them."""
    bolt: Vec3
    """Middle of the spacer, on the bolt's axis."""
    axis: Vec3
    """Bolt direction, unit, from the support (tube or panel) to the line."""
    turn_tube: int
    """Side of the tube's clamp as `Loop.turn`, its bolt_axis being `axis`; 0 for a panel."""
    turn_line: int
    """Side of the line's clamp as `Loop.turn`, its bolt_axis being -`axis`."""
    spacer_mm: float
    """Exact length between the two feet (foot and panel); negative where they cannot be joined this way."""
    station_tube_mm: float
    """0 for a panel."""
    station_line_mm: float
    """Along the line from its first point."""
    tilt_rad: float
    """Worst angle between a clamp's own bolt direction and `axis`."""
    fits: bool
    breaks: tuple[str, ...]
    """What it does not keep, one sentence each with the numbers; empty where it fits."""
    says: str
    clock_tube_deg: float | None = None
    """Clock of the bolt round the tube, as `clock.clock_of`; None for a panel."""
    clock_line_deg: float = 0.0
    distance_mm: float = 0.0
    """Of the line's axis from the tube's, or from the panel's face: as `StandOffLayout.distance_mm`."""


@dataclass(frozen=True, slots=True)
class Bundle:
    """How thick a bundle of wires is, how that was found, and the wrap up to its clamp."""

    od_mm: float
    how: str
    """In words: "circle that holds 7 equal wires: 3 d"."""
    wires: int
    source: str


@dataclass(frozen=True, slots=True)
class Wrap:
    """Tape between the line and a clamp that is larger than it."""

    thickness_mm: float
    """On the radius."""
    turns: float
    """Layers of the usual tape."""
    source: str


@dataclass(frozen=True, slots=True)
class StandOffLayout:
    """A line held off a tube by a pair of clamps, or off a panel by one."""

    recipe: Recipe
    line: Tube
    """The line as it runs near the clamp: axis from its first point, outside diameter with its sleeve."""
    line_solved: bool
    """True where the spacer was given and the line's place follows from it."""
    bundle: Bundle | None
    wrap: Wrap | None
    panel: Panel | None
    panel_hole_mm: float | None
    """Diameter of the one hole in the panel."""
    crossing_rad: float
    """Angle between tube and line (line and panel's face); 0: parallel."""
    distance_mm: float
    """Between the axes (axis and panel's face)."""
    places: tuple[BoltPlace, ...]
    """Every place for the bolt, best first."""
    place: BoltPlace
    """The one that is laid out."""
    loops: tuple[Loop, ...]
    """On the tube ("A1") and on the line ("B1"); on the line alone for a panel."""
    joints: tuple[Joint, ...]
    """One; its head is where a nut lost would leave the bolt in place."""
    cuts: CutList
    bushings: tuple[BushingPart, ...]
    hardware: tuple[HardwareLine, ...]
    assumed: tuple[tuple[str, str], ...]
    known_to: tuple[KnownTo, ...] = ()

    @property
    def lines(self) -> tuple[Tube, ...]:
        """The line itself."""
        return (self.line,)

    @property
    def parts(self) -> tuple[Named, ...]:
        """None: the line is among `lines`."""
        return ()
