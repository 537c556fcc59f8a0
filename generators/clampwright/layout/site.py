"""The site that clamps and components share, from the recipe."""

from __future__ import annotations

import math
from collections.abc import Sequence

from clampwright.layout.clamps_wanted import ClampWanted
from clampwright.layout.components import SetComponent
from clampwright.layout.drilled_holes import Finish
from clampwright.layout.frame import Attitude
from clampwright.layout.outline import Outline
from clampwright.layout.placed_components import component_stack
from clampwright.layout.station_room import Room, room
from clampwright.layout.trial_places import Bolted, Site
from clampwright.layout.tube_lines import TubeLine, tube_lines
from clampwright.layout.under_plate import NOTHING, nut_under
from clampwright.quantities import Vec2
from clampwright.recipe.model import Component, PlateJob, Recipe
from clampwright.structure.nodes import nodes
from clampwright.trade.tables import rule


def site_of(
    recipe: Recipe,
    stands: Attitude,
    lines: tuple[TubeLine, ...],
    wanted: Sequence[ClampWanted],
    components: tuple[SetComponent, ...],
    done: Sequence[Finish],
    outline: Outline | None,
) -> Site:
    """Everything that stations and places of components are held against.

    `done` are the finishes of the clamp holes, then of each component's holes; `outline` is the polygon
    that the recipe gives.
    """
    job = recipe.asked(PlateJob)
    carried = zip(job.carries, done[1:], strict=True)
    return Site(
        lines=lines,
        passing=_passing(recipe, stands, lines),
        rooms=_rooms(recipe, lines, wanted),
        components=components,
        clamp_bolt=Bolted(job.fastener.bolt, done[0].diameter_mm, NOTHING),
        bolts=tuple(_bolted(component, how, recipe) for component, how in carried),
        cut_outs=_cut_outs(job),
        outline=outline,
        stand_off_mm=job.plate.stand_off_mm,
        increment_mm=job.plate.round_to_mm,
    )


def _passing(recipe: Recipe, stands: Attitude, lines: Sequence[TubeLine]) -> tuple[TubeLine, ...]:
    """Every tube that runs along under the plate; one that comes down on it steeply is no line in plan."""
    steep = math.radians(rule("tilt-most").value)
    every = tube_lines(recipe.structure.tubes, stands, lines[0].reference)
    return tuple(line for line in every if line.tilt_rad <= steep)


def _rooms(recipe: Recipe, lines: Sequence[TubeLine], wanted: Sequence[ClampWanted]) -> tuple[Room, ...]:
    known = nodes(recipe.structure)
    rooms = []
    for line in lines:
        bands = [w.clamp.band_width_mm for w in wanted if w.tube == line.tube.name]
        rooms.append(room(line.tube, known, max(bands), len(bands)))
    return tuple(rooms)


def _bolted(component: Component, how: Finish, recipe: Recipe) -> Bolted:
    stack = component_stack(component, recipe) if component.holes else None
    under = NOTHING if stack is None else nut_under(stack)
    return Bolted(component.fastener, how.diameter_mm, under)


def _cut_outs(job: PlateJob) -> tuple[tuple[Vec2, float], ...]:
    """Lightening holes with a given place; one without a diameter is kept room for the least."""
    least = rule("lightening-least").value
    return tuple(
        (hole.at, (hole.diameter_mm if hole.diameter_mm is not None else least) / 2)
        for hole in job.plate.lightening
        if hole.at is not None
    )
