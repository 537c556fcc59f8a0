"""What the layout of a component on bushings took for granted."""

from __future__ import annotations

import math

from clampwright.layout.mounting.holders import code_note
from clampwright.layout.mounting.ways import Way
from clampwright.quantities import show_length
from clampwright.recipe.bushing_model import BushingJob
from clampwright.recipe.model import Recipe
from clampwright.trade.holes import hole_window
from clampwright.trade.tables import rule

Notes = tuple[tuple[str, str], ...]


def notes_of(recipe: Recipe, way: Way) -> Notes:
    """(what, value and why) of everything that was left out and filled in."""
    return (
        *code_note(recipe),
        *_component(recipe, way),
        *_up(recipe, way),
        *_place(recipe),
        *_limits(recipe),
    )


def _component(recipe: Recipe, way: Way) -> Notes:
    job, found = recipe.asked(BushingJob), []
    component = job.component
    if component.hole_mm is None:
        drill = hole_window(job.fastener.bolt).drill
        size = show_length(drill.diameter_mm, recipe.units)
        found.append(
            ("component.hole", f"{size} (drill {drill.size} for {job.fastener.bolt}; nobody measured it)")
        )
    if any(lug.thickness_mm is None for lug in component.lugs):
        found.append(("component.lug", "not known, left out of the stacks: each is thicker by its lug"))
    if component.cg is None:
        found.append(("component.cg", "half way up over the middle of its holes (nobody gave it)"))
    return (*found, _foot_hole(recipe, way))


def _foot_hole(recipe: Recipe, way: Way) -> tuple[str, str]:
    """What the allowed misfit rests on beside the hole in the lug."""
    hole = show_length(min(holder.clamp.foot_hole_mm for holder in way.held), recipe.units)
    return (
        "clamps.hole",
        f"{hole} in the feet (the family's, not measured; half its play counts as allowed)",
    )


def _place(recipe: Recipe) -> Notes:
    pose, found = recipe.asked(BushingJob).pose, []
    if pose.at is None:
        found.append(("pose.at", "wherever it fits, with most room for its clamps (chosen by the tool)"))
    if pose.along is None:
        found.append(("pose.along", "whichever way it fits (chosen by the tool)"))
    return tuple(found)


def _up(recipe: Recipe, way: Way) -> Notes:
    if recipe.asked(BushingJob).pose.up is not None:
        return ()
    shown = ", ".join(f"{round(c, 2) + 0.0:g}" for c in way.frame.n)
    off = math.degrees(math.acos(max(-1.0, min(1.0, way.frame.n[2]))))
    far = f", {off:.0f} deg off it" if off > rule("upwards-off-most").value else ""
    return (("pose.up", f"upwards; its z looks along [{shown}]{far}"),)


def _limits(recipe: Recipe) -> Notes:
    pose, found = recipe.asked(BushingJob).pose, []
    if pose.at is not None and pose.within_mm is None and not pose.fixed:
        found.append(("pose.within", f"{show_length(rule('mounting-within').value, recipe.units)} (by rule)"))
    if pose.along is not None and pose.turn_within_rad is None and not pose.fixed:
        found.append(("pose.turn_within", f"{rule('mounting-turn-within').value:g} deg (by rule)"))
    return tuple(found)
