"""A "component bushings" recipe to its layout."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations

from clampwright.layout.bushing_joints import joints_of
from clampwright.layout.bushing_placed import Answer, BushingLayout
from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.clash_bodies import point
from clampwright.layout.hardware_list import joined_hardware
from clampwright.layout.how_sure import known_to
from clampwright.layout.mounting.answers import answer
from clampwright.layout.mounting.assumed import notes_of
from clampwright.layout.mounting.clamp_places import places_of
from clampwright.layout.mounting.found import Found, find
from clampwright.layout.mounting.holders import Holder, holders
from clampwright.layout.mounting.normals import tube_sets
from clampwright.layout.mounting.remedies import remedies
from clampwright.layout.mounting.solving import allowed_misfit, anywhere
from clampwright.layout.mounting.ways import Way, component_box, within_pose
from clampwright.layout.said import named_list
from clampwright.quantities import Vec3, show_length
from clampwright.recipe.bushing_model import BushingJob, MountedComponent
from clampwright.recipe.model import Recipe


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
    found = find(recipe, held, 1 + job.show)
    if not found.answers:
        found = find(replace(recipe, job=anywhere(job)), held, 1 + job.show)
        found = Found(tuple(_judged(recipe, way, held) for _, way in found.answers), found.examined, 0)
    if not found.answers:
        raise CannotLayOut(*_why_nothing(job, held, recipe.units))
    return _laid_out(recipe, held, found)


def _judged(recipe: Recipe, way: Way, held: tuple[Holder, ...]) -> tuple[Answer, Way]:
    """An answer that was found without the pose's limits, held against them."""
    job = recipe.asked(BushingJob)
    placed = within_pose(way, job.pose)
    return answer(placed, recipe, [allowed_misfit(job, held)] * len(job.component.lugs)), placed


def _why_nothing(job: BushingJob, held: tuple[Holder, ...], units: str) -> tuple[str, str]:
    """Why there is no answer, and what to change."""
    sets, refused = tube_sets(held, job.pose, len(job.component.lugs))
    names, component = named_list(tuple(h.tube.name for h in held)), job.component.name
    if refused and all(len(each.members) < 2 for each in sets):
        worst = refused[-1]
        theirs = named_list(tuple(held[i].tube.name for i in worst.members))
        return f"{theirs} cannot carry {component} together: {worst.why}", worst.change
    change = "name other tubes in clamps.on, or hold it on an accessory plate"
    apart, one, other = _nearest_holes(job)
    need = min(h.apart_mm for h in held)
    if apart < need:
        shown, wanted = show_length(apart, units), show_length(need, units)
        says = f"holes {one} and {other} of {component} are {shown} apart"
        return f"{says}, and two clamps on one tube need {wanted}", change
    return f"no clamps on {names} come near the holes of {component} at once", change


def _nearest_holes(job: BushingJob) -> tuple[float, int, int]:
    """The distance between the two holes that are nearest together, and their numbers."""
    lugs = enumerate(job.component.lugs, 1)
    return min((math.dist(a.at, b.at), i, j) for (i, a), (j, b) in combinations(lugs, 2))


def _laid_out(recipe: Recipe, held: tuple[Holder, ...], found: Found) -> BushingLayout:
    job = recipe.asked(BushingJob)
    best, way = found.answers[0]
    clamps, filled = places_of(way, recipe)
    gravity, assumed = _gravity(job.component, way)
    layout = BushingLayout(
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
        remedies=() if best.fits else remedies(recipe, held, way),
        hardware=joined_hardware(clamps, joints_of(clamps, best.frame, job.component)),
        assumed=notes_of(recipe, way),
    )
    return replace(layout, known_to=known_to(layout))


def _gravity(component: MountedComponent, way: Way) -> tuple[Vec3, bool]:
    """Centre of gravity in the world, and whether it was taken half way up over the middle of the holes."""
    if component.cg is not None:
        x, y, z = component.cg
        return point(way.frame, (x, y), z), False
    places = [lug.at for lug in component.lugs]
    x, y = (sum(p[i] for p in places) / len(places) for i in (0, 1))
    height = component.body_base_mm + component.body[2] / 2 if component.body is not None else 0.0
    return point(way.frame, (x, y), height), True
