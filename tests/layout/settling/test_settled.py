"""How part and clamps move: clamps stay on their tubes, bolts in their holes but for what is across."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from joined_recipes import FIREWALL, carried, parallel, stand_off_recipe
from layout.plate_recipes import PARALLEL, at, component, plate, recipe, tube
from layout.settling.drawn import Array, drawn, settle
from layout.settling.surveyed import with_survey
from layout.settling.test_parts_against_monte_carlo import SPLAYED, plate_at_the_bench

from clampwright.layout.clash_bodies import point
from clampwright.layout.kinds import Layout, lay_out
from clampwright.layout.placed import PlateLayout
from clampwright.layout.settled import Settled, moved
from clampwright.layout.settling import settled, settling
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.recipe.model import Measured
from clampwright.recipe.read import read

RECIPES = Path(__file__).parents[3] / "recipes"
NONE = Measured(None, None, None)
NAMES = ["coil-plate", "separator-bushings", "regulator-too-wide", "oil-hose-stand-off", "plain-pair"]


def axis_moved(layout: Layout, found: Settled, name: str, station: float) -> Array:
    """What each cause does to the point of a tube at a station counted from its start (or of the line)."""
    if name == getattr(getattr(layout, "line", None), "name", None):
        return moved(found.part, layout.lines[0].point(station))
    tube_ = layout.recipe.structure.tube(name)
    rows = np.zeros((3, found.causes))
    rows[:, : found.uncertainty.causes] = found.uncertainty.point(tube_, station)
    return rows


@pytest.mark.parametrize("name", NAMES)
def test_a_clamp_stays_on_its_tube_and_follows_its_direction(name: str) -> None:
    layout = lay_out(read(RECIPES / f"{name}.toml"))
    found = settled(layout)
    for loop in layout.loops:
        a = np.array(loop.axis)
        twist = found.clamps[loop.label]
        for ahead in (-20.0, 0.0, 30.0):
            place = np.array(loop.centre) + ahead * a
            off = moved(twist, tuple(place)) - axis_moved(layout, found, loop.tube, loop.station_mm + ahead)
            assert np.abs(off - np.outer(a, a @ off)).max() < 1e-9


@pytest.mark.parametrize("name", NAMES[:3])
def test_a_bolt_leaves_its_hole_only_by_what_is_across(name: str) -> None:
    layout = lay_out(read(RECIPES / f"{name}.toml"))
    assert not isinstance(layout, StandOffLayout)
    found, rows = settled(layout), settling(layout)
    factor, n = rows.inputs.factor(rows.sure), np.array(layout.frame.n)
    for loop in layout.clamps:
        a = np.array(loop.axis)
        w = np.cross(n, a) / np.linalg.norm(np.cross(n, a))
        bolt = tuple(np.array(loop.centre) + loop.turn * loop.clamp.reach_mm * w)
        apart = moved(found.part, bolt) - moved(found.clamps[loop.label], bolt)
        tubes = slice(0, found.uncertainty.causes)
        across = (rows.across[loop.label] @ factor)[tubes]
        assert (w @ apart)[tubes] == pytest.approx(across, abs=1e-9)
        along = (np.cross(w, n) @ apart)[tubes]
        assert np.abs(along).max() < 0.02 * max(1.0, np.abs(moved(found.part, bolt)).max())


def test_the_part_moves_as_the_draws_do() -> None:
    """A place of the component, from every cause alone: the nonlinear pose against the twist."""
    clamps = (at("low", 90.0), at("low", 330.0), at("high", 120.0), at("far", 280.0))
    layout = lay_out(with_survey(recipe(SPLAYED, clamps, carries=(component(),)), 0.05, 5))
    assert isinstance(layout, PlateLayout)
    found = settled(layout)
    draws = drawn(layout, found.uncertainty.causes, 0)
    ends = {
        t.name: np.array([t.start, t.end])
        + found.uncertainty.ends(t.name).T.reshape(found.uncertainty.causes, 2, 3)
        for t in SPLAYED
    }
    alone = replace(draws, ends=ends, own={})
    seen = settle(layout, alone, plate_at_the_bench(layout))
    for loop in layout.clamps:
        rows = settling(layout)
        stated = (rows.station[loop.label] @ rows.inputs.factor(rows.sure))[: found.uncertainty.causes]
        assert seen[loop.label].station == pytest.approx(stated, abs=2e-3)


def test_tubes_that_move_together_take_everything_along() -> None:
    """One cause that shifts both tubes, one that turns them: part, clamps, and nothing between them."""
    made = recipe(
        (
            tube("low", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0)),
            tube("high", (0.0, 150.0, 5.0), (500.0, 160.0, 9.0)),
        )
    )
    turn, shift = np.array([0.3e-3, -0.5e-3, 0.2e-3]), np.array([1.0, 2.0, -3.0])
    rows = [
        (float(s), float(t))
        for each in made.structure.tubes
        for end in (each.start, each.end)
        for s, t in zip(shift, np.cross(turn, end), strict=True)
    ]
    sure = replace(with_survey(made, 0.1, 1).structure.uncertainty, factor_mm=tuple(rows))  # type: ignore[type-var]
    layout = lay_out(replace(made, structure=replace(made.structure, uncertainty=sure)))
    assert isinstance(layout, PlateLayout)
    found = settled(layout)
    for place in (point(layout.frame, (0.0, 0.0), 0.0), (1000.0, -300.0, 50.0)):
        for twist in (found.part, *found.clamps.values()):
            assert moved(twist, place)[:, 0] == pytest.approx(shift, abs=1e-9)
            assert moved(twist, place)[:, 1] == pytest.approx(np.cross(turn, place), abs=1e-9)
    for rows_of in (settling(layout).across, settling(layout).gap, settling(layout).station):
        for row in rows_of.values():
            assert np.abs((row @ settling(layout).inputs.factor(sure))[:2]).max() < 1e-9  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "line", [carried(), parallel(60.0, (0.0, 0.0, 1.0)), carried(to=None, direction=(0.0, 1.0, 0.0))]
)
def test_the_line_moves_as_it_was_measured(line: object) -> None:
    """Two points: ± each of them. A distance: with the tube. A point: all of it alike."""
    layout = lay_out(stand_off_recipe(carried=line))
    assert isinstance(layout, StandOffLayout)
    found = settled(layout)
    sizes = [
        1.96 * float(np.linalg.norm(moved(found.part, place)[2]))
        for place in (layout.line.start, layout.line.end)
    ]
    given = layout.recipe.job
    by_hand = 1.5 * 2**0.5 if given.carried.beside_mm is not None else 1.5  # type: ignore[attr-defined]
    assert sizes == pytest.approx([by_hand] * 2, rel=1e-3)


def test_on_a_panel_the_clamp_goes_with_the_line() -> None:
    line = carried(point=(-15.0, -80.0, 10.0), to=(-15.0, 80.0, 10.0))
    layout = lay_out(stand_off_recipe(carried=line, tube=None, panel=FIREWALL.name))
    found = settled(layout)
    centre = layout.loops[0].centre
    assert moved(found.clamps["B1"], centre) == pytest.approx(moved(found.part, centre), abs=1e-9)


def by_hand(stations: dict[str, float], error: float) -> dict[str, tuple[float, float]]:
    """(across, gap) of clamps on two parallel tubes of 500 mm, reach and seat measured."""
    made = recipe(
        PARALLEL,
        tuple(at("lower" if label[0] == "A" else "upper", s) for label, s in stations.items()),
        carries=(component(),),
        sheet=plate(round_to_mm=0.0),
    )
    sized = replace(made, measuring=replace(made.measuring, error_mm=error))
    return {each.clamp: (each.across_mm, each.gap_mm) for each in lay_out(sized).known_to}


def test_abreast_of_the_measured_ends_two_tubes_are_root_two_e_apart() -> None:
    """B1 abreast of A1 at the tubes' ends: √(2 · 1.5² + 2 · 0.15²); half way: √(4 · 0.75² + ...)."""
    ends = by_hand({"A1": 0.0, "A2": 500.0, "B1": 0.0}, 1.5)
    assert ends["B1"][0] == pytest.approx((2 * 1.5**2 + 2 * 0.15**2) ** 0.5)
    half = by_hand({"A1": 0.0, "A2": 500.0, "B1": 250.0}, 1.5)
    assert half["B1"][0] == pytest.approx((4 * 0.75**2 + 2 * 0.075**2 + 0.15**2) ** 0.5)


