"""Which answer is better: what fits first, then on two tubes, then the short, even and near."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.mounting.assignments import Search
from clampwright.layout.mounting.trials import Trials
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]

SPREAD, OFF, TURNED, TILT, ACCESS = 1.0, 0.1, 0.1, 57.3, 0.2
"""What counts as much as a millimetre of the longest bushing: of difference between the longest and the
shortest; off the place asked for; turned off the direction asked for; a degree of tilt; short of room for a
socket. Only their order of size matters."""


_STEP, _OFFSET = 0.1, 0.0317
"""Costs in one step are alike, so that rounding does not choose between two ways round; the steps begin
where no usual size does."""
HAIR = 1e-6
"""Millimetres that are only rounding."""


@dataclass(frozen=True, slots=True)
class Ranked:
    """Trials from the best to the worst, which of them fit, and by how much the others do not."""

    tried: Trials
    fits: npt.NDArray[np.bool_]
    short: Array


def ranked(tried: Trials, bolt_mm: float, access: Array) -> Ranked:
    """The trials in order.

    First those that fit, else by how many millimetres they do not, all shortages added up. Then those on
    two tubes or more, those whose bushings keep to rule `bushing-height-most`, and the cheapest; of equals
    the one whose x, then whose origin, comes first in the world.
    """
    short = shortage(tried)
    fits = short <= HAIR
    tall = tried.longest > rule("bushing-height-most").value * bolt_mm
    total = (
        tried.longest
        + SPREAD * tried.spread
        + OFF * tried.off
        + TURNED * tried.turned
        + TILT * tried.tilt
        + ACCESS * access
    )
    turn = np.round(np.cos(tried.theta), 6), np.round(np.sin(tried.theta), 6)
    keys = (
        tried.shift[:, 1],
        tried.shift[:, 0],
        -turn[1],
        -turn[0],
        np.floor((total + _OFFSET) / _STEP),
        tall,
        tried.tubes < 2,
        np.where(fits, 0.0, np.round(short, 5)),
        ~fits,
    )
    order = np.lexsort(keys)
    return Ranked(tried.at(order), fits[order], short[order])


def shortage(tried: Trials) -> Array:
    """What a trial is short of, everything added up, mm."""
    found: Array = tried.over + tried.off_tube + tried.off_room + tried.crowded + tried.off_place
    return found


def nut_room(tried: Trials, search: Search, socket_mm: float) -> Array:
    """Millimetres that sockets on the bolts are short of beside the set's other tubes, all bolts together."""
    plans = search.plans
    short = np.zeros(len(tried))
    for line in range(0, plans.there.shape[1], 2):
        start, run = plans.start[tried.group, line], plans.run[tried.group, line]
        length, there = plans.length[tried.group, line], plans.there[tried.group, line]
        away = tried.holes - start[:, None]
        at = (away * run[:, None]).sum(axis=-1) / (run * run).sum(axis=-1)[:, None]
        nearest = np.clip(at, 0.0, np.maximum(length, 0.0)[:, None])
        apart = np.linalg.norm(away - nearest[..., None] * run[:, None], axis=-1)
        own = tried.lines // 2 == line // 2
        need = plans.radius[tried.group, line][:, None] + socket_mm
        short += np.where(own | ~there[:, None], 0.0, np.maximum(need - apart, 0.0)).sum(axis=1)
    return short
