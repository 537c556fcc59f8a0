"""A "component bushings" recipe to its layout."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.layout.bushing_joints import joints_of
from clampwright.layout.bushing_placed import Answer, BushingLayout, Remedy
from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.clash_bodies import point
from clampwright.layout.hardware_list import joined_hardware
from clampwright.layout.mounting.answers import answer
from clampwright.layout.mounting.assumed import notes_of
from clampwright.layout.mounting.clamp_places import places_of
from clampwright.layout.mounting.fixed_pose import fixed_ways
from clampwright.layout.mounting.holders import Holder, holders
from clampwright.layout.mounting.solving import Solved, allowed_misfit, anywhere, solve
from clampwright.layout.mounting.ways import Way, component_box, way_of
from clampwright.quantities import Vec3
from clampwright.recipe.bushing_model import BushingJob, MountedComponent
from clampwright.recipe.model import Recipe

_LOOKED_AT = 40
"""Ranked answers whose bodies are looked at beyond those shown, before the least bad is taken."""


@dataclass(frozen=True, slots=True)
class Found:
    """Answers, best first, each with its way, and how many there were."""

    answers: tuple[tuple[Answer, Way], ...]
    examined: int
    fitting: int


def lay_out_bushings(recipe: Recipe) -> BushingLayout:
    """Where the component sits, which clamp holds which hole, and how long each bushing is.

    Raises
    ------
    CannotLayOut
        Where geometry forbids any answer; everything else is told in the answer's `breaks`.

    Examples
    --------
    Two parallel tubes, clamps with a measured reach of 20 mm: the holes lie on lines 110 mm apart.

    >>> from clampwright.recipe.read import read_text
    >>> lines = [
    ...     'kind = "component bushings"',
    ...     'name = "separator"',
    ...     "clamps.reach = 20",
    ...     "structure.tubes.low = { start = [0, 0, 0], end = [500, 0, 0], od = 19.05 }",
    ...     "structure.tubes.high = { start = [0, 150, 0], end = [500, 150, 0], od = 19.05 }",
    ...     "component.name = 'separator'",
    ...     "component.mass = '0.5 kg'",
    ...     "component.holes = [[-30, -55], [30, -55], [0, 55]]",
    ...     "component.near_faces = [0, 0, 4]",
    ...     "pose.at = [200, 75, 20]",
    ... ]
    >>> layout = lay_out_bushings(read_text("\\n".join(lines)))
    >>> [clamp.label for clamp in layout.clamps], [round(clamp.gap_mm, 6) for clamp in layout.clamps]
    (['A1', 'A2', 'B1'], [0.0, 0.0, 4.0])
    """
    job = recipe.asked(BushingJob)
    held = holders(recipe)
    found = _fixed(recipe, job, held) if job.pose.fixed else _solved(recipe, job, held)
    return _laid_out(recipe, found)


def _fixed(recipe: Recipe, job: BushingJob, held: tuple[Holder, ...]) -> Found:
    allowed = allowed_misfit(job, held)
    ways = fixed_ways(job, held, allowed)
    found = [(answer(way, recipe, allowed), way) for way in ways[: _LOOKED_AT + job.show]]
    found.sort(key=lambda each: not each[0].fits)
    examined = int((2 * len(held)) ** len(job.component.lugs))
    return Found(tuple(found[: 1 + job.show]), examined, sum(each[0].fits for each in found))


def _solved(recipe: Recipe, job: BushingJob, held: tuple[Holder, ...]) -> Found:
    solved = solve(job, held)
    if solved is None or not len(solved.ranked.tried):
        solved = solve(anywhere(job), held)
    if solved is None or not len(solved.ranked.tried):
        raise CannotLayOut(*_why_nothing(job, held))
    found: list[tuple[Answer, Way]] = []
    most = min(len(solved.ranked.tried), job.show + 1 + _LOOKED_AT)
    for number in range(most):
        way = way_of(solved, number)
        found.append((answer(way, recipe, solved.allowed_mm), way))
        if sum(each[0].fits for each in found) > job.show:
            break
    found.sort(key=lambda each: not each[0].fits)
    return Found(tuple(found[: job.show + 1]), solved.examined, _fitting(solved, found))


def _fitting(solved: Solved, found: list[tuple[Answer, Way]]) -> int:
    """Those that fit by arithmetic, less those looked at whose bodies are in each other."""
    seen = solved.ranked.fits[: len(found)].sum() - sum(each[0].fits for each in found)
    return int(solved.fitting - max(0, seen))


def _why_nothing(job: BushingJob, held: tuple[Holder, ...]) -> tuple[str, str]:
    names = ", ".join(h.tube.name for h in held)
    return (
        f"no clamps on {names} come near the holes of {job.component.name} at once",
        "name other tubes in clamps.on, or hold it on an accessory plate",
    )


def _laid_out(recipe: Recipe, found: Found) -> BushingLayout:
    job = recipe.asked(BushingJob)
    best, way = found.answers[0]
    clamps, filled = places_of(way, recipe)
    gravity, assumed = _gravity(job.component, way)
    remedies: tuple[Remedy, ...] = ()
    return BushingLayout(
        recipe=recipe,
        frame=best.frame,
        answer=best,
        others=tuple(each for each, _ in found.answers[1:]),
        examined=found.examined,
        fitting=found.fitting,
        clamps=clamps,
        component=component_box(job.component, best.frame),
        centre_of_gravity=gravity,
        cg_assumed=assumed,
        cuts=filled.cuts,
        bushings=filled.parts,
        remedies=remedies,
        hardware=joined_hardware(clamps, joints_of(clamps, best.frame, job.component)),
        assumed=notes_of(recipe, way),
    )


def _gravity(component: MountedComponent, way: Way) -> tuple[Vec3, bool]:
    """Centre of gravity in the world, and whether it was taken half way up over the middle of the holes."""
    if component.cg is not None:
        x, y, z = component.cg
        return point(way.frame, (x, y), z), False
    places = [lug.at for lug in component.lugs]
    x, y = (sum(p[i] for p in places) / len(places) for i in (0, 1))
    height = component.body_base_mm + component.body[2] / 2 if component.body is not None else 0.0
    return point(way.frame, (x, y), height), True
