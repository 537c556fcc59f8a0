"""A plan always holds the figure, is taken in the order of a hand, and measures as well as the how-to."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from structure.survey.known_figures import Vec3, points_of, read, tubes_of

from clampwright.recipe.survey_file import read_survey, read_survey_text
from clampwright.recipe.survey_starter import starter
from clampwright.structure.survey.model import (
    Along,
    Datum,
    Distance,
    Side,
    Survey,
    SurveyPoint,
    SurveyTube,
)
from clampwright.structure.survey.planning import plan
from clampwright.structure.survey.solve import solve
from clampwright.structure.survey.solved import Next, SolvedSurvey

RECIPES = Path(__file__).parents[3] / "recipes"

BAY: dict[str, Vec3] = {
    "P1": (0, 0, 0),
    "P2": (0, 620, 0),
    "P3": (0, 300, 560),
    "A": (60, 80, 470),
    "B": (420, 190, 430),
    "C": (55, 560, 480),
    "D": (430, 450, 425),
    "E": (50, 100, 70),
    "G": (410, 180, 120),
    "H": (45, 520, 60),
    "J": (415, 440, 130),
}
"""Four invented struts off three marks on a firewall."""

STRUTS = {"ul": ("A", "B", 19.05), "ur": ("C", "D", 19.05), "ll": ("E", "G", 15.9), "lr": ("H", "J", 15.9)}


def bay() -> Survey:
    """The bay, nothing measured yet."""
    datum = Datum("P1", "y", "P2", plane_axis="z", in_plane="P3")
    forward = (Side("B", (1.0, 0.0, 0.0), "P1"),)
    return Survey("bay", "", "mm", points_of(BAY, STRUTS), tubes_of(STRUTS), (), datum, forward)


def taken(survey: Survey, planned: tuple[Next, ...], places: dict[str, Vec3]) -> SolvedSurvey:
    """The survey solved with what was planned read exactly, ± 1/16 in."""
    readings = tuple(Distance(n.a, n.b, 1.0, 1.5875) for n in planned)
    return solve(read(replace(survey, measurements=readings), places))


def still_free(survey: Survey, planned: tuple[Next, ...], seed: int) -> int:
    """Second route: 3n less the frame's freedoms less the rank, points by lot, derivatives by differences."""
    lot = np.random.default_rng(seed)
    number = {p.name: i for i, p in enumerate(survey.points)}
    at = lot.uniform(-400.0, 400.0, (len(number), 3))
    reads = []
    for point in survey.points:
        i = number[point.name]
        for name in (*point.axis_of, *([point.skin_of] if point.skin_of else [])):
            tube = survey.tube(name)
            if point.name in (tube.start, tube.end):
                continue
            a, b = number[tube.start], number[tube.end]
            way = at[b] - at[a]
            at[i] = at[a] + lot.uniform(0.2, 0.8) * way
            square = np.linalg.svd(way[None])[2][1:]
            if point.skin_of:
                at[i] += 9.5 * square[0]
                reads.append(
                    lambda x, i=i, a=a, b=b: (
                        np.linalg.norm(np.cross(x[i] - x[a], x[b] - x[a])) / np.linalg.norm(x[b] - x[a])
                    )
                )
            else:
                reads += [
                    lambda x, i=i, a=a, b=b, q=q: (
                        q @ np.cross(x[i] - x[a], x[b] - x[a]) / np.linalg.norm(x[b] - x[a])
                    )
                    for q in square
                ]
    for each in planned:
        i, j = number[each.a], number[each.b]
        if each.what.startswith("height"):
            reads.append(lambda x, i=i, j=j: x[j, 2] - x[i, 2])
        else:
            reads.append(lambda x, i=i, j=j: np.linalg.norm(x[i] - x[j]))
    rows = np.zeros((len(reads), at.size))
    for column in range(at.size):
        step = np.zeros(at.size)
        step[column] = 1e-4
        near, far = (at + sign * step.reshape(at.shape) for sign in (-1, 1))
        rows[:, column] = [(read_off(far) - read_off(near)) / 2e-4 for read_off in reads]
    values = np.linalg.svd(rows, compute_uv=False) if reads else np.zeros(0)
    rank = int(np.sum(values > 1e-7 * max(values, default=1.0)))
    return at.size - (4 if survey.datum.level else 6) - rank


def by_lot(lot: np.random.Generator) -> Survey:
    """Up to six tubes, some joined, rings and pen marks on them, marks beside, points in any order."""
    tubes = list[SurveyTube]()
    for i in range(int(lot.integers(0, 7))):
        start = tubes[-1].end if tubes and lot.random() < 0.3 else f"E{2 * i}"
        tubes.append(SurveyTube(f"t{i}", start, f"E{2 * i + 1}", 19.0))
    ends = dict.fromkeys(end for tube in tubes for end in (tube.start, tube.end))
    points = [SurveyPoint(e, tuple(t.name for t in tubes if e in (t.start, t.end))) for e in ends]
    points += [SurveyPoint(f"F{i}") for i in range(int(lot.integers(0, 5)))]
    points += [SurveyPoint(f"X{i}") for i in range(4 - len(points))]
    named = [str(name) for name in lot.permutation([p.name for p in points])[:3]]
    if tubes:
        points += [SurveyPoint(f"M{i}", skin_of="t0") for i in range(int(lot.integers(0, 2)))]
        points += [SurveyPoint(f"R{i}", (tubes[-1].name,)) for i in range(int(lot.integers(0, 2)))]
    points = [points[i] for i in lot.permutation(len(points))]
    level = lot.random() < 0.3
    datum = Datum(named[0], "x", named[1], level, None if level else "y", None if level else named[2])
    return Survey("by lot", "", "mm", tuple(points), tuple(tubes), (), datum)


