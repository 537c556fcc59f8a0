"""Random components placed on random tubes, and where their clamps' bolts then are: worked out apart.

Nothing here uses the solver's own geometry: the bolt of a clamp is at c + turn reach (m x a), m being n made
square to a, in three dimensions.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt
from joined_recipes import MEASURED, bushing_job, bushing_recipe

from clampwright.quantities import Vec3
from clampwright.recipe.bushing_model import ClampsOn, Lug, Pose
from clampwright.recipe.model import Recipe
from clampwright.structure.nodes import nodes
from clampwright.structure.tubes import Structure, Tube

Array = npt.NDArray[np.float64]

REACH, SEAT = 19.812, 13.1318
"""Of the measured clamps of `joined_recipes`."""
FREE = Pose(None, None, (0.0, 0.0, 1.0), None, None, False, 4.0)


@dataclass(frozen=True)
class Placed:
    """A component where it is, held by clamps that fit it exactly."""

    recipe: Recipe
    """With the pose left out but for which way is up."""
    origin: Array
    axes: Array
    """Rows x, y, z of its frame in the world."""
    assigned: tuple[tuple[str, int], ...]
    """(tube, turn) of each hole."""
    stations: tuple[float, ...]
    gaps: tuple[float, ...]


def rotation(rng: np.random.Generator) -> Array:
    """A random rotation, from a random quaternion."""
    w, x, y, z = (q := rng.normal(size=4)) / np.linalg.norm(q)
    return np.array(
        [
            [1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)],
            [2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)],
            [2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)],
        ]
    )


def flat_tubes(rng: np.random.Generator, count: int) -> list[Tube]:
    """Tubes in one level plane: some parallel, the others well apart in direction."""
    angles = [rng.uniform(0, math.pi)]
    while len(angles) < count:
        angle = angles[0] if rng.random() < 0.3 else rng.uniform(0, math.pi)
        if all(abs(math.sin(angle - a)) > 0.2 or angle == a for a in angles):
            angles.append(angle)
    made = []
    for number, angle in enumerate(angles):
        along, across = (
            np.array([math.cos(angle), math.sin(angle), 0.0]),
            [-math.sin(angle), math.cos(angle), 0],
        )
        middle = (60.0 * number - 80.0 + rng.uniform(0, 25)) * np.array(across) + rng.uniform(-40, 40) * along
        ends = [middle - along * rng.uniform(300, 500), middle + along * rng.uniform(300, 500)]
        if rng.random() < 0.5:
            ends.reverse()
        made.append(Tube(f"t{number}", _vec(ends[0]), _vec(ends[1]), 19.05))
    return made


def bolt_at(tube: Tube, station: float, turn: int, n: Array) -> tuple[Array, float]:
    """Where a clamp's bolt is, at the height of the tube's axis, and how high its seat is along n."""
    a = np.array(tube.direction)
    m = n - (n @ a) * a
    m = m / np.linalg.norm(m)
    centre = np.array(tube.point(station))
    return centre + turn * REACH * np.cross(m, a), float((centre + SEAT * m) @ n)


def placed(rng: np.random.Generator, holes: int, tubes: int) -> Placed | None:
    """A component of so many holes on so many tubes; None where clamps would crowd each other or a weld."""
    flat = flat_tubes(rng, tubes)
    held = list(range(tubes)) + [int(k) for k in rng.integers(0, tubes, max(0, holes - tubes))]
    rng.shuffle(held)
    held = held[:holes]
    turns = [int(t) for t in rng.choice([-1, 1], holes)]
    stations = [float(rng.uniform(60, flat[k].length_mm - 60)) for k in held]
    n = np.array([0.0, 0.0, 1.0])
    each = [bolt_at(flat[k], s, t, n) for k, s, t in zip(held, stations, turns, strict=True)]
    places = np.array([place for place, _ in each])
    apart = np.linalg.norm(places[:, None] - places[None], axis=2) + 1e3 * np.eye(holes)
    crowded = [
        held[i] == held[j] and abs(stations[i] - stations[j]) < 20 for i in range(holes) for j in range(i)
    ]
    if any(crowded) or apart.min() < 20 or _on_a_weld(flat, held, stations):
        return None
    near = rng.uniform(0, 6, holes)
    turn = rng.uniform(-math.pi, math.pi)
    axes = np.array([[math.cos(turn), math.sin(turn), 0], [-math.sin(turn), math.cos(turn), 0], [0, 0, 1.0]])
    seats = np.array([seat for _, seat in each])
    height = float((seats - near).max()) + FREE.stand_off_mm
    origin = np.array([*(places[:, :2].mean(axis=0) + rng.uniform(-20, 20, 2)), height])
    own = (places - origin) @ axes.T
    lugs = tuple(Lug((float(x), float(y)), 3.0, float(z)) for (x, y, _), z in zip(own, near, strict=True))
    gaps = tuple((height + near - seats).tolist())
    world, shift = rotation(rng), rng.uniform(-200, 200, 3)
    turned = [replace(t, start=_vec(world @ t.start + shift), end=_vec(world @ t.end + shift)) for t in flat]
    return Placed(
        component_recipe(turned, lugs, pose=replace(FREE, up=_vec(world[:, 2]))),
        world @ origin + shift,
        axes @ world.T,
        tuple((flat[k].name, t) for k, t in zip(held, turns, strict=True)),
        tuple(stations),
        gaps,
    )


def _on_a_weld(tubes: list[Tube], held: list[int], stations: list[float]) -> bool:
    """Whether a band would come nearer to a weld than a tube's diameter."""
    welds = nodes(Structure(tuple(tubes)))
    return any(
        node.tube == tubes[k].name and abs(node.station_mm - station) < 26.0
        for k, station in zip(held, stations, strict=True)
        for node in welds
    )


def component_recipe(
    tubes: list[Tube] | tuple[Tube, ...], lugs: tuple[Lug, ...], on: tuple[str, ...] = (), **more: Any
) -> Recipe:
    """A recipe for a component without a body, with these lugs, on these tubes."""
    job = bushing_job()
    component = replace(job.component, lugs=lugs, body=None)
    clamps = ClampsOn(on or tuple(t.name for t in tubes), None, MEASURED, None, ())
    return bushing_recipe(Structure(tuple(tubes)), **{"component": component, "clamps": clamps, **more})


def lugs_at(*places: tuple[float, float], near: float = 0.0) -> tuple[Lug, ...]:
    """Lugs of 3 mm with their near faces in one plane."""
    return tuple(Lug(place, 3.0, near) for place in places)


def _vec(values: Any) -> Vec3:
    x, y, z = (float(v) for v in values)
    return (x, y, z)
