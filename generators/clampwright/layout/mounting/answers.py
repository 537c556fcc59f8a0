"""A way to hold the component as an answer: what it does not keep, and one sentence on it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from clampwright.layout.bushing_placed import Answer, HoleHeld
from clampwright.layout.mounting.clashes import clashes
from clampwright.layout.mounting.holders import Holder
from clampwright.layout.mounting.plans import pattern_of
from clampwright.layout.mounting.ranking import HAIR
from clampwright.layout.mounting.ways import Way
from clampwright.layout.said import named_list
from clampwright.quantities import show_angle, show_length
from clampwright.recipe.bushing_model import BushingJob
from clampwright.recipe.model import Recipe
from clampwright.trade.tables import rule


def answer(way: Way, recipe: Recipe, allowed: Sequence[float]) -> Answer:
    """The answer, with everything that it does not keep; `allowed`: misfit forgiven at each hole, mm."""
    breaks = broken(way, recipe, allowed)
    allowed_mm = min(allowed)
    sizes = [math.hypot(*misfit) for misfit in way.misfits]
    gaps = [max(0.0, gap) for gap in way.gaps]
    holes = tuple(
        HoleHeld(i + 1, loop.tube, loop.turn, loop.station_mm, misfit, gap, loop.tilt_rad)
        for i, (loop, misfit, gap) in enumerate(zip(way.loops, way.misfits, gaps, strict=True))
    )
    return Answer(
        frame=way.frame,
        holes=holes,
        worst_misfit_mm=max(sizes),
        allowed_mm=allowed_mm,
        fits=not breaks,
        breaks=breaks,
        longest_mm=max(gaps),
        spread_mm=max(gaps) - min(gaps),
        worst_tilt_rad=max(loop.tilt_rad for loop in way.loops),
        off_mm=way.off_mm,
        says=_says(way, max(sizes), allowed_mm, recipe.units),
    )


def broken(way: Way, recipe: Recipe, allowed: Sequence[float]) -> tuple[str, ...]:
    """What a way does not keep, one sentence each."""
    job = recipe.asked(BushingJob)
    return (
        *_missed(way, allowed, recipe.units),
        *_off_room(way, recipe.units),
        *_crowded(way, recipe.units),
        *_seats(way, job, recipe.units),
        *_tilted(way),
        *_off_place(way, job, min(allowed), recipe.units),
        *clashes(way, job.component, recipe.structure),
    )


def _missed(way: Way, allowed: Sequence[float], units: str) -> Iterator[str]:
    each = zip(way.loops, way.misfits, allowed, strict=True)
    for number, (loop, misfit, allowed_mm) in enumerate(each, 1):
        size = math.hypot(*misfit)
        if size > allowed_mm + HAIR:
            over = show_length(size - allowed_mm, units)
            yield (
                f"hole {number}: the bolt on {loop.tube} misses it by {show_length(size, units)}, "
                f"{over} more than hole and bolt forgive"
            )


def _off_room(way: Way, units: str) -> Iterator[str]:
    for loop, holder in zip(way.loops, _holders(way), strict=True):
        short = min(max(low - loop.station_mm, loop.station_mm - high) for low, high in holder.room)
        if short > HAIR:
            by = show_length(short, units)
            yield f"clamp {loop.label} on {loop.tube} is {by} too near to a weld or the end of the tube"


def _crowded(way: Way, units: str) -> Iterator[str]:
    together = list(zip(way.loops, _holders(way), strict=True))
    for i, (one, holder) in enumerate(together):
        for other, _ in together[i + 1 :]:
            if one.tube == other.tube:
                short = holder.apart_mm - abs(one.station_mm - other.station_mm)
                if short > HAIR:
                    by = show_length(short, units)
                    yield f"clamps {one.label} and {other.label} on {one.tube} are {by} too near together"


def _seats(way: Way, job: BushingJob, units: str) -> Iterator[str]:
    for number, (loop, gap) in enumerate(zip(way.loops, way.gaps, strict=True), 1):
        if gap < -HAIR:
            yield f"hole {number}: the foot on {loop.tube} would be {show_length(-gap, units)} inside the lug"
    least, asked = min(way.gaps), job.pose.stand_off_mm
    if -HAIR <= least < asked - HAIR:
        off, wanted = show_length(least, units), show_length(asked, units)
        yield f"the lowest lug stands {off} off its foot, not {wanted}"


def _tilted(way: Way) -> Iterator[str]:
    limit = math.radians(rule("tilt-fail").value)
    for name in dict.fromkeys(loop.tube for loop in way.loops if loop.tilt_rad > limit + 1e-9):
        tilt = next(loop.tilt_rad for loop in way.loops if loop.tube == name)
        yield f"the clamps on {name} stand {show_angle(tilt)} out of square, more than {show_angle(limit)}"


def _off_place(way: Way, job: BushingJob, allowed_mm: float, units: str) -> Iterator[str]:
    pose = job.pose
    if pose.fixed:
        return
    within = rule("mounting-within").value if pose.within_mm is None else pose.within_mm
    if pose.at is not None and way.off_mm > within + allowed_mm + HAIR:
        off, most = show_length(way.off_mm, units), show_length(within, units)
        yield f"it sits {off} from the place asked for, more than {most}"
    turn = pose.turn_within_rad
    turn = math.radians(rule("mounting-turn-within").value) if turn is None else turn
    if pose.along is not None and (way.turned_rad - turn) * pattern_of(job.component.lugs).radius_mm > HAIR:
        yield (
            f"it is turned {show_angle(way.turned_rad)} from the direction asked for, "
            f"more than {show_angle(turn)}"
        )


def _holders(way: Way) -> list[Holder]:
    by_name = {holder.tube.name: holder for holder in way.held}
    return [by_name[loop.tube] for loop in way.loops]


def how_held(way: Way, units: str) -> str:
    """Which holes go to which tubes and sides, and what gaps are left: for the middle of a sentence."""
    places: dict[str, list[str]] = {}
    for number, loop in enumerate(way.loops, 1):
        places.setdefault(f"on {loop.tube} ({_side(loop.side)})", []).append(str(number))
    groups = [f"{_holes(numbers)} {where}" for where, numbers in places.items()]
    gaps = [max(0.0, gap) for gap in way.gaps]
    low, high = show_length(min(gaps), units), show_length(max(gaps), units)
    filled = f"gaps of {high} to fill" if low == high else f"gaps of {low} to {high} to fill"
    return f"{', '.join(groups)}; {filled}"


def _holes(numbers: Sequence[str]) -> str:
    return f"{'hole' if len(numbers) == 1 else 'holes'} {named_list(tuple(numbers))}"


def _says(way: Way, worst: float, allowed_mm: float, units: str) -> str:
    held = how_held(way, units)
    missed, allowed = show_length(worst, units), show_length(allowed_mm, units)
    bolts = f"bolts within {missed} of their holes ({allowed} allowed)"
    return f"{held[0].upper()}{held[1:]}; {bolts}."


def _side(side: str) -> str:
    return f"to its {side}" if side in ("left", "right") else side
