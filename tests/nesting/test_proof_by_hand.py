"""Nests laid by hand, each with one thing wrong: the proof says that, and nothing else."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
import shapely
from nesting.cut_parts import angle, disc, part, rectangle, rounded
from sheets.page_geometry import words

from clampwright.files.nest_rows import nest_rows
from clampwright.layout.shop.told import FlatPart
from clampwright.nesting.nest import NotNested, nest
from clampwright.nesting.nested import BY_BOXES, Laid, Nest, NestedSheet, Stock
from clampwright.nesting.proof import faults_of_nest
from clampwright.nesting.stocks import stocks
from clampwright.recipe.shop import usual_shop
from clampwright.sheets.shop.nest_picture import NestHead, nest_sheet

QUARTER = math.pi / 2


def by_hand(kerf_mm: float, *laid: Laid, end_mm: float) -> Nest:
    """One sheet of 500 x 1000 mm without margins, used up to `end_mm`."""
    stock = Stock("6061-T6", 1.6, 500.0, 1000.0, kerf_mm, 0.0)
    area = math.fsum(each.part.outline.area_mm2() for each in laid)
    return Nest((NestedSheet(1, stock, laid, area, end_mm * 500.0),), (("6061-T6, 1.6 mm", 0.5, 1),))


def strip(grain: str) -> FlatPart:
    """300 mm across and 80 mm up, as drawn."""
    return part("strip", rectangle(300, 80), grain=grain)


def test_a_part_a_quarter_turn_from_its_grain_is_the_one_fault() -> None:
    """Long side across the rolling direction (y), where the recipe asks for along, and the other way."""
    flat, upright = (0.0, (0.0, 0.0), 80.0), (QUARTER, (80.0, 0.0), 300.0)
    for grain, (turn, at, end), wrong in (
        ("along", flat, True),
        ("along", upright, False),
        ("across", upright, True),
        ("across", flat, False),
    ):
        one = strip(grain)
        found = by_hand(1.0, Laid(one, 1, turn, at), end_mm=end)
        said = ("sheet 1: strip lies against its grain",) if wrong else ()
        assert faults_of_nest(found, [one]) == said, (grain, turn)


@pytest.mark.parametrize(("x", "wrong"), [(49.0, True), (50.0, False)])
def test_two_parts_that_overlap_where_no_kerf_is_kept_are_the_one_fault(x: float, *, wrong: bool) -> None:
    """Squares of 50 mm, 49 and 50 mm from each other: over each other by 1 mm, and side by side."""
    a, b = part("a", rectangle(50, 50)), part("b", rectangle(50, 50))
    found = by_hand(0.0, Laid(a, 1, 0.0, (0.0, 0.0)), Laid(b, 1, 0.0, (x, 0.0)), end_mm=50.0)
    assert faults_of_nest(found, [a, b]) == (("sheet 1: a copy 1 and b copy 1 overlap",) if wrong else ())


def test_a_piece_that_is_lost_or_laid_twice_is_the_one_fault() -> None:
    two = part("two", rectangle(50, 50), 2)
    once = by_hand(1.0, Laid(two, 1, 0.0, (0.0, 0.0)), end_mm=50.0)
    assert faults_of_nest(once, [two]) == ("two copy 2 is laid 0 times, not 1",)
    again = by_hand(
        1.0,
        *(Laid(two, copy, 0.0, (x, 0.0)) for copy, x in ((1, 0.0), (2, 60.0), (2, 120.0))),
        end_mm=50.0,
    )
    assert faults_of_nest(again, [two]) == ("two copy 2 is laid 2 times, not 1",)


def test_a_length_in_use_that_is_not_so_is_the_one_fault() -> None:
    one = part("one", rectangle(50, 50))
    (said,) = faults_of_nest(by_hand(1.0, Laid(one, 1, 0.0, (0.0, 0.0)), end_mm=49.0), [one])
    assert said == "sheet 1: 24500.000 mm2 in use, not 25000.000 mm2"


def test_the_long_side_of_the_plates_own_sheet_is_its_length() -> None:
    """Sheet is rolled along its length: 1000 x 500 lies 500 across the rolling direction, either way told."""
    for told in ((1000.0, 500.0), (500.0, 1000.0)):
        (together,) = stocks([replace(part("one", rectangle(90, 40)), sheet_mm=told)])
        assert (together.stock.width_mm, together.stock.length_mm) == (500.0, 1000.0)
        assert "rolling direction taken along its long side" in together.stock.why
    asked = part("asked", rectangle(90, 40), stock_sheet_mm=(1000.0, 500.0))
    (together,) = stocks([asked])
    assert (together.stock.width_mm, together.stock.length_mm) == (1000.0, 500.0)


PAIR = part("angle", angle(100, 100, 40), 2, stock_sheet_mm=(122.0, 1000.0))
HEAD = NestHead("nest", "Two angles", "0123456789abcdef", "mm")


def breaks_off(*_: object) -> None:
    """Shapely's own way to say that polygons do not hold together."""
    raise shapely.errors.GEOSException("TopologyException: side location conflict")


def test_where_the_search_breaks_off_boxes_stand_and_it_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """The two angles would interlock; as boxes they take what the baseline takes."""
    close = nest([PAIR])
    assert close.by_boxes == ()
    monkeypatch.setattr("clampwright.nesting.nest.search", breaks_off)
    found = nest([PAIR])
    assert found.by_boxes == (found.sheets[0].stock,)
    assert found.sheets[0].utilisation == pytest.approx(found.baseline[0][1])
    assert found.sheets[0].utilisation < close.sheets[0].utilisation
    for each, says in ((found, True), (close, False)):
        shown = words(nest_sheet(each, usual_shop("mm"), HEAD).pages)
        assert ("Laid by bounding boxes" in shown) == says
        (stock,) = (row for row in nest_rows(each) if row["line"] == "stock")
        assert (BY_BOXES in stock["why"]) == says


@pytest.mark.parametrize("where", ["boxed_layout", "faults_of_nest"])
def test_whatever_polygons_or_boxes_raise_is_no_nest(monkeypatch: pytest.MonkeyPatch, where: str) -> None:
    monkeypatch.setattr(f"clampwright.nesting.nest.{where}", breaks_off)
    with pytest.raises(NotNested, match="side location conflict"):
        nest([PAIR, part("disc", disc(20)), part("round", rounded(60, 40, 5))])
