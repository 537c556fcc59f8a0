"""The made parts of every example recipe, laid out and modelled once for the tests of their files."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path

from clampwright.files.kind_files import KIND_FILES
from clampwright.layout.joined import Joined
from clampwright.layout.kinds import lay_out
from clampwright.recipe.read import read
from clampwright.solids.body import Body
from clampwright.solids.joined_assembly import joined_assembly

_RECIPES = Path(__file__).parents[2] / "recipes"
EXAMPLES = tuple(
    sorted(p.stem for p in _RECIPES.glob("*.toml") if tomllib.loads(p.read_text()).get("kind") in KIND_FILES)
)


@cache
def example(name: str) -> tuple[Joined, tuple[Body, ...]]:
    """Layout and assembly of an example."""
    layout = lay_out(read(_RECIPES / f"{name}.toml"))
    return layout, joined_assembly(layout)
