"""Moving a component that the recipe gives no place off the tubes, so that its nuts can be fitted."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from clampwright.layout.bolt_room import hole_room, pitch
from clampwright.layout.carried_room import beside_clamps, holes_at, in_plate, over_tubes
from clampwright.layout.clamps_wanted import ClampWanted
from clampwright.layout.components import SetComponent, extent
from clampwright.layout.increment import up_to
from clampwright.layout.trial_places import Site, Trial, middle_of_holes, part_heights, trial
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]

_SHORT = 1000.0
"""What a millimetre short of room costs against a millimetre of way: room comes first."""
_SAME = 1e-6


def off_the_tubes(
    chosen: Sequence[tuple[ClampWanted, float]], site: Site
) -> tuple[tuple[SetComponent, ...], tuple[int, ...]]:
    """The components, those over a tube moved as little as clears their nuts, and which were moved.

    Only components that the recipe gives no place are moved, by no more than rule `component-shift-most`
    either way; a place with room for everything is taken first, else the one that is short of least.
    """
    names = [line.tube.name for line in site.lines]
    trials = [trial(wanted, names.index(wanted.tube), np.array(at), site) for wanted, at in chosen]
    moved = []
    for index, item in enumerate(site.components):
        if item.component.at is None and _over(index, trials, site) > _SAME:
            better = _nearest_free(index, trials, site)
            if better is not item:
                moved.append(index)
                items = (*site.components[:index], better, *site.components[index + 1 :])
                site = replace(site, components=items)
    return site.components, tuple(moved)


def _over(index: int, trials: Sequence[Trial], site: Site) -> float:
    item, bolts = site.components[index], site.bolts[index]
    at, middle = np.array(item.at), middle_of_holes(trials)
    return float(over_tubes(item, bolts, at, middle, part_heights(trials, site), site))


def _nearest_free(index: int, trials: Sequence[Trial], site: Site) -> SetComponent:
    item = site.components[index]
    shifts = _shifts(site.increment_mm)
    at = np.array(item.at) + shifts
    cost = _SHORT * _short(index, at, trials, site) + np.hypot(shifts[:, 0], shifts[:, 1])
    best = int(np.argmax(cost <= cost.min() + _SAME))
    u, v = at[best].tolist()
    return SetComponent(item.component, (u, v)) if best else item


def _shifts(increment: float) -> Array:
    """Shifts to try, the nearest first; of equally near ones across the tubes before along them."""
    step = up_to(rule("station-step").value, increment)
    count = math.floor(rule("component-shift-most").value / step)
    every = [(i, j) for i in range(-count, count + 1) for j in range(-count, count + 1)]
    every.sort(key=lambda s: (s[0] ** 2 + s[1] ** 2, abs(s[0]), -s[1], -s[0]))
    return step * np.array(every, dtype=float)


def _short(index: int, at: Array, trials: Sequence[Trial], site: Site) -> Array:
    """Millimetres short of room at trial places of one component's origin.

    Clamps count only where the recipe gives a station: the others make room afterwards.
    """
    item, bolts = site.components[index], site.bolts[index]
    middle = middle_of_holes(trials)
    short = over_tubes(item, bolts, at, middle, part_heights(trials, site), site)
    if any(one.wanted.station_mm is not None for one in trials):
        short += beside_clamps(item, bolts, at, trials, middle, site)
    for place in holes_at(item, at):
        short += in_plate(place, bolts, 0.0, site)
    for other in range(len(site.components)):
        if other != index:
            short += _beside(index, other, at, site)
    return short


def _beside(index: int, other: int, at: Array, site: Site) -> Array:
    """Two components: boxes round them a gap apart in u or v, holes their pitch apart."""
    item, there = site.components[index], site.components[other]
    own, taken = extent([item]), extent([there])
    short = np.zeros(len(at))
    if own is not None and taken is not None:
        du, dv = at[:, 0] - item.at[0], at[:, 1] - item.at[1]
        beyond_u = np.maximum(own[0] + du - taken[2], taken[0] - own[2] - du)
        beyond_v = np.maximum(own[1] + dv - taken[3], taken[1] - own[3] - dv)
        short += np.maximum(rule("component-gap").value - np.maximum(beyond_u, beyond_v), 0.0)
    one, two = site.bolts[index], site.bolts[other]
    least = max(hole_room(one.fastener, two.fastener), pitch(max(one.hole_mm, two.hole_mm)))
    for place in holes_at(item, at):
        for u, v in there.holes:
            short += np.maximum(least - np.hypot(place[:, 0] - u, place[:, 1] - v), 0.0)
    return short
