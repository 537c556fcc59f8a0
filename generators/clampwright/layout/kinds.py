"""How each kind of recipe is laid out. A new kind is a line here; what it needs is loaded when it is used."""

from __future__ import annotations

from collections.abc import Callable

from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.placed import PlateLayout
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.recipe.model import Recipe

Layout = PlateLayout | BushingLayout | StandOffLayout


def lay_out(recipe: Recipe) -> Layout:
    """Where everything goes, by the recipe's kind.

    Raises
    ------
    CannotLayOut
        Where geometry forbids any answer; everything else is for the checks to tell.
    """
    return LAY_OUT[recipe.kind](recipe)


def _accessory_plate(recipe: Recipe) -> PlateLayout:
    from clampwright.layout.lay_out import lay_out as plate

    return plate(recipe)


def _component_bushings(recipe: Recipe) -> BushingLayout:
    from clampwright.layout.mounting.lay_out import lay_out_bushings

    return lay_out_bushings(recipe)


def _stand_off(recipe: Recipe) -> StandOffLayout:
    from clampwright.layout.pairing.lay_out import lay_out_stand_off

    return lay_out_stand_off(recipe)


LAY_OUT: dict[str, Callable[[Recipe], Layout]] = {
    "accessory plate": _accessory_plate,
    "component bushings": _component_bushings,
    "stand-off": _stand_off,
}
"""The function of each kind."""
