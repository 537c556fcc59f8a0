"""The turning sheet: nothing touches, every number reads back, the drawing is in proportion.

Collisions are judged with shapely, letter widths with reportlab's font metrics.
"""

from __future__ import annotations

import math
import re
from dataclasses import replace
from itertools import pairwise
from pathlib import Path as FilePath

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sheets.shop.collisions_on_page import collisions
from sheets.shop.turned_groups import FAILING, group, is_number, lines_of, numbers, sheet_of, texts_of
from sheets.shop.turning_touches import outside, overlapping_lines, touches

from clampwright.files.shop_drawings import shop_sheets, turned_views
from clampwright.layout.shop.told import ForWhich, TurnedGroup
from clampwright.layout.shop.turned import turned
from clampwright.make import check_recipe
from clampwright.recipe.shop import usual_shop
from clampwright.sheets.drawing import Path, Pen, Sheet, Text
from clampwright.sheets.shop.sizes import sheets_of
from clampwright.sheets.shop.square_frame import square_frame
from clampwright.sheets.shop.turning_figure import drawn_of, runs, shapes, turned_figure
from clampwright.sheets.shop.turning_table import stock_needed_mm

RECIPES = FilePath(__file__).parents[3] / "recipes"
EXAMPLES = ("separator-bushings", "regulator-too-wide", "oil-hose-stand-off", "coil-plate")

THIN = group(1, 20.0, 12.7, 11.2)
LONG_NAMES = tuple(
    group(
        n,
        6.0 + n,
        recipe="the-regulator-and-both-relays-on-the-upper-left-tube-behind-the-cowl-flap",
        where=tuple(f"A{k}" for k in range(1, 13)),
        quantity=12,
    )
    for n in range(1, 5)
)
SHAPES = (
    group(1, 10.0),
    group(2, 31.4, 12.7, 6.604, stock="tube 1/2 in x 0.120 in wall, 6061-T6"),
    group(3, 8.0, 9.0, 4.3, stock="rod 10 mm, 304 stainless"),
)
EXTREMES = {
    "very long": (group(1, 290.0),),
    "very short": (group(1, 1.5),),
    "thin wall": (THIN,),
    "one": (group(1),),
    "thirty": tuple(group(n, 4.0 + 1.3 * n) for n in range(1, 31)),
    "short and long": (group(1, 1.5), group(2, 20.0), group(3, 290.0)),
    "long names": LONG_NAMES,
    "three shapes": SHAPES,
    "large": (group(1, 60.0, 50.8, 12.954),),
    "small": (group(1, 12.0, 4.0, 2.1),),
}
CASES = [(name, units) for name in EXTREMES for units in ("mm", "in")]


def example(name: str) -> tuple[Sheet, tuple[TurnedGroup, ...], int, str]:
    """Sheet, groups, pieces that the layout asks for, and units of an example recipe."""
    checked = check_recipe(RECIPES / f"{name}.toml")
    layout = checked.layout
    groups = turned([layout])
    pieces = sum(part.quantity for part in layout.bushings) * layout.recipe.shop.quantity
    sheet = dict(shop_sheets(layout, checked.findings))[f"{layout.recipe.name}-turning"]
    return sheet, groups, pieces, layout.recipe.units


def space_of(sheet: Sheet, units: str) -> tuple[float, float, float, float]:
    """Drawing space of the sheet's pages."""
    page = sheet.pages[0]
    return next(s.space for s in sheets_of(usual_shop(units)) if s.width_mm == page.width_mm)


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_touches_on_the_sheets_of_the_examples(name: str) -> None:
    sheet, _, _, units = example(name)
    for page in sheet.pages:
        space = space_of(sheet, units)
        assert collisions(page) == []
        assert list(touches(page, space)) == []
        assert list(overlapping_lines(page)) == []
        assert list(outside(page, space)) == []


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_bushing_of_an_example_is_on_its_sheet(name: str) -> None:
    sheet, groups, pieces, units = example(name)
    lines = list(lines_of(sheet))
    assert [line[0] for line in lines] == [each.number for each in groups]
    assert sum(int(line[1]) for line in lines) == pieces
    for line, each in zip(lines, groups, strict=True):
        said = line[7:]
        counted = sum(int(n) for text in said for n in re.findall(r"\((\d+)\)", text))
        assert counted == sum(which.quantity for which in each.belongs) == int(line[1])
        assert_line(line, each, units)