@pytest.mark.parametrize("first", [0, 25, 50, 75])
def test_a_plan_holds_figures_of_any_sort(first: int) -> None:
    for seed in range(first, first + 25):
        survey = by_lot(np.random.default_rng(seed))
        planned = plan(survey)
        pairs = [(frozenset((n.a, n.b)), n.what.startswith("height")) for n in planned]
        assert len(set(pairs)) == len(pairs)
        assert still_free(survey, planned, 1000 + seed) == 0, seed
        held = sum(n.does.startswith(("holds ", "says which way is up")) for n in planned)
        assert still_free(survey, planned[:0], 2000 + seed) == held


def test_the_starter_with_its_distances_struck_out() -> None:
    """3 coordinates a point less 6 of the frame, one less for a mark on a tube's skin."""
    survey = replace(read_survey_text(starter("in", "s")), measurements=())
    planned = plan(survey)
    assert still_free(survey, planned, 7) == 0
    skins = sum(p.skin_of is not None for p in survey.points)
    assert sum(n.does.startswith("holds") for n in planned) == 3 * len(survey.points) - 6 - skins
    assert all(sum(p.name in (n.a, n.b) for n in planned) >= 3 for p in survey.points)


def test_two_tubes_and_three_marks_need_fifteen() -> None:
    """3 x 7 - 6; then both lengths, and the four distances between the rings of the two tubes."""
    two = {name: STRUTS[name] for name in ("ul", "ll")}
    names = ("A", "B", "E", "G", "P1", "P2", "P3")
    survey = replace(bay(), points=points_of(names, two), tubes=tubes_of(two))
    does = [n.does for n in plan(survey)]
    assert sum(d.startswith("holds") for d in does) == 15
    assert sum(d.startswith("length of") for d in does) == 2
    assert sum(d.startswith("spare") for d in does) == 4


def test_the_example_mount_without_its_readings() -> None:
    survey = replace(read_survey(RECIPES / "mount-survey.toml"), measurements=())
    planned = plan(survey)
    assert still_free(survey, planned, 8) == 0
    readings = [frozenset((m.a, m.b)) for m in read_survey(RECIPES / "mount-survey.toml").measurements]  # type: ignore[union-attr]
    assert len(planned) < 1.1 * len(readings)


def test_with_all_of_it_taken_nothing_more_is_needed() -> None:
    assert plan(read_survey_text(starter("in", "s"))) == ()


def test_the_order_is_that_of_a_hand() -> None:
    """The datum's triangle, each ring from three marks and its tube's length, spares at last."""
    told = [(n.a, n.b) for n in plan(bay())]
    assert told[:10] == [
        *[("P1", "P2"), ("P1", "P3"), ("P2", "P3")],
        *[("P1", "A"), ("P2", "A"), ("P3", "A")],
        *[("P1", "B"), ("P2", "B"), ("P3", "B"), ("A", "B")],
    ]
    assert set(told[10:31]) == {(f"P{i}", ring) for i in (1, 2, 3) for ring in "CDEGHJ"} | {
        ("C", "D"),
        ("E", "G"),
        ("H", "J"),
    }
    assert all(n.does == f"spare: checks {n.a} and {n.b}" for n in plan(bay())[31:])


def test_it_measures_as_well_as_the_how_to_and_every_reading_is_checked() -> None:
    """Against the how-to's 37 readings taken by judgement: three marks to each ring, lengths, six spares
    between the four far rings; 0.0945 in at worst there, with two readings that hardly anything checks."""
    solved = taken(bay(), plan(bay()), BAY)
    spares = ("BD", "GJ", "BG", "DJ", "BJ", "DG")
    usual = [*plan(bay())[:31], *(Next(pair[0], pair[1], "", "", None) for pair in spares)]
    judged = taken(bay(), tuple(usual), BAY)
    assert judged.worst_mm == pytest.approx(0.0945 * 25.4, abs=0.01)
    assert solved.worst_mm is not None
    assert solved.worst_mm < 0.09 * 25.4
    assert min(each.redundancy for each in solved.judged) > 0.1
    assert len(solved.judged) <= 41


def test_places_by_eye_make_it_better_with_as_many_readings() -> None:
    lot = np.random.default_rng(9)
    blind = plan(bay())
    without = taken(bay(), blind, BAY)
    for _ in range(3):
        rough = {name: tuple((np.array(at) + lot.normal(0.0, 30.0, 3)).tolist()) for name, at in BAY.items()}
        points = tuple(replace(p, rough=rough[p.name]) for p in bay().points)  # type: ignore[arg-type]
        seen = plan(replace(bay(), points=points))
        assert len(seen) == len(blind)
        solved = taken(bay(), seen, BAY)
        assert solved.freedoms == 0
        assert solved.worst_mm is not None
        assert without.worst_mm is not None
        assert solved.worst_mm < 0.97 * without.worst_mm
        after = [n.worst_after_mm for n in seen if n.worst_after_mm is not None]
        assert after == sorted(after, reverse=True)
        assert after[-1] == pytest.approx(solved.worst_mm, rel=0.25)


def test_heights_are_planned_where_z_is_plumb() -> None:
    level = replace(bay(), datum=Datum("P1", "y", "P2", level=True))
    heights = [n for n in plan(level) if n.does == "says which way is up"]
    assert len(heights) == 2
    readings = tuple(
        Along(n.a, n.b, "z", 0.0, 2.0, plumb=True) if n in heights else Distance(n.a, n.b, 1.0, 1.5)
        for n in plan(level)
    )
    assert solve(read(replace(level, measurements=readings), BAY)).freedoms == 0
