"""Bays of the example recipes, laid out and checked once, for tests of what is packed of them."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from clampwright.files.pack.bay import Bay
from clampwright.make import Checked, check_recipe
from clampwright.pack import bay_of

RECIPES = Path(__file__).parents[3] / "recipes"
THREE = ("coil-plate", "separator-bushings", "oil-hose-stand-off")
TOO_NARROW = "coil-plate-too-narrow"


@cache
def checked(name: str) -> Checked:
    """An example recipe, laid out and checked."""
    return check_recipe(RECIPES / f"{name}.toml")


def bay(*names: str, **shop: Any) -> Bay:
    """Some example recipes with what they tell the shop changed."""
    return bay_of([told(checked(name), **shop) for name in names])


def told(one: Checked, **shop: Any) -> Checked:
    """A recipe that tells the shop something else."""
    recipe: Any = one.layout.recipe
    layout: Any = replace(one.layout, recipe=replace(recipe, shop=replace(recipe.shop, **shop)))
    return Checked(layout, one.findings)
