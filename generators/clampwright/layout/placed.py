"""What the layout stage hands on: where everything goes, in plain numbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from clampwright.layout.bushing_parts import BushingPart
from clampwright.layout.joined import Joint, Loop, Named
from clampwright.layout.known_to import KnownTo
from clampwright.layout.outline import Outline
from clampwright.quantities import Vec2, Vec3
from clampwright.trade.bolts import BoltLength
from clampwright.trade.hardware import Nut, Torque
from clampwright.trade.materials import Material

if TYPE_CHECKING:
    from clampwright.recipe.model import Recipe
    from clampwright.structure.tubes import Tube


@dataclass(frozen=True, slots=True)
class Frame:
    """The part's frame in the world: `origin` is the datum corner on the near face, which lies on the clamps.

    u, v, n are unit vectors, right-handed. The plate fills 0 <= z <= thickness along n; the component
    stands on the far face. A template is seen from the +n side, u to the right, v up.
    """

    origin: Vec3
    u: Vec3
    v: Vec3
    n: Vec3


@dataclass(frozen=True, slots=True)
class StackItem:
    """One layer of a bolted stack, from the bolt's head to the nut. `count` equal pieces."""

    name: str
    """"washer", "component lug", "plate", "washers", "shim", "bushing", "clamp feet" or "nut"."""
    part: str
    thickness_mm: float
    """Of one piece."""
    count: int = 1
    od_mm: float | None = None
    """Outside diameter and bore of round pieces (washers, shims, bushings)."""
    id_mm: float | None = None
    mass_kg: float | None = None
    """Of one piece that is to be bought or made."""
    source: str = ""


@dataclass(frozen=True, slots=True)
class BoltChoice:
    """A bolt length tried in a stack, and what it would do."""

    length: BoltLength
    shank_past_stack_mm: float
    """Grip minus stack: positive means that the nut would run out of thread."""
    threads_in_stack: float
    """Threads hidden in the stack (negative where the shank passes through it)."""
    threads_showing: float | None
    """Full pitches past the nut; None where the nut's height is not known."""
    fits: bool
    breaks: tuple[str, ...] = ()
    """Rules not kept: "shank past the stack", "threads hidden", "threads missing", "threads showing"."""
    says: str = ""
    """One sentence with the numbers: what this bolt would do."""


@dataclass(frozen=True, slots=True)
class Stack:
    """Everything on one bolt, from the head to the nut, and the bolt that fits."""

    bolt: str
    items: tuple[StackItem, ...]
    """Without the nut."""
    thickness_mm: float
    """Sum of the items: underside of the head to the nut's bearing face."""
    nut: Nut
    chosen: BoltChoice | None
    below: BoltChoice | None
    """The next dash down, and what it would do."""
    above: BoltChoice | None
    torque: Torque | None
    adjusted: str = ""
    """What the solver did with the washers to make a bolt fit; empty where nothing."""


@dataclass(frozen=True, slots=True)
class ClampPlace(Loop):
    """One clamp under a part (a plate, or a component's lug), and the hole its bolt needs there."""

    at: Vec2
    """Hole centre in the part's frame, as it is to be drilled (rounded to the increment)."""
    at_exact: Vec2
    """The same before rounding."""
    seat_z_mm: float
    """Height of the foot's outer face in the part's frame: 0 or below."""
    packing: tuple[StackItem, ...]
    """Washers, shim or bushing between foot and plate; empty where the foot meets the plate."""
    gap_mm: float
    """Length that the packing has to fill: design length of shim or bushing."""
    stack: Stack