def test_a_fourth_foot_at_the_measured_ends_is_out_by_two_e() -> None:
    """z(A1) − z(A2) − z(B1) + z(B2): four ends of ± e, four seats of ± 0.15 mm; a third of the way a ninth
    of the tubes' part: each pair of ends counts (1/3)²."""
    ends = by_hand({"A1": 0.0, "A2": 500.0, "B1": 0.0, "B2": 500.0}, 1.5)
    assert [ends[label][1] for label in ("A1", "A2", "B1")] == [0.0, 0.0, 0.0]
    assert ends["B2"][1] == pytest.approx((4 * 1.5**2 + 4 * 0.15**2) ** 0.5)
    third = by_hand({"A1": 100.0, "A2": 100.0 + 500.0 / 3, "B1": 100.0, "B2": 100.0 + 500.0 / 3}, 1.5)
    assert third["B2"][1] == pytest.approx((4 * 0.5**2 + 4 * 0.15**2) ** 0.5)


def test_rounding_adds_its_spread() -> None:
    """Both coordinates of each hole by r: a standard deviation of r/√12 (JCGM 100, 4.3.7), 1.96 of them."""
    made = recipe(
        PARALLEL,
        (at("lower", 0.0), at("lower", 500.0), at("upper", 0.0)),
        carries=(component(),),
        sheet=plate(round_to_mm=0.5),
    )
    known = {each.clamp: each for each in lay_out(made).known_to}
    rounded = 1.96 * 0.5 / 12**0.5
    assert known["B1"].across_mm == pytest.approx((2 * 1.5**2 + 2 * 0.15**2 + 2 * rounded**2) ** 0.5)
    assert known["A2"].station_mm == pytest.approx(2**0.5 * rounded, rel=1e-3)


