"""The example mount by tape: its survey gives back the mount of engine-mount.toml within the stated ±."""

from __future__ import annotations

import math
import tomllib
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from recipe.recipe_files import MOUNT, RECIPES

from clampwright.files.structure_toml import structure_toml
from clampwright.layout.kinds import lay_out
from clampwright.recipe.read import read, read_text
from clampwright.recipe.survey_file import read_survey
from clampwright.structure.nodes import nodes
from clampwright.structure.survey.solve import solve
from clampwright.structure.survey.solved import SolvedSurvey
from clampwright.structure.tubes import Tube
from clampwright.structure.uncertainty import plus_minus

INCH = 25.4
ORIGIN = np.array((0.0, -13.0, -11.0))
"""Of the survey (F1) in the frame of engine-mount.toml, inches."""
RIGHT, WRONG = RECIPES / "mount-survey.toml", RECIPES / "mount-survey-wrong.toml"


@cache
def solved(path: Path) -> SolvedSurvey:
    return solve(read_survey(path))


def true_tubes() -> dict[str, tuple[np.ndarray, np.ndarray, float]]:
    """Start, direction and outside diameter of each tube of engine-mount.toml, mm, in the survey's frame."""
    tubes = {}
    for name, tube in tomllib.loads(MOUNT.read_text(encoding="utf-8"))["tubes"].items():
        start, end = (INCH * (np.array(tube[key], dtype=float) - ORIGIN) for key in ("start", "end"))
        od = {"3/4 in": 0.75 * INCH, "5/8 in": 0.625 * INCH}[tube["od"]]
        tubes[name] = start, (end - start) / np.linalg.norm(end - start), od
    return tubes


def test_the_survey_says_that_nobody_took_it() -> None:
    for path in (RIGHT, WRONG):
        assert "only in these examples" in " ".join(
            path.read_text(encoding="utf-8").replace("#", " ").split()
        )


def test_it_is_checked_by_more_measurements_than_it_needs_and_its_tape_is_as_good_as_said() -> None:
    found = solved(RIGHT)
    assert found.says == ()
    assert found.freedoms == 0
    assert found.redundancy >= 20
    assert found.scale <= found.scale_most
    assert all(mirror.resolved for mirror in found.mirrors)
    assert found.worst_mm is not None
    assert found.worst_mm < 0.15 * INCH


def test_every_axis_is_that_of_the_mount_within_the_stated_plus_minus() -> None:
    """How far each ring is off the true axis, square to it, against its ±: 19 in 20, none by far."""
    structure = solved(RIGHT).structure
    assert structure is not None
    assert structure.uncertainty is not None
    shares = []
    for tube in structure.tubes:
        start, direction, od = true_tubes()[tube.name]
        assert tube.od_mm == pytest.approx(od)
        for station in (0.0, tube.length_mm):
            at = np.array(tube.point(station)) - start
            rows = structure.uncertainty.point(tube, station)
            for across in np.linalg.svd(direction[None])[2][1:]:
                shares.append(abs(float(at @ across)) / plus_minus(across @ rows))
    assert len(shares) == 40
    assert np.mean(np.array(shares) <= 1.0) >= 0.9
    assert max(shares) < 1.6


def test_every_tube_is_as_long_as_the_mount_s_and_meets_what_is_welded_to_it() -> None:
    """Ends within 1/8 in of where the axes meet; nodes at the ring's corners and the middle tubes' ends."""
    structure = solved(RIGHT).structure
    assert structure is not None
    for name, written in tomllib.loads(MOUNT.read_text(encoding="utf-8"))["tubes"].items():
        tube = structure.tube(name)
        for end, key in ((tube.start, "start"), (tube.end, "end")):
            assert math.dist(end, INCH * (np.array(written[key], dtype=float) - ORIGIN)) < INCH / 8
    met = {(node.tube, word) for node in nodes(structure) for word in node.reason.replace(",", "").split()}
    for upright, *others in (
        ("ring-left", "upper-left", "lower-left", "middle-left", "ring-top", "ring-bottom"),
        ("ring-right", "upper-right", "lower-right", "middle-right", "ring-top", "ring-bottom"),
    ):
        assert {(upright, other) for other in others} <= met


def test_marks_are_where_they_were_drawn() -> None:
    """M1 was put 6 in along from ring A, the rings 2 in from where axes meet; else `from` tells."""
    structure = solved(RIGHT).structure
    assert structure is not None
    assert structure.tube("upper-left").mark_mm == pytest.approx(8 * INCH, abs=0.1 * INCH)
    assert structure.tube("middle-left").mark_mm == pytest.approx(2 * INCH)
    assert structure.tube("upper-right").mark_mm == pytest.approx(2 * INCH)


def test_its_mirror_image_is_not_taken() -> None:
    """x forward, y to the right as one looks aft, z up: right-handed, as in engine-mount.toml."""
    structure = solved(RIGHT).structure
    assert structure is not None
    left, right = structure.tube("upper-left"), structure.tube("upper-right")
    assert left.start[1] < right.start[1]
    assert left.end[0] > left.start[0]
    assert structure.tube("lower-left").start[2] < left.start[2]


def test_the_inch_that_was_not_taken_off_is_found_by_name() -> None:
    right, wrong = RIGHT.read_text(encoding="utf-8"), WRONG.read_text(encoding="utf-8")
    assert '["F2", "L", "28-11/16"]' in right
    assert '["F2", "L", "29-11/16"]' in wrong
    found = solved(WRONG)
    assert found.structure is None
    (blunder,) = found.blunders
    assert {blunder.measurement.a, blunder.measurement.b} == {"F2", "L"}
    assert blunder.measured == pytest.approx((29 + 11 / 16) * INCH)
    assert blunder.probably == pytest.approx((28 + 11 / 16) * INCH, abs=blunder.plus_minus)


def test_a_plate_stands_on_the_solved_tubes(tmp_path: Path) -> None:
    """The coil plate of engine-mount.toml laid out on the surveyed tubes: the same within the errors."""
    structure = solved(RIGHT).structure
    assert structure is not None
    (tmp_path / "tubes.toml").write_text(structure_toml(structure, "By tape", "in"), encoding="utf-8")
    text = (
        (RECIPES / "coil-plate.toml").read_text(encoding="utf-8").replace("engine-mount.toml", "tubes.toml")
    )
    layout = lay_out(read_text(text, tmp_path / "coil-plate.toml"))
    first = lay_out(read(RECIPES / "coil-plate.toml"))
    assert len(layout.loops) == len(first.loops) == 4
    for one, other in ((loop_tube(layout, n), loop_tube(first, n)) for n in ("upper-left", "middle-left")):
        cosine = sum(a * b for a, b in zip(one.direction, other.direction, strict=True))
        assert math.degrees(math.acos(min(1.0, cosine))) < 1.0
    assert any(each.given for each in layout.known_to)


def loop_tube(layout: object, name: str) -> Tube:
    tube = layout.recipe.structure.tube(name)  # type: ignore[attr-defined]
    assert isinstance(tube, Tube)
    return tube
