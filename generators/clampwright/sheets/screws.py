"""Screws of a plate's components where the tables know no lengths of them: their stacks for a picture."""

from __future__ import annotations

from clampwright.layout.clash_bodies import point
from clampwright.layout.joined import Joined, Joint
from clampwright.layout.placed import PlateLayout


def screw_joints(layout: Joined) -> tuple[Joint, ...]:
    """The screws of a plate whose stacks are known but for their length; heads on the component's side."""
    if not isinstance(layout, PlateLayout):
        return ()
    (x, y, z), at = layout.frame.n, {hole.label: hole.at for hole in layout.holes}
    return tuple(
        Joint(
            label,
            part.name,
            point(layout.frame, at[label], layout.thickness_mm),
            (0.0 - x, 0.0 - y, 0.0 - z),
            stack,
            lug_known=any(item.name == "component lug" for item in stack.items),
        )
        for part in layout.components
        if not part.stacks
        for label, stack in zip(part.holes, part.screw_stacks, strict=False)
        if label in at
    )


def without_stack(layout: Joined) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """(component, holes) of the screws of which not even the stack is known."""
    if not isinstance(layout, PlateLayout):
        return ()
    bare = ((part.name, part.holes[len(part.stacks or part.screw_stacks) :]) for part in layout.components)
    return tuple((name, holes) for name, holes in bare if holes)