def test_unmeasured_reaches_of_one_size_err_alike() -> None:
    """Both 1 mm, to either side of the bolt: 2 mm in full, with the ends' √2 · 1.5."""
    made = recipe(
        PARALLEL,
        tuple(at(name, s, measured=NONE) for name, s in (("lower", 0.0), ("lower", 500.0), ("upper", 0.0))),
        carries=(component(),),
        measured=NONE,
    )
    known = {each.clamp: each for each in lay_out(made).known_to}
    assert known["B1"].across_mm == pytest.approx((2 * 1.5**2 + 2.0**2) ** 0.5)
    assert known["B1"].reach_mm == pytest.approx(2.0)
    assert known["A2"].across_mm == 0.0
    assert (known["B1"].given, known["A2"].given) == (False, True)


def test_each_measured_point_moves_its_own_end_of_the_line() -> None:
    """Square to the line: an error of `point` moves that, and leaves `to` where it is."""
    layout = lay_out(stand_off_recipe(carried=carried()))
    assert isinstance(layout, StandOffLayout)
    found, own = settled(layout), settling(layout).inputs.own
    b = np.array(layout.line.direction)
    square = np.eye(3) - np.outer(b, b)
    sigma = next(cause.sigma_mm for cause in own if cause.kind == "place")
    first = found.causes - len(own) + next(i for i, cause in enumerate(own) if cause.kind == "place")
    at_point, at_to = (square @ moved(found.part, end) for end in (layout.line.start, layout.line.end))
    assert at_point[:, first : first + 3] == pytest.approx(sigma * square, abs=1e-9)
    assert at_to[:, first + 3 : first + 6] == pytest.approx(sigma * square, abs=1e-9)
    assert np.abs(at_point[:, first + 3 : first + 6]).max() < 1e-9
    assert np.abs(at_to[:, first : first + 3]).max() < 1e-9
