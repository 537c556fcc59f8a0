"""Coordinates of a known structure inside the stated ± in 95 % of simulated surveys, not more or less."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from structure.survey.known_figures import MOUNT, Survey, Vec3, in_frame, mount, on_the_line, read

from clampwright.structure.survey.equations import Equations
from clampwright.structure.survey.fit import fit
from clampwright.structure.survey.model import Along, Datum
from clampwright.structure.survey.residuals import equations
from clampwright.structure.survey.solve import solve
from clampwright.structure.survey.to_structure import to_structure
from clampwright.structure.uncertainty import coverage, plus_minus

RUNS = 2000
FULL = 120


def wavering(truth: dict[str, Vec3], lot: np.random.Generator) -> dict[str, Vec3]:
    """The mount with its ring marks as far off the straight line as `survey-axis-off` allows (0.3 mm)."""
    moved = dict(truth)
    for name in ("RT", "RB"):
        x, y, z = (np.array(truth[name]) + lot.normal(size=3) * 0.3 / 1.959964).tolist()
        moved[name] = (x, y, z)
    return moved


def as_figure(survey: Survey, system: Equations, truth: dict[str, Vec3]) -> np.ndarray:
    laid = in_frame(survey, truth)
    return np.array([*(laid[p.name] for p in survey.points), (0.0, 0.0, 1000.0)])[: system.places]


def binomial(share: float, runs: int) -> float:
    """Half the width that chance gives a share of so many runs, four standard deviations."""
    return 4.0 * math.sqrt(share * (1 - share) / runs)


@pytest.fixture(scope="module")
def thousands() -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Errors (runs, free), stated ± (runs, free), sums of squares (runs,), w-tests (runs, rows)."""
    lot = np.random.default_rng(11)
    plain, truth = mount(), on_the_line(MOUNT)
    errors, stated, sums, tests = [], [], [], []
    for _ in range(RUNS):
        true = wavering(truth, lot)
        survey = read(plain, true, lot)
        system = equations(survey)
        start = as_figure(survey, system, true)
        found = fit(system, start[None])
        errors.append((found.figure - start).ravel()[system.free])
        stated.append(coverage() * np.sqrt(np.diag(found.covariance)))
        sums.append(found.sum_of_squares)
        tests.append(found.tests())
    return np.array(errors), np.array(stated), np.array(sums), np.array(tests)


def test_each_coordinate_is_inside_its_plus_minus_in_95_percent(thousands: tuple[np.ndarray, ...]) -> None:
    errors, stated, _, _ = thousands
    inside = np.mean(np.abs(errors) <= stated, axis=0)
    assert np.max(np.abs(inside - 0.95)) < binomial(0.95, RUNS)
    assert abs(float(np.mean(inside)) - 0.95) < 0.006


def test_the_covariance_is_that_of_the_errors(thousands: tuple[np.ndarray, ...]) -> None:
    """Second route: the sample covariance of the errors of all runs, in numpy (4 standard errors: √(2/N))."""
    errors, stated, _, _ = thousands
    sample = np.std(errors, axis=0)
    assert sample == pytest.approx(np.mean(stated, axis=0) / coverage(), rel=4 * math.sqrt(0.5 / RUNS))


def test_sums_of_squares_follow_chi_square(thousands: tuple[np.ndarray, ...]) -> None:
    """Mean f and variance 2f for f = 14 rows more than needed (38 rows, 24 coordinates)."""
    _, _, sums, _ = thousands
    assert float(np.mean(sums)) == pytest.approx(14.0, abs=4 * math.sqrt(28 / RUNS))
    assert float(np.var(sums)) == pytest.approx(28.0, rel=0.2)


def test_false_alarms_come_at_the_stated_rate(thousands: tuple[np.ndarray, ...]) -> None:
    """w is normal: 5 % beyond 1.96, and 1 in 1000 beyond 3.29 (Baarda 1968), of every measurement."""
    tests = thousands[3][:, :34]
    checked = ~np.isnan(tests)
    assert float(np.mean(tests[checked] > 1.959964)) == pytest.approx(0.05, abs=0.004)
    alarms = float(np.mean(tests[checked] > 3.29))
    assert 0.0005 < alarms < 0.0016


