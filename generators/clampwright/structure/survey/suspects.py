"""Which measurement a contradiction is owed to: each suspect left out in turn, and the rest adjusted anew.

For small blunders w² is what the sum of squares falls by when a measurement is left out. For great ones the
figure bends, and the greatest w may be a neighbour's: so those of great w are all tried.
"""

from __future__ import annotations

import math

import numpy as np

from clampwright.structure.survey.adjust import adjust
from clampwright.structure.survey.fit import Fit
from clampwright.structure.survey.kinds import Array
from clampwright.trade.tables import rule

_SUSPECT = 0.4
"""Share of the greatest w from which a measurement is a suspect."""

_FIRST, _MOST = 8, 16
"""So many suspects are tried when one has to go, and when it is asked who else may have been it."""

_STEPS = 40


def guiltiest(found: Fit, limit: float) -> int | None:
    """The measurement without which the rest agrees best; None where no w is over the limit."""
    tests = _by_measurement(found)
    if not tests or max(tests.values()) <= limit:
        return None
    suspects = [n for n in _suspects(tests, max(tests.values()))[:_FIRST] if tests[n] > limit]
    return suspects[int(np.argmin(np.round(_without(found, suspects), 6)))]


def as_likely(found: Fit, number: int) -> tuple[int, ...]:
    """Other measurements whose being wrong explains as much as this one's, the likeliest first.

    Likelihood ratio exp((S - S') / 2) of the sums of squares without the one and without the other.

    Parameters
    ----------
    found
        The figure with the measurement in use.
    number
        Of the measurement.
    """
    tests = _by_measurement(found)
    suspects = [number, *(n for n in _suspects(tests, tests.get(number, 0.0)) if n != number)]
    sums = _without(found, suspects)
    near = sums[0] - 2.0 * math.log(rule("survey-as-likely").value)
    order = np.argsort(np.round(sums, 6), kind="stable")
    return tuple(suspects[i] for i in order if i != 0 and sums[i] < near)


def _suspects(tests: dict[int, float], greatest: float) -> list[int]:
    """Measurements of great w, the greatest first."""
    great = [n for n, w in tests.items() if w >= _SUSPECT * greatest]
    return sorted(great, key=lambda n: (-round(tests[n], 9), n))[:_MOST]


def _by_measurement(found: Fit) -> dict[int, float]:
    """Greatest w of each measurement in use; conditions are nobody's reading."""
    tests: dict[int, float] = {}
    for number, use, w in zip(found.equations.of.tolist(), found.use, found.tests(), strict=True):
        if number >= 0 and use and not np.isnan(w):
            tests[number] = max(tests.get(number, 0.0), float(w))
    return tests


def _without(found: Fit, numbers: list[int]) -> Array:
    """Sum of squares of the rest without each of some measurements, adjusted anew."""
    use = np.stack([found.use * (found.equations.of != number) for number in numbers])
    starts = np.repeat(found.figure[None], len(numbers), axis=0)
    return 2.0 * adjust(found.equations, starts, use=use, steps=_STEPS).cost
