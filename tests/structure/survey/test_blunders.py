"""Blunders of every size and kind found among the measurements, named, with what they should read."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from structure.survey.known_figures import MOUNT, MOUNT_TAPED, Survey, mount, on_the_line, read

from clampwright.structure.survey.blunders import snoop
from clampwright.structure.survey.equations import Equations
from clampwright.structure.survey.fit import fit
from clampwright.structure.survey.model import CENTRE, Distance
from clampwright.structure.survey.residuals import equations
from clampwright.structure.survey.slips import slip
from clampwright.structure.survey.solve import solve
from clampwright.trade.tables import rule

GOOD = read(mount(), on_the_line(MOUNT), np.random.default_rng(21))


def slipped(survey: Survey, name: str, off: float) -> Survey:
    """The survey with one distance misread by so much."""
    number = MOUNT_TAPED.index(name)
    taken = list(survey.measurements)
    right = taken[number]
    assert isinstance(right, Distance)
    taken[number] = replace(right, value_mm=right.value_mm + off)
    return replace(survey, measurements=tuple(taken))


@pytest.mark.parametrize("off", [10.0, -25.4, 100.0, -100.0, 304.8, 1000.0])
@pytest.mark.parametrize("name", ["UL-UR", "UR-LL", "EUL-EUR", "LL-ELL", "EUR-ELL"])
def test_a_slip_is_found_with_the_value_that_it_should_be(name: str, off: float) -> None:
    solved = solve(slipped(GOOD, name, off))
    assert solved.structure is None
    [blunder] = solved.blunders
    assert blunder.name == name or name in blunder.as_likely
    if blunder.name == name:
        truth = math.dist(*(on_the_line(MOUNT)[end] for end in name.split("-")))
        assert abs(blunder.probably - truth) < 1.7 * blunder.plus_minus
        assert name in blunder.says


def test_metric_and_inch_slips_are_recognised() -> None:
    found = solve(slipped(GOOD, "EUL-EUR", 100.0)).blunders[0]
    assert "10 cm too much would explain it: was the tape held at its 10 cm mark" in found.says
    inches = solve(slipped(replace(GOOD, units="in"), "EUL-EUR", -25.4)).blunders[0]
    assert "1 in too little would explain it: a line misread?" in inches.says
    assert " mm" not in inches.says


def test_a_distance_over_the_outsides_booked_as_centres() -> None:
    """Ring to ring at right angles to both tubes: half of both diameters too much."""
    plain = mount()
    crossing = Distance("EUL", "ELR", 0.0, 1.5, "outside", ("top", "right"))
    number = MOUNT_TAPED.index("EUL-ELR")
    taken = list(plain.measurements)
    taken[number] = crossing
    outside = read(replace(plain, measurements=tuple(taken)), on_the_line(MOUNT)).measurements[number]
    assert isinstance(outside, Distance)
    taken[number] = replace(outside, how=CENTRE, over=("", ""))
    [blunder] = solve(replace(plain, measurements=tuple(taken))).blunders
    assert blunder.name == "EUL-ELR"
    assert "over the outsides" in blunder.says


@pytest.mark.parametrize("pair", [("UL-UR", "LL-ELL"), ("EUL-EUR", "LR-ELL"), ("UR-LL", "EUL-ELL")])
def test_two_blunders_at_once(pair: tuple[str, str]) -> None:
    solved = solve(slipped(slipped(GOOD, pair[0], 40.0), pair[1], -25.4))
    named = {b.name for b in solved.blunders} | {n for b in solved.blunders for n in b.as_likely}
    assert set(pair) <= named
    assert len(solved.blunders) == 2


def test_what_cannot_be_told_apart_is_said() -> None:
    """Five points with one measurement more than they need: any of those it checks may be wrong."""
    names = ["UL", "UR", "LL", "EUL", "ELR"]
    pairs = [p for p in MOUNT_TAPED if set(p.split("-")) <= set(names)]
    pairs += ["UR-EUL"] if "UR-EUL" not in pairs else []
    plain = mount()
    taken = tuple(Distance(*p.split("-"), 0.0, 1.5) for p in dict.fromkeys([*pairs, "LL-ELR", "UL-ELR"]))
    points = tuple(p for p in plain.points if p.name in names)
    tubes = tuple(t for t in plain.tubes if {t.start, t.end} <= set(names))
    kept = {t.name for t in tubes}
    points = tuple(replace(p, axis_of=tuple(t for t in p.axis_of if t in kept)) for p in points)
    datum = replace(plain.datum, origin="LL", through="UR", in_plane="UL")
    survey = read(
        replace(plain, points=points, tubes=tubes, measurements=taken, datum=datum, sides=()), MOUNT
    )
    wrong = list(survey.measurements)
    assert isinstance(wrong[2], Distance)
    wrong[2] = replace(wrong[2], value_mm=wrong[2].value_mm + 60.0)
    solved = solve(replace(survey, measurements=tuple(wrong)))
    assert solved.redundancy == 0
    [blunder] = solved.blunders
    right = solve(survey)
    assert right.redundancy == 1
    alike = {j.name for j in right.judged if j.redundancy > 0.06}
    assert len(alike) >= 6
    assert alike <= {blunder.name, *blunder.as_likely}
    assert "again" in blunder.says or "Any of" in blunder.says


def test_no_alarm_where_there_is_none() -> None:
    for seed in range(30, 36):
        survey = read(mount(), on_the_line(MOUNT), np.random.default_rng(seed))
        solved = solve(survey)
        assert not solved.blunders
        assert solved.structure is not None


def test_critical_values_of_baarda_1968() -> None:
    """Two-sided point of the normal spread at 0.1 %, and the shift found with 80 % power: 3.29 and 4.13."""
    from scipy.stats import norm

    assert rule("survey-blunder-limit").value == pytest.approx(float(norm.ppf(1 - 0.0005)), abs=0.005)
    shift = float(norm.ppf(1 - 0.0005) + norm.ppf(0.8))
    assert rule("survey-blunder-hidden").value == pytest.approx(shift, abs=0.005)
    assert shift**2 == pytest.approx(17.07, abs=0.01)


def test_the_blunder_that_can_hide_is_found_four_times_in_five() -> None:
    """A shift of `hides` in one measurement of 400 surveys: w is over the limit in 80 % (Baarda)."""
    lot = np.random.default_rng(22)
    number = MOUNT_TAPED.index("UR-LL")
    hides = next(j.hides for j in solve(mount()).judged if j.name == "UR-LL")
    assert hides is not None
    plain, truth = mount(), on_the_line(MOUNT)
    figure, seen = None, 0
    for _ in range(400):
        system = equations(slipped(read(plain, truth, lot), "UR-LL", hides))
        if figure is None:
            figure = solved_figure(system)
        seen += float(fit(system, figure[None]).tests()[number]) > rule("survey-blunder-limit").value
    assert seen / 400 == pytest.approx(0.80, abs=4 * math.sqrt(0.16 / 400))


def solved_figure(system: Equations) -> np.ndarray:
    """A figure near the true one to adjust from."""
    solved = solve(GOOD)
    return np.array([*(p.at for p in solved.points), (0.0, 0.0, 1000.0)])[: system.places]


def test_snooping_is_leaving_one_out() -> None:
    """Second route: w² is what the sum of squares falls by when the measurement is left out, one by one."""
    system = equations(GOOD)
    whole = fit(system, solved_figure(system)[None])
    assert snoop(system, whole.figure).left_out == ()
    for row in range(0, 34, 5):
        use = np.ones(system.rows)
        use[row] = 0.0
        without = fit(system, whole.figure[None], use)
        fall = whole.sum_of_squares - without.sum_of_squares
        assert math.sqrt(max(fall, 0.0)) == pytest.approx(float(whole.tests()[row]), rel=0.02, abs=0.01)


def test_slip_of_a_published_underwater_tape_survey() -> None:
    """J. Green, Maritime Archaeology: A Technical Handbook, 2nd ed. (2004), p. 152: 3.826 m read, residual
    0.995 m over a mean residual of 4 mm; the author takes it for 2.826 m, a metre misread."""
    assert slip(3826.0, 3826.0 - 995.0, 12.0, "mm", {}).startswith("1 m too much would explain it")
