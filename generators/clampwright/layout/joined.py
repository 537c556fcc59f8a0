"""What every kind of layout has: clamps closed on tubes or lines, bolts that join them, parts to make."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from clampwright.layout.bodies import Body
from clampwright.quantities import Vec3
from clampwright.trade.clamps import LoopClamp

if TYPE_CHECKING:
    from clampwright.layout.bushing_parts import BushingPart
    from clampwright.layout.known_to import KnownTo
    from clampwright.layout.placed import HardwareLine, Stack
    from clampwright.recipe.model import Recipe
    from clampwright.structure.tubes import Tube


@dataclass(frozen=True, slots=True)
class Loop:
    """One cushioned loop clamp closed on a tube, or on a line that is carried.

    Its bolt passes through centre + turn * reach * (bolt_axis x axis), square to the outer face of its foot,
    which lies at centre + seat * bolt_axis.
    """

    label: str
    """Letter of the tube and number along it: A1, A2, B1."""
    tube: str
    """Name of the tube, or of the line, that it is closed on."""
    station_mm: float
    side: str
    """"inboard" or "outboard"; "left" or "right" of the tube, seen against the bolt axis with the tube's
    start below, where there is no inboard."""
    turn: int
    """Side of the hole: centre + turn * reach * (bolt_axis x axis)."""
    clamp: LoopClamp
    centre: Vec3
    """Point of the tube's axis, world."""
    axis: Vec3
    """Tube direction start to end, unit, world."""
    bolt_axis: Vec3
    """The clamp's own bolt direction, from its tube towards what its foot meets: square to the tube; unit."""
    tilt_rad: float
    """Angle between the clamp's bolt direction and the bolt itself."""
    station_given: bool
    measured: frozenset[str]


@dataclass(frozen=True, slots=True)
class Joint:
    """One bolt with everything on it, where it sits in the world."""

    label: str
    """That of its clamp or hole; "A1+B1" where it joins two clamps."""
    owner: str
    """What it holds: a component's or line's name, or the clamp's own label where that is a plate."""
    head: Vec3
    """Middle of the bearing face under the bolt's head: the outer face of the stack's first layer."""
    axis: Vec3
    """Unit, from the head to the nut."""
    stack: Stack
    clamps: tuple[str, ...] = ()
    """Labels of the clamps whose feet are on it."""
    feet_measured: bool = True
    lug_known: bool = True


@dataclass(frozen=True, slots=True)
class Named:
    """A body with the words that name it in a sentence, and the label it belongs to."""

    what: str
    owner: str
    body: Body


class Joined(Protocol):
    """A layout of any kind, as far as checks, solids and sheets that serve every kind look at it."""

    @property
    def recipe(self) -> Recipe:
        """The recipe."""

    @property
    def loops(self) -> tuple[Loop, ...]:
        """Every clamp."""

    @property
    def joints(self) -> tuple[Joint, ...]:
        """Every bolt whose stack is known."""

    @property
    def lines(self) -> tuple[Tube, ...]:
        """Lines that are carried, as straight as they are near the clamp; none for most kinds."""

    @property
    def parts(self) -> tuple[Named, ...]:
        """What is carried or made, as simple bodies: components, a plate."""

    @property
    def bushings(self) -> tuple[BushingPart, ...]:
        """Bushings to be made, one a length."""

    @property
    def hardware(self) -> tuple[HardwareLine, ...]:
        """The order list."""

    @property
    def known_to(self) -> tuple[KnownTo, ...]:
        """How sure each clamp's station, hole and gap are."""

    @property
    def assumed(self) -> tuple[tuple[str, str], ...]:
        """(what, value and why) for everything the recipe left out and the layout filled in."""


def line_named(name: str, layout: Joined) -> Tube:
    """The tube, or the carried line, with this name.

    Raises
    ------
    LookupError
        There is neither.
    """
    return next((line for line in layout.lines if line.name == name), None) or layout.recipe.structure.tube(
        name
    )
