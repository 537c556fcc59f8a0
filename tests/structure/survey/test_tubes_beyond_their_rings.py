"""Tubes that run on beyond the rings they were measured at."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from clampwright.recipe.survey_file import read_survey_text
from clampwright.recipe.survey_starter import starter
from clampwright.structure.survey.model import Distance, Survey
from clampwright.structure.survey.solve import solve
from clampwright.structure.tubes import Structure, Tube

BEYOND = (50.0, 80.0)
NONE = (0.0, 0.0)


def survey(beyond: tuple[float, float] | None) -> Survey:
    """Two tubes from three marks, every tube with the same lengths beyond its rings."""
    read = read_survey_text(starter("mm", "two-tubes"))
    return replace(read, tubes=tuple(replace(tube, beyond_mm=beyond) for tube in read.tubes))


def tubes(measured: Survey) -> Structure:
    structure = solve(measured).structure
    assert structure is not None
    return structure


@pytest.mark.parametrize(
    ("written", "mm"),
    [
        ('["2 in", "1-1/2 in"]', (50.8, 38.1)),
        ('"2 in"', (50.8, 50.8)),
        ("[2, 0]", (50.8, 0.0)),
        ("0", (0.0, 0.0)),
    ],
)
def test_it_is_written_as_one_length_or_two(written: str, mm: tuple[float, float]) -> None:
    text = starter("in", "two-tubes").replace('beyond = ["2 in", "2 in"]', f"beyond = {written}")
    for tube in read_survey_text(text).tubes:
        assert tube.beyond_mm == pytest.approx(mm)


def test_the_ends_move_out_along_the_axis_and_the_from_ring_is_the_mark() -> None:
    for short, whole in zip(tubes(survey(NONE)).tubes, tubes(survey(BEYOND)).tubes, strict=True):
        assert math.dist(short.start, whole.start) == pytest.approx(50.0)
        assert math.dist(short.end, whole.end) == pytest.approx(80.0)
        assert whole.direction == pytest.approx(short.direction)
        assert whole.length_mm == pytest.approx(short.length_mm + 130.0)
        assert short.mark_mm is None
        assert whole.mark_mm == pytest.approx(50.0)


def test_a_mark_counts_from_the_new_start() -> None:
    marked = [survey(each) for each in (NONE, BEYOND)]
    marked = [replace(s, tubes=(replace(s.tubes[0], mark="M1"), *s.tubes[1:])) for s in marked]
    short, whole = (tubes(each).tubes[0].mark_mm for each in marked)
    assert short is not None
    assert whole == pytest.approx(short + 50.0)


def test_the_rings_stay_as_sure_as_they_were_and_the_axis_is_one() -> None:
    """Every point of the axis has the same covariance, told from the rings or from the ends."""
    short, whole = tubes(survey(NONE)), tubes(survey(BEYOND))
    assert short.uncertainty is not None
    assert whole.uncertainty is not None
    for one, other in zip(short.tubes, whole.tubes, strict=True):
        for station in (-50.0, 0.0, 100.0, one.length_mm, one.length_mm + 80.0):
            first = short.uncertainty.point(one, station)
            second = whole.uncertainty.point(other, station + 50.0)
            assert second @ second.T == pytest.approx(first @ first.T, abs=1e-9)


def test_the_ends_scatter_square_to_the_axis_as_their_covariance_says() -> None:
    """Monte Carlo: the readings shaken by their own ±, solved again and the ends moved out each time."""
    plain = survey(BEYOND)
    known = tubes(plain)
    assert known.uncertainty is not None
    random = np.random.default_rng(7)
    exact = _exact(plain)
    came = [solve(_shaken(exact, random)).structure for _ in range(120)]
    ends = np.array([_ends(structure) for structure in came if structure is not None])
    assert len(ends) >= 115, "a clean survey is refused once in a hundred at most"
    for number, tube in enumerate(known.tubes):
        for end, station in enumerate((0.0, tube.length_mm)):
            rows = known.uncertainty.point(tube, station)
            for across in np.linalg.svd(np.array(tube.direction)[None])[2][1:]:
                seen = float(np.std(ends[:, number, end] @ across))
                assert seen == pytest.approx(float(np.linalg.norm(across @ rows)), rel=0.3)


def test_where_nothing_is_said_a_caution_names_the_tubes() -> None:
    said = solve(survey(None)).cautions
    (caution,) = [each for each in said if "beyond" in each]
    assert caution.startswith("upper-left and lower-left end at their rings: metal beyond")
    first = survey(NONE)
    half = replace(first, tubes=(replace(first.tubes[0], beyond_mm=None), *first.tubes[1:]))
    (caution,) = [each for each in solve(half).cautions if "beyond" in each]
    assert caution.startswith("upper-left ends at its rings A and B: metal beyond")
    assert not [each for each in solve(first).cautions if "beyond" in each]


def _exact(measured: Survey) -> Survey:
    """The survey with its distances as the adjusted points give them, all within their ± of what was read."""
    at = {placed.name: np.array(placed.at) for placed in solve(measured).points}
    kept = tuple(
        replace(m, value_mm=float(np.linalg.norm(at[m.a] - at[m.b]))) if isinstance(m, Distance) else m
        for m in measured.measurements
    )
    return replace(measured, measurements=kept)


def _shaken(exact: Survey, random: np.random.Generator) -> Survey:
    shaken = tuple(
        replace(m, value_mm=m.value_mm + float(random.normal(0.0, m.error_mm / 1.96)))
        if isinstance(m, Distance)
        else m
        for m in exact.measurements
    )
    return replace(exact, measurements=shaken)


def _ends(structure: Structure) -> list[tuple[object, object]]:
    def both(tube: Tube) -> tuple[object, object]:
        return tube.start, tube.end

    return [both(tube) for tube in structure.tubes]
