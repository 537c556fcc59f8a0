"""The clamps of the chosen answer with what fills their gaps and the stack on each bolt."""

from __future__ import annotations

from clampwright.layout.bushing_making import Filled, ToFill, fill
from clampwright.layout.lock_nut import lock_nut
from clampwright.layout.mounting.ways import Way, bolt_place
from clampwright.layout.placed import ClampPlace, StackItem
from clampwright.recipe.bushing_model import BushingJob, Lug
from clampwright.recipe.model import Recipe


def places_of(way: Way, recipe: Recipe) -> tuple[tuple[ClampPlace, ...], Filled]:
    """One clamp a hole, in the recipe's order, and everything that is to be made for them."""
    job = recipe.asked(BushingJob)
    lugs = job.component.lugs
    gaps = [
        ToFill(loop.label, max(0.0, gap), _lug(lug), (_feet(loop.clamp.feet_mm),))
        for loop, gap, lug in zip(way.loops, way.gaps, lugs, strict=True)
    ]
    filled = fill(
        gaps,
        job.fastener.bolt,
        lock_nut(job.fastener, recipe.zone),
        job.bushings,
        recipe.zone.temperature_c,
        recipe.units,
        nut_height_mm=job.fastener.nut_height_mm,
    )
    return tuple(_place(i, way, job, filled) for i in range(len(lugs))), filled


def _lug(lug: Lug) -> tuple[StackItem, ...]:
    if lug.thickness_mm is None:
        return ()
    return (StackItem("component lug", "component lug", lug.thickness_mm),)


def _feet(feet_mm: float) -> StackItem:
    return StackItem("clamp feet", "clamp feet", feet_mm)


def _place(i: int, way: Way, job: BushingJob, filled: Filled) -> ClampPlace:
    loop, lug = way.loops[i], job.component.lugs[i]
    return ClampPlace(
        label=loop.label,
        tube=loop.tube,
        station_mm=loop.station_mm,
        side=loop.side,
        turn=loop.turn,
        clamp=loop.clamp,
        centre=loop.centre,
        axis=loop.axis,
        bolt_axis=loop.bolt_axis,
        tilt_rad=loop.tilt_rad,
        station_given=False,
        measured=loop.measured,
        at=lug.at,
        at_exact=bolt_place(way, job.component, i),
        seat_z_mm=lug.near_face_mm - way.gaps[i],
        packing=filled.packings[loop.label],
        gap_mm=max(0.0, way.gaps[i]),
        stack=filled.stacks[loop.label],
    )
