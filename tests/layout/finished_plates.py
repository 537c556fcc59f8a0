"""Finished parts for tests: measured exactly as drawn, then shifted, turned or spoilt."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from pathlib import Path

from clampwright.layout.as_made_drawn import drawn
from clampwright.layout.kinds import Layout, lay_out
from clampwright.quantities import Vec2
from clampwright.recipe.measured_model import MeasuredHole, MeasuredLength, MeasuredPart
from clampwright.recipe.read import read

RECIPES = Path(__file__).parents[2] / "recipes"
NAMES = (
    "bundle-on-firewall",
    "coil-plate",
    "oil-hose-stand-off",
    "plain-pair",
    "regulator-too-wide",
    "separator-bushings",
    "two-tube-minimum",
    "two-tubes-by-tape",
)
"""Example recipes whose parts are as they should be when made as drawn."""


@cache
def layout_of(name: str) -> Layout:
    """The layout of an example recipe."""
    return lay_out(read(RECIPES / f"{name}.toml"))


def as_drawn(layout: Layout, plus_minus_mm: float | None = 0.001) -> MeasuredPart:
    """Every hole, every piece of bushing and the thickness exactly as drawn."""
    there = drawn(layout)
    return MeasuredPart(
        tuple(MeasuredHole(hole.label, hole.at, hole.diameter_mm) for hole in there.holes),
        tuple(MeasuredLength(one.mark, one.length_mm) for one in there.lengths for _ in range(one.quantity)),
        there.thickness_mm,
        plus_minus_mm,
    )


def moved(part: MeasuredPart, shift: Vec2, turn_deg: float = 0.0, about: Vec2 = (0.0, 0.0)) -> MeasuredPart:
    """All holes moved as one: turned about a point, counter-clockwise, then shifted."""
    cos, sin = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))

    def place(at: Vec2) -> Vec2:
        x, y = at[0] - about[0], at[1] - about[1]
        return (
            about[0] + cos * x - sin * y + shift[0],
            about[1] + sin * x + cos * y + shift[1],
        )

    return replace(part, holes=tuple(replace(hole, at=place(hole.at)) for hole in part.holes))


def with_hole(part: MeasuredPart, label: str, **changes: object) -> MeasuredPart:
    """One hole changed: `at`, `diameter_mm`, or `by` (a way that it lies off)."""
    by = changes.pop("by", (0.0, 0.0))
    assert isinstance(by, tuple)

    def change(hole: MeasuredHole) -> MeasuredHole:
        if hole.label != label:
            return hole
        off = replace(hole, at=(hole.at[0] + by[0], hole.at[1] + by[1]))
        return replace(off, **changes)  # type: ignore[arg-type]

    return replace(part, holes=tuple(change(hole) for hole in part.holes))


def with_length(part: MeasuredPart, mark: str, *lengths_mm: float) -> MeasuredPart:
    """Other lengths of one mark."""
    rest = tuple(one for one in part.lengths if one.mark != mark)
    return replace(part, lengths=(*rest, *(MeasuredLength(mark, length) for length in lengths_mm)))