def assert_line(line: tuple[str, ...], each: TurnedGroup, units: str) -> None:
    """A printed line says the group's sizes and limits, to half a unit of its last decimal."""
    nominal, limit = {"mm": (0.0051, 0.0051), "in": (0.0128, 0.0051)}[units]
    length, outside_said, bore, chamfer = (numbers(cell, units) for cell in line[2:6])
    assert length[0] == pytest.approx(each.length_mm, abs=nominal)
    if len(length) > 1:
        assert length[1] == pytest.approx(each.length.over_mm, abs=limit)
    else:
        assert each.length.why == "general tolerance"
    assert outside_said[0] == pytest.approx(each.od_mm, abs=nominal)
    assert bore[0] == pytest.approx(each.bore_mm, abs=nominal)
    assert bore[1] == pytest.approx(each.bore.over_mm, abs=limit)
    assert bore[2] == pytest.approx(-each.bore.under_mm, abs=limit)
    assert chamfer[0] == pytest.approx(each.chamfer_mm, abs=nominal)
    assert numbers(line[6], units)[0] == pytest.approx(each.square_mm, abs=limit)


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case[0]}, {case[1]}")
def test_nothing_touches_in_extreme_cases(case: tuple[str, str]) -> None:
    name, units = case
    sheet = sheet_of(EXTREMES[name], units, failing=name == "thirty")
    for page in sheet.pages:
        space = space_of(sheet, units)
        assert collisions(page) == []
        assert list(touches(page, space)) == []
        assert list(overlapping_lines(page)) == []
        assert list(outside(page, space)) == []
    assert [line[0] for line in lines_of(sheet)] == [each.number for each in EXTREMES[name]]
    for line, each in zip(lines_of(sheet), EXTREMES[name], strict=True):
        assert_line(line, each, units)


@pytest.mark.parametrize("name", EXTREMES)
def test_the_drawing_is_in_proportion(name: str) -> None:
    """Each dimension's points lie as far apart on the page as its true size times its scale."""
    groups = EXTREMES[name]
    dimensions = [each for page in sheet_of(groups).pages for each in page.dimensions]
    assert len(dimensions) == 3 * len(shapes(groups))
    for shape, at in zip(shapes(groups), range(0, len(dimensions), 3), strict=True):
        shown = drawn_of(shape)
        length, outside_told, bore = dimensions[at : at + 3]
        assert (length.value, outside_told.value) == (shown.length_mm, shown.od_mm)
        assert bore.value == shown.bore_mm
        assert math.dist(*length.points) == pytest.approx(shown.length_mm * length.scale, abs=1e-9)
        assert math.dist(*outside_told.points) == pytest.approx(shown.od_mm * length.scale, abs=1e-9)
        assert 2 * math.dist(*bore.points) == pytest.approx(shown.bore_mm * length.scale, abs=1e-9)


def test_the_section_is_the_solid_cut_open() -> None:
    """Two walls of (outside - bore)/2 by length, less chamfers: shoelace against the closed form."""
    shown = group(1, 20.0)
    rings = turned_views((shown,))["T1"].section.cut
    assert len(rings) == 2
    wall, c = (shown.od_mm - shown.bore_mm) / 2, shown.chamfer_mm
    for (ring,) in rings:
        doubled = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(ring))
        assert doubled / 2 == pytest.approx(wall * 20.0 - 4 * c * c / 2, rel=1e-9)


def test_one_length_is_dimensioned_with_its_value_and_several_with_the_letter_of_the_table() -> None:
    (one,) = (page.dimensions[0].text for page in sheet_of((group(1),)).pages)
    assert one == "12.70 ±0.10"
    assert sheet_of((group(1), group(2, 20.0))).pages[0].dimensions[0].text == "L"


