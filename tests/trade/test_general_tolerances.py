"""General tolerances against ISO 2768-1, retyped from the standard as open charts quote it."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from math import degrees

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.recipe.model import Shop
from clampwright.recipe.shop import usual_shop
from clampwright.trade.general_tolerances import (
    CLASSES,
    block_words,
    general,
    general_angle,
    general_angle_deg,
    general_radius,
    general_radius_mm,
    general_tolerance_mm,
    is_most,
)
from clampwright.trade.sources import source
from clampwright.trade.tables import load

METRIC, INCH = usual_shop("mm"), usual_shop("in")


@pytest.mark.parametrize(
    ("radius", "fmcv"),
    [
        (0.5, (0.2, 0.2, 0.4, 0.4)),
        (3.0, (0.2, 0.2, 0.4, 0.4)),
        (3.175, (0.5, 0.5, 1.0, 1.0)),
        (6.0, (0.5, 0.5, 1.0, 1.0)),
        (6.35, (1.0, 1.0, 2.0, 2.0)),
        (300.0, (1.0, 1.0, 2.0, 2.0)),
    ],
)
def test_iso_2768_1_table_2_radii_and_chamfers(radius: float, fmcv: tuple[float, ...]) -> None:
    assert tuple(general_radius_mm(radius, grade) for grade in "fmcv") == fmcv


@pytest.mark.parametrize(
    ("side", "minutes"),
    [
        (5.0, (60, 60, 90, 180)),
        (10.0, (60, 60, 90, 180)),
        (10.1, (30, 30, 60, 120)),
        (50.0, (30, 30, 60, 120)),
        (80.0, (20, 20, 30, 60)),
        (120.5, (10, 10, 15, 30)),
        (400.5, (5, 5, 10, 20)),
    ],
)
def test_iso_2768_1_table_3_angles(side: float, minutes: tuple[int, ...]) -> None:
    """Minutes of arc, by the shorter side of the angle."""
    assert tuple(round(general_angle_deg(side, grade) * 60) for grade in "fmcv") == minutes


@pytest.mark.parametrize("table", ["iso2768_1", "iso2768_1_radii", "iso2768_1_angles"])
def test_ranges_meet_and_classes_grow_coarser(table: str) -> None:
    rows = load(table).rows
    for first, second in pairwise(rows):
        assert first.number("up_to") == second.number("over")
    for row in rows:
        given_ = [each for name in CLASSES.values() if (each := row.maybe(name)) is not None]
        assert given_ == sorted(given_)
    direction = -1 if table.endswith("angles") else 1
    medium = [direction * row.number("medium") for row in rows]
    assert medium == sorted(medium)


def test_nothing_is_said_of_radii_below_half_a_millimetre() -> None:
    """ISO 2768-1, table 2: below 0.5 mm the deviation stands beside the size."""
    with pytest.raises(LookupError, match="no deviation"):
        general_radius(METRIC, 0.3)


@pytest.mark.parametrize("size", [2.286, 11.1125, 57.15, 155.0])
def test_an_inch_drawing_prints_three_decimals(size: float) -> None:
    """Common practice, no source: three decimals are held to five thousandths."""
    limits = general(INCH, size)
    assert limits.even
    assert limits.over_mm == pytest.approx(0.005 * 25.4)
    assert source(limits.source).status == "practice"


def test_inch_decimals_grow_tenfold_finer_with_no_step_back() -> None:
    off = [row.number("deviation") for row in load("inch_decimals").rows]
    assert off == sorted(off, reverse=True)
    assert [row.whole("decimals") for row in load("inch_decimals").rows] == [1, 2, 3]


def test_radii_and_angles_of_an_inch_drawing() -> None:
    assert general_radius(INCH, 6.35).over_mm == pytest.approx(0.030 * 25.4)
    assert degrees(general_angle(INCH, 25.0)) == pytest.approx(1.0)


@given(st.sampled_from("fmc"), st.floats(0.5, 2000.0))
@settings(deadline=None, max_examples=60)
def test_the_class_of_the_recipe_is_the_one_that_is_told(grade: str, size: float) -> None:
    shop = replace(METRIC, tolerances=grade)
    limits = general(shop, size)
    rows = [row for row in load("iso2768_1").rows if row.number("over") <= size <= row.number("up_to")]
    assert limits.even
    assert limits.over_mm in [row.maybe(CLASSES[grade]) for row in rows]


def test_the_block_says_unit_and_class_once() -> None:
    words = " | ".join(block_words(METRIC))
    assert words.count("ISO 2768-m") == 1
    assert words.startswith("Sizes in millimetres")
    for cell in (
        "± 0.1 from 0.5 to 6",
        "± 0.2 over 6 to 30",
        "± 0.3 over 30 to 120",
        "± 0.5 over 120 to 400",
    ):
        assert cell in words


def test_the_block_of_an_inch_drawing() -> None:
    words = " | ".join(block_words(INCH))
    assert "Sizes in inches" in words
    assert ".XXX ± .005" in words
    assert "angles ± 1°" in words
    assert "ISO" not in words


def test_a_class_of_iso_on_an_inch_drawing_is_spelled_out_in_inches() -> None:
    """0.2 mm is .008 in, 6 mm is .236 in, 30 mm is 1.181 in; .005 in is 0.127 mm, .030 in 0.762 mm."""
    assert "± .008 over .236 to 1.181," in block_words(METRIC, "in")[2]
    assert block_words(INCH, "mm")[1] == "Linear sizes ± 0.127 (.005 in)"
    assert block_words(INCH, "mm")[2] == "Corner radii ± 0.762, angles ± 1°"


def read_back(line: str) -> list[tuple[float, float, float]]:
    """± and the range that it is said for, of a title block's line."""
    spans = [
        re.fullmatch(r"± ([\d.]+) (?:from|over) ([\d.]+) to ([\d.]+)", each) for each in line.split(", ")
    ]
    assert all(spans)
    return [tuple(map(float, each.groups())) for each in spans if each]


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("grade", "fmcv")
def test_the_block_says_the_table_of_iso_2768_1_and_no_more(grade: str, units: str) -> None:
    """ISO 2768-1, table 1, is given from 0.5 mm up, in class v above 3 mm: read back from the words.

    An inch has three decimals: the least that a reader can be led astray is half of the last.
    """
    per, within = (25.4, 0.0005 * 25.4 + 1e-9) if units == "in" else (1.0, 1e-9)
    shop = replace(METRIC, tolerances=grade)
    head, line = block_words(shop, units)[1:]
    assert head == f"General tolerances ISO 2768-{grade}"
    said = [(off * per, low * per, high * per) for off, low, high in read_back(line)]
    assert said[0][1] == pytest.approx(3.0 if grade == "v" else 0.5, abs=within)
    assert all(one[2] == other[1] for one, other in pairwise(said))
    assert said[-1][2] == pytest.approx(1000.0, abs=within)
    for row in load("iso2768_1").rows:
        least, most = row.number("over"), row.number("up_to")
        off = row.maybe(CLASSES[grade])
        middle = (least + most) / 2
        found = [each for each in said if each[1] < middle <= each[2]]
        assert len(found) == (off is not None and most <= 1000)
        for each in found:
            assert each[0] == pytest.approx(off, abs=within)
            assert each[1] <= least + within
            assert each[2] >= most - within


