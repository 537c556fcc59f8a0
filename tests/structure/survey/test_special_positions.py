"""Figures and surveys that cannot be solved: named in a sentence, never a crash."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from structure.survey.bar_frameworks import OCTAHEDRON, OCTAHEDRON_BARS, all_bars, framework
from structure.survey.known_figures import MOUNT, mount, on_the_line, read

from clampwright.structure.survey.model import Along, Datum, Distance, Plumb, Side, Slope, Survey, SurveyTube
from clampwright.structure.survey.solve import solve

FLAT = {
    "A": (0.0, 0.0, 0.0),
    "B": (500.0, 0.0, 0.0),
    "C": (500.0, 400.0, 0.0),
    "D": (0.0, 400.0, 0.0),
    "E": (230.0, 180.0, 0.0),
}
ON_A_LINE = {name: (130.0 * i, 0.0, 0.0) for i, name in enumerate("ABCD")}


def said(survey: Survey) -> str:
    solved = solve(survey)
    assert solved.structure is None
    return " ".join(solved.says)


@pytest.mark.parametrize("seed", [None, 1, 2], ids=["exact", "taped", "taped again"])
def test_all_points_in_one_plane(seed: int | None) -> None:
    """All ten distances of five points: a plane figure moves square to it and no length feels it."""
    survey = framework(FLAT, all_bars(FLAT), Datum("A", "x", "B", plane_axis="y", in_plane="D"))
    if seed is not None:
        survey = read(survey, FLAT, np.random.default_rng(seed))
    solved = solve(survey)
    assert 1 <= solved.freedoms <= 2
    assert {"C", "E"} <= set(solved.loose)
    assert "All points lie in one plane" in " ".join(solved.says)
    assert "no further distance between these points holds" in " ".join(solved.says)


def test_a_plane_figure_in_a_level_frame_is_held_by_heights() -> None:
    heights = tuple(Along("A", name, "z", 0.0, 2.0, plumb=True) for name in "BCDE")
    survey = framework(FLAT, all_bars(FLAT), Datum("A", "x", "B", level=True))
    survey = read(replace(survey, measurements=survey.measurements + heights), FLAT)
    solved = solve(survey)
    assert solved.freedoms == 0
    assert [round(c) for c in solved.points[2].at] in ([500, 400, 0], [500, -400, 0])


def test_points_on_a_line() -> None:
    survey = framework(ON_A_LINE, all_bars(ON_A_LINE), Datum("A", "x", "B", plane_axis="y", in_plane="D"))
    words = said(survey)
    assert "All points lie on one line" in words
    assert "A, B and D lie in a row" in words


def test_three_points_of_the_datum_in_a_row() -> None:
    places = {**OCTAHEDRON, "M": (200.0, 190.0, 0.0)}
    bars = [*OCTAHEDRON_BARS, "A-M", "B-M", "C-M", "F-M", "D-M"]
    words = said(framework(places, bars, Datum("A", "x", "B", plane_axis="y", in_plane="M")))
    assert "A, B and M lie in a row" in words


def test_a_level_datum_that_points_straight_up() -> None:
    survey = replace(mount(), datum=Datum("A", "x", "B", level=True))
    places = {**OCTAHEDRON, "B": (400.0, 0.0, 500.0)}
    heights = tuple(Along("A", name, "z", 0.0, 1.0, plumb=True) for name in "BCDEF")
    survey = framework(places, OCTAHEDRON_BARS, Datum("A", "x", "B", level=True))
    survey = read(replace(survey, measurements=survey.measurements + heights), places)
    assert "straight above or below" in said(survey)


def test_a_level_frame_that_nothing_makes_level() -> None:
    solved = solve(replace(mount(), datum=Datum("LL", "y", "LR", level=True)))
    assert solved.freedoms == 2
    assert "nothing says which way is up" in " ".join(solved.says)
    assert [n.what.startswith("height") for n in solved.take_next] == [True, True]


def test_gravity_that_turns_is_set_aside_and_the_tape_holds() -> None:
    """One slope, a plane datum: the points are fast, and which way is up is not, so the slope waits."""
    survey, truth = mount(), on_the_line(MOUNT)
    one = read(replace(survey, measurements=(*survey.measurements, Slope("top", 0.0, 0.005))), truth)
    solved = solve(one)
    assert (solved.freedoms, solved.loose) == (0, ())
    assert solved.structure is not None
    [caution] = [words for words in solved.cautions if words.startswith("Set aside: slope of top")]
    assert "level = true" in caution
    for placed, other in zip(solved.points, solve(survey).points, strict=True):
        assert placed.at == pytest.approx(other.at, abs=1e-3)


def test_gravity_in_a_frame_of_three_points_is_two_more_unknowns() -> None:
    """Two slopes check nothing; the third reading of gravity does, and the figure is the same."""
    survey, truth = mount(), on_the_line(MOUNT)
    felt = (
        Slope("top", 0.0, 0.005),
        Slope("left", 0.0, 0.005),
        Along("LL", "EUR", "z", 0.0, 2.0, plumb=True),
        Plumb("UL", "LL", 60.0),
    )
    plain = solve(survey)
    for count, more in ((2, 0), (3, 1), (4, 3)):
        added = read(replace(survey, measurements=survey.measurements + felt[:count]), truth)
        solved = solve(added)
        assert solved.freedoms == 0
        assert solved.redundancy == plain.redundancy + more
        for one, other in zip(solved.points, plain.points, strict=True):
            assert one.at == pytest.approx(other.at, abs=1.0)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"measurements": ()}, "Nothing was measured yet."),
        ({"points": ()}, "The survey has no points."),
        ({"datum": Datum("LL", "y", "LL", plane_axis="z", in_plane="UL")}, "name two different points"),
        ({"datum": Datum("LL", "y", "LR", plane_axis="z", in_plane="LR")}, "names LR twice"),
        ({"datum": Datum("LL", "y", "LR", plane_axis="y", in_plane="UL")}, "two different axes"),
        ({"datum": Datum("LL", "y", "LR")}, "needs a third point"),
        ({"datum": Datum("LL", "z", "LR", level=True)}, "axis is x or y"),
        ({"datum": Datum("LL", "y", "nowhere", level=True)}, 'No point is called "nowhere"'),
        ({"tubes": (SurveyTube("stub", "UL", "UL", 19.05),)}, "it has no length"),
        ({"measurements": (Distance("UL", "UL", 10.0, 1.0),)}, "to itself"),
        ({"measurements": (Distance("UL", "UR", 0.0, 1.0),)}, "reads nothing"),
        ({"measurements": (Slope("nothing", 0.1, 0.01),)}, 'No tube is called "nothing"'),
        ({"sides": (Side("EUL", (1.0, 0.0, 0.0), "moon"),)}, 'No point is called "moon"'),
    ],
)
def test_what_keeps_a_survey_from_being_solved(change: dict[str, object], words: str) -> None:
    assert words in said(replace(mount(), **change))  # type: ignore[arg-type]


def test_two_points_at_the_same_place() -> None:
    """Distances to them contradict one another or agree; either way it is said, and nothing fails."""
    places = {**OCTAHEDRON, "G": OCTAHEDRON["A"]}
    bars = [*OCTAHEDRON_BARS, "G-B", "G-C", "G-D", "G-E"]
    solved = solve(framework(places, bars))
    assert math.dist(solved.points[0].at, solved.points[-1].at) < 1e-3


def test_a_tape_over_walls_along_its_own_tube_is_said() -> None:
    plain = mount()
    odd = Distance("EUL", "RT", 190.0, 1.5, "outside", ("upper-left", "top"))
    solved = solve(replace(plain, measurements=(*plain.measurements, odd)))
    assert any("runs nearly along top" in says for says in solved.cautions)


@settings(deadline=None, max_examples=5)
@given(st.integers(0, 10**6), st.integers(0, 34), st.booleans())
def test_any_readings_at_all_give_an_answer(seed: int, count: int, level: bool) -> None:
    """Nonsense on the sheet: lengths by lot, any number of them."""
    lot = np.random.default_rng(seed)
    plain = mount()
    taken = tuple(
        replace(m, value_mm=float(lot.uniform(5, 1500)))  # type: ignore[call-arg]
        for m in lot.permutation(np.array(plain.measurements, dtype=object))[:count]
    )
    datum = Datum("LL", "y", "LR", level=True) if level else plain.datum
    solved = solve(replace(plain, measurements=taken, datum=datum))
    assert solved.structure is None or not solved.says
    assert all(math.isfinite(c) for p in solved.points for c in p.at)
    assert len(solved.judged) in (0, count)
