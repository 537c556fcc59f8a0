"""What the layout of a "component bushings" recipe hands on: the component's place, and the other answers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from clampwright.layout.bushing_parts import BushingPart, CutList
from clampwright.layout.joined import Joint, Loop, Named
from clampwright.layout.known_to import KnownTo
from clampwright.layout.placed import ClampPlace, Frame, HardwareLine
from clampwright.quantities import Vec2, Vec3
from clampwright.structure.tubes import Tube

if TYPE_CHECKING:
    from clampwright.recipe.model import Recipe


@dataclass(frozen=True, slots=True)
class HoleHeld:
    """How one mounting hole is held in an answer."""

    hole: int
    """Its number in the recipe, counted from 1."""
    tube: str
    turn: int
    """Side of the tube: as `Loop.turn`."""
    station_mm: float
    misfit_mm: Vec2
    """Where the clamp's bolt comes, from the middle of the hole, in the component's frame."""
    bushing_mm: float
    """Gap between the clamp's foot and the lug: what washers, shim or bushing must fill."""
    tilt_rad: float


@dataclass(frozen=True, slots=True)
class Answer:
    """One way to hold the component: pose, tubes and sides, bushings, and what is left over."""

    frame: Frame
    """The component's own frame in the world: origin, x, y and z (as u, v, n)."""
    holes: tuple[HoleHeld, ...]
    worst_misfit_mm: float
    allowed_mm: float
    """Misfit that hole and bolt forgive."""
    fits: bool
    """Misfit allowed, clamps on their tubes, clear of welds and of each other, tilt within its limit."""
    breaks: tuple[str, ...]
    """What it does not keep, one sentence each with the numbers; empty where it fits."""
    longest_mm: float
    spread_mm: float
    """Longest less shortest bushing."""
    worst_tilt_rad: float
    off_mm: float
    """Distance of the origin from the place asked for; 0 where none was."""
    says: str
    """One sentence: tubes, sides, longest bushing, misfit."""


@dataclass(frozen=True, slots=True)
class Remedy:
    """What would make it fit: one sentence with the number, and for a plate the recipe's text."""

    what: str
    """"clamp size", "slot", "larger hole", "other tubes" or "plate"."""
    says: str
    plate_recipe: str = ""
    """A whole "accessory plate" recipe as TOML; "" for the other remedies."""


@dataclass(frozen=True, slots=True)
class BushingLayout:
    """A component held on clamps and bushings, without a plate."""

    recipe: Recipe
    frame: Frame
    """The component's own frame in the world, as `answer.frame`."""
    answer: Answer
    others: tuple[Answer, ...]
    """The next best, best first."""
    examined: int
    """Assignments of holes to tubes and sides that were looked at or ruled out by a bound."""
    fitting: int
    """How many answers fit."""
    clamps: tuple[ClampPlace, ...]
    """One a hole, in the recipe's order; `at` is the hole in the component's frame, `at_exact`
    where the clamp's own bolt comes, `seat_z_mm` the foot's outer face in that frame."""
    component: Named | None
    """Its body where it sits; None where the recipe gave no box."""
    centre_of_gravity: Vec3
    """World."""
    cg_assumed: bool
    cuts: CutList
    bushings: tuple[BushingPart, ...]
    remedies: tuple[Remedy, ...]
    """Empty where the answer fits."""
    hardware: tuple[HardwareLine, ...]
    assumed: tuple[tuple[str, str], ...]
    known_to: tuple[KnownTo, ...] = ()

    @property
    def loops(self) -> tuple[Loop, ...]:
        """Every clamp."""
        return self.clamps

    @property
    def joints(self) -> tuple[Joint, ...]:
        """Every bolt; its head is on the lug's far face."""
        from clampwright.layout.bushing_joints import bushing_joints

        return bushing_joints(self)

    @property
    def lines(self) -> tuple[Tube, ...]:
        """None."""
        return ()

    @property
    def parts(self) -> tuple[Named, ...]:
        """The component's body, where it is known."""
        return () if self.component is None else (self.component,)
