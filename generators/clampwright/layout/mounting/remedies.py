"""What would make it fit, where nothing does as it is."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from clampwright.layout.bushing_placed import Answer, Remedy
from clampwright.layout.mounting.answers import how_held
from clampwright.layout.mounting.found import first_fit
from clampwright.layout.mounting.higher import higher
from clampwright.layout.mounting.holders import Holder
from clampwright.layout.mounting.opened_holes import larger_holes, slot
from clampwright.layout.mounting.other_clamps import other_clamps
from clampwright.layout.mounting.other_tubes import other_tubes
from clampwright.layout.mounting.plate_recipe import plate_recipe
from clampwright.layout.mounting.solving import anywhere
from clampwright.layout.mounting.ways import Way, within_pose
from clampwright.quantities import Vec3, show_angle, show_length
from clampwright.recipe.bushing_model import BushingJob
from clampwright.recipe.model import Recipe

_SAME = 1e-3
"""Parts of one by which directions may differ and be called the same."""


def remedies(recipe: Recipe, held: Sequence[Holder], way: Way) -> tuple[Remedy, ...]:
    """Everything that was found to make the component fit, the least trouble first, a plate last."""
    return tuple(_found(recipe, held, way))


def _found(recipe: Recipe, held: Sequence[Holder], way: Way) -> Iterator[Remedy]:
    yield from other_clamps(recipe, way)
    yield from higher(recipe, way)
    yield from larger_holes(recipe, held, way)
    yield from slot(recipe, way)
    yield from _elsewhere(recipe, held)
    yield from other_tubes(recipe, way)
    text = plate_recipe(recipe, way)
    if text:
        says = "carry it on an accessory plate: the plate takes the clamps' holes and the component's alike"
        yield Remedy("plate", f"{says}.", text)


def _elsewhere(recipe: Recipe, held: Sequence[Holder]) -> Iterator[Remedy]:
    """Another place on the same tubes, or another side of them."""
    job = recipe.asked(BushingJob)
    for looser in _looser(job):
        fit = first_fit(replace(recipe, job=looser), held)
        if fit is not None:
            yield Remedy("another place", f"it fits {_where(*fit, job, recipe.units)}.")
            return


def _looser(job: BushingJob) -> Iterator[BushingJob]:
    """The same component with less asked of its pose, step by step."""
    pose = job.pose
    if pose.fixed:
        yield replace(job, pose=replace(pose, fixed=False, within_mm=None, turn_within_rad=None))
    if pose.at is not None or pose.along is not None:
        yield anywhere(job)
    if pose.up is not None:
        yield replace(job, pose=replace(anywhere(job).pose, up=None))


def _where(answer: Answer, way: Way, job: BushingJob, units: str) -> str:
    """Where it then sits, and how it is held there."""
    frame = answer.frame
    place = ", ".join(show_length(c, units) for c in frame.origin)
    says = f"with its origin at {place}, its x along {_shown(frame.u)}"
    pose = job.pose
    if pose.up is not None and math.dist(frame.n, pose.up) > _SAME:
        says += f" and its z along {_shown(frame.n)}"
    if pose.at is not None:
        moved = within_pose(way, pose)
        turned = f" and turned by {show_angle(moved.turned_rad)}" if moved.turned_rad > _SAME else ""
        says += f", moved by {show_length(moved.off_mm, units)} in its plane{turned}"
    return f"{says}: {how_held(way, units)}"


def _shown(direction: Vec3) -> str:
    return f"[{', '.join(f'{round(c, 3) + 0.0:.3f}' for c in direction)}]"
