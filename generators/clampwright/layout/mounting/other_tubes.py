"""Other tubes of the structure that would hold it, together with those named or with one another."""

from __future__ import annotations

import math
from collections.abc import Iterator

from clampwright.layout.bushing_placed import Remedy
from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.mounting.answers import how_held
from clampwright.layout.mounting.found import first_fit
from clampwright.layout.mounting.holders import holders
from clampwright.layout.mounting.ways import Way
from clampwright.recipe.bushing_model import BushingJob
from clampwright.recipe.model import Recipe
from clampwright.structure.tubes import Tube

_LOOKED_AT = 6
"""Tubes looked at: the nearest to where the component is to go."""
_TOGETHER = 4
_SHOWN = 2


def other_tubes(recipe: Recipe, way: Way) -> Iterator[Remedy]:
    """Tubes not named in `clamps.on` with which it fits, the shortest bushings first."""
    job = recipe.asked(BushingJob)
    named = job.clamps.on if len(job.clamps.on) <= _TOGETHER else tuple(h.tube.name for h in way.held)
    place = job.pose.at or way.frame.origin
    others = [tube for tube in recipe.structure.tubes if tube.name not in job.clamps.on]
    others.sort(key=lambda tube: round(_distance(tube, place), 3))
    found: list[tuple[float, str, Way]] = []
    for tube in others[:_LOOKED_AT]:
        fit = _with(recipe, (*named, tube.name))
        if fit is not None:
            found.append((round(2 * max(fit.gaps) - min(fit.gaps), 3), tube.name, fit))
    for _, name, fit in sorted(found, key=lambda each: each[0])[:_SHOWN]:
        yield Remedy("other tubes", f"name {name} in clamps.on as well: {how_held(fit, recipe.units)}.")


def _with(recipe: Recipe, names: tuple[str, ...]) -> Way | None:
    try:
        fit = first_fit(recipe, holders(recipe, names))
    except CannotLayOut:
        return None
    return None if fit is None else fit[1]


def _distance(tube: Tube, place: tuple[float, float, float]) -> float:
    station = min(max(tube.station(place), 0.0), tube.length_mm)
    return math.dist(tube.point(station), place)