def test_whole_solutions_from_any_start() -> None:
    """Through `solve`: start, mirror image, snooping and all. Points beside tubes' ends count as well."""
    lot = np.random.default_rng(12)
    plain, truth = mount(), on_the_line(MOUNT)
    inside, middle, wrongly = [], [], 0
    for _ in range(FULL):
        true = wavering(truth, lot)
        survey = read(plain, true, lot)
        solved = solve(survey)
        if solved.structure is None:
            wrongly += 1
            assert solved.blunders
            continue
        laid = in_frame(survey, true)
        for placed in solved.points:
            for at, known, error in zip(placed.at, laid[placed.name], placed.plus_minus_mm, strict=True):
                if error > 0:
                    inside.append(abs(at - known) <= error)
        assert solved.structure.uncertainty is not None
        for tube, end in zip(solved.structure.tubes, survey.tubes, strict=True):
            rows = solved.structure.uncertainty.point(tube, 0.4 * tube.length_mm)
            here = np.array(tube.point(0.4 * tube.length_mm))
            there = 0.6 * np.array(laid[end.start]) + 0.4 * np.array(laid[end.end])
            middle += [abs(here[axis] - there[axis]) <= plus_minus(rows[axis]) for axis in range(3)]
    assert float(np.mean(inside)) == pytest.approx(0.95, abs=0.02)
    assert float(np.mean(middle)) == pytest.approx(0.95, abs=0.025)
    assert wrongly / FULL < 0.01 + binomial(0.01, FULL)


def test_a_level_frame_is_as_sure_as_it_says() -> None:
    """Heights by water level fix which way is up."""
    lot = np.random.default_rng(13)
    truth = on_the_line(MOUNT)
    heights = tuple(Along("LL", name, "z", 0.0, 2.0, plumb=True) for name in ("UL", "EUL", "EUR", "LR"))
    plain = mount()
    plain = replace(
        plain, measurements=plain.measurements + heights, datum=Datum("LL", "y", "LR", level=True)
    )
    inside = []
    for _ in range(300):
        true = wavering(truth, lot)
        survey = read(plain, true, lot)
        system = equations(survey)
        start = as_figure(survey, system, true)
        found = fit(system, start[None])
        error = (found.figure - start).ravel()[system.free]
        inside.append(np.abs(error) <= coverage() * np.sqrt(np.diag(found.covariance)))
    assert float(np.mean(inside)) == pytest.approx(0.95, abs=0.015)


def test_the_factor_gives_back_the_covariance() -> None:
    """`Uncertainty` leaves out causes that hardly matter, and nothing else; (JᵀJ)⁻¹ by numpy's inverse."""
    survey = mount()
    system = equations(survey)
    found = fit(system, as_figure(survey, system, on_the_line(MOUNT))[None])
    structure = to_structure(survey, found, 1.0)
    assert structure.uncertainty is not None
    covariance = np.zeros((system.places * 3, system.places * 3))
    covariance[np.ix_(system.free, system.free)] = np.linalg.inv(found.jacobian.T @ found.jacobian)
    names = [p.name for p in survey.points]
    for tube in survey.tubes:
        rows = [3 * names.index(p) + axis for p in (tube.start, tube.end) for axis in range(3)]
        factor = structure.uncertainty.ends(tube.name)
        assert np.allclose(factor @ factor.T, covariance[np.ix_(rows, rows)], atol=2e-4)
    assert len(structure.uncertainty.causes_are) == structure.uncertainty.causes
    assert {"UL-EUL", "RT on the axis of top"} <= set(structure.uncertainty.causes_are)


def test_a_tape_that_is_worse_than_stated_widens_every_plus_minus() -> None:
    """Readings that scatter three times as much as stated: none is blamed, every ± grows threefold."""
    lot = np.random.default_rng(14)
    rough = read(mount(error=4.5), on_the_line(MOUNT), lot)
    survey = replace(rough, measurements=tuple(replace(m, error_mm=1.5) for m in rough.measurements))  # type: ignore[call-arg]
    solved = solve(survey)
    assert not solved.blunders
    assert solved.scale == pytest.approx(3.0, abs=0.9)
    assert solved.scale > solved.scale_most
    assert any("every ± here is" in caution for caution in solved.cautions)
    good = solve(mount())
    assert good.worst_mm is not None
    assert solved.worst_mm == pytest.approx(good.worst_mm * solved.scale, rel=0.05)
