"""Worked examples of others with their printed answers, and general-purpose solvers on the same figures."""

from __future__ import annotations

import json
import math
import os
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from structure.survey.known_figures import MOUNT, in_frame, mount, on_the_line, read

from clampwright.structure.survey.model import Along, Datum, Distance, Measurement, Survey, SurveyPoint
from clampwright.structure.survey.solve import solve
from clampwright.structure.survey.solved import SolvedSurvey

DATA = os.environ.get("CLAMPWRIGHT_TEST_DATA")
FIRM = 0.02
"""± (mm) of control points: they are given, not measured."""


def ranged(control: dict[str, Sequence[float]], ranges: Sequence[float], error: float) -> Survey:
    """A point ranged from control points of given coordinates, in their own axes.

    The frame is level with its origin on the first control point; an extra mark due "east" of it, at a given
    distance, turns x the right way.
    """
    names = list(control)
    first = np.array(control[names[0]], dtype=float)
    far = 4.0 * float(np.max(ranges))
    taken: list[Measurement] = [
        Distance(names[0], "east", far, FIRM),
        Along(names[0], "east", "z", 0.0, FIRM),
    ]
    for name in names[1:]:
        away = np.array(control[name], dtype=float) - first
        taken += [Along(names[0], name, axis, float(v), FIRM) for axis, v in zip("xyz", away, strict=True)]
    taken += [Distance(name, "U", r, error) for name, r in zip(names, ranges, strict=True)]
    points = tuple(SurveyPoint(name) for name in (*names, "east", "U"))
    return Survey("ranged", "", "mm", points, (), tuple(taken), Datum(names[0], "x", "east", level=True))


def place(solved: SolvedSurvey, control: dict[str, Sequence[float]]) -> np.ndarray:
    """The ranged point in the control points' axes."""
    first = np.array(next(iter(control.values())), dtype=float)
    return np.array(solved.points[-1].at) + first


def in_a_plane(survey: Survey, names: Sequence[str]) -> Survey:
    """A survey made plane by heights of nothing."""
    flat = tuple(Along(survey.datum.origin, n, "z", 0.0, FIRM) for n in names if n != survey.datum.origin)
    return replace(survey, measurements=survey.measurements + flat)


NORRDINE = pytest.mark.skipif(DATA is None, reason="CLAMPWRIGHT_TEST_DATA is not set")


def norrdine() -> dict[str, Any]:
    assert DATA is not None
    return json.loads((Path(DATA) / "survey" / "norrdine_B_6anchors_real_ranges.json").read_text())  # type: ignore[no-any-return]


@NORRDINE
@pytest.mark.parametrize("corrected", [True, False])
def test_six_anchors_of_norrdine_2012(corrected: bool) -> None:
    """A. Norrdine, An algebraic solution to the multilateration problem, IPIN 2012, example B: six anchors
    nearly in a plane, ranges with a known place. Least squares by scipy (in the data file); z is the
    weak coordinate, and its ± says so: many times that of x and y, and the true place lies inside."""
    data = norrdine()
    control = {name: 1000 * np.array(at) for name, at in data["anchors"].items()}
    excess = data["excess_delay_correction"] if corrected else [0.0] * 6
    ranges = [1000 * (r - e) for r, e in zip(data["measured"], excess, strict=True)]
    solved = solve(ranged(control, ranges, 80.0))
    found = place(solved, control)
    assert found == pytest.approx(
        1000 * np.array(data["own"]["lsq_corrected" if corrected else "lsq_raw"]), abs=0.15
    )
    spread = np.array(solved.points[-1].plus_minus_mm)
    assert spread[2] > 5 * max(spread[:2])
    assert np.all(np.abs(found - 1000 * np.array(data["true_position"])) < spread)
    assert solved.take_next[0].what.startswith("height U")
    residuals = data["own"]["residual_corrected" if corrected else "residual_raw"]
    ours = [-j.residual / 1000 for j in solved.judged if j.name.endswith("-U")]
    assert ours == pytest.approx(residuals, abs=2e-4)


def test_station_from_three_distances_of_ghilani_and_wolf() -> None:
    """Ghilani and Wolf, Adjustment Computations, trilateration of station U from A, B and C (chapter 14 of
    the 4th edition; control points as printed, distances and residuals -0.037, 0.077, -0.047 ft recalled from
    memory). Feet stand for mm here: arithmetic knows no unit."""
    control = {"A": (865.40, 4527.15, 0.0), "B": (2432.55, 2047.25, 0.0), "C": (2865.22, 27.15, 0.0)}
    measured = (6049.00, 4736.83, 5446.49)
    survey = in_a_plane(ranged(control, measured, 0.2), ["U"])
    points = tuple(replace(p, rough=(6000.0, -800.0, 0.0)) if p.name == "U" else p for p in survey.points)
    solved = solve(replace(survey, points=points))
    residuals = {j.name: round(-j.residual, 3) for j in solved.judged if j.name.endswith("-U")}
    assert residuals == pytest.approx({"A-U": -0.037, "B-U": 0.077, "C-U": -0.047}, abs=2e-3)
    assert place(solved, control)[:2] == pytest.approx((6861.32, 3727.82), abs=0.02)


def test_ranges_of_a_published_trilateration_library() -> None:
    """lemmingapex/trilateration (MIT), its test cases 2D exact 4 and 5, to 0.01 m."""
    cases = [
        ([(1.0, 1.0), (1.0, 3.0), (8.0, 8.0), (2.0, 2.0)], [5.0, 5.0, 6.36, 3.9], (5.9, 2.0)),
        ([(5.0, -6.0), (13.0, -15.0), (21.0, -3.0)], [8.06, 13.97, 23.32], (-0.6, -11.8)),
    ]
    for anchors, ranges, expected in cases:
        control = {f"P{i}": (1000 * x, 1000 * y, 0.0) for i, (x, y) in enumerate(anchors)}
        survey = in_a_plane(ranged(control, [1000 * r for r in ranges], 10.0), ["U"])
        assert place(solve(survey), control)[:2] / 1000 == pytest.approx(expected, abs=0.01)


