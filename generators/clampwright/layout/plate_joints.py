"""A plate's bolts where they sit in the world, and the plate and its components as simple bodies."""

from __future__ import annotations

from clampwright.layout.clash_bodies import component_body, plate_box, point
from clampwright.layout.joined import Joint, Named
from clampwright.layout.placed import PlateLayout, Stack


def plate_joints(layout: PlateLayout) -> tuple[Joint, ...]:
    """Every bolted hole of a plate: the clamps' in their order, then each component's, hole by hole."""
    at = {hole.label: hole.at for hole in layout.holes}
    made = [
        Joint(
            c.label,
            c.label,
            point(layout.frame, at.get(c.label, c.at), _head_z(c.stack, layout)),
            _down(layout),
            c.stack,
            (c.label,),
            feet_measured="feet" in c.measured,
        )
        for c in layout.clamps
    ]
    made += [
        Joint(
            label,
            part.name,
            point(layout.frame, at[label], _head_z(stack, layout)),
            _down(layout),
            stack,
            lug_known=any(item.name == "component lug" for item in stack.items),
        )
        for part in layout.components
        for label, stack in zip(part.holes, part.stacks, strict=False)
        if label in at
    ]
    return tuple(made)


def plate_parts(layout: PlateLayout) -> tuple[Named, ...]:
    """The plate in the box round it, then the components that have a body."""
    box = plate_box(layout.frame, layout.outline.box(), layout.thickness_mm)
    made = ((c, component_body(c, layout.frame, layout.thickness_mm)) for c in layout.components)
    carried = (Named(c.name, c.name, body) for c, body in made if body is not None)
    return (Named("plate", "plate", box), *carried)


def _down(layout: PlateLayout) -> tuple[float, float, float]:
    x, y, z = layout.frame.n
    return (0.0 - x, 0.0 - y, 0.0 - z)


def _head_z(stack: Stack, layout: PlateLayout) -> float:
    """Height of the head's underside in the part's frame: the plate's far face and what lies on it."""
    names = [item.name for item in stack.items]
    above = stack.items[: names.index("plate")] if "plate" in names else ()
    return layout.thickness_mm + sum(item.thickness_mm * item.count for item in above)
