"""The fit of a cylinder against answers that others printed."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from clampwright.structure.scan.cylinder import Cylinder, fit, fit_anywhere, fit_robustly


def survey_data(pattern: str) -> Any:
    """The file of published numbers that a pattern tells of; skipped where their folder is not at hand."""
    where = os.environ.get("CLAMPWRIGHT_TEST_DATA")
    if not where:
        pytest.skip("CLAMPWRIGHT_TEST_DATA is not set: the files made by others are not here")
    (path,) = (Path(where) / "survey").glob(pattern)
    return json.loads(path.read_text("utf-8"))


def test_gander_golub_strebel_1994_geometric_circle() -> None:
    """Least-Squares Fitting of Circles and Ellipses, BIT 34 (1994) 558: six points, centre (4.7398, 2.9835),
    radius 4.7142. The same six at three heights are a cylinder's."""
    data = survey_data("*circle_6pts*.json")
    points = np.array([[x, y, z] for x, y in data["points"] for z in (0.0, 50.0, 100.0)])
    lean = np.array([0.0, 0.05, 1.0]) / np.hypot(1.0, 0.05)
    for radius in (4.0, 5.0):
        found = fit(points, Cylinder(np.array([5.0, 4.0, 0.0]), lean, radius))
        assert found.radius == pytest.approx(4.7142, abs=1e-4)
        assert found.point[:2] == pytest.approx([4.7398, 2.9835], abs=2e-4)
        assert abs(found.axis[2]) == pytest.approx(1.0, abs=1e-9)


def test_eight_points_of_a_measured_cylinder() -> None:
    """Eight points of a cylinder of 38.3 mm, from an open metrology program's tests: radius 19.16 ± 0.005,
    standard deviation 0.03 ± 0.01, form error 0.067; no start given."""
    data = survey_data("*cylinder_8pts*.json")
    points, published = np.array(data["points"]), data["published"]
    found = fit_anywhere(points)
    off = found.off_skin(points)
    assert found.radius == pytest.approx(published["radius"], abs=published["radius_tol"])
    assert np.sqrt(off @ off / (8 - 5)) == pytest.approx(published["stdev"], abs=published["stdev_tol"])
    assert np.ptp(off) == pytest.approx(published["form_error"], abs=0.003)


def test_strays_do_not_pull_a_robust_fit() -> None:
    """A tenth of the points 2 to 5 mm off one side; the plain fit is pulled by ten times as much."""
    rng = np.random.default_rng(1)
    turn, along = rng.uniform(0, 2 * np.pi, 3000), rng.uniform(0, 300, 3000)
    out = 9.525 + 0.1 * rng.normal(size=3000)
    stray = (np.arange(3000) % 10 == 0) & (np.cos(turn) > 0)
    out = out + np.where(stray, rng.uniform(2, 5, 3000), 0.0)
    points = np.column_stack([out * np.cos(turn), out * np.sin(turn), along])
    start = Cylinder(np.array([0.5, 0.5, 0.0]), np.array([0.0, 0.0, 1.0]), 8.0)
    plain, (robust, trust, _) = fit(points, start), fit_robustly(points, start)
    assert abs(robust.radius - 9.525) < 0.01
    assert abs(plain.radius - 9.525) > 10 * abs(robust.radius - 9.525)
    assert trust[stray].max() == 0.0
    assert np.hypot(*robust.point[:2]) < 0.01


def test_the_fit_does_not_depend_on_the_frame() -> None:
    rng = np.random.default_rng(2)
    turn = rng.uniform(0, 2.5, 500)
    points = np.column_stack([8 * np.cos(turn), 8 * np.sin(turn), rng.uniform(0, 90, 500)])
    points += 0.2 * rng.normal(size=points.shape)
    start = Cylinder(np.zeros(3), np.array([0.05, 0.0, 1.0]) / np.hypot(1, 0.05), 7.0)
    here = fit(points, start)
    about, _ = np.linalg.qr(rng.normal(size=(3, 3)))
    shift = np.array([500.0, -300.0, 800.0])
    there = fit(points @ about.T + shift, Cylinder(shift, about @ start.axis, 7.0))
    assert there.radius == pytest.approx(here.radius, abs=1e-6)
    assert there.point == pytest.approx(about @ here.point + shift, abs=1e-5)
    assert there.axis == pytest.approx(about @ here.axis, abs=1e-7)
