"""The surveys that tests read: the examples, right ones and wrong ones."""

from __future__ import annotations

from recipe.recipe_files import HERE, SURVEYS

FOLDER = HERE / "surveys"
VALID = tuple(sorted((FOLDER / "valid").glob("*.toml")))
WRONG = tuple(sorted((FOLDER / "wrong").glob("*.toml")))
RIGHT = (*SURVEYS, *VALID)
