"""Flat parts for tests: of the example recipes, and made by hand."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path

from clampwright.checks.finding import Finding
from clampwright.layout.outline import Outline
from clampwright.layout.placed import PlateLayout
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.layout.shop.told import FlatPart, Limits, ToldHole
from clampwright.make import Checked, check_recipe
from clampwright.quantities import Vec2
from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.shop import usual_shop
from clampwright.trade.materials import material

RECIPES = Path(__file__).parents[3] / "recipes"
UNITS, STANDARDS, PROJECTIONS = ("mm", "in"), ("iso", "ansi"), ("third", "first")


@cache
def checked_plates() -> dict[str, Checked]:
    """Every example recipe that has a flat part."""
    found = {}
    for path in sorted(RECIPES.glob("*.toml")):
        try:
            checked = check_recipe(path)
        except RecipeFaults:
            continue
        if isinstance(checked.layout, PlateLayout):
            found[path.stem] = checked
    return found


def told(name: str, units: str = "in", standard: str = "ansi", projection: str = "third") -> FlatPart:
    """The flat part of an example, as another shop would be told it."""
    (part,) = flat_parts(checked_plates()[name].layout)
    return as_told(part, units, standard, projection)


def as_told(part: FlatPart, units: str, standard: str, projection: str) -> FlatPart:
    """A part in other units, on other sheets, in another projection."""
    usual = usual_shop(units)
    shop = replace(part.shop, drawing=standard, projection=projection, tolerances=usual.tolerances)
    return replace(part, units=units, shop=shop)


def hand_made(
    outline: Outline,
    holes: Sequence[tuple[Vec2, float]],
    units: str = "mm",
    standard: str = "iso",
    projection: str = "third",
    thickness_mm: float = 2.0,
) -> FlatPart:
    """A plate with holes labelled H1, H2 ...; every second one is held to its size."""
    x0, y0, _, _ = outline.box()
    size = Limits(0.0, 0.1, "so that its bolt passes", "practice")
    told_holes = tuple(
        ToldHole(
            f"H{n}",
            (x - x0, y - y0),
            diameter,
            "M5",
            "clamp",
            f"{diameter:.1f}",
            "2.5",
            size if n % 2 else None,
        )
        for n, ((x, y), diameter) in enumerate(holes, 1)
    )
    part = FlatPart(
        "test-plate",
        "Test plate",
        "test",
        "A plate made by hand",
        "0123456789abcdef",
        units,
        material("6061-T6"),
        thickness_mm,
        outline.moved((-x0, -y0)),
        told_holes,
        1,
        0.1,
        usual_shop(units),
        "component side up",
    )
    return as_told(part, units, standard, projection)


def spread_holes(width: float, height: float, count: int, diameter: float) -> list[tuple[Vec2, float]]:
    """Holes over a rectangle, no two in line."""
    golden = (math.sqrt(5) - 1) / 2
    margin = 2 * diameter
    return [
        (
            (
                margin + (n * golden % 1.0) * (width - 2 * margin),
                margin + (n + 0.5) / count * (height - 2 * margin),
            ),
            diameter,
        )
        for n in range(count)
    ]


NO_FINDINGS: tuple[Finding, ...] = ()
