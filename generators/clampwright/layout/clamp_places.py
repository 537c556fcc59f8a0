"""Clamps in the part's frame, with what fills the gap under the plate and the stack on each bolt."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from clampwright.layout.clamp_plan import ClampInPlan
from clampwright.layout.clamp_stack import packed_stack
from clampwright.layout.lock_nut import lock_nut
from clampwright.layout.placed import ClampPlace, Stack, StackItem
from clampwright.quantities import Vec2
from clampwright.recipe.model import PlateJob, Recipe

_EVEN = 6
"""Decimals of a millimetre to which equal gaps are the same stack."""


def clamp_places(
    clamps: Sequence[ClampInPlan],
    exact: Sequence[Vec2],
    drilled: Sequence[Vec2],
    z_part_mm: float,
    recipe: Recipe,
) -> tuple[ClampPlace, ...]:
    """The clamps with their hole centres in the part's frame, exact and as drilled.

    The gap at a clamp is z_part − seat; z_part is the height of the plate's near face.
    """
    job = recipe.asked(PlateJob)
    fastener = job.fastener
    chosen = lock_nut(fastener, recipe.zone)

    @cache
    def stacked(gap_mm: float, feet_mm: float) -> tuple[tuple[StackItem, ...], Stack]:
        return packed_stack(
            gap_mm,
            job.plate.thickness_mm,
            feet_mm,
            fastener.bolt,
            chosen,
            recipe.zone.temperature_c,
            recipe.units,
            nut_height_mm=fastener.nut_height_mm,
        )

    places = []
    for clamp, at_exact, at in zip(clamps, exact, drilled, strict=True):
        gap = max(0.0, z_part_mm - clamp.seat_mm)
        packing, stack = stacked(round(gap, _EVEN), clamp.wanted.clamp.feet_mm)
        places.append(_place(clamp, at_exact, at, gap, packing, stack))
    return tuple(places)


def part_height(clamps: Sequence[ClampInPlan], stand_off_mm: float) -> float:
    """Height of the plate's near face: the highest seat and the stand-off asked for."""
    return max(c.seat_mm for c in clamps) + stand_off_mm


def _place(
    clamp: ClampInPlan, exact: Vec2, at: Vec2, gap: float, packing: tuple[StackItem, ...], stack: Stack
) -> ClampPlace:
    line, wanted = clamp.line, clamp.wanted
    return ClampPlace(
        label=clamp.label,
        tube=line.tube.name,
        station_mm=clamp.station_mm,
        side=wanted.side,
        turn=clamp.turn,
        clamp=wanted.clamp,
        centre=line.tube.point(clamp.station_mm),
        axis=line.tube.direction,
        bolt_axis=line.bolt_axis,
        at=at,
        at_exact=exact,
        seat_z_mm=-gap,
        packing=packing,
        gap_mm=gap,
        tilt_rad=line.tilt_rad,
        station_given=wanted.station_mm is not None,
        stack=stack,
        measured=wanted.clamp.measured,
    )
