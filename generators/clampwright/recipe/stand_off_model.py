"""What a "stand-off" recipe asks for: a line, hose, cable or bundle held off a tube or a panel."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.quantities import Vec3
from clampwright.recipe.bushing_model import BushingStock
from clampwright.recipe.model import Fastener, Measured


@dataclass(frozen=True, slots=True)
class WiresOfSize:
    """Some equal wires of a bundle; `od_mm` None: by the table for the gauge."""

    count: int
    gauge: int | None
    od_mm: float | None


@dataclass(frozen=True, slots=True)
class CarriedLine:
    """The line that is carried: how thick it is, and where it runs.

    Exactly one of `od_mm`, `hose_dash` and `wires` says how thick. Where it runs is said in one of three
    ways: `point` and `direction`; two points (`point` and `to`); or `beside_mm`, parallel to the tube. With
    `spacer_mm` in the job, where it runs is left open and computed.
    """

    name: str
    what: str
    """"hose", "tube", "cable" or "bundle"."""
    od_mm: float | None
    hose_dash: int | None
    wires: tuple[WiresOfSize, ...]
    sleeve_mm: float
    """Wall of a sleeve over it."""
    point: Vec3 | None
    to: Vec3 | None
    direction: Vec3 | None
    """Unit."""
    beside_mm: float | None
    """Distance of its axis from the tube's axis, or from the panel's face."""
    toward: Vec3 | None
    """World direction (unit), from the tube, of the side that it runs on."""
    next_supports_mm: tuple[float, float] | None
    """Distance along the line to the supports before and after this one."""
    rides_on: str
    """"mount" or "engine": what its far end is held on."""
    line: int
    """Line of the recipe."""


@dataclass(frozen=True, slots=True)
class PairClamp:
    """What is known of one of the two clamps."""

    code: str | None
    measured: Measured
    dash: int | None


@dataclass(frozen=True, slots=True)
class StandOffJob:
    """What a "stand-off" recipe asks for beside the common part."""

    fastener: Fastener
    tube: str | None
    """The tube that holds the line; None: `panel` does."""
    panel: str | None
    station_mm: float | None
    """Where along the tube, for a line parallel to it; None: the tool chooses."""
    carried: CarriedLine
    on_tube: PairClamp
    on_line: PairClamp
    spacer_mm: float | None
    """Length of a spacer at hand: then the line's place follows. None: solved for."""
    place: int | None
    """Which of the bolt's places to build, counted from 1 as `check` lists them; None: the best."""
    bushings: BushingStock
