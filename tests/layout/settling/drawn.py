"""Second route: tubes drawn at random about the measured ones, and the part set on each, without linearising.

Nothing of the linear model is used here but the list of what errs. A part is a rigid body with a rotation
vector and a shift; a clamp is the common perpendicular of its bolt's axis and its tube's; the conditions are
solved by Gauss and Newton with differences, all draws at once. Conditions that come before others weigh a
thousand times as much.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.placed import ClampPlace, PlateLayout
from clampwright.layout.settling import settling
from clampwright.structure.tubes import Tube

Array = npt.NDArray[np.float64]
Part = PlateLayout | BushingLayout

STEP = 1e-4
FIRST, THEN = 1e3, 1.0
"""Weights of conditions: what is kept whatever happens, and what is kept as well as it goes."""


@dataclass(frozen=True)
class Draws:
    """What was drawn: ends of every tube (draws, 2, 3), and own figures by (kind, label, axis) (draws,)."""

    ends: Mapping[str, Array]
    own: Mapping[tuple[str, str, int], Array]

    def of(self, kind: str, label: str, axis: int = 0) -> Array | float:
        """An own error; 0 where there is none."""
        return self.own.get((kind, label, axis), 0.0)


def drawn(layout: Part, draws: int, seed: int) -> Draws:
    """Normal errors of one standard deviation for every cause of the layout's uncertainty."""
    rng = np.random.default_rng(seed)
    found = settling(layout)
    z = rng.normal(size=(draws, found.sure.causes))
    ends = {}
    for tube in layout.recipe.structure.tubes:
        moved = z @ found.sure.ends(tube.name).T
        ends[tube.name] = np.array([tube.start, tube.end]) + moved.reshape(draws, 2, 3)
    own = {}
    for cause in found.inputs.own:
        error = cause.sigma_mm * rng.normal(size=draws)
        own |= {(cause.kind, label, cause.axis): error for label in cause.of}
    return Draws(ends, own)


def unit(vectors: Array) -> Array:
    return np.asarray(vectors / np.linalg.norm(vectors, axis=-1, keepdims=True))


def turned(vectors: Array, rotation: Array) -> Array:
    """Vectors (3,) or (draws, 3) turned by rotation vectors (draws, 3): Rodrigues."""
    angle = np.linalg.norm(rotation, axis=1, keepdims=True)
    axis = rotation / np.where(angle > 0, angle, 1.0)
    v = np.broadcast_to(vectors, rotation.shape)
    along = np.sum(axis * v, axis=1, keepdims=True) * axis
    return np.asarray(along + (v - along) * np.cos(angle) + np.cross(axis, v) * np.sin(angle))


@dataclass(frozen=True)
class Figures:
    """Of one clamp, one a draw."""

    across: Array
    station: Array
    gap: Array
    square: Array


def figures(clamp: ClampPlace, tube: Tube, part: Part, draws: Draws, pose: Array) -> Figures:
    """Station, misfit and gap of a clamp when the part has moved by a pose (draws, 6)."""
    n = turned(np.array(part.frame.n), pose[:, :3])
    start, end = draws.ends[tube.name][:, 0], draws.ends[tube.name][:, 1]
    a = unit(end - start)
    origin = np.array(part.frame.origin)
    hole = hole_at(clamp, part)
    for axis, way in enumerate((part.frame.u, part.frame.v)):
        hole = hole + np.outer(draws.of("rounded", clamp.label, axis) * np.ones(len(pose)), way)
    bolt = origin + turned(hole - origin, pose[:, :3]) + pose[:, 3:]
    w = unit(np.cross(n, a))
    reach = clamp.clamp.reach_mm + draws.of("reach", clamp.label)
    seat = clamp.clamp.seat_mm + draws.of("seat", clamp.label)
    across = np.sum((bolt - start) * w, axis=1) - clamp.turn * reach
    past = np.cross(w, n)
    from_start = np.sum((bolt - start) * past, axis=1) / np.sum(a * past, axis=1)
    touched = start + from_start[:, None] * a
    lean = np.sum(n * a, axis=1)
    gap = np.sum((bolt - touched) * n, axis=1) - seat * np.sqrt(1 - lean**2)
    length = np.linalg.norm(end - start, axis=1)
    mark = (tube.mark_mm or 0.0) * (length / tube.length_mm - 1.0)
    return Figures(across, from_start - mark, gap, lean)


def hole_at(clamp: ClampPlace, part: Part) -> Array:
    """The clamp's bolt where it passes the part's near face, in the world."""
    c, a, n = np.array(clamp.centre), np.array(clamp.axis), np.array(part.frame.n)
    w = unit(np.cross(n, a))
    height = clamp.clamp.seat_mm * np.sqrt(1 - (n @ a) ** 2) + clamp.gap_mm
    return np.asarray(c + clamp.turn * clamp.clamp.reach_mm * w + height * n)


Conditions = Callable[[Mapping[str, Figures]], Sequence[tuple[Array, float]]]


def settle(part: Part, draws: Draws, conditions: Conditions) -> Mapping[str, Figures]:
    """Every clamp's figures after the conditions are met, less what they are with nothing drawn."""
    count = len(next(iter(draws.ends.values())))
    tubes = {tube.name: tube for tube in part.recipe.structure.tubes}
    as_laid = Draws({n: np.array([[t.start, t.end]]) for n, t in tubes.items()}, {})
    still = _all(part, as_laid, np.zeros((1, 6)))

    def off(pose: Array) -> Array:
        each = _less(_all(part, draws, pose), still)
        return np.stack([weight * values for values, weight in conditions(each)], axis=1)

    pose = np.zeros((count, 6))
    scale = np.array([100.0] * 3 + [1.0] * 3)
    for _ in range(4):
        now = off(pose)
        slopes = np.stack([(off(pose + STEP * row / scale) - now) / STEP for row in np.eye(6)], axis=2)
        pose = pose - np.einsum("nij,nj->ni", np.linalg.pinv(slopes, rcond=1e-9), now) / scale
    return _less(_all(part, draws, pose), still)


def _all(part: Part, draws: Draws, pose: Array) -> dict[str, Figures]:
    tube = part.recipe.structure.tube
    return {c.label: figures(c, tube(c.tube), part, draws, pose) for c in part.clamps}


def _less(each: Mapping[str, Figures], still: Mapping[str, Figures]) -> dict[str, Figures]:
    return {
        label: Figures(
            f.across - still[label].across,
            f.station - still[label].station,
            f.gap - still[label].gap,
            f.square - still[label].square,
        )
        for label, f in each.items()
    }


def half_width(values: Array) -> float:
    """Half of what holds 95 % of the draws about their median."""
    return float(np.percentile(np.abs(values - np.median(values)), 95))