def test_class_v_gives_nothing_to_3_mm() -> None:
    """ISO 2768-1, table 1: the cell of class v for 0.5 to 3 mm is empty."""
    with pytest.raises(LookupError, match="class v for 3 mm"):
        general_tolerance_mm(3.0, "v")
    assert general_tolerance_mm(3.001, "v") == 0.5
    with pytest.raises(LookupError, match=r"class m for 0\.49 mm"):
        general_tolerance_mm(0.49, "m")


@pytest.mark.parametrize(
    ("size", "off"), [(0.5, 0.1), (6.0, 0.1), (6.001, 0.2), (30.0, 0.2), (30.001, 0.3), (120.0, 0.3)]
)
def test_a_range_of_iso_2768_1_holds_its_upper_end(size: float, off: float) -> None:
    """ISO 2768-1, table 1, class m: "over 6 up to 30"."""
    assert general_tolerance_mm(size, "m") == off


def test_an_angle_with_a_short_side_is_held_to_a_degree() -> None:
    """ISO 2768-1, table 3, class m: 1 degree up to 10 mm of the shorter side."""
    assert degrees(general_angle(METRIC, 8.0)) == pytest.approx(1.0)


@pytest.mark.parametrize(("shop", "radius"), [(METRIC, 0.3), (INCH, 0.5), (METRIC, 0.499)])
def test_a_radius_that_no_general_tolerance_holds_is_told_as_the_largest(shop: Shop, radius: float) -> None:
    """ISO 2768-1, table 2, begins at 0.5 mm; ± .030 in about a smaller radius says nothing."""
    assert is_most(shop, radius)
    assert not is_most(shop, 1.0)
