"""What a "component bushings" recipe asks for: a component with mounting holes, on tubes without a plate."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.quantities import Vec2, Vec3
from clampwright.recipe.model import Fastener, Measured


@dataclass(frozen=True, slots=True)
class Lug:
    """One mounting hole: its place in the component's own frame and what its lug is like."""

    at: Vec2
    thickness_mm: float | None
    """None: not known."""
    near_face_mm: float
    """Height of the lug's near face, the one that lies on bushing or clamp foot, in the component's frame."""


@dataclass(frozen=True, slots=True)
class MountedComponent:
    """The component in its own frame: x, y in its base, z out of it, away from the tubes."""

    name: str
    mass_kg: float
    lugs: tuple[Lug, ...]
    """Two to six."""
    hole_mm: float | None
    """Diameter of the holes in its lugs; None: nobody measured it, the drill of the bolt is taken."""
    body: tuple[float, float, float] | None
    """Length, width, height of the box round it, centred on its origin in plan."""
    body_base_mm: float
    """Height of the box's underside in its own frame: below 0 where it hangs below the lugs."""
    cg: Vec3 | None
    """Centre of gravity in its own frame; None: half way up over the middle of its holes."""
    rides_on: str
    """"mount" or "engine"."""


@dataclass(frozen=True, slots=True)
class Pose:
    """What is known of where the component goes. None: left to the solver."""

    at: Vec3 | None
    """World place of the component's origin, exact where `fixed`, else roughly."""
    within_mm: float | None
    """How far from `at` the origin may come to lie, in the plane square to `up`."""
    up: Vec3 | None
    """World direction (unit) that its z looks along: which side of the tubes it is on."""
    along: Vec3 | None
    """World direction (unit) of its x."""
    turn_within_rad: float | None
    """How far its x may turn from `along` about z; None with `along` given: as the rule says."""
    fixed: bool
    """True: `at`, `up` and `along` are all given and exact; the component does not move."""
    stand_off_mm: float
    """Least distance of the lowest lug's near face from the highest clamp foot."""


@dataclass(frozen=True, slots=True)
class ClampsOn:
    """Which tubes may carry the component, and what is known of their clamps."""

    on: tuple[str, ...]
    """Tubes that may be used; never empty."""
    code: str | None
    measured: Measured
    dash: int | None
    own: tuple[tuple[str, Measured, int | None], ...]
    """(tube, measured, dash) of tubes whose clamps are given apart; what they leave out is as above."""


@dataclass(frozen=True, slots=True)
class BushingStock:
    """What bushings are made from, as far as the recipe says."""

    material: str | None
    """"6061-T6", "304 stainless"; None: by the zone's temperature."""
    make: str | None
    """"tube" (cut from stock tube) or "rod" (turned and bored); None: tube where a stock size fits."""
    od_mm: float | None
    kerf_mm: float
    stock_length_mm: float


@dataclass(frozen=True, slots=True)
class BushingJob:
    """What a "component bushings" recipe asks for beside the common part."""

    fastener: Fastener
    component: MountedComponent
    pose: Pose
    clamps: ClampsOn
    bushings: BushingStock
    show: int
    """How many of the next best answers people want to see."""
