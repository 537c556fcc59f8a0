"""Where each assignment puts the component: the least misfit, the best of what is free, inside the limits."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from clampwright.layout.mounting.assignments import Branches, Search
from clampwright.layout.mounting.least_worst import COARSE, least_worst
from clampwright.layout.mounting.poses import (
    Equations,
    least_squares,
    nearest_shift,
    with_inverse,
)
from clampwright.layout.mounting.slides import best_slide, best_turn, cost, short
from clampwright.layout.mounting.trials import Trials, trials

Array = npt.NDArray[np.float64]
Flags = npt.NDArray[np.bool_]

_HALVINGS = 30
_ROUNDS = 2
_HOPEFUL = 1.5
"""Share of what is allowed up to which a coarse look still hopes."""
_LEAST_MM = 1e-3
_INSIDE_MM = 1e-7


def settled(found: Branches, held: Equations, search: Search) -> Trials:
    """Every assignment at its best place.

    The least squares where those keep to what is allowed, else the least worst misfit; where that leaves a
    freedom the best place along it; and where it does not keep the limits of the pose or the stretches of
    tube that are clear of welds, as near to it as the holes' clearance lets the component come inside them.
    """
    theta = least_squares(found, held)
    near = nearest_shift(found, search, theta)
    shift = held.shift(theta, near)
    loose = held.loose_turn()
    if loose.any():
        theta[loose], shift[loose] = best_turn(found.at(loose), held.at(loose), search)
    _even_out(found, held, theta, shift, near, search)
    tried = trials(found.group, found.lines, theta, shift, search)
    free = held.loose_shift()
    if free.any():
        shift[free] = best_slide(tried.at(free), held.at(free), search)
        tried = trials(found.group, found.lines, theta, shift, search)
    outside = (short(tried) > 0) & ~loose
    some = np.nonzero(outside)[0]
    some = some[_hopeful(found.at(some), held.at(some), tried.at(some), search)]
    if len(some):
        theta[some], shift[some] = _inside(found.at(some), held.at(some), tried.at(some), search)
        tried = trials(found.group, found.lines, theta, shift, search)
    return tried


def _even_out(
    found: Branches, held: Equations, theta: Array, shift: Array, near: Array, search: Search
) -> None:
    """Put those whose least squares miss by too much where their worst misfit is the least."""
    sizes = np.abs(held.misfits(theta, shift))
    over = np.nonzero(np.any(sizes > search.allowed, axis=1))[0]
    if not len(over):
        return
    some = held.at(over)
    evened = least_worst(found.at(over), some, search.slack, near[over])
    better = _worst(some, *evened, search) < (sizes[over] / search.slack).max(axis=1)
    theta[over[better]], shift[over[better]] = evened[0][better], evened[1][better]


def _hopeful(found: Branches, held: Equations, tried: Trials, search: Search) -> Flags:
    """Which of them may come inside: a coarse look that keeps whatever is near to it."""
    if not len(tried):
        return np.zeros(0, dtype=bool)
    rows, slack = _limits(held, tried, search)
    theta, shift = least_worst(found, rows, slack, tried.shift, COARSE)
    near: Flags = (np.abs(rows.misfits(theta, shift)) / slack).max(axis=1) < _HOPEFUL
    return near


def _inside(found: Branches, held: Equations, tried: Trials, search: Search) -> tuple[Array, Array]:
    """Poses brought inside the limits where misfits within the slack allow it; the others as they were.

    A stretch of tube and the circle round the place asked for are strips of the plane like a hole's play, so
    the least worst of misfits and limits, each as a share of what it may be, tells whether all can be kept.
    From there the component goes back towards the least misfit as far as it stays inside.
    """
    theta, shift, toward = tried.theta.copy(), tried.shift.copy(), tried
    for _ in range(_ROUNDS):
        rows, slack = _limits(held, toward, search)
        theta, shift = least_worst(found, rows, slack, tried.shift)
        toward = trials(found.group, found.lines, theta, shift, search)
    better = (cost(toward, search) < cost(tried, search)) & (_worst(held, theta, shift, search) <= 1 + 1e-9)
    theta, shift = np.where(better, theta, tried.theta), np.where(better[:, None], shift, tried.shift)
    return _back(found, held, tried, (theta, shift), search)


def _back(
    found: Branches, held: Equations, tried: Trials, inside: tuple[Array, Array], search: Search
) -> tuple[Array, Array]:
    """As near to the trial as the pose stays inside."""
    low, high = np.zeros(len(tried)), np.ones(len(tried))
    turn, step = inside[0] - tried.theta, inside[1] - tried.shift
    least = short(trials(found.group, found.lines, *inside, search)) + _INSIDE_MM
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        theta, shift = tried.theta + middle * turn, tried.shift + middle[:, None] * step
        keeps = short(trials(found.group, found.lines, theta, shift, search)) <= least
        keeps &= _worst(held, theta, shift, search) <= 1 + 1e-9
        low, high = np.where(keeps, low, middle), np.where(keeps, middle, high)
    return tried.theta + high * turn, tried.shift + high[:, None] * step


def _worst(held: Equations, theta: Array, shift: Array, search: Search) -> Array:
    worst: Array = (np.abs(held.misfits(theta, shift)) / search.slack).max(axis=1)
    return worst


def _limits(held: Equations, tried: Trials, search: Search) -> tuple[Equations, Array]:
    """The holes' equations and, as equations of the same form, the limits; and what each may miss (n, k)."""
    plans, each = search.plans, tried.group[:, None]
    run = plans.run[each, tried.lines]
    size = np.linalg.norm(run, axis=-1)
    along = run / size[..., None]
    room = plans.room[each, tried.lines]
    off = np.maximum(room[..., 0] - tried.stations[..., None], tried.stations[..., None] - room[..., 1])
    nearest = np.take_along_axis(room, np.argmin(off, axis=-1)[..., None, None], axis=2)[..., 0, :]
    middle, half = nearest.mean(axis=-1) * size, (nearest[..., 1] - nearest[..., 0]) / 2 * size
    holes = search.pattern.holes
    parts = [
        (held.nu, held.d, held.a, held.b, np.broadcast_to(search.slack, held.d.shape)),
        (
            along,
            (along * plans.start[each, tried.lines]).sum(axis=-1) + middle,
            along[..., 0] * holes[:, 0] + along[..., 1] * holes[:, 1],
            along[..., 1] * holes[:, 0] - along[..., 0] * holes[:, 1],
            half,
        ),
    ]
    if search.wanted.place is not None:
        place = search.wanted.place[tried.group]
        away = tried.shift - place
        out = (away / np.maximum(np.linalg.norm(away, axis=1), 1e-9)[:, None])[:, None, :]
        none = np.zeros((len(tried), 1))
        within = np.full((len(tried), 1), search.wanted.within_mm)
        parts.append((out, (out[:, 0] * place).sum(axis=1)[:, None], none, none, within))
    nu, d, a, b, slack = (np.concatenate(each, axis=1) for each in zip(*parts, strict=True))
    return with_inverse(nu, d, a, b), np.maximum(slack, _LEAST_MM)