def test_braced_quadrilateral_as_given_in_zaki_1992() -> None:
    """F. Zaki et al., XVIIth ISPRS Congress, Part B3 (1992), p. 41: sides and diagonals of a plane
    quadrilateral in m, adjusted there by one condition, that four points of a plane span no volume. Second
    route: that condition (Cayley, Menger) and Lagrange's multiplier in numpy, as in the paper."""
    measured = np.array([1341.785, 2775.364, 2167.437, 1937.887, 2173.715, 1511.014])
    sides = [("A", "B"), ("A", "C"), ("A", "D"), ("B", "C"), ("B", "D"), ("C", "D")]
    adjusted = measured.copy()
    for _ in range(20):
        slope = np.array([_volume_slope(adjusted, sides, i) for i in range(6)])
        lack = _volume(adjusted, sides) + slope @ (measured - adjusted)
        adjusted = measured - slope * lack / (slope @ slope)
    assert abs(_volume(adjusted, sides)) < 1e-9 * abs(_volume(measured, sides)) + 1e-6
    survey = Survey(
        "quadrilateral",
        "",
        "mm",
        tuple(SurveyPoint(n) for n in "ABCD"),
        (),
        tuple(Distance(*side, float(m), 0.05) for side, m in zip(sides, measured, strict=True)),
        Datum("A", "x", "B", level=True),
    )
    solved = solve(in_a_plane(survey, "BCD"))
    computed = [j.computed for j in solved.judged[:6]]
    assert computed == pytest.approx(adjusted.tolist(), abs=2e-3)
    assert solved.redundancy == 1


def _volume(lengths: np.ndarray, sides: list[tuple[str, str]]) -> float:
    bordered = np.ones((5, 5)) - np.eye(5)
    scale = float(np.mean(lengths))
    for (a, b), length in zip(sides, lengths, strict=True):
        i, j = ord(a) - 64, ord(b) - 64
        bordered[i, j] = bordered[j, i] = (length / scale) ** 2
    return float(np.linalg.det(bordered))


def _volume_slope(lengths: np.ndarray, sides: list[tuple[str, str]], number: int) -> float:
    ahead, behind = lengths.copy(), lengths.copy()
    ahead[number] += 1e-3
    behind[number] -= 1e-3
    return (_volume(ahead, sides) - _volume(behind, sides)) / 2e-3


def test_the_mount_against_a_general_purpose_minimiser() -> None:
    """scipy's BFGS on the plain sum of squares, written out anew: all coordinates free, framed after."""
    from scipy.optimize import minimize

    survey = read(mount(), on_the_line(MOUNT), np.random.default_rng(51))
    names = [p.name for p in survey.points]
    pairs = [
        (names.index(m.a), names.index(m.b), m.value_mm)
        for m in survey.measurements
        if isinstance(m, Distance)
    ]
    i, j, lengths = (np.array(column) for column in zip(*pairs, strict=True))
    lines = [
        (names.index(m), names.index(a), names.index(b))
        for m, a, b in (("RT", "EUL", "EUR"), ("RB", "LL", "ELL"))
    ]

    def half_sum(flat: np.ndarray) -> float:
        at = flat.reshape(-1, 3)
        off = (np.linalg.norm(at[i] - at[j], axis=1) - lengths) / (1.5 / 1.96)
        total = float(off @ off)
        for mark, start, end in lines:
            along = (at[end] - at[start]) / np.linalg.norm(at[end] - at[start])
            away = np.cross(at[mark] - at[start], along)
            total += float(away @ away) / (0.3 / 1.96) ** 2
        return total / 2

    start = np.array([on_the_line(MOUNT)[n] for n in names]).ravel()
    best = minimize(half_sum, start, method="BFGS", options={"gtol": 1e-6, "maxiter": 2000})
    solved = solve(survey)
    at = best.x.reshape(-1, 3)
    laid = in_frame(survey, {n: tuple(p) for n, p in zip(names, at.tolist(), strict=True)})
    for placed in solved.points:
        assert placed.at == pytest.approx(laid[placed.name], abs=0.01)
    assert 2 * best.fun == pytest.approx(solved.scale**2 * solved.redundancy, rel=1e-4)


def test_a_tripod_by_hand() -> None:
    """Closed form: apex over an equilateral triangle of side a, legs of length l: height √(l² - a²/3), and a
    leg's ± moves it by l/3h each (√3 l/3h together)."""
    a, legs = 600.0, 700.0
    height = math.sqrt(legs**2 - a**2 / 3)
    base = [Distance(*p, a, 0.001) for p in ("AB", "AC", "BC")]
    survey = Survey(
        "tripod",
        "",
        "mm",
        tuple(SurveyPoint(n) for n in "ABCT"),
        (),
        (*base, *(Distance(n, "T", legs, 1.5) for n in "ABC"), Along("A", "T", "z", height, 1e4)),
        Datum("A", "x", "B", plane_axis="y", in_plane="C"),
    )
    top = solve(survey).points[-1]
    assert top.at == pytest.approx((a / 2, a / (2 * math.sqrt(3)), height), abs=1e-6)
    assert top.plus_minus_mm[2] == pytest.approx(1.5 * math.sqrt(3) * legs / (3 * height), rel=1e-3)
