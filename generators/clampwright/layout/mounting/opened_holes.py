"""Holes drilled larger, or one made a slot, so that the clamps' bolts go through them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from clampwright.layout.bushing_placed import Remedy
from clampwright.layout.mounting.answers import broken, how_held
from clampwright.layout.mounting.found import first_fit
from clampwright.layout.mounting.holders import Holder
from clampwright.layout.mounting.solving import allowed_misfit, lug_hole
from clampwright.layout.mounting.ways import Way
from clampwright.layout.said import named_list
from clampwright.quantities import show_length
from clampwright.recipe.bushing_model import BushingJob
from clampwright.recipe.model import Recipe
from clampwright.trade.fasteners import nominal_mm
from clampwright.trade.hardware import Washer, washers
from clampwright.trade.tables import rule

_HALVINGS = 6
_LEAST_MM, _WORTH_MM = 0.1, 0.05
"""Shortest slot looked at, and by how much another hole's must be shorter to be taken instead."""


def larger_holes(recipe: Recipe, held: Sequence[Holder], way: Way) -> Iterator[Remedy]:
    """Diameters with which the best answer fits; not where they pass rule `larger-hole-most` or a large
    washer would not cover the hole."""
    job = recipe.asked(BushingJob)
    allowed = allowed_misfit(job, held)
    sizes = [math.hypot(*misfit) for misfit in way.misfits]
    if not _only_misses(way, recipe, allowed):
        return
    short = {i: size - allowed for i, size in enumerate(sizes, 1) if size > allowed}
    washer = _large(job.fastener.bolt)
    hole = lug_hole(job)
    needed = {i: _up(hole + 2 * over) for i, over in short.items()}
    most = rule("larger-hole-most").value * nominal_mm(job.fastener.bolt)
    covered = washer is not None and all(
        size <= most and _covers(washer, size / 2 + sizes[i - 1]) for i, size in needed.items()
    )
    if not needed or not covered or washer is None:
        return
    units = recipe.units
    says = (
        f"drill out {_listed(needed, units)} (from {show_length(hole, units)}), each under a large washer "
        f"{washer.part}, if the lugs are wide enough for such holes"
    )
    yield Remedy("larger hole", f"{says}: {how_held(way, units)}.")


def slot(recipe: Recipe, way: Way) -> Iterator[Remedy]:
    """The shortest slot at one hole with which everything else fits, on the tubes of the best answer."""
    job = recipe.asked(BushingJob)
    if job.pose.fixed:
        return
    allowed = allowed_misfit(job, way.held)
    found = _shortest(recipe, way, allowed)
    if found is None:
        return
    hole, slotted = found
    x, y = slotted.misfits[hole]
    miss = math.hypot(x, y)
    width, units = lug_hole(job), recipe.units
    length = _up(width + miss - allowed)
    size = f"{show_length(width, units)} x {show_length(length, units)}"
    says = (
        f"make hole {hole + 1} a slot {size}, lengthened along {_along(x, y)} of its own "
        "frame, under a large washer"
    )
    yield Remedy("slot", f"{says}: {how_held(slotted, units)}.")


def _listed(sizes: Mapping[int, float], units: str) -> str:
    """Holes and what they are drilled to: "holes 1 and 2 to 6.30 mm and hole 3 to 7.10 mm"."""
    alike: dict[float, list[str]] = {}
    for hole, size in sizes.items():
        alike.setdefault(round(size, 6), []).append(str(hole))
    each = (
        f"{'holes' if len(holes) > 1 else 'hole'} {named_list(tuple(holes))} to {show_length(size, units)}"
        for size, holes in alike.items()
    )
    return named_list(tuple(each))


def _shortest(recipe: Recipe, way: Way, allowed_mm: float) -> tuple[int, Way] | None:
    """The hole, and the way with the least miss there: first by doubling the miss, then by halving.

    No slot can take less than the worst misfit of the best way without one.
    """
    count, most = len(way.misfits), rule("mounting-miss-most").value
    least = max(allowed_mm, _LEAST_MM)
    if _only_misses(way, recipe, allowed_mm):
        least = max(least, *(math.hypot(*misfit) for misfit in way.misfits))
    while least < most:
        wide = 2 * least
        fits = [(i, one) for i in range(count) if (one := _with_slot(recipe, way, i, allowed_mm, wide))]
        if fits:
            return _best_of(fits, recipe, way, allowed_mm, (least, wide))
        least = wide
    return None


def _best_of(
    fits: Sequence[tuple[int, Way]], recipe: Recipe, way: Way, allowed_mm: float, between: tuple[float, float]
) -> tuple[int, Way]:
    """The hole that needs the shortest slot, the first of equals."""
    low, high = between
    best, (hole, slotted) = high, fits[0]
    for i, found in fits:
        if i != hole:
            shorter = _with_slot(recipe, way, i, allowed_mm, best - _WORTH_MM)
            if shorter is None:
                continue
            best, hole, found = best - _WORTH_MM, i, shorter
        best, slotted = _narrowed(recipe, way, i, allowed_mm, (low, best), found)
    return hole, slotted


def _narrowed(
    recipe: Recipe, way: Way, hole: int, allowed_mm: float, between: tuple[float, float], slotted: Way
) -> tuple[float, Way]:
    low, high = between
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        found = _with_slot(recipe, way, hole, allowed_mm, middle)
        if found is None:
            low = middle
        else:
            high, slotted = middle, found
    return high, slotted


def _only_misses(way: Way, recipe: Recipe, allowed_mm: float) -> bool:
    """Whether misfits are all that it does not keep."""
    return not broken(way, recipe, [math.hypot(*misfit) + allowed_mm for misfit in way.misfits])


def _with_slot(recipe: Recipe, way: Way, hole: int, allowed_mm: float, slot_mm: float) -> Way | None:
    allowed = np.full(len(way.misfits), max(allowed_mm, 1e-6))
    allowed[hole] = slot_mm
    found = first_fit(recipe, way.held, allowed)
    return None if found is None else found[1]


def _large(bolt: str) -> Washer | None:
    try:
        return next((w for w in washers(bolt) if w.kind == "large"), None)
    except LookupError:
        return None


def _covers(washer: Washer, far_mm: float) -> bool:
    """Whether a washer round the bolt covers a hole whose rim is at most so far from the bolt."""
    return washer.od_mm / 2 >= far_mm + rule("slot-cover-least").value


def _along(x: float, y: float) -> str:
    """A direction in the component's frame, unit: "[0.00, 1.00]"."""
    size = math.hypot(x, y)
    return f"[{round(x / size, 2) + 0.0:.2f}, {round(y / size, 2) + 0.0:.2f}]"


def _up(size_mm: float) -> float:
    """Rounded up to rule `slot-step`."""
    step = rule("slot-step").value
    return math.ceil(size_mm / step - 1e-9) * step
