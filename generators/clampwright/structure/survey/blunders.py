"""Measurements that the others contradict: Baarda's data snooping, one after the other.

w = |v| / (σ √r) for a residual v of redundancy r; the greatest w above the limit is left out, the rest
adjusted anew, until none stands out. The limit is such that a survey without a blunder is refused no more
often than by rule, however many measurements it has. What was left out comes back where the rest does not
contradict it after all. Where that leaves out many, or the rest still disagrees, and the typical residual
says that the stated ± is too small throughout, the limit grows with it: then the ± is at fault, and no
single measurement.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from clampwright.structure.survey.adjust import adjust
from clampwright.structure.survey.equations import Equations
from clampwright.structure.survey.fit import Fit, fit, look_at, scales
from clampwright.structure.survey.kinds import Array
from clampwright.structure.survey.suspects import as_likely, guiltiest
from clampwright.trade.tables import rule

_WIDE = 3.0
"""How many times as wide as for the stated errors the loss is by whose figure these are judged."""

_MEDIAN = 0.6745
"""Median of |x| for a normal x of standard deviation 1."""


@dataclass(frozen=True, slots=True)
class Snooped:
    """The figure without the blunders, and which measurements those are, the greatest first."""

    fit: Fit
    left_out: tuple[int, ...]
    limit: float
    """w from which a measurement counted as a blunder."""
    doubles: tuple[tuple[int, ...], ...]
    """For each, the other measurements that explain the contradiction as well."""


def snoop(equations: Equations, figure: Array) -> Snooped:
    """Find the blunders, starting from a robust figure (places, 3)."""
    limit = refusing_limit(equations)
    found = _snooped(equations, figure, limit)
    if _explains(found):
        return found
    wider = _too_optimistic(equations, figure)
    return found if wider == 1.0 else _snooped(equations, figure, limit * wider)


def refusing_limit(equations: Equations) -> float:
    """w above which a measurement is a blunder: z of α / 2n, α the chance that any of n good ones has it."""
    from scipy.special import ndtri

    count = max(int(np.sum(equations.of >= 0)), 1)
    return -float(ndtri(rule("survey-false-alarm-most").value / (2.0 * count)))


def _snooped(equations: Equations, figure: Array, limit: float) -> Snooped:
    best, left_out = fit(equations, figure[None], np.ones(equations.rows)), list[int]()
    while (number := guiltiest(best, limit)) is not None:
        left_out.append(number)
        best = _again(equations, best, figure, left_out)
    best, left_out = _taken_back(equations, best, figure, left_out, limit)
    doubles = tuple(_as_likely(equations, best, left_out, number) for number in left_out)
    return Snooped(best, tuple(left_out), limit, doubles)


def _explains(found: Snooped) -> bool:
    """Whether a few blunders are all that is wrong: without them the rest agrees as its ± allows."""
    scale, most = scales(found.fit)
    measurements = int(np.max(found.fit.equations.of, initial=-1)) + 1
    return scale <= most and len(found.left_out) <= rule("survey-blunders-most").value * measurements


def predicted(found: Fit, row: int) -> tuple[float, float]:
    """What a row left out misses the others' answer by, and one standard deviation of that answer.

    Both in the row's own standard deviations.
    """
    jacobian = found.jacobian[row]
    return float(-found.residuals[row]), float(np.sqrt(np.sum((jacobian @ found.held) ** 2)))


def rows_of_measurement(equations: Equations, number: int) -> list[int]:
    """Rows of one measurement."""
    return [int(row) for row in np.flatnonzero(equations.of == number)]


def _again(equations: Equations, before: Fit, robust: Array, left_out: list[int]) -> Fit:
    use = (~np.isin(equations.of, left_out)).astype(float)
    return fit(equations, np.stack([before.figure, robust]), use)


def _taken_back(
    equations: Equations, best: Fit, robust: Array, left_out: list[int], limit: float
) -> tuple[Fit, list[int]]:
    """Without those that the rest no longer contradicts, the least contradicted first."""
    while left_out:
        by_number = {number: _contradiction(best, number) for number in left_out}
        least = min(by_number, key=lambda number: by_number[number])
        if by_number[least] > limit:
            break
        left_out = [number for number in left_out if number != least]
        best = _again(equations, best, robust, left_out)
    return best, sorted(left_out, key=lambda number: -_contradiction(best, number))


def _contradiction(found: Fit, number: int) -> float:
    """How many standard deviations a measurement left out misses the others' answer by."""
    most = 0.0
    for row in rows_of_measurement(found.equations, number):
        off, spread = predicted(found, row)
        most = max(most, abs(off) / float(np.hypot(1.0, spread)))
    return most


def _as_likely(equations: Equations, best: Fit, left_out: list[int], number: int) -> tuple[int, ...]:
    use = (~np.isin(equations.of, [n for n in left_out if n != number])).astype(float)
    return as_likely(look_at(equations, fit(equations, best.figure[None], use).figure, use), number)


def _too_optimistic(equations: Equations, figure: Array) -> float:
    """By how much the typical residual is larger than the stated ± has it; 1 where that may be chance."""
    wide = adjust(equations, figure[None], robust=_WIDE, steps=30).figures[0]
    found = look_at(equations, wide, np.ones(equations.rows))
    tests = found.tests()[equations.of >= 0]
    tests = tests[~np.isnan(tests)]
    if found.redundancy < rule("survey-typical-redundancy").value or not tests.size:
        return 1.0
    typical = float(np.median(tests)) / _MEDIAN
    return typical if typical > rule("survey-typical-most").value else 1.0
