"""The freedom that holes leave: where along it the component is to sit.

Two holes leave one freedom, and so do any number on parallel lines. Of all places along it that keep the
clamps on their tubes, clear of welds and each other, and the pose in its limits, the one nearest to what was
asked for is taken, or the one with the most room where no place was asked for.
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from clampwright.layout.mounting.assignments import Branches, Search
from clampwright.layout.mounting.poses import Equations, nearest_shift
from clampwright.layout.mounting.trials import Trials, trials

Array = npt.NDArray[np.float64]

OFF_TUBE, SHORT, MISFIT, TURNED, ROOM = 1e4, 100.0, 100.0, 1.0, 0.1
"""What a millimetre costs: off a tube; short of room, beyond the pose's limits or beyond the allowed misfit;
of misfit; turned off the direction asked for; of room gained. One off the place asked for costs 1."""
_ANGLES, _PLACES, _ZOOMS, _FINE = 73, 97, 7, 17
_BLOCK = 60_000


def cost(tried: Trials, search: Search) -> Array:
    """What a trial costs along its freedom."""
    room = np.zeros(len(tried)) if search.wanted.place is not None else ROOM * tried.room
    beyond = np.maximum((np.abs(tried.misfit) - search.slack).max(axis=1), 0.0)
    total: Array = short(tried) + SHORT * beyond + MISFIT * tried.worst
    return total + tried.off + TURNED * tried.turned - room


def short(tried: Trials) -> Array:
    """What a trial costs for what it is short of."""
    each = tried.off_room + tried.crowded + tried.off_place
    total: Array = SHORT * each + OFF_TUBE * tried.off_tube
    return np.where(total > SHORT * 1e-6, total, 0.0)


def best_turn(found: Branches, held: Equations, search: Search) -> tuple[Array, Array]:
    """The best of all turn angles in each arc: even steps of the angle and of the place, then closer in."""
    near = nearest_shift(found, search, found.centre)
    low, high = found.centre - found.half, found.centre + found.half
    tried = np.clip(_angles(found, held, search), low[:, None], high[:, None])
    for _ in range(_ZOOMS):
        best = _cheapest_turn(found, held, tried, near, search)
        theta = tried[np.arange(len(tried)), best]
        tried = _closer(tried, theta)
    return theta, held.shift(theta, near)


def _closer(tried: Array, theta: Array) -> Array:
    """Finer steps between the two neighbours of each chosen angle."""
    at = theta[:, None]
    before = np.where(tried < at, tried, -np.inf).max(axis=1)
    after = np.where(tried > at, tried, np.inf).min(axis=1)
    before, after = np.where(np.isfinite(before), before, theta), np.where(np.isfinite(after), after, theta)
    steps = np.linspace(0.0, 1.0, _FINE)
    below = before[:, None] + (theta - before)[:, None] * steps
    above = at + (after - theta)[:, None] * steps[1:]
    return np.concatenate([below, above], axis=1)


def _angles(found: Branches, held: Equations, search: Search) -> Array:
    even = found.centre[:, None] + found.half[:, None] * np.linspace(-1.0, 1.0, _ANGLES)
    along = [np.einsum("ni,nim,nm->n", held.weak, held.inverse, each) for each in (held.d, held.a, held.b)]
    size, phi = np.hypot(along[1], along[2]), np.arctan2(along[2], along[1])
    low, high = _window(found, held, search)
    places = low[:, None] + (high - low)[:, None] * np.linspace(0.0, 1.0, _PLACES)
    turn = np.arccos(np.clip((along[0][:, None] - places) / np.maximum(size, 1e-12)[:, None], -1.0, 1.0))
    both = np.concatenate([phi[:, None] + turn, phi[:, None] - turn], axis=1)
    off = np.remainder(both - found.centre[:, None] + math.pi, 2 * math.pi) - math.pi
    return np.concatenate([even, found.centre[:, None] + off], axis=1)


def _window(found: Branches, held: Equations, search: Search) -> tuple[Array, Array]:
    """Where along the weak direction the component's origin can be at all."""
    plans, each = search.plans, found.group[:, None]
    ends = plans.start[each, found.lines]
    far = ends + plans.length[each, found.lines][..., None] * plans.run[each, found.lines]
    reach = float(np.linalg.norm(search.pattern.holes, axis=1).max())
    along = np.einsum("nmi,ni->nm", np.concatenate([ends, far], axis=1), held.weak)
    return along.min(axis=1) - reach, along.max(axis=1) + reach


def _cheapest_turn(
    found: Branches, held: Equations, theta: Array, near: Array, search: Search
) -> npt.NDArray[np.intp]:
    best = np.zeros(len(theta), dtype=np.intp)
    block = max(1, _BLOCK // theta.shape[1])
    for start in range(0, len(theta), block):
        rows = np.arange(start, min(start + block, len(theta)))
        each = np.repeat(rows, theta.shape[1])
        angles = theta[rows].ravel()
        shift = held.at(each).shift(angles, near[each])
        tried = trials(found.group[each], found.lines[each], angles, shift, search)
        best[rows] = _first_least(cost(tried, search).reshape(len(rows), -1))
    return best


def best_slide(tried: Trials, held: Equations, search: Search) -> Array:
    """The shift after the best slide along the parallel lines."""
    steps = _steps(tried, held, search)
    places = tried.shift[:, None, :] + steps[..., None] * held.weak[:, None, :]
    best = np.zeros(len(tried), dtype=np.intp)
    block = max(1, _BLOCK // steps.shape[1])
    for start in range(0, len(tried), block):
        rows = np.arange(start, min(start + block, len(tried)))
        each = np.repeat(rows, steps.shape[1])
        slid = trials(
            tried.group[each], tried.lines[each], tried.theta[each], places[rows].reshape(-1, 2), search
        )
        best[rows] = _first_least(cost(slid, search).reshape(len(rows), -1))
    chosen: Array = places[np.arange(len(tried)), best]
    return chosen


def _steps(tried: Trials, held: Equations, search: Search) -> Array:
    """Slides worth trying: none; to each end of each stretch of room, and half way between any two such; to
    the place asked for and to the edge of its limits. The best is among them, for lines that are parallel."""
    plans, each = search.plans, tried.group[:, None]
    run = plans.run[each, tried.lines]
    rate = np.einsum("nmi,ni->nm", run, held.weak) / (run * run).sum(axis=-1)
    rate = np.where(np.abs(rate) > 1e-9, rate, np.inf)
    ends = (plans.room[each, tried.lines] - tried.stations[..., None, None]) / rate[..., None, None]
    ends = np.where(np.isfinite(ends), ends, 0.0).reshape(len(tried), -1)
    i, j = np.triu_indices(ends.shape[1], 1)
    steps = [np.zeros((len(tried), 1)), ends]
    if search.wanted.place is None:
        steps.append((ends[:, i] + ends[:, j]) / 2)
    else:
        away = search.wanted.place[tried.group] - tried.shift
        foot = (away * held.weak).sum(axis=1)
        chord = np.sqrt(np.maximum(search.wanted.within_mm**2 - (away**2).sum(axis=1) + foot**2, 0.0))
        steps.append(np.stack([foot, foot - chord, foot + chord], axis=1))
    return np.concatenate(steps, axis=1)


def _first_least(costs: Array) -> npt.NDArray[np.intp]:
    """The first of the cheapest: equal but for rounding counts as equal."""
    first: npt.NDArray[np.intp] = np.argmax(costs <= costs.min(axis=1, keepdims=True) + 1e-7, axis=1)
    return first
