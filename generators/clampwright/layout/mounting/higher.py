"""A greater stand-off, where the component's body would be in a tube or a clamp."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from clampwright.layout.bushing_placed import Remedy
from clampwright.layout.mounting.answers import broken
from clampwright.layout.mounting.solving import allowed_misfit
from clampwright.layout.mounting.ways import Way
from clampwright.quantities import show_length
from clampwright.quantities.directions import along
from clampwright.recipe.bushing_model import BushingJob
from clampwright.recipe.model import Recipe
from clampwright.trade.tables import rule

_HALVINGS = 8


def higher(recipe: Recipe, way: Way) -> Iterator[Remedy]:
    """How much higher it must stand, where that alone is enough; rounded up to a whole millimetre."""
    if recipe.asked(BushingJob).pose.fixed or not _clear(recipe, way, _most()) or _clear(recipe, way, 0.0):
        return
    low, high = 0.0, _most()
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if _clear(recipe, way, middle) else (middle, high)
    asked = recipe.asked(BushingJob).pose.stand_off_mm
    needed = math.ceil(asked + high + rule("component-clearance").value)
    says = f"give pose.stand_off as {show_length(needed, recipe.units)}: its body then clears the tubes"
    yield Remedy("stand-off", f"{says}; the bushings grow by {show_length(needed - asked, recipe.units)}.")


def _clear(recipe: Recipe, way: Way, by_mm: float) -> bool:
    allowed = [allowed_misfit(recipe.asked(BushingJob), way.held)] * len(way.gaps)
    frame = replace(way.frame, origin=along(way.frame.origin, (way.frame.n, by_mm)))
    raised = replace(way, frame=frame, gaps=tuple(gap + by_mm for gap in way.gaps))
    return not broken(raised, recipe, allowed)


def _most() -> float:
    return rule("recipe-stand-off-most").value
