"""A finished part as somebody measured it, and what a measurement may name: holes and bushings."""

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
    """One finished bushing: its mark, its length. Several of one mark are several pieces."""

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
class DrawnHole:
    """A hole as it is drawn: what a measurement of it is named by and held against."""

    label: str
    at: Vec2
    diameter_mm: float


@dataclass(frozen=True, slots=True)
class DrawnLength:
    """A bushing as it is drawn."""

    mark: str
    length_mm: float
    """As it is cut: longer than its gap where it is trimmed at the fit."""
    quantity: int
    trimmed_mm: float | None = None
    """Length that it is trimmed to where the gap is as laid out; None: it is not trimmed."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """Everything of a recipe's parts that can be measured, in the order of the sheets."""

    name: str
    units: str
    """"mm" or "in": of bare numbers."""
    holes: tuple[DrawnHole, ...] = ()
    lengths: tuple[DrawnLength, ...] = ()
    thickness_mm: float | None = None
    """Of the plate; None where there is none."""
