"""Stand-offs for tests: a hose that crosses the low tube, one beside it, and one held off the firewall."""

from __future__ import annotations

from functools import cache

from joined_recipes import NOT_MEASURED, carried, parallel, stand_off_recipe

from clampwright.layout.pairing.lay_out import lay_out_stand_off
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.recipe.stand_off_model import PairClamp

RECIPES = {
    "skew": stand_off_recipe(),
    "parallel": stand_off_recipe(carried=parallel(60.0, (0.0, 0.6, 0.8))),
    "panel": stand_off_recipe(
        tube=None, panel="firewall", carried=carried(point=(0.0, -100.0, 40.0), to=(0.0, 100.0, 45.0))
    ),
    "wrapped": stand_off_recipe(carried=carried(od_mm=12.0), on_line=PairClamp(None, NOT_MEASURED, 8)),
}


@cache
def stand_off(name: str) -> StandOffLayout:
    """One of them, laid out."""
    return lay_out_stand_off(RECIPES[name])
