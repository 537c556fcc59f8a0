"""The nearest body to every keep-out, in whichever state it comes nearest, with the ± of its distance."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from clampwright.checks.asked import SAME_MM
from clampwright.checks.first_look import Array, Nearest, Placed, nearest_to_each
from clampwright.checks.room import from_fixed, most_off
from clampwright.layout.bodies import Body, clearance
from clampwright.layout.clearance_known import Clear
from clampwright.layout.drift import Drift
from clampwright.layout.drifts import drifts
from clampwright.layout.joined import Joined, Named

Drifting = Callable[[Drift, int], Drift]
"""A drift as that of the body in a state, by the state's number."""


@dataclass(frozen=True, slots=True)
class States:
    """Bodies in some states, and what of the layout they are."""

    bodies: Sequence[Named]
    least: Array
    """Distances that they surely keep from the keep-outs, shape (states, bodies, keep-outs)."""
    placed: Placed
    drifting: Drifting
    moves: Array | None = None
    """How far each moves against each of the keep-outs, any way, shape (bodies, keep-outs)."""


@dataclass(frozen=True, slots=True)
class Kept:
    """What comes nearest to a keep-out."""

    what: str
    clear: Clear
    state: int


def at_rest(body: Body, _: int) -> Body:
    """A body where it is."""
    return body


def as_it_is(drift: Drift, _: int) -> Drift:
    """Its drift there."""
    return drift


def nearest_kept(
    states: States, others: Sequence[Named], asked: Sequence[float], layout: Joined
) -> list[Kept]:
    """For each keep-out the nearest body, or another that keeps what is asked but may not at worst.

    The ± is worked out for the least of all and for what may come below what is asked.
    """
    found = nearest_to_each(states.bodies, states.least, others, states.placed, states.moves)
    least = min(near.clear_mm for near in found)
    reach = 2.0 * most_off(layout)
    kept = []
    for near, other, limit in zip(found, others, asked, strict=True):
        if near.clear_mm > max(least, limit + reach):
            kept.append(Kept(states.bodies[near.body].what, Clear(near.clear_mm), near.state))
        else:
            kept.append(_worst(states, near, other, limit, layout))
    return kept


def _worst(states: States, near: Nearest, other: Named, limit: float, layout: Joined) -> Kept:
    best = _known(states, near, other, layout)
    if best.clear.mm < limit - SAME_MM:
        return best
    for each in _within(states, near, other, limit + 2.0 * most_off(layout)):
        tried = _known(states, each, other, layout)
        if tried.clear.worst_mm < min(limit, best.clear.worst_mm) - SAME_MM:
            best = tried
    return best


def _within(states: States, near: Nearest, other: Named, mm: float) -> Iterator[Nearest]:
    """Every body, in the state in which it comes nearest, that is nearer than a distance; not the nearest."""
    least = states.least[..., near.other]
    if states.moves is not None:
        least = least - states.moves[:, near.other]
    for body in np.flatnonzero(least.min(axis=0) < mm).tolist():
        if body != near.body:
            tries = [
                (clearance(states.placed(states.bodies[body].body, state), other.body), state)
                for state in np.flatnonzero(least[:, body] < mm).tolist()
            ]
            clear, state = min(tries)
            yield Nearest(state, body, near.other, clear)


def _known(states: States, near: Nearest, other: Named, layout: Joined) -> Kept:
    body, all_drifts = states.bodies[near.body], drifts(layout)
    drift = all_drifts.of(body) or all_drifts.part
    placed = states.placed(body.body, near.state)
    clear = from_fixed(placed, states.drifting(drift, near.state), other, layout)
    moved = 0.0 if states.moves is None else float(states.moves[near.body, near.other])
    return Kept(body.what, _less(clear, moved), near.state)


def _less(clear: Clear, moved_mm: float) -> Clear:
    """A distance less what is moved; nothing is sure about how far two things run into each other."""
    left = clear.mm - moved_mm
    return replace(clear, mm=left) if left > 0.0 else Clear(0.0)
