"""The ways to hold the component, best first: those that fit, or the nearest misses where none does."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from clampwright.layout.bolt_room import wrench_radius
from clampwright.layout.mounting.assignments import Search
from clampwright.layout.mounting.candidates import candidates
from clampwright.layout.mounting.holders import Holder
from clampwright.layout.mounting.normals import Refused, TubeSet, tube_sets
from clampwright.layout.mounting.plans import pattern_of, plans_of, wanted_of
from clampwright.layout.mounting.ranking import HAIR, Ranked, nut_room, ranked, shortage
from clampwright.layout.mounting.trials import Trials
from clampwright.recipe.bushing_model import BushingJob
from clampwright.trade.fasteners import nominal_mm
from clampwright.trade.holes import hole_window
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]

_WIDER, _LEAST_MM = 1.5, 0.1
_WAYS_MOST = 4_000
"""Ways at one size of misfit beyond which larger ones are not looked at: time."""


@dataclass(frozen=True, slots=True)
class Solved:
    """All that was found, in order."""

    held: tuple[Holder, ...]
    sets: tuple[TubeSet, ...]
    refused: tuple[Refused, ...]
    search: Search
    ranked: Ranked

    @property
    def allowed_mm(self) -> float:
        """Misfit that hole and bolt forgive at the tightest hole."""
        return float(self.search.allowed.min())

    @property
    def examined(self) -> int:
        """Assignments of holes to tubes and sides: all were looked at or ruled out."""
        return int((2 * len(self.held)) ** self.search.pattern.count)

    @property
    def fitting(self) -> int:
        """How many fit."""
        return int(self.ranked.fits.sum())


def solve(
    job: BushingJob, held: Sequence[Holder], *, wider: bool = True, allowed: Array | None = None
) -> Solved | None:
    """Every assignment of the holes to the tubes' sides, ranked; None where the tubes can hold nothing.

    Where none fits, larger misfits are looked at, half as large again each time, until the nearest miss is
    found for certain or rule `mounting-miss-most` is reached; not so where `wider` is false. `allowed` (m,)
    stands in for what hole and bolt forgive at each hole.
    """
    pattern = pattern_of(job.component.lugs)
    sets, refused = tube_sets(held, job.pose, pattern.count)
    if not sets:
        return None
    if allowed is None:
        allowed = np.full(pattern.count, max(allowed_misfit(job, held), HAIR))
    wanted = wanted_of(job.pose, held, sets)
    search = Search(plans_of(held, sets), pattern, wanted, allowed, allowed)
    tried = _to_make(possible(candidates(search)), job)
    while wider and not _settled(tried, search) and len(tried) < _WAYS_MOST:
        wide = replace(search, slack=np.maximum(search.slack, _LEAST_MM) * _WIDER)
        if search.slack_mm > rule("mounting-miss-most").value:
            break
        search, tried = wide, _to_make(possible(candidates(wide)), job)
    access = nut_room(tried, search, wrench_radius(job.fastener.bolt))
    order = ranked(tried, nominal_mm(job.fastener.bolt), access)
    return Solved(tuple(held), sets, refused, search, order)


def allowed_misfit(job: BushingJob, held: Sequence[Holder]) -> float:
    """What a bolt may be off its hole, mm: half its play in the lug's hole and half that in the feet's."""
    bolt = nominal_mm(job.fastener.bolt)
    foot = min(holder.clamp.foot_hole_mm for holder in held)
    return max(0.0, (lug_hole(job) - bolt) / 2) + max(0.0, (foot - bolt) / 2)


def lug_hole(job: BushingJob) -> float:
    """Diameter of the holes in the lugs: measured, else the drill of the bolt's window."""
    measured = job.component.hole_mm
    return hole_window(job.fastener.bolt).drill.diameter_mm if measured is None else measured


def anywhere(job: BushingJob) -> BushingJob:
    """The same job with nothing asked of place and turn but which way is up."""
    free = replace(job.pose, at=None, within_mm=None, along=None, turn_within_rad=math.pi, fixed=False)
    return replace(job, pose=free)


def possible(tried: Trials) -> Trials:
    """Those whose clamps are on their tubes and not in each other."""
    return tried.at((tried.off_tube <= HAIR) & (tried.crowded <= HAIR))


def _to_make(tried: Trials, job: BushingJob) -> Trials:
    """Those whose bushings are shorter than the bar they are cut from, where there are any."""
    short = tried.longest <= job.bushings.stock_length_mm - rule("bushing-facing").value
    return tried.at(short) if short.any() else tried


def _settled(tried: Trials, search: Search) -> bool:
    """Whether nothing that was not looked at can be nearer to fitting than the best that was."""
    if not len(tried):
        return False
    least = float(shortage(tried).min())
    return least <= HAIR or least <= float((search.slack - search.allowed).min())
