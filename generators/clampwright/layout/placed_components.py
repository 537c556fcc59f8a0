"""Components in the part's frame, with the stack on each of their bolts."""

from __future__ import annotations

from collections.abc import Sequence

from clampwright.layout.components import SetComponent
from clampwright.layout.placed import PlacedComponent, Stack
from clampwright.layout.stacks import build_stack, component_items, screw_items
from clampwright.quantities import Vec2
from clampwright.recipe.model import Component, PlateJob, Recipe
from clampwright.trade.bolts import bolt_lengths
from clampwright.trade.hardware import Nut, nut, nut_for


def placed_components(
    items: Sequence[SetComponent], labels: Sequence[str], datum: Vec2, recipe: Recipe
) -> tuple[PlacedComponent, ...]:
    """Every component with its place counted from the datum corner; `labels` are the components' letters."""
    return tuple(_placed(item, letter, datum, recipe) for item, letter in zip(items, labels, strict=True))


def from_datum(place: Vec2, datum: Vec2) -> Vec2:
    """A place counted from the datum corner.

    >>> from_datum((3.0, 4.0), (-10.0, -20.0))
    (13.0, 24.0)
    """
    return place[0] - datum[0], place[1] - datum[1]


def _placed(item: SetComponent, letter: str, datum: Vec2, recipe: Recipe) -> PlacedComponent:
    component = item.component
    stack, lengths = component_stack(component, recipe), has_lengths(component.fastener)
    stacks = () if stack is None else (stack,) * len(component.holes)
    return PlacedComponent(
        name=component.name,
        at=from_datum(item.at, datum),
        turn_rad=component.turn_rad,
        mass_kg=component.mass_kg,
        cg_height_mm=_cg_height(component),
        holes=tuple(f"{letter}{i}" for i in range(1, len(component.holes) + 1)),
        body=component.body,
        corners=tuple(from_datum(corner, datum) for corner in item.corners),
        stacks=stacks if lengths else (),
        screw_stacks=() if lengths else stacks,
    )


def _cg_height(component: Component) -> float:
    if component.cg_height_mm is not None:
        return component.cg_height_mm
    return component.body[2] / 2 if component.body is not None else 0.0


def component_stack(component: Component, recipe: Recipe) -> Stack | None:
    """The stack on each bolt of a component; None where the tables know no nut for its fastener.

    A screw whose lengths the tables do not know has a stack without a chosen length.
    """
    chosen = _nut(component.fastener, recipe)
    if chosen is None:
        return None
    clamps, thickness = recipe.asked(PlateJob).fastener, recipe.asked(PlateJob).plate.thickness_mm
    height = clamps.nut_height_mm if component.fastener == clamps.bolt else None
    layers = component_items if has_lengths(component.fastener) else screw_items
    items = layers(component.lug_mm, thickness, component.fastener)
    return build_stack(component.fastener, items, chosen, nut_height_mm=height)


def has_lengths(fastener: str) -> bool:
    """Whether the tables know lengths of a bolt or screw.

    >>> has_lengths("AN3"), has_lengths("#8")
    (True, False)
    """
    try:
        return bool(bolt_lengths(fastener))
    except LookupError:
        return False


def _nut(fastener: str, recipe: Recipe) -> Nut | None:
    """The clamps' nut series where it has this size, else by temperature; None where there is none."""
    series = recipe.asked(PlateJob).fastener.nut
    try:
        if series is not None:
            return nut(series, fastener)
    except LookupError:
        pass
    try:
        return nut_for(fastener, recipe.zone.temperature_c)
    except LookupError:
        return None
