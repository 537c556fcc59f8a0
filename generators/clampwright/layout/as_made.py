"""A finished part as somebody measured it, and whether it still fits."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.quantities import Vec2


@dataclass(frozen=True, slots=True)
class MeasuredHole:
    """A hole of the finished part: its centre from the two datum edges, and its diameter where measured."""

    label: str
    at: Vec2
    diameter_mm: float | None = None
    line: int = 0
    """Of the file it was read from."""


@dataclass(frozen=True, slots=True)
class MeasuredLength:
    """One finished bushing: its mark, which of its pieces, its length."""

    mark: str
    length_mm: float
    line: int = 0


@dataclass(frozen=True, slots=True)
class MeasuredPart:
    """Everything that was measured on the finished parts of a recipe."""

    holes: tuple[MeasuredHole, ...]
    lengths: tuple[MeasuredLength, ...]
    thickness_mm: float | None = None
    plus_minus_mm: float | None = None
    """± of a measured figure, 95 %, where given."""


@dataclass(frozen=True, slots=True)
class HoleFit:
    """One hole against the bolt that has to pass it, with the part shifted and turned the best way."""

    label: str
    planned: Vec2
    measured: Vec2
    off_mm: float
    """Distance of the hole's centre from its bolt's axis after the best shift."""
    way: Vec2
    """Direction of that, unit; (0, 0) where there is none."""
    allowed_mm: float
    """Half the play of hole and bolt, and of whatever else gives at that bolt."""
    gives: str
    """What gives: "hole and bolt", "clamp slides along its tube"."""
    spare_mm: float
    """allowed - off: negative where it pinches."""


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


@dataclass(frozen=True, slots=True)
class BestFit:
    """The shift and turn of the whole part that leaves its tightest hole the most room."""

    shift: Vec2
    """In the part's frame, at its middle of measured holes."""
    turn_rad: float
    about: Vec2
    holes: tuple[HoleFit, ...]
    lengths: tuple[LengthFit, ...]
    not_measured: tuple[str, ...]
    """Labels of holes and marks of bushings that nobody measured."""
    before_mm: float
    """Spare of the tightest hole without any shift."""