def test_many_groups_go_on_over_pages_under_repeated_headings() -> None:
    sheet = sheet_of(tuple(group(n, 4.0 + 1.3 * n) for n in range(1, 91)))
    assert len(sheet.pages) > 1
    assert [line[0] for line in lines_of(sheet)] == [f"T{n}" for n in range(1, 91)]
    for number, page in enumerate(sheet.pages, 1):
        said = [text.text for text in texts_of(page)]
        assert f"{number} of {len(sheet.pages)}" in said
        tops = {text.at[0] for text in texts_of(page) if is_number(text)}
        assert said.count("Length L") == len(tops) > 0


def test_a_failing_check_says_do_not_make_on_every_page() -> None:
    groups = EXTREMES["thirty"]
    for page in sheet_of(groups, failing=True).pages:
        said = [text for text in texts_of(page) if text.text == "DO NOT MAKE"]
        assert len(said) == 2
        assert max(text.size_mm for text in said) > 6.0
        assert any(FAILING.code in text.text for text in texts_of(page))
    assert all(text.text != "DO NOT MAKE" for page in sheet_of(groups).pages for text in texts_of(page))


def test_squareness_is_a_frame_with_one_line_standing_square_on_another() -> None:
    """ISO 1101 perpendicularity: an upright from the middle of a foot; then value, then datum letter."""
    items = square_frame("0.05", "A", (30.0, 10.0), Pen())
    frame, *lines = [item for item in items if isinstance(item, Path)]
    foot = next(p for p in lines if p.points[0][1] == p.points[1][1])
    upright = lines[lines.index(foot) + 1]
    (x0, y0), (x1, _) = foot.points
    assert upright.points[0] == pytest.approx(((x0 + x1) / 2, y0))
    assert upright.points[1][0] == pytest.approx(upright.points[0][0])
    assert [t.text for t in items if isinstance(t, Text)] == ["0.05", "A"]
    assert max(x for x, _ in frame.points) == 30.0


def test_a_piece_left_long_is_told_so_by_name() -> None:
    sheet, groups, _, _ = example("regulator-too-wide")
    long = [each.number for each in groups if each.trim]
    assert long
    said = " ".join(text.text for text in texts_of(sheet.pages[0]))
    assert f"{runs(long)}: Left long" in said


def test_stock_is_what_a_saw_and_a_lathe_take() -> None:
    """By hand: 2 pieces of 12.7 and 1 of 20 mm, 0.5 mm each for facing, a cut of 1/16 in behind each."""
    groups = (group(1), group(2, 20.0, quantity=1))
    assert stock_needed_mm(groups) == pytest.approx(2 * 13.2 + 20.5 + 3 * 25.4 / 16)


def test_a_shape_is_drawn_once_whatever_its_lengths() -> None:
    assert [[each.number for each in shape] for shape in shapes(SHAPES)] == [["T1"], ["T2"], ["T3"]]
    assert len(shapes(EXTREMES["thirty"])) == 1


def test_pieces_of_several_recipes_are_all_named() -> None:
    which = tuple(ForWhich(f"recipe-{n}", "0" * 16, "S1", ("A1",), n) for n in range(1, 5))
    shared = replace(group(1, quantity=10), belongs=which)
    said = " ".join(text.text for text in texts_of(sheet_of((shared,)).pages[0]))
    assert all(f"recipe-{n} S1 ({n})" in said for n in range(1, 5))


@settings(max_examples=12, deadline=None)
@given(st.floats(1.0, 300.0), st.floats(4.0, 50.0), st.floats(0.1, 0.8))
def test_nothing_touches_whatever_the_size(length: float, od: float, share: float) -> None:
    sheet = sheet_of((group(1, length, od, od * share),))
    page = sheet.pages[0]
    assert list(touches(page, space_of(sheet, "mm"))) == []
    assert list(overlapping_lines(page)) == []


def test_the_largest_standard_scale_that_fits_is_taken() -> None:
    """ISO 5455: 1:1, and 2, 5, 10 times as large or small."""
    shape = (group(1, 30.0),)
    sheet = sheets_of(usual_shop("mm"))[0]
    made = turned_figure(shape, turned_views(shape)["T1"], "mm", sheet, (174.0, 150.0), 48.0)
    assert (made.scale, made.scale_said) == (2.0, "2:1")
    assert made.wide <= 174.0
