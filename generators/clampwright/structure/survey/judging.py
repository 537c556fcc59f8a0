"""Each measurement held against all the others, and what is said of the blunders."""

from __future__ import annotations

from itertools import product

import numpy as np

from clampwright.structure.survey.blunders import Snooped, predicted, rows_of_measurement
from clampwright.structure.survey.equations import computed
from clampwright.structure.survey.fit import Fit
from clampwright.structure.survey.kinds import Array
from clampwright.structure.survey.model import (
    CENTRE,
    INSIDE,
    OUTSIDE,
    Distance,
    Measurement,
    Plumb,
    Slope,
    Survey,
)
from clampwright.structure.survey.residuals import rows_of
from clampwright.structure.survey.slips import slip, slip_of_angle
from clampwright.structure.survey.solved import Blunder, Judged
from clampwright.structure.survey.wording import error_of, is_angle, listed, names, shown, value_of
from clampwright.structure.uncertainty import coverage
from clampwright.trade.tables import rule

_TAKEN = {CENTRE: "centre to centre", OUTSIDE: "over the outsides", INSIDE: "between the insides"}
_WAY_OUT = "write the new reading in as a row of its own, or give both a larger ±"


def judged(survey: Survey, found: Fit) -> tuple[Judged, ...]:
    """Every measurement in the survey's order."""
    called = names(survey)
    reads = computed(found.equations, found.figure)
    return tuple(_judged(found, i, m, called[i], reads) for i, m in enumerate(survey.measurements))


def _judged(found: Fit, number: int, m: Measurement, name: str, reads: Array) -> Judged:
    rows = rows_of_measurement(found.equations, number)
    checks = [_check(found, row) for row in rows]
    redundancy = min(share for share, _ in checks)
    scores = [score for _, score in checks if score is not None]
    sigma = error_of(m) / coverage()
    value = float(np.hypot(*reads[rows])) if isinstance(m, Plumb) else float(reads[rows[0]])
    checked = redundancy >= rule("survey-checked-at-all").value
    hides = rule("survey-blunder-hidden").value * sigma / float(np.sqrt(redundancy)) if checked else None
    score = max(scores) if scores else None
    return Judged(m, name, value, value_of(m) - value, redundancy, score, hides)


def _check(found: Fit, row: int) -> tuple[float, float | None]:
    """Redundancy and w of a row; of one left out, as if it were in use."""
    if found.use[row]:
        share = float(found.redundancies[row])
        score = float(found.tests()[row])
        return share, None if np.isnan(score) else score
    off, spread = predicted(found, row)
    return 1.0 / (1.0 + spread**2), abs(off) / float(np.hypot(1.0, spread))


def blunders(survey: Survey, snooped: Snooped, scale: float) -> tuple[Blunder, ...]:
    """The measurements left out, each with what it should probably read."""
    called = names(survey)
    return tuple(
        _blunder(survey, snooped.fit, number, called, doubles, scale)
        for number, doubles in zip(snooped.left_out, snooped.doubles, strict=True)
    )


def _blunder(
    survey: Survey, found: Fit, number: int, called: tuple[str, ...], doubles: tuple[int, ...], scale: float
) -> Blunder:
    m, rows = survey.measurements[number], rows_of_measurement(found.equations, number)
    row = max(rows, key=lambda r: abs(found.residuals[r]))
    reads = computed(found.equations, found.figure)
    probably = float(np.hypot(*reads[rows])) if isinstance(m, Plumb) else float(reads[row])
    spread = coverage() * scale * float(found.equations.sigma[row]) * predicted(found, row)[1]
    as_likely = tuple(called[other] for other in doubles)
    says = _says(survey, found, m, called[number], probably, spread, as_likely)
    return Blunder(called[number], m, value_of(m), probably, spread, as_likely, says)


def _says(
    survey: Survey,
    found: Fit,
    m: Measurement,
    name: str,
    probably: float,
    spread: float,
    as_likely: tuple[str, ...],
) -> str:
    units = survey.units
    off, plus_minus = value_of(m) - probably, shown(spread, m, units)
    if isinstance(m, Plumb):
        told = f"{name}: by all the others it is {shown(probably, m, units)} off plumb (± {plus_minus})"
    else:
        way = "more" if off > 0 else "less"
        told = (
            f"{name} reads {shown(value_of(m), m, units)}; by all the others it should be "
            f"{shown(probably, m, units)} ± {plus_minus}: it is {shown(abs(off), m, units)} {way}"
        )
    looks = _slip(survey, found, m, probably, spread)
    if as_likely:
        return f"{told}{looks}. {_or_else(name, as_likely)}"
    return f"{told}{looks}. Measure {name} again; if it stands, {_WAY_OUT}."


def _or_else(name: str, as_likely: tuple[str, ...]) -> str:
    if len(as_likely) > 4:
        every = listed([name, *as_likely])
        told = f"Any of {len(as_likely) + 1} measurements may be the wrong one: {every}."
        return f"{told} Measure them again; if all stand, {_WAY_OUT}."
    one = "a slip in" if len(as_likely) == 1 else "a slip in one of"
    every = listed([name, *as_likely])
    told = f"But {one} {listed(as_likely, 'or')} explains it as well"
    return f"{told}: measure {every} again; if all stand, {_WAY_OUT}."


def _slip(survey: Survey, found: Fit, m: Measurement, probably: float, spread: float) -> str:
    if isinstance(m, Plumb):
        return ""
    both = float(np.hypot(spread, error_of(m)))
    if is_angle(m):
        looks = slip_of_angle(value_of(m), probably, both, slope=isinstance(m, Slope))
    else:
        walls = _taken_otherwise(survey, found, m) if isinstance(m, Distance) else {}
        looks = slip(value_of(m), probably, both, survey.units, walls, spread)
    return f" ({looks})" if looks else ""


def _taken_otherwise(survey: Survey, found: Fit, m: Distance) -> dict[str, float]:
    """What the distance would read taken in the other two ways, over the tubes that fit the reading best."""
    over = (
        [m.over]
        if m.how != CENTRE
        else list(product(_tubes_at(survey, m.a, m.b), _tubes_at(survey, m.b, m.a)))
    )
    over = [pair for pair in over if any(pair)]
    ways = [how for how in _TAKEN if how != m.how]
    if not over:
        return {}
    offered = tuple(Distance(m.a, m.b, m.value_mm, m.error_mm, how, pair) for how in ways for pair in over)
    reads = computed(rows_of(survey, offered, found.equations.free), found.figure).reshape(len(ways), -1)
    nearest = np.argmin(np.abs(reads - m.value_mm), axis=1)
    return {_TAKEN[how]: float(reads[i, nearest[i]]) for i, how in enumerate(ways)}


def _tubes_at(survey: Survey, name: str, far: str) -> tuple[str, ...]:
    """Tubes that the point lies on the axis of, and the other point does not; ("",) where there is none."""
    other = survey.point(far).axis_of
    return tuple(tube for tube in survey.point(name).axis_of if tube not in other) or ("",)
