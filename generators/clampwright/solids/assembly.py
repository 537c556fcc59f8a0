"""Every body of a layout where it sits in the world."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from clampwright.layout.placed import ClampPlace, PlateLayout
from clampwright.solids.body import Body
from clampwright.solids.bushing_in_stack import bushings_as_made
from clampwright.solids.clamp import clamp_bodies
from clampwright.solids.component import component_bodies
from clampwright.solids.fastener import head_height, stack_bodies
from clampwright.solids.place import Place, place_of
from clampwright.solids.plate import plate
from clampwright.solids.tube import tube_bodies


def part(layout: PlateLayout) -> Body:
    """The plate in its own frame: near face at z = 0, datum corner at the origin."""
    name = f"plate {layout.recipe.name}"
    return Body(name, name, "plate", plate(layout), Place())


def assembly(layout: PlateLayout) -> tuple[Body, ...]:
    """Plate, clamps, bolts, washers, bushings, nuts, components and tubes in the world frame."""
    world = place_of(layout.frame)
    own = part(layout)
    return (
        Body(own.name, own.product, own.role, own.shape, world),
        *(body for clamp in layout.clamps for body in clamp_bodies(clamp)),
        *(body for clamp in layout.clamps for body in _clamp_stack(layout, clamp, world)),
        *(body for body in _component_stacks(layout, world)),
        *component_bodies(layout),
        *tube_bodies(layout),
    )


def plate_of(bodies: Iterable[Body]) -> Body:
    """The plate among the bodies of an assembly."""
    return next(body for body in bodies if body.role == "plate")


def _clamp_stack(layout: PlateLayout, clamp: ClampPlace, world: Place) -> Iterator[Body]:
    head = head_height(clamp.stack, layout.thickness_mm)
    made = bushings_as_made(layout, (clamp.label,))
    return stack_bodies(clamp.label, clamp.stack, clamp.at, head, world, made)


def _component_stacks(layout: PlateLayout, world: Place) -> Iterator[Body]:
    holes = {hole.label: hole for hole in layout.holes}
    for component in layout.components:
        for label, stack in zip(component.holes, component.stacks, strict=False):
            head = head_height(stack, layout.thickness_mm)
            yield from stack_bodies(label, stack, holes[label].at, head, world)
