"""Bushings to make, filled by hand for the cut sheet and cut list: invented gaps on invented clamps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from joined_recipes import STOCK, bushing_recipe

from clampwright.layout.bushing_making import ToFill, fill
from clampwright.layout.bushing_parts import BushingPart, CutList
from clampwright.layout.known_to import KnownTo
from clampwright.layout.placed import StackItem
from clampwright.quantities import Vec2
from clampwright.recipe.bushing_model import BushingStock
from clampwright.recipe.model import Recipe, Template
from clampwright.trade.hardware import nut_for

LUG = StackItem("component lug", "component lug", 3.0)
FEET = StackItem("clamp feet", "clamp feet", 2.6035)
FIVE = (6.0, 9.0, 14.35, 22.22, 38.4)


@dataclass(frozen=True, slots=True)
class Cutting:
    """As much of a layout as the cut sheet looks at, and its cut list."""

    recipe: Recipe
    bushings: tuple[BushingPart, ...]
    cuts: CutList
    known_to: tuple[KnownTo, ...] = ()


def cutting(
    gaps: Sequence[float],
    *,
    bolt: str = "AN3",
    units: str = "mm",
    degrees_c: float = 90.0,
    stock: BushingStock = STOCK,
    prints: tuple[Vec2, ...] = (),
) -> Cutting:
    """The gaps of clamps A1, A2 ... filled."""
    wanted = [ToFill(f"A{n}", gap, (LUG,), (FEET,)) for n, gap in enumerate(gaps, 1)]
    made = fill(wanted, bolt, nut_for(bolt, degrees_c), stock, degrees_c, units)
    recipe = replace(bushing_recipe(), units=units, template=Template(("letter", "a4"), prints))
    return Cutting(recipe, made.parts, made.cuts)
