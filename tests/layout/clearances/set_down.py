"""Second route: the part and its clamps set on tubes drawn at random, and every body where that puts it.

The draws and what a clamp's bolt, foot and station come to are those of `layout.settling.drawn`, which does
not linearise; here the pose itself is kept, and with it the simple bodies.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt
from layout.settling.drawn import Draws, Figures, Part, figures, turned, unit

from clampwright.layout.bodies import Body, Box, clearance
from clampwright.layout.clash_bodies import tube_body
from clampwright.layout.joined import Loop
from clampwright.layout.joint_solids import loop_bodies
from clampwright.layout.on_feet import reference_tube, stands_on
from clampwright.quantities import Vec3

Array = npt.NDArray[np.float64]
FIRST = 1e3
"""Weight of what is kept whatever happens."""


def poses(part: Part, draws: Draws) -> tuple[Array, dict[str, Figures]]:
    """Rotation vector and shift (draws, 6) of a plate on three feet, and the clamps' figures.

    Feet as packed, the reference tube's bolts in their holes, its first clamp at its station.
    """
    tubes = {tube.name: np.array([[tube.start, tube.end]]) for tube in part.recipe.structure.tubes}
    still = _figures(part, Draws(tubes, {}), np.zeros((1, 6)))
    carry, reference = stands_on(part.clamps), reference_tube(part.clamps)
    own = [clamp.label for clamp in part.clamps if clamp.tube == reference]

    def off(pose: Array) -> Array:
        now = _figures(part, draws, pose)
        kept = [FIRST * (now[label].gap - still[label].gap) for label in carry]
        kept += [FIRST * (now[label].across - still[label].across) for label in own]
        kept += [FIRST * (now[own[0]].station - still[own[0]].station)]
        kept += [now[label].across - still[label].across for label in now]
        return np.stack(kept, axis=1)

    count = len(next(iter(draws.ends.values())))
    pose, scale, step = np.zeros((count, 6)), np.array([100.0] * 3 + [1.0] * 3), 1e-4
    for _ in range(6):
        now = off(pose)
        slopes = np.stack([(off(pose + step * row / scale) - now) / step for row in np.eye(6)], axis=2)
        pose = pose - np.einsum("nij,nj->ni", np.linalg.pinv(slopes, rcond=1e-9), now) / scale
    return pose, _figures(part, draws, pose)


def _figures(part: Part, draws: Draws, pose: Array) -> dict[str, Figures]:
    tube = part.recipe.structure.tube
    return {clamp.label: figures(clamp, tube(clamp.tube), part, draws, pose) for clamp in part.clamps}


def tube_drawn(name: str, part: Part, draws: Draws) -> Callable[[int], Body]:
    """A tube in each draw."""
    tube, ends = part.recipe.structure.tube(name), draws.ends[name]
    return lambda i: tube_body(replace(tube, start=vec(ends[i, 0]), end=vec(ends[i, 1])))


def on_part(box: Box, part: Part, pose: Array) -> Callable[[int], Body]:
    """A box that rides on the part, in each draw."""
    origin = np.array(part.frame.origin)

    def placed(i: int) -> Body:
        turn, shift = pose[i : i + 1, :3], pose[i, 3:]
        centre = origin + turned(np.array(box.centre) - origin, turn)[0] + shift
        x, y, z = (vec(turned(np.array(axis), turn)[0]) for axis in box.axes)
        return Box(vec(centre), (x, y, z), box.half)

    return placed


def on_clamp(
    loop: Loop, which: int, part: Part, draws: Draws, pose: Array, found: Figures
) -> Callable[[int], Body]:
    """A clamp's loop (0) or feet (1) in each draw: at its station, its bolt as square as the tube allows."""
    tube = part.recipe.structure.tube(loop.tube)
    start, end = draws.ends[tube.name][:, 0], draws.ends[tube.name][:, 1]
    axis = unit(end - start)
    centre = start + found.station[:, None] * axis
    n = turned(np.array(part.frame.n), pose[:, :3])
    bolt = unit(n - np.sum(n * axis, axis=1, keepdims=True) * axis)
    rows = zip(centre, axis, bolt, strict=True)
    made = [replace(loop, centre=vec(c), axis=vec(a), bolt_axis=vec(b)) for c, a, b in rows]
    return lambda i: loop_bodies(made[i])[which].body


def distances(a: Callable[[int], Body], b: Callable[[int], Body], count: int) -> Array:
    """Between two bodies, draw by draw."""
    return np.array([clearance(a(i), b(i)) for i in range(count)])


def vec(row: Sequence[float] | Array) -> Vec3:
    x, y, z = (float(each) for each in row)
    return (x, y, z)
