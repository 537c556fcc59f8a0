"""Structures for settling: plain tubes, and tubes whose ends err together as a survey's would."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from clampwright.recipe.model import Recipe
from clampwright.structure.tubes import Tube
from clampwright.structure.uncertainty import Uncertainty


def erring_together(tubes: tuple[Tube, ...], size_mm: float, seed: int, causes: int = 9) -> Uncertainty:
    """A full random factor: every cause moves every coordinate."""
    rng = np.random.default_rng(seed)
    rows = size_mm * rng.normal(size=(6 * len(tubes), causes)) / causes**0.5
    return Uncertainty(
        tuple(tube.name for tube in tubes), tuple(tuple(row) for row in rows.tolist()), "drawn at random"
    )


def with_survey(recipe: Recipe, size_mm: float, seed: int, marks: tuple[float, ...] = ()) -> Recipe:
    """The recipe on tubes that were surveyed, and marked."""
    tubes = recipe.structure.tubes
    if marks:
        tubes = tuple(replace(tube, mark_mm=mark) for tube, mark in zip(tubes, marks, strict=True))
    sure = erring_together(tubes, size_mm, seed)
    return replace(recipe, structure=replace(recipe.structure, tubes=tubes, uncertainty=sure))
