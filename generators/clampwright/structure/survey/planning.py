"""Which measurements to take before any were taken: enough to hold the figure, and some to check them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import numpy as np

from clampwright.structure.survey.equations import Equations
from clampwright.structure.survey.fit import Fit, look_at
from clampwright.structure.survey.generic import Generic, generic, rows_at
from clampwright.structure.survey.model import Along, Distance, Measurement, Survey
from clampwright.structure.survey.next_best import what
from clampwright.structure.survey.placement import placed
from clampwright.structure.survey.plan_by_eye import exchanged
from clampwright.structure.survey.plan_order import (
    Wanted,
    base,
    by_hand,
    every_distance,
    key_of,
    on_tube,
    sequence,
    spares,
)
from clampwright.structure.survey.plan_spares import checking
from clampwright.structure.survey.residuals import equations
from clampwright.structure.survey.rigidity import end_columns, worst
from clampwright.structure.survey.solved import Next
from clampwright.structure.survey.trouble import unsolvable
from clampwright.trade.tables import rule

_CHOSEN_AT, _HELD_AT = (2, 3, 4, 5, 6, 7, 8), (9, 10)
"""Lots by which a plan is chosen, and others at which it is seen to hold."""

_HELD = 1e-6
"""Share of the greatest singular value above which the least one holds."""


def plan(survey: Survey, spare: int | None = None) -> tuple[Next, ...]:
    """Measurements to take, in the order in which a hand takes them; together they hold the figure.

    The datum's marks first, then each ring in the survey's order from three marks, each tube's length, and
    spares between the rings of neighbouring tubes. Where every point has a place by eye, as many measurements
    are exchanged until the worst ± of a tube's end is least there. Measurements that the survey has already
    count as taken.

    Parameters
    ----------
    survey
        Points, tubes and the datum; its measurements' values are not looked at.
    spare
        How many more than the figure needs; None: tubes' lengths, and until each reading is checked.

    Examples
    --------
    >>> from clampwright.structure.survey.model import Datum, SurveyPoint
    >>> points = tuple(SurveyPoint(name) for name in "ABCD")
    >>> survey = Survey("s", "", "mm", points, (), (), Datum("A", "x", "B", False, "y", "C"))
    >>> [(n.what[:3], n.does) for n in plan(survey)][2:4]
    [('B-C', 'holds the datum'), ('A-D', 'holds D')]
    """
    if any("measured" not in why and "reads nothing" not in why for why in unsolvable(survey)):
        return ()
    system = equations(survey)
    chosen = _by_hand(survey, system, spare)
    by_eye = _by_eye(survey, system, chosen)
    if by_eye is not None:
        chosen = _improved(survey, system, by_eye, chosen)
    return _told(survey, system, chosen, by_eye)


def freedoms(survey: Survey) -> int:
    """Ways in which the figure can move with what was measured so far, in most shapes."""
    return generic(survey, equations(survey), _CHOSEN_AT[:1]).freedoms


def _by_hand(survey: Survey, system: Equations, spare: int | None) -> list[Wanted]:
    """The how-to's own way: what holds, then what checks."""
    figure, first = generic(survey, system, _CHOSEN_AT), by_hand(survey)
    holding, lengths = _split(figure, first)
    seen = generic(survey, system, _HELD_AT)
    for again, fresh in ((figure, ()), (seen, holding)):
        _split(again, fresh)
        if again.freedoms:
            holding += _split(again, _not_among(every_distance(survey), holding))[0]
    checks = _not_among([w for w in lengths if w.checks], holding)
    if spare is None:
        most = math.ceil(rule("survey-plan-spare-most").value * len(holding)) - len(checks)
        offered = _not_among(spares(survey), (*holding, *checks))
        return [*holding, *checks, *checking(figure, (*holding, *checks), offered, most)]
    rest = _not_among((*spares(survey), *every_distance(survey)), (*holding, *checks))
    distances = [w for w in rest if isinstance(w.measurement, Distance)]
    return [*holding, *(*checks, *distances)[:spare]]


