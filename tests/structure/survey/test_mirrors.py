"""Mirror images asked, not guessed: every point or part that can flip, and what settles it."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from structure.survey.bar_frameworks import all_bars, framework
from structure.survey.known_figures import MOUNT, Vec3, in_frame, mount, on_the_line, read

from clampwright.structure.survey.model import Along, Datum, Side, Survey
from clampwright.structure.survey.solve import solve
from clampwright.structure.survey.solved import SolvedSurvey
from clampwright.structure.survey.wording import SIDES

BASE: dict[str, Vec3] = {
    "A": (0.0, 0.0, 0.0),
    "B": (520.0, 0.0, 0.0),
    "C": (180.0, 430.0, 0.0),
    "D": (230.0, 150.0, 390.0),
}
DATUM = Datum("A", "x", "B", plane_axis="y", in_plane="C")
TOWARD = {
    words[way]: tuple((1.0 if way == 0 else -1.0) * (axis == name) for name in "xyz")
    for axis, words in SIDES.items()
    for way in (0, 1)
}


def answers(question: str) -> list[Side]:
    """The sides that a question offers to write."""
    offered = re.findall(r'sides = \[\["(.+?)", "(.+?)", "(.+?)"\]\]', question)
    return [Side(point, TOWARD[word], than) for point, word, than in offered]  # type: ignore[arg-type]


def test_the_whole_is_mirrored_where_only_distances_were_taken() -> None:
    solved = solve(framework(BASE, all_bars(BASE), DATUM))
    assert solved.structure is None
    [mirror] = solved.mirrors
    assert (mirror.moves, mirror.resolved) == (("D",), False)
    assert sorted(round(at[2]) for at in (mirror.one, mirror.other)) == [-390, 390]
    assert 'sides = [["D", "+z of", ' in mirror.ask
    assert 'sides = [["D", "-z of", ' in mirror.ask
    assert solved.says == ("Two figures agree with every measurement: answer the question about D.",)


def test_a_point_on_three_others_is_asked_for_beside_the_whole() -> None:
    """E on B, C and D lies on either side of their plane, whichever way the whole is turned."""
    places = {**BASE, "E": (460.0, 400.0, 330.0)}
    solved = solve(framework(places, [*all_bars(BASE), "B-E", "C-E", "D-E"], DATUM))
    assert [set(m.moves) for m in solved.mirrors] == [{"D", "E"}, {"E"}]
    assert len(solved.says) == 2
    for mirror in solved.mirrors:
        assert len(answers(mirror.ask)) == 2


def test_two_points_on_the_same_three_are_two_questions_and_one_where_tied() -> None:
    """E and F on A, B, C: each for itself; with E-F measured they go together, unless D ties them to it."""
    places = {**BASE, "E": (150.0, 120.0, -280.0), "F": (330.0, 90.0, -350.0)}
    base = [*all_bars("ABC"), *(f"{p}-{q}" for q in "EF" for p in "ABC")]
    some = {k: v for k, v in places.items() if k != "D"}
    apart = solve(framework(some, base, DATUM))
    assert [m.moves for m in apart.mirrors] == [("E",), ("F",)]
    tied = solve(framework(some, [*base, "E-F"], DATUM))
    assert [m.moves for m in tied.mirrors] == [("E", "F")]


def test_a_rigid_part_hinged_on_three_points_flips_as_one() -> None:
    places = {**BASE, "E": (700.0, 300.0, 420.0), "F": (760.0, 420.0, 250.0), "G": (640.0, 520.0, 330.0)}
    bars = [*all_bars(BASE), *(f"{h}-{p}" for p in "EFG" for h in "BCD"), *all_bars("EFG")]
    solved = solve(framework(places, bars, DATUM))
    assert [set(m.moves) for m in solved.mirrors] == [{"D", "E", "F", "G"}, {"E", "F", "G"}]


def settled(survey: Survey, solved: SolvedSurvey, which: tuple[int, ...]) -> SolvedSurvey:
    sides = tuple(answers(m.ask)[way] for m, way in zip(solved.mirrors, which, strict=True))
    return solve(replace(survey, sides=sides))


@pytest.mark.parametrize("which", [(0, 0), (0, 1), (1, 0), (1, 1)])
def test_writing_either_answer_settles_it_that_way(which: tuple[int, int]) -> None:
    """Each of the four figures comes out where its two answers are written down as they were offered."""
    places = {**BASE, "E": (150.0, 120.0, -280.0), "F": (330.0, 90.0, 350.0)}
    bars = [*all_bars("ABC"), *(f"{p}-{q}" for q in "EF" for p in "ABC")]
    survey = framework({k: v for k, v in places.items() if k != "D"}, bars, DATUM)
    answered = settled(survey, solve(survey), which)
    assert answered.says == ()
    assert answered.structure is not None
    assert all(m.resolved for m in answered.mirrors)
    heights = [round(p.at[2]) for p in answered.points if p.name in "EF"]
    assert heights == [280 if which[0] == 0 else -280, 350 if which[1] == 0 else -350]


def test_a_place_by_eye_settles_it() -> None:
    survey = framework(BASE, all_bars(BASE), DATUM)
    for height in (400.0, -350.0):
        points = tuple(
            replace(p, rough=(250.0, 120.0, height)) if p.name == "D" else p for p in survey.points
        )
        solved = solve(replace(survey, points=points))
        assert solved.structure is not None
        assert round(solved.points[3].at[2]) == (390 if height > 0 else -390)


def test_a_place_by_eye_that_is_as_near_to_both_settles_nothing() -> None:
    places = {**BASE, "D": (230.0, 150.0, 60.0)}
    survey = framework(places, all_bars(places), DATUM)
    points = tuple(replace(p, rough=(230.0, 150.0, 30.0)) if p.name == "D" else p for p in survey.points)
    solved = solve(replace(survey, points=points))
    assert [m.resolved for m in solved.mirrors] == [False]
    assert solved.structure is None


def test_a_signed_measurement_settles_it() -> None:
    """An offset along z by square: no image is left to ask about, and the sign is its own."""
    for height in (390.0, -390.0):
        survey = framework(BASE, all_bars(BASE), DATUM)
        offset = Along("A", "D", "z", height, 3.0)
        solved = solve(replace(survey, measurements=(*survey.measurements, offset)))
        assert solved.mirrors == ()
        assert solved.structure is not None
        assert round(solved.points[3].at[2]) == height


def test_heights_in_a_level_frame_leave_the_upright_mirror_only() -> None:
    """z is known by sign; left and right of the datum's line is still the builder's to say."""
    places = {**BASE, "E": (300.0, 260.0, -200.0)}
    survey = framework(places, all_bars(places), Datum("A", "x", "B", level=True))
    heights = tuple(Along("A", n, "z", places[n][2], 2.0, plumb=True) for n in "BCDE")
    solved = solve(replace(survey, measurements=survey.measurements + heights))
    [mirror] = solved.mirrors
    assert set(mirror.moves) == {"C", "D", "E"}
    assert {w for s in answers(mirror.ask) for w in [s.toward[1]]} == {1.0, -1.0}
    assert [round(p.at[2]) for p in solved.points] == [0, 0, 0, 390, -200]


def test_sides_that_no_image_agrees_with_are_named() -> None:
    survey = framework(BASE, all_bars(BASE), DATUM)
    wrong = (Side("D", (0.0, 0.0, 1.0), "A"), Side("A", (1.0, 0.0, 0.0), "B", 7))
    solved = solve(replace(survey, sides=wrong))
    assert solved.structure is None
    assert "sides (line 7) says that A is +x of B" in solved.says[0]
    assert "520.0 mm on the other side" in solved.says[0]


def test_sides_of_which_each_image_has_one_are_told_apart() -> None:
    """B and D lie on the same side of A's plane in either image: said of opposite sides, none has both."""
    places = {**BASE, "E": (300.0, 260.0, 200.0)}
    survey = framework(places, all_bars(places), DATUM)
    said = (Side("D", (0.0, 0.0, 1.0), "A", 7), Side("E", (0.0, 0.0, -1.0), "A", 8))
    solved = solve(replace(survey, sides=said))
    assert solved.structure is None
    words = solved.says[0]
    assert "whichever way" not in " ".join(solved.says)
    one, other = words.split("in the other")
    assert {"D is +z of A (line 7)" in one, "D is +z of A (line 7)" in other} == {True, False}
    assert {"E is -z of A (line 8)" in one, "E is -z of A (line 8)" in other} == {True, False}
    assert ("D is" in one) != ("E is" in one)


def test_the_wrong_image_is_never_given_as_the_structure() -> None:
    """Taped with errors, from any start: either the side is right, or it is asked for."""
    lot = np.random.default_rng(41)
    plain, truth = mount(), on_the_line(MOUNT)
    for said in (True, False):
        for _ in range(12):
            survey = read(plain, truth, lot)
            solved = solve(survey if said else replace(survey, sides=()))
            if not said:
                assert solved.structure is None
                assert solved.mirrors
            elif solved.structure is not None:
                laid = in_frame(survey, truth)
                assert all(np.allclose(p.at, laid[p.name], atol=8.0) for p in solved.points)
