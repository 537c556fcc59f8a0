"""Whether finished parts, as somebody measured them, still fit: what the best fit hands on."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.layout.placed import Stack
from clampwright.quantities import Vec2
from clampwright.recipe.measured_model import MeasuredHole, MeasuredLength, MeasuredPart

__all__ = [
    "BestFit",
    "Culprit",
    "FootFit",
    "GroupFit",
    "HoleFit",
    "LengthFit",
    "MeasuredHole",
    "MeasuredLength",
    "MeasuredPart",
    "Refit",
]


@dataclass(frozen=True, slots=True)
class HoleFit:
    """One hole against the bolt that has to pass it, with the part shifted and turned the best way."""

    label: str
    planned: Vec2
    measured: Vec2
    off_mm: float
    """Distance of the hole's centre from its bolt's axis after the best shift."""
    way: Vec2
    """Direction of that, unit, from the bolt to the hole; (0, 0) where there is none."""
    allowed_mm: float
    """Half the play of hole and bolt, and of whatever else gives at that bolt."""
    gives: str
    """What gives: "hole and bolt", "clamp slides along its tube"."""
    spare_mm: float
    """allowed - off: negative where it pinches."""
    group: str = ""
    """What its bolt belongs to: "the clamps", or the component's name."""
    fastener: str = ""
    play_mm: float = 0.0
    """Of hole and bolt alone: less than `allowed_mm` where the hole is transferred in place."""
    diameter_mm: float = 0.0
    """Measured, or the drawn one where nobody measured it (then not `sized`)."""
    sized: bool = False
    pilot: bool = False
    """Still the pilot: the finished size is taken for it."""
    transferred: bool = False
    """By the fit-up plan it is transferred in place, or filed to a slot there."""
    doubt_mm: float = 0.0
    """± (95 %) of the bolt's own place, as the fit-up plan has it."""
    slides_mm: float = 0.0
    """How far its clamp slides along its tube from where it is laid out, to go with this fit; signed."""
    finished_mm: float = 0.0
    """Diameter that its play is reckoned with: a pilot's is the drawn one."""
    bolt_off: Vec2 = (0.0, 0.0)
    """Its bolt from the hole's middle, in the part's own frame, what the clamp slides left out."""
    room_mm: float | None = None
    """Room it has to slide before it comes too near a weld or an end, or the layout is another; None: it
    does not slide."""


@dataclass(frozen=True, slots=True)
class Culprit:
    """A hole without which all others of its group fit, and what it then lacks."""

    label: str
    lacking_mm: float
    """By how much it has to be opened towards its bolt."""
    toward: Vec2
    """Unit, in the part's frame: from the hole to its bolt."""
    others_spare_mm: float
    """Spare of the tightest other hole, with this one left out."""


@dataclass(frozen=True, slots=True)
class GroupFit:
    """Holes that have to meet one set of bolts together, and the shift and turn that suits them best.

    Of what moves: of the plate on its clamps, of a component on the plate. A point x of it comes to
    about + R(turn)(x - about) + shift.
    """

    name: str
    """"the clamps", or the component's name."""
    shift: Vec2
    turn_rad: float
    about: Vec2
    """Middle of its measured holes; of a component of their bolts."""
    spare_mm: float
    """Of its tightest hole, with the best shift and turn for all."""
    before_mm: float
    """The same without any shift."""
    holes: tuple[str, ...]
    culprits: tuple[Culprit, ...] = ()
    """Least lacking first; empty where all fit, or where no single hole is to blame."""
    left_out: str = ""
    """The one hole to blame, where there is one: shift and turn are then the best for all others."""


@dataclass(frozen=True, slots=True)
class LengthFit:
    """One bushing against its gap."""

    mark: str
    where: tuple[str, ...]
    planned_mm: float
    measured_mm: float
    low_mm: float
    high_mm: float
    """Limits it was drawn with."""
    left_mm: float
    """Gap less bushing less washers, the worst of its places: positive where the stack is too short."""
    allowed_mm: float
    long_mm: float = 0.0
    """By how much it was drawn longer than its gap, to be trimmed at the fit; 0 where it was not."""
    gap_doubt_mm: float = 0.0
    """± (95 %) of the gap that it is trimmed to."""


@dataclass(frozen=True, slots=True)
class FootFit:
    """One foot under a part that stands on several: how high its packing comes, and whether it carries."""

    label: str
    high_mm: float
    """Top of its packing above where the part's near face is drawn; negative where it is short."""
    gap_mm: float
    """Left under the part as it comes to lie, the worst of the ways it can lie; 0 where it always carries."""
    carries: bool
    """Whether the part can come to lie on it."""
    measured: bool
    """False where its packing is taken as drawn."""


@dataclass(frozen=True, slots=True)
class Refit:
    """One bolt with its stack as made."""

    label: str
    planned: Stack
    made: Stack
    """The same washers and bolt with measured lengths."""
    fits: bool
    """Whether the bolt chosen still does; True where no document gives lengths of such bolts."""
    better: Stack | None
    """The stack built anew, where the bolt does not fit."""
    drawn_to: tuple[float, float] | None = None
    """How much thinner and thicker the stack may come by the tolerances of what was measured, mm; None: some
    of it is not within them, or the bolt does not fit the stack as drawn."""
    washers: str = ""
    """The least change of washers with which the same bolt keeps its rules; empty where there is none."""


@dataclass(frozen=True, slots=True)
class BestFit:
    """The shift and turn of the whole part that leaves its tightest hole the most room."""

    shift: Vec2
    """Of the part on its clamps, in the part's frame, at its middle of measured holes."""
    turn_rad: float
    about: Vec2
    holes: tuple[HoleFit, ...]
    lengths: tuple[LengthFit, ...]
    not_measured: tuple[str, ...]
    """Labels of holes and marks of bushings that nobody measured."""
    before_mm: float
    """Spare of the tightest hole on its clamps without any shift."""
    groups: tuple[GroupFit, ...] = ()
    """The clamps first, then each component on the part."""
    feet: tuple[FootFit, ...] = ()
    """Empty where the part stands on fewer than three that are not trimmed to the gap found."""
    lean_rad: float = 0.0
    """How far the part leans on feet of unequal height, at the most."""
    stacks: tuple[Refit, ...] = ()
    """Bolts whose stack holds something that was measured."""
    not_sized: tuple[str, ...] = ()
    """Labels of measured holes whose diameter nobody measured."""
