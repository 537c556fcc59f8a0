"""What a way to hold the component runs into: clamps in each other, in tubes, or in the component's body."""

from __future__ import annotations

import math
from itertools import combinations

from clampwright.layout.bodies import Body, bound, nearer_than
from clampwright.layout.clash_bodies import band_body, feet_body, tube_body
from clampwright.layout.joined import Loop
from clampwright.layout.mounting.ways import Way, component_box
from clampwright.quantities import Vec3
from clampwright.recipe.bushing_model import MountedComponent
from clampwright.structure.tubes import Structure, Tube

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
        if tube.name != loop.tube and _in_tube(_bodies(loop), tube)
    ]


def _of_component(way: Way, component: MountedComponent, structure: Structure) -> list[str]:
    box = component_box(component, way.frame)
    if box is None:
        return []
    into = [tube.name for tube in structure.tubes if _in_tube((box.body,), tube)]
    into += [f"the loop of {loop.label}" for loop in way.loops if _meet((box.body,), (band_body(loop),))]
    return [f"the body of {component.name} would be in {name}" for name in into]


def _in_tube(bodies: tuple[Body, ...], tube: Tube) -> bool:
    """Whether one of the bodies is in a tube; most are too far off for more than a look at their balls."""
    near = [body for body in bodies if _beside(*bound(body), tube) < _TOUCH_MM]
    return _meet(tuple(near), (tube_body(tube),))


def _beside(centre: Vec3, radius: float, tube: Tube) -> float:
    """From a ball to a tube with round ends, mm; negative where they meet."""
    station = min(max(tube.station(centre), 0.0), tube.length_mm)
    return math.dist(centre, tube.point(station)) - radius - math.hypot(tube.od_mm, tube.od_mm) / 2


def _bodies(loop: Loop) -> tuple[Body, Body]:
    return band_body(loop), feet_body(loop)


def _meet(some: tuple[Body, ...], others: tuple[Body, ...]) -> bool:
    return any(nearer_than(a, b, _TOUCH_MM) for a in some for b in others)
