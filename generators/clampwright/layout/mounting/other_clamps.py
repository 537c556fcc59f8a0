"""Another size of clamp: a larger loop packed to its tube reaches farther."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from clampwright.layout.bushing_placed import Remedy
from clampwright.layout.mounting.answers import how_held
from clampwright.layout.mounting.found import first_fit
from clampwright.layout.mounting.holders import Holder, holders
from clampwright.layout.mounting.ways import Way
from clampwright.layout.said import named_list
from clampwright.quantities import show_length
from clampwright.quantities.kinds import INCH
from clampwright.recipe.model import Recipe
from clampwright.trade.clamps import dash_for
from clampwright.trade.tables import rule

_CHANGED_MOST = 4
"""Tubes whose clamps are changed in every combination; of more, one at a time and all together."""


def other_clamps(recipe: Recipe, way: Way) -> Iterator[Remedy]:
    """The fewest clamps of another size with which it fits, on the tubes of the best answer."""
    names = tuple(holder.tube.name for holder in way.held)
    sizes = {holder.tube.name: _sizes(holder) for holder in way.held}
    for changed in _changes(names, sizes):
        held = holders(recipe, names, changed)
        fit = first_fit(recipe, held)
        if fit is not None:
            yield Remedy(
                "clamp size", f"{_said(way, held, changed, recipe.units)}: {how_held(fit[1], recipe.units)}."
            )
            return


def _sizes(holder: Holder) -> list[int]:
    """Other sizes that close on the tube: as it needs, and one larger where packing is allowed."""
    od, sixteenth = holder.tube.od_mm, float(INCH / 16)
    try:
        least = dash_for(od)
    except LookupError:
        return []
    over = rule("clamp-loop-over-most").value
    fair = [dash for dash in (least, least + 1) if dash * sixteenth - od <= over + 1e-6]
    return [dash for dash in fair if dash != holder.clamp.dash]


def _changes(names: tuple[str, ...], sizes: dict[str, list[int]]) -> list[dict[str, int]]:
    """Which clamps to change to what, the fewest first."""
    choices = [[None, *sizes[name]] for name in names]
    if len(names) > _CHANGED_MOST:
        alone = [{name: size} for name in names for size in sizes[name]]
        return [*alone, {name: sizes[name][-1] for name in names if sizes[name]}]
    every = [
        {name: size for name, size in zip(names, sized, strict=True) if size is not None}
        for sized in product(*choices)
    ]
    return sorted((each for each in every if each), key=len)


def _said(way: Way, held: tuple[Holder, ...], changed: dict[str, int], units: str) -> str:
    before = {holder.tube.name: holder.clamp for holder in way.held}
    after = {holder.tube.name: holder.clamp for holder in held}
    each = tuple(
        f"{after[name].part} on {name} in place of {before[name].part} (reach "
        f"{show_length(after[name].reach_mm, units)}, not {show_length(before[name].reach_mm, units)})"
        for name in changed
    )
    packed = any(after[name].dash > before[name].dash for name in changed)
    tape = ", packed with tape to close on its tube, measured before anything is made" if packed else ""
    return f"take {named_list(each)}{tape}"
