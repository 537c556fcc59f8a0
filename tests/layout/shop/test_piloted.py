"""Who is piloted is one decision: plan, drawing, drill sheet, cutting files and checks say the same."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from layout.shop.told_layouts import PLATES, RECIPES, example, metric_plate

from clampwright.checks.fit import fits_up
from clampwright.files.parts import pilot_diameters
from clampwright.layout.fit_up import NOW, PILOT
from clampwright.layout.lay_out import lay_out
from clampwright.layout.placed import PlateLayout
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.layout.shop.told import ToldHole
from clampwright.recipe.read import read
from clampwright.sheets.drill_steps import ready_now

INCH = 25.4
NUMBER_40 = 0.098 * INCH
"""Of the drill gauge: ASME B94.11M, #40 is .0980 in."""


def plate(name: str) -> PlateLayout:
    layout = example(name)
    assert isinstance(layout, PlateLayout)
    return layout


def too_tight(to: Path) -> PlateLayout:
    """The two-tube plate with 0.2016 in for its block's bolts: 0.15 unsure, 0.16 of play, 0.11 at the least.

    The shank is at most .189 in, the hole may come out .1976: (.1976 - .189)/2 = .0043 in = 0.109 mm.
    """
    (to / "engine-mount.toml").write_text((RECIPES / "engine-mount.toml").read_text("utf-8"), "utf-8")
    text = (RECIPES / "two-tube-minimum.toml").read_text("utf-8")
    path = to / "two-tube-minimum.toml"
    path.write_text(text.replace("holes = ", "hole = 0.2016\nholes = "), "utf-8")
    layout = lay_out(read(path))
    assert isinstance(layout, PlateLayout)
    return layout


def assert_one_decision(layout: PlateLayout) -> set[str]:
    """All who speak of piloting agree hole by hole; the labels of those that are."""
    ways = {fit.hole: fit.way for fit in layout.fit_up.holes}
    (part,) = flat_parts(layout)
    assert {hole.label: hole.transferred for hole in part.holes} == {
        label: way == PILOT for label, way in ways.items()
    }
    piloted = {hole.label: hole.made_mm for hole in part.holes if hole.piloted}
    assert pilot_diameters(layout) == piloted
    for hole in layout.holes:
        assert ready_now(layout, hole) is (ways[hole.label] == NOW)
    return set(piloted)


@pytest.mark.parametrize("name", PLATES)
def test_every_example_has_one_decision(name: str) -> None:
    assert assert_one_decision(plate(name))


def test_a_place_no_shop_is_asked_for_is_piloted_by_the_plan_itself(tmp_path: Path) -> None:
    layout = too_tight(tmp_path)
    assert assert_one_decision(layout) == {"B1", "B2", "C1", "C2"}
    fit = next(fit for fit in layout.fit_up.holes if fit.hole == "C1")
    assert fit.uncertainty_mm <= fit.clearance_mm
    assert "no shop is asked for that" in fit.why
    found = [each for each in fits_up(layout) if each.where in ("C1", "C2")]
    assert [each.verdict for each in found] == ["caution", "caution"]
    assert all("pilot" in each.change and "drill to size" not in each.says for each in found)


def test_made_is_the_pilot_only_where_the_shop_leaves_it_so() -> None:
    hole = ToldHole("B1", (9.0, 9.0), 4.8514, "AN3", "clamp", "#11", "#40", transferred=True)
    assert hole.made_mm == pytest.approx(NUMBER_40)
    assert replace(hole, transferred=False).made_mm == 4.8514
    assert replace(hole, pilot="").made_mm == 4.8514
    assert (replace(hole, transferred=False).piloted, replace(hole, pilot="").piloted) == (False, False)


def test_a_hole_smaller_than_every_pilot_is_said_to_be_made_to_size() -> None:
    layout = metric_plate()
    fits = tuple(replace(fit, way=PILOT) if fit.hole == "C1" else fit for fit in layout.fit_up.holes)
    holes = tuple(replace(hole, pilot="") if hole.label == "C1" else hole for hole in layout.holes)
    told = replace(layout, holes=holes, fit_up=replace(layout.fit_up, holes=fits))
    (part,) = flat_parts(told)
    assert "C1" not in pilot_diameters(told)
    (note,) = [note for note in part.notes if note.startswith("C1:")]
    assert "made to size" in note


@pytest.mark.parametrize("name", PLATES)
def test_the_drawing_says_that_piloted_holes_are_drawn_at_final_size(name: str) -> None:
    (part,) = flat_parts(plate(name))
    (note,) = [note for note in part.notes if "final size" in note]
    before = note.partition(" are drawn")[0].replace(" and ", ", ")
    assert before.split(", ") == [hole.label for hole in part.holes if hole.piloted]
