"""A plan for points whose places are known by eye: as many readings, exchanged until the worst ± is least."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.structure.survey.fit import Fit
from clampwright.structure.survey.generic import rows_at
from clampwright.structure.survey.kinds import Array
from clampwright.structure.survey.model import Survey
from clampwright.structure.survey.plan_order import Wanted, key_of
from clampwright.structure.survey.rigidity import end_columns
from clampwright.trade.tables import rule

_NEAR_WORST = 8
"""Power of a mean of variances that is nearly their greatest, but feels the next ones too."""

_BETTER = 1e-4
"""Share by which an exchange must better that mean."""

_TRIED = 12
"""So many of what narrows most are tried before it is given up."""

_POOL = 2000
"""More distances than this are not all tried."""


@dataclass(slots=True)
class _Plan:
    rows: Array
    """Of everything that could be taken, shape (wanted, free)."""
    taken: npt.NDArray[np.bool_]
    swaps: npt.NDArray[np.bool_]
    """What may be given up for something else."""
    ends: npt.NDArray[np.bool_]
    before: Array
    """Rows of conditions and of what was measured."""

    def covariance(self) -> Array:
        """Of the free coordinates."""
        rows = np.vstack([self.before, self.rows[self.taken]])
        return np.asarray(np.linalg.inv(rows.T @ rows), dtype=float)

    def least_checked(self, covariance: Array) -> float:
        """Least redundancy of what is taken."""
        rows = self.rows[self.taken]
        return float(np.min(1.0 - np.sum((rows @ covariance) * rows, axis=1), initial=1.0))


def exchanged(
    survey: Survey, found: Fit, chosen: Sequence[Wanted], offered: Sequence[Wanted], kept: Sequence[Wanted]
) -> tuple[Wanted, ...]:
    """As many measurements as chosen, those in `kept` among them, with a smaller worst ± of tubes' ends.

    One by one the distance that narrows most is put in, and the one that is missed least taken out. No
    reading comes to be checked less than by the plan to begin with, or than `survey-plan-checked` asks for.
    """
    keys = {key_of(w.measurement) for w in chosen}
    pool = (*chosen, *(w for w in offered[:_POOL] if key_of(w.measurement) not in keys))
    held = {key_of(w.measurement) for w in kept}
    rows = rows_at(survey, [w.measurement for w in pool], found)
    swaps = np.array([key_of(w.measurement) not in held for w in pool])
    plan = _Plan(
        rows, np.arange(len(pool)) < len(chosen), swaps, end_columns(survey, found.equations), found.jacobian
    )
    _exchange(plan)
    return tuple(w for w, taken in zip(pool, plan.taken, strict=True) if taken)


def _exchange(plan: _Plan) -> None:
    covariance = plan.covariance()
    least = min(rule("survey-plan-checked").value, plan.least_checked(covariance))
    for _ in range(3 * int(np.sum(plan.taken))):
        now = _spread(np.diag(covariance)[None, plan.ends])[0]
        narrowed = np.where(plan.taken, np.inf, np.round(_with(plan, covariance, 1.0), 12))
        order = [int(i) for i in np.argsort(narrowed, kind="stable")[:_TRIED] if np.isfinite(narrowed[i])]
        if not any(_swapped(plan, new, least, (1.0 - _BETTER) * now) for new in order):
            return
        covariance = plan.covariance()


def _swapped(plan: _Plan, new: int, least: float, most: float) -> bool:
    """Put one in and the one that is missed least out, if that leaves a spread of no more than `most`."""
    plan.taken[new] = True
    after = _with(plan, plan.covariance(), -1.0)
    for old in np.argsort(np.round(after, 12), kind="stable"):
        if after[old] > most:
            break
        if plan.taken[old] and plan.swaps[old] and old != new and _still_checked(plan, int(old), least):
            plan.taken[old] = False
            return True
    plan.taken[new] = False
    return False


def _still_checked(plan: _Plan, number: int, least: float) -> bool:
    plan.taken[number] = False
    checked = plan.least_checked(plan.covariance()) >= least - 1e-9
    plan.taken[number] = True
    return checked


def _with(plan: _Plan, covariance: Array, sign: float) -> Array:
    """The worst spread with each row put in (1) or taken out (-1): Q' = Q ∓ Qc cᵀQ / (1 ± cᵀQc)."""
    felt = plan.rows @ covariance
    more = 1.0 + sign * np.sum(felt * plan.rows, axis=1)
    safe = np.where(more > 1e-6, more, np.inf)
    left = np.diag(covariance)[None, plan.ends] - sign * felt[:, plan.ends] ** 2 / safe[:, None]
    return np.where(more > 1e-6, _spread(np.maximum(left, 0.0)), np.inf)


def _spread(variances: Array) -> Array:
    return np.asarray(np.mean(variances**_NEAR_WORST, axis=-1) ** (1.0 / _NEAR_WORST), dtype=float)
