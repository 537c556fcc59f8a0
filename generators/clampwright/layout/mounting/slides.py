"""The freedom that holes leave: where along it the component is to sit.

Two holes leave one freedom, and so do any number on parallel lines. Of all places along it that keep
the clamps on their tubes, clear of welds and of each other, and the pose in its limits, the one nearest to
what was asked for is taken, or the one with the most room where no place was asked for. Where lines settle the
place only weakly (tubes that are nearly parallel) and that place does not keep its limits, as much of the
holes' clearance is used to slide as is needed.
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

from clampwright.layout.mounting.assignments import Branches, Search
from clampwright.layout.mounting.poses import Equations, least_squares, least_worst, nearest_shift
from clampwright.layout.mounting.trials import Trials, trials

Array = npt.NDArray[np.float64]
Flags = npt.NDArray[np.bool_]

OFF_TUBE, SHORT, MISFIT, TURNED, ROOM = 1e4, 100.0, 100.0, 1.0, 0.1
"""What a millimetre costs: off a tube; short of room, beyond the pose's limits or beyond the allowed misfit;
of misfit; turned off the direction asked for; of room gained. One off the place asked for costs 1."""
_WORTH_MM = 1.0
"""Slide that the clearance must allow to be worth looking at."""
_ANGLES, _PLACES, _ZOOMS, _FINE = 73, 97, 7, 17
_BLOCK = 60_000


def settled(found: Branches, held: Equations, search: Search) -> Trials:
    """Every assignment at its best place.

    The least squares where those keep to what is allowed, else the least worst misfit; and where that
    leaves a freedom the best place along it.
    """
    theta = least_squares(found, held)
    near = nearest_shift(found, search, theta)
    shift = held.shift(theta, near)
    loose = held.loose_turn()
    if loose.any():
        theta[loose], shift[loose] = _best_turn(found.at(loose), held.at(loose), search)
    worst = (np.abs(held.misfits(theta, shift)) / search.slack).max(axis=1)
    over: Flags = np.any(np.abs(held.misfits(theta, shift)) > search.allowed, axis=1)
    if over.any():
        some = held.at(over)
        evened = least_worst(found.at(over), some, search.slack, near[over])
        better = (np.abs(some.misfits(*evened)) / search.slack).max(axis=1) < worst[over]
        rows = np.nonzero(over)[0][better]
        theta[rows], shift[rows] = evened[0][better], evened[1][better]
    return _slid(found, held, theta, shift, search)


def _slid(found: Branches, held: Equations, theta: Array, shift: Array, search: Search) -> Trials:
    tried = trials(found.group, found.lines, theta, shift, search)
    left = np.maximum((search.slack - np.abs(tried.misfit)).min(axis=1), 0.0)
    give = left / np.maximum(held.grip, 1e-12)
    free, loose = held.loose_shift(), held.loose_turn()
    slides = free | ((_short(tried) > 0) & (give > _WORTH_MM) & ~loose)
    if not slides.any():
        return tried
    give = np.where(free, np.inf, give)
    shift = shift.copy()
    shift[slides] = _best_slide(tried.at(slides), held.at(slides), give[slides], search)
    return trials(found.group, found.lines, theta, shift, search)


def cost(tried: Trials, search: Search) -> Array:
    """What a trial costs along its freedom."""
    room = np.zeros(len(tried)) if search.wanted.place is not None else ROOM * tried.room
    beyond = np.maximum((np.abs(tried.misfit) - search.slack).max(axis=1), 0.0)
    total: Array = _short(tried) + SHORT * beyond + MISFIT * tried.worst
    return total + tried.off + TURNED * tried.turned - room


def _short(tried: Trials) -> Array:
    short: Array = SHORT * (tried.off_room + tried.crowded + tried.off_place) + OFF_TUBE * tried.off_tube
    return np.where(short > SHORT * 1e-6, short, 0.0)


def _best_turn(found: Branches, held: Equations, search: Search) -> tuple[Array, Array]:
    """The best of all turn angles in each arc: even steps of the angle and of the place, then closer in."""
    near = nearest_shift(found, search, found.centre)
    low, high = found.centre - found.half, found.centre + found.half
    tried = np.sort(np.clip(_angles(found, held, search), low[:, None], high[:, None]), axis=1)
    for zoom in range(_ZOOMS):
        best = _cheapest_turn(found, held, tried, near, search)
        rows = np.arange(len(tried))
        before = tried[rows, np.maximum(best - 1, 0)]
        after = tried[rows, np.minimum(best + 1, tried.shape[1] - 1)]
        if zoom == _ZOOMS - 1:
            theta = tried[rows, best]
            break
        steps = np.linspace(0.0, 1.0, _FINE)
        middle = tried[rows, best]
        below = before[:, None] + (middle - before)[:, None] * steps
        above = middle[:, None] + (after - middle)[:, None] * steps[1:]
        tried = np.concatenate([below, above], axis=1)
    return theta, held.shift(theta, near)


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


def _best_slide(tried: Trials, held: Equations, give: Array, search: Search) -> Array:
    """The shift after the best slide along the weak direction, no farther than the clearance allows."""
    steps = np.clip(_steps(tried, held, search), -give[:, None], give[:, None])
    strong = np.stack([-held.weak[:, 1], held.weak[:, 0]], axis=1)
    pull = np.einsum("nmi,ni->nm", held.nu, held.weak)
    hold = np.einsum("nmi,ni->nm", held.nu, strong)
    back = -(hold * pull).sum(axis=1) / (hold * hold).sum(axis=1)
    along = held.weak + back[:, None] * strong
    places = tried.shift[:, None, :] + steps[..., None] * along[:, None, :]
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
