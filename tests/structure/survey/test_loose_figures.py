"""Under-measured figures named with the right count of freedoms, and what would hold them."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from structure.survey.bar_frameworks import (
    CUBE,
    CUBE_EDGES,
    CUBE_FACES,
    DOUBLE_BANANA,
    DOUBLE_BANANA_BARS,
    ICOSAHEDRON,
    OCTAHEDRON,
    OCTAHEDRON_BARS,
    all_bars,
    framework,
)
from structure.survey.known_figures import MOUNT, MOUNT_TAPED, mount, on_the_line, read

from clampwright.structure.survey.model import Along, Datum, Distance, Survey
from clampwright.structure.survey.planning import plan
from clampwright.structure.survey.solve import solve


def followed(
    survey: Survey, places: dict[str, tuple[float, float, float]], only: int | None = None
) -> Survey:
    """The survey with what was advised measured as well."""
    advised = solve(survey).take_next[:only]
    added = tuple(
        Along(n.a, n.b, "z", 0.0, 2.0, plumb=True)
        if n.what.startswith("height")
        else Distance(n.a, n.b, 1.0, 1.0)
        for n in advised
    )
    return read(replace(survey, measurements=survey.measurements + added), places)


@pytest.mark.parametrize(
    ("places", "bars", "freedoms"),
    [
        (OCTAHEDRON, OCTAHEDRON_BARS, 0),
        (OCTAHEDRON, [bar for bar in OCTAHEDRON_BARS if bar != "A-B"], 1),
        (OCTAHEDRON, [bar for bar in OCTAHEDRON_BARS if bar not in ("A-B", "C-D")], 2),
        (CUBE, CUBE_EDGES, 6),
        (CUBE, CUBE_EDGES + CUBE_FACES, 0),
        (DOUBLE_BANANA, DOUBLE_BANANA_BARS, 1),
    ],
    ids=["octahedron", "less one bar", "less two bars", "cube", "cube with face diagonals", "double banana"],
)
def test_freedoms_of_known_bar_frameworks(
    places: dict[str, tuple[float, float, float]], bars: list[str], freedoms: int
) -> None:
    """Maxwell (1864): 3 joints - 6 - bars where the bars are independent; 12 bars hold an octahedron (Cauchy,
    Dehn), a cube's 12 edges leave 6 ways. The double banana has 18 bars for 8 joints, as many as Maxwell asks
    for, and still turns about its ends: the textbook exception (recalled from memory)."""
    solved = solve(framework(places, bars))
    assert solved.freedoms == freedoms
    if freedoms:
        assert solved.structure is None
        assert solved.loose
        assert f"{freedoms} way" in solved.says[0]
        assert len(solved.take_next) == freedoms
        survey = framework(places, bars)
        while (found := solve(survey)).freedoms:
            assert len(survey.measurements) < len(bars) + freedoms + 2
            survey = followed(survey, places)
        assert found.redundancy < 3


def test_an_icosahedron_is_rigid_with_its_thirty_edges() -> None:
    """30 = 3 x 12 - 6 (Cauchy 1813, Dehn 1916: convex triangulated surfaces are rigid)."""
    edges = [
        bar
        for bar in all_bars(ICOSAHEDRON)
        if abs(math.dist(*(ICOSAHEDRON[p] for p in bar.split("-"))) - 1000.0) < 1
    ]
    assert len(edges) == 30
    assert solve(framework(ICOSAHEDRON, edges)).freedoms == 0


@settings(deadline=None, max_examples=25)
@given(st.integers(5, 8), st.integers(0, 10**6))
def test_freedoms_against_the_rank_of_squared_distances(count: int, seed: int) -> None:
    """Second route: 3n - 6 less the rank of (p_i - p_j) · (v_i - v_j), all coordinates free, by numpy."""
    lot = np.random.default_rng(seed)
    places = {chr(65 + i): tuple(lot.uniform(-500, 500, 3).tolist()) for i in range(count)}
    bars = [bar for bar in all_bars(places) if lot.random() < 0.75 or bar in ("A-B", "A-C", "B-C")]
    rows = np.zeros((len(bars), 3 * count))
    for row, bar in enumerate(bars):
        i, j = (ord(name) - 65 for name in bar.split("-"))
        away = np.array(places[chr(65 + i)]) - np.array(places[chr(65 + j)])
        rows[row, 3 * i : 3 * i + 3], rows[row, 3 * j : 3 * j + 3] = away, -away
    values = np.linalg.svd(rows, compute_uv=False)
    rank = int(np.sum(values > 1e-9 * values[0]))
    assume(values[rank - 1] > 0.02 * values[0])
    solved = solve(framework(places, bars))  # type: ignore[arg-type]
    free = 3 * count - 6 - rank
    assert solved.freedoms >= free
    if solved.freedoms > free:
        assert "held only to" in solved.says[0]


def test_every_loose_point_is_named_and_no_other() -> None:
    """A fifth point on two distances swings about the line of the two."""
    places = {**{k: OCTAHEDRON[k] for k in "ABCD"}, "E": (100.0, 150.0, -300.0)}
    solved = solve(framework(places, [*all_bars("ABCD"), "A-E", "B-E"]))
    assert (solved.loose, solved.freedoms) == (("E",), 1)
    assert any("E hangs on 2 measurements" in says for says in solved.says)
    assert {p.name for p in solved.points if math.isinf(p.plus_minus_mm[0])} == {"E"}
    assert solved.take_next[0].b == "E"


def test_a_point_that_nothing_reaches() -> None:
    places = {k: OCTAHEDRON[k] for k in "ABCDE"}
    solved = solve(framework(places, all_bars("ABCD")))
    assert (solved.loose, solved.freedoms) == (("E",), 3)
    assert "Nothing was measured to E." in solved.says


def test_next_best_is_the_best_of_all_tried_one_by_one() -> None:
    """Second route to the rank-one update: adjust anew with each distance that was not measured."""
    pairs = [p for p in MOUNT_TAPED if p not in ("UL-UR", "UR-LL", "EUL-ELR", "UR-EUL")]
    survey = mount(pairs)
    solved = solve(survey)
    assert solved.worst_mm is not None
    worst = {}
    names = [p.name for p in survey.points]
    for i, a in enumerate(names):
        for b in names[i + 1 :]:
            if f"{a}-{b}" not in pairs and f"{b}-{a}" not in pairs:
                more = mount([*pairs, f"{a}-{b}"])
                after = solve(more).worst_mm
                assert after is not None
                worst[f"{a}-{b}"] = after
    best = min(worst, key=lambda pair: worst[pair])
    first = solved.take_next[0]
    assert f"{first.a}-{first.b}" == best
    assert first.worst_after_mm == pytest.approx(worst[best], rel=1e-4)
    assert worst[best] < solved.worst_mm


@pytest.mark.parametrize("level", [False, True], ids=["three points", "level"])
def test_a_plan_made_before_measuring_holds_the_true_figure(level: bool) -> None:
    survey = replace(mount(), measurements=())
    if level:
        survey = replace(survey, datum=Datum("LL", "y", "LR", level=True))
    planned = plan(survey)
    needed = 3 * 10 - (4 if level else 6) - 4
    assert sum(n.does.startswith(("holds ", "says which way is up")) for n in planned) == needed
    assert len(planned) > needed
    taken = tuple(
        Along(n.a, n.b, "z", 0.0, 2.0, plumb=True)
        if n.what.startswith("height")
        else Distance(n.a, n.b, 1.0, 1.5)
        for n in planned
    )
    solved = solve(read(replace(survey, measurements=taken), on_the_line(MOUNT)))
    assert solved.freedoms == 0
    assert solved.redundancy == len(planned) - needed
    assert len(plan(survey, spare=3)) == needed + 3


def test_nothing_measured_gives_the_plan() -> None:
    survey = replace(mount(), measurements=())
    solved = solve(survey)
    assert solved.says == ("Nothing was measured yet.",)
    assert solved.freedoms == 20
    assert solved.take_next == plan(survey)