def _split(figure: Generic, wanted: Sequence[Wanted]) -> tuple[list[Wanted], list[Wanted]]:
    """What holds one more way to move, in order, and what does not."""
    rows = [rows_at(figure.survey, [w.measurement for w in wanted], found) for found in figure.found]
    holding, others = list[Wanted](), list[Wanted]()
    for number, each in enumerate(wanted):
        held = figure.freedoms > 0 and figure.take([row[number] for row in rows])
        (holding if held else others).append(each)
    return holding, others


def _not_among(wanted: Iterable[Wanted], chosen: Iterable[Wanted]) -> list[Wanted]:
    keys = {key_of(w.measurement) for w in chosen}
    return [w for w in wanted if key_of(w.measurement) not in keys]


def _by_eye(survey: Survey, system: Equations, chosen: Sequence[Wanted]) -> Fit | None:
    """The figure at its places by eye, where every point has one and the plan holds it there."""
    origin = survey.datum.origin
    if any(p.rough is None and p.name != origin for p in survey.points):
        return None
    found = look_at(system, placed(survey, system), np.ones(system.rows))
    rows = np.vstack([found.jacobian, rows_at(survey, [w.measurement for w in chosen], found)])
    values = np.linalg.svd(rows, compute_uv=False)
    held = len(values) == rows.shape[1] and values[-1] > _HELD * values[0]
    return found if held else None


def _improved(survey: Survey, system: Equations, found: Fit, chosen: Sequence[Wanted]) -> list[Wanted]:
    """Exchanged for the worst ±, if that holds the figure in other shapes too."""
    marks, lengths = set(base(survey)), {frozenset((t.start, t.end)) for t in survey.tubes}
    kept = [
        w
        for w in chosen
        if isinstance(w.measurement, Along)
        or {w.measurement.a, w.measurement.b} <= marks
        or frozenset((w.measurement.a, w.measurement.b)) in lengths
    ]
    better = exchanged(survey, found, chosen, every_distance(survey), kept)
    figure, before = (generic(survey, system, _HELD_AT) for _ in range(2))
    _split(figure, better)
    _split(before, chosen)
    return list(better if figure.freedoms <= before.freedoms else chosen)


def _told(
    survey: Survey, system: Equations, chosen: Sequence[Wanted], by_eye: Fit | None
) -> tuple[Next, ...]:
    """In the order of a hand: point by point what holds it, its tube's length; at last the spares."""
    turn = {name: i for i, name in enumerate(sequence(survey))}
    ordered = sorted(chosen, key=lambda w: _when(w, turn))
    holding, checks = _split(generic(survey, system, _HELD_AT), ordered)
    spared = [w for w in checks if w.checks.startswith("spare") or not _at_once(survey, w)]
    first = [w for w in ordered if w not in spared]
    told = [_next(w, _holds(survey, w, turn) if w in holding else w.checks, None) for w in first]
    taken = [w.measurement for w in first]
    for each in spared:
        taken.append(each.measurement)
        after = None if by_eye is None else _worst(survey, by_eye, taken)
        told.append(_next(each, each.checks, after))
    return tuple(told)


def _at_once(survey: Survey, wanted: Wanted) -> bool:
    """Whether a check is taken while its point's turn is on: its tube's length, or along its tube."""
    return (
        any(
            {wanted.measurement.a, wanted.measurement.b} <= set(on_tube(survey, tube.name))
            for tube in survey.tubes
        )
        or wanted.checks == "checks the datum"
    )


def _when(wanted: Wanted, turn: dict[str, int]) -> tuple[int, bool, int]:
    one, other = sorted((turn[wanted.measurement.a], turn[wanted.measurement.b]))
    return other, isinstance(wanted.measurement, Along), one


def _holds(survey: Survey, wanted: Wanted, turn: dict[str, int]) -> str:
    m = wanted.measurement
    if isinstance(m, Along):
        return "says which way is up"
    later = max((m.a, m.b), key=turn.__getitem__)
    return "holds the datum" if later in base(survey) else f"holds {later}"


def _next(wanted: Wanted, does: str, after: float | None) -> Next:
    m = wanted.measurement
    return Next(m.a, m.b, what(m), does, after)


def _worst(survey: Survey, found: Fit, taken: Sequence[Measurement]) -> float:
    rows = np.vstack([found.jacobian, rows_at(survey, taken, found)])
    return worst(np.linalg.inv(rows.T @ rows), end_columns(survey, found.equations))