@dataclass(frozen=True, slots=True)
class PlacedComponent:
    """A component on the plate's far face."""

    name: str
    at: Vec2
    """Its own origin in the part's frame."""
    turn_rad: float
    mass_kg: float
    cg_height_mm: float
    """Centre of gravity above the plate's far face."""
    holes: tuple[str, ...]
    """Labels of its holes, in the recipe's order."""
    body: tuple[float, float, float] | None
    """Length, width (in its own frame, centred on its origin) and height; None where not given."""
    corners: tuple[Vec2, ...]
    """Corners of the body's footprint in the part's frame."""
    stacks: tuple[Stack, ...]
    """One a hole; empty where the fastener is a screw size the tables have no lengths for."""
    screw_stacks: tuple[Stack, ...] = ()
    """One a hole for such a screw, without a chosen length; empty where the tables know no nut for it."""


@dataclass(frozen=True, slots=True)
class Hole:
    """A round hole through the plate."""

    label: str
    purpose: str
    """"clamp", "component" or "lightening"."""
    owner: str
    """Clamp label, component name, or ""."""
    at: Vec2
    diameter_mm: float
    fastener: str
    """"AN3", "#8", "M5"; "" for a lightening hole."""
    drill: str
    """Final drill ("#11"), or "hole saw" / "step drill" where no drill of the list is meant."""
    pilot: str


@dataclass(frozen=True, slots=True)
class HardwareLine:
    """One line of the order list."""

    part: str
    what: str
    quantity: int
    torque_nm: tuple[float, float] | None
    mass_each_kg: float | None
    where: str
    source: str


@dataclass(frozen=True, slots=True)
class FitUp:
    """How one hole is to be made so that parts fit that are not where the drawing says."""

    hole: str
    way: str
    """"drill now", "pilot, transfer in place" or "slot"."""
    uncertainty_mm: float
    """± of its bolt against the hole, 95 %, from how the tubes were measured."""
    clearance_mm: float
    """± that the finished hole gives."""
    why: str
    otherwise: str
    """What else would serve (a slot of which size, a large washer)."""
    cure: str = ""
    """What to measure again, and how well, to drill it now, one sentence; "" where nothing is lacking."""
    given: bool = True
    """False where a default that nobody measured stands behind `uncertainty_mm`."""


@dataclass(frozen=True, slots=True)
class ShimReady:
    """Shims to have on the bench at one clamp."""

    clamp: str
    nominal_mm: float
    low_mm: float
    high_mm: float
    advice: str


@dataclass(frozen=True, slots=True)
class FitUpPlan:
    """The plan for the whole part, in the order of work."""

    error_mm: float
    error_given: bool
    holes: tuple[FitUp, ...]
    shims: tuple[ShimReady, ...]


@dataclass(frozen=True, slots=True)
class PlateLayout:
    """An accessory plate on loop clamps."""

    recipe: Recipe
    frame: Frame
    outline: Outline
    thickness_mm: float
    material: Material
    holes: tuple[Hole, ...]
    clamps: tuple[ClampPlace, ...]
    components: tuple[PlacedComponent, ...]
    plate_mass_kg: float
    total_mass_kg: float
    """Plate and components, without hardware."""
    centre_of_gravity: Vec3
    """Of plate and components, in the part's frame."""
    hardware: tuple[HardwareLine, ...]
    fit_up: FitUpPlan
    assumed: tuple[tuple[str, str], ...]
    """(what, value and why) for everything the recipe left out and the layout filled in."""
    known_to: tuple[KnownTo, ...] = ()

    @property
    def loops(self) -> tuple[Loop, ...]:
        """Every clamp."""
        return self.clamps

    @property
    def joints(self) -> tuple[Joint, ...]:
        """Every bolt, the clamps' first; heads on the plate's far side."""
        from clampwright.layout.plate_joints import plate_joints

        return plate_joints(self)

    @property
    def lines(self) -> tuple[Tube, ...]:
        """None."""
        return ()

    @property
    def parts(self) -> tuple[Named, ...]:
        """The plate in the box round it, and the components that have a body."""
        from clampwright.layout.plate_joints import plate_parts

        return plate_parts(self)

    @property
    def bushings(self) -> tuple[BushingPart, ...]:
        """Bushings under the plate, one a length."""
        from clampwright.layout.plate_bushings import plate_bushings

        return plate_bushings(self)
