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
    return (*code_note(recipe), *_hole(recipe), *_up(recipe, way), *_limits(recipe), *_gravity(recipe))


def _hole(recipe: Recipe) -> Notes:
    job = recipe.asked(BushingJob)
    if job.component.hole_mm is not None:
        return ()
    drill = hole_window(job.fastener.bolt).drill
    size = show_length(drill.diameter_mm, recipe.units)
    return (("component.hole", f"{size} (drill {drill.size} of {job.fastener.bolt}; nobody measured it)"),)


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


def _gravity(recipe: Recipe) -> Notes:
    if recipe.asked(BushingJob).component.cg is not None:
        return ()
    return (("component.cg", "half way up over the middle of its holes (nobody gave it)"),)
