"""What a way to hold the component runs into: clamps in each other, in tubes, or in the component's body."""

from __future__ import annotations

from itertools import combinations

from clampwright.layout.bodies import Body, nearer_than
from clampwright.layout.clash_bodies import band_body, feet_body, tube_body
from clampwright.layout.joined import Loop
from clampwright.layout.mounting.ways import Way, component_box
from clampwright.recipe.bushing_model import MountedComponent
from clampwright.structure.tubes import Structure

_TOUCH_MM = 1e-6


def clashes(way: Way, component: MountedComponent, structure: Structure) -> tuple[str, ...]:
    """Sentences on bodies that are in each other. Clamps of one tube are judged by their stations."""
    return (*_of_clamps(way), *_of_tubes(way, structure), *_of_component(way, component, structure))


def _of_clamps(way: Way) -> list[str]:
    pairs = [(a, b) for a, b in combinations(way.loops, 2) if a.tube != b.tube]
    found = ((a, b) for a, b in pairs if _meet(_bodies(a), _bodies(b)))
    return [f"clamp {a.label} on {a.tube} would be in {b.label} on {b.tube}" for a, b in found]


def _of_tubes(way: Way, structure: Structure) -> list[str]:
    return [
        f"clamp {loop.label} on {loop.tube} would be in {tube.name}"
        for loop in way.loops
        for tube in structure.tubes
        if tube.name != loop.tube and _meet(_bodies(loop), (tube_body(tube),))
    ]


def _of_component(way: Way, component: MountedComponent, structure: Structure) -> list[str]:
    box = component_box(component, way.frame)
    if box is None:
        return []
    into = [tube.name for tube in structure.tubes if _meet((box.body,), (tube_body(tube),))]
    into += [f"the loop of {loop.label}" for loop in way.loops if _meet((box.body,), (band_body(loop),))]
    return [f"the body of {component.name} would be in {name}" for name in into]


def _bodies(loop: Loop) -> tuple[Body, Body]:
    return band_body(loop), feet_body(loop)


def _meet(some: tuple[Body, ...], others: tuple[Body, ...]) -> bool:
    return any(nearer_than(a, b, _TOUCH_MM) for a in some for b in others)
