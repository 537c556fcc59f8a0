"""Meshes smoother than metal: the floor under every ±, and drawings saved as meshes."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from structure.scan.tube_meshes import mesh, write_mesh

from clampwright.structure.chosen import chosen
from clampwright.structure.found import Found
from clampwright.structure.scan.find import tubes_in_scan
from clampwright.trade.tables import rule

FLOOR = 0.1


def found_with(folder: Path, rough: float, units: str = "mm", taper: float = 0.0) -> Found:
    """What is found in a mesh of a tube of 19.05 mm, 200 mm long, its corners off by so much (normal)."""
    corners, facets = mesh()
    away = rough * np.random.default_rng(3).normal(size=len(corners)) + taper * corners[:, 2] / 200.0
    corners = corners + away[:, None] * corners * [1.0, 1.0, 0.0] / 9.525
    write_mesh(folder / "tube.ply", corners, facets)
    return tubes_in_scan(folder / "tube.ply", "mm", units=units)


def test_the_floor_is_the_rule() -> None:
    assert rule("scan-floor").value == FLOOR


def test_a_smoothed_mesh_is_known_no_better_than_the_floor(tmp_path: Path) -> None:
    """Each end of the axis, its place along it and the diameter: ± the floor and what the fit adds."""
    found = found_with(tmp_path, 0.02)
    (tube,) = found.tubes
    assert 0.01 < tube.residual_mm < 0.03
    assert FLOOR < tube.od_plus_minus_mm < 1.2 * FLOOR
    assert FLOOR < tube.ends_plus_minus_mm < 1.2 * FLOOR
    assert all(FLOOR < along < 2 * FLOOR for along in tube.along_plus_minus_mm)
    assert tube.angle_plus_minus_rad == pytest.approx(math.sqrt(2) * FLOOR / 200.0, rel=0.2)
    assert not any("drawing" in said for said in found.doubts)


def test_both_ends_err_each_for_itself(tmp_path: Path) -> None:
    """Half way along the errors of two ends average: 1/√2 of either, square to the axis (here z)."""
    found = found_with(tmp_path, 0.011)
    sure = chosen(found, [1], {}).uncertainty
    assert sure is not None
    rows = np.array(sure.factor_mm)
    start, end = rows[:2], rows[3:5]
    across = [1.96 * math.sqrt(float(np.sum(row**2))) for row in (*start, *end)]
    assert across == pytest.approx([FLOOR] * 4, rel=0.1)
    assert abs(float(start[0] @ end[0])) < 0.1 * float(start[0] @ start[0])
    middle = 1.96 * math.sqrt(float(np.sum((0.5 * start[0] + 0.5 * end[0]) ** 2)))
    assert middle == pytest.approx(FLOOR / math.sqrt(2), rel=0.1)


@pytest.mark.parametrize(("units", "least"), [("mm", "0.01 mm"), ("in", "0.00039 in")])
def test_a_mesh_too_smooth_for_a_scan_is_a_drawing(tmp_path: Path, units: str, least: str) -> None:
    found = found_with(tmp_path, 0.004, units)
    assert found.doubts == (
        f"Its skin is smooth to less than {least}: this is a drawing, not a scan. The metal may differ: no ± "
        "comes from the file, and the recipe's measuring error has to stand.",
    )
    (tube,) = found.tubes
    assert (tube.od_plus_minus_mm, tube.ends_plus_minus_mm, tube.angle_plus_minus_rad) == (0.0, 0.0, 0.0)
    assert (tube.spread_mm, tube.along_plus_minus_mm) == ((), (0.0, 0.0))
    assert tube.stock == "3/4 in"
    assert chosen(found, [1], {}).uncertainty is None


def test_a_diameter_between_two_stock_sizes_is_asked_about(tmp_path: Path) -> None:
    """16 mm and 5/8 in lie 0.125 mm apart: no mesh, however smooth, tells one from the other in the metal
    where its diameter lies between."""
    corners, facets = mesh()
    rough = 0.02 * np.random.default_rng(4).normal(size=(len(corners), 1))
    corners = (
        corners * np.array([7.97 / 9.525, 7.97 / 9.525, 1.0]) + rough * corners * [1.0, 1.0, 0.0] / 9.525
    )
    write_mesh(tmp_path / "tube.ply", corners, facets)
    (tube,) = tubes_in_scan(tmp_path / "tube.ply", "mm").tubes
    assert tube.stock == ""
    size = f"{tube.od_found_mm:.2f} ± {tube.od_plus_minus_mm:.2f} mm"
    said = f"Its diameter, {size}, agrees with 5/8 in and 16 mm: measure it with calipers."
    assert tube.doubts == (said,)


def test_sentences_in_inches(tmp_path: Path) -> None:
    """The same things said, every length in the other unit."""
    metric, inch = (found_with(tmp_path, 0.05, units, taper=6.0) for units in ("mm", "in"))
    assert metric.tubes == inch.tubes == ()
    why, other = metric.not_taken[0], inch.not_taken[0]
    assert why.why.endswith("mm from end to end: a cone")
    assert other.why.endswith("in from end to end: a cone")
    assert number(why.why) == pytest.approx(25.4 * number(other.why), abs=0.02)
    assert " mm" not in " ".join((other.what, other.why, *inch.doubts))
    assert " in " not in why.what


def number(said: str) -> float:
    return float(said.split(" by ")[1].split(" ")[0])
