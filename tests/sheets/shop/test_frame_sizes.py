"""Drawing sheets against ISO 5457 and ASME Y14.1."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from sheets.page_geometry import extremes

from clampwright.recipe.shop import usual_shop
from clampwright.sheets.drawing import Path, Text
from clampwright.sheets.shop.border import border_items, strip
from clampwright.sheets.shop.sizes import DrawingSheet, drawing_sheet, sheets_of
from clampwright.trade.sources import source

ISO_5457 = {
    "A4": ((210, 297), (180, 277)),
    "A3": ((420, 297), (390, 277)),
    "A2": ((594, 420), (564, 400)),
    "A1": ((841, 594), (811, 574)),
    "A0": ((1189, 841), (1159, 821)),
}
"""Trimmed sizes (read in a copy) and drawing spaces (from memory), retyped."""
Y14_1 = {"A": (8.5, 11), "B": (17, 11), "C": (22, 17), "D": (34, 22)}
"""Inches, from memory, retyped."""
FIELDS = {"A4": (4, 6), "A3": (8, 6), "A2": (12, 8), "A1": (16, 12), "A0": (24, 16), "B": (4, 2), "D": (8, 4)}
"""Fields of the grid reference along the longer or level side and the other, from memory, retyped."""
EVERY = [drawing_sheet(name) for name in (*ISO_5457, *Y14_1)]


@pytest.mark.parametrize("name", ISO_5457)
def test_iso_5457_table_1(name: str) -> None:
    sheet, (trimmed, space) = drawing_sheet(name), ISO_5457[name]
    assert (sheet.width_mm, sheet.height_mm) == trimmed
    x0, y0, x1, y1 = sheet.space
    assert (x1 - x0, y1 - y0) == space
    assert (x0, y0, sheet.width_mm - x1, sheet.height_mm - y1) == (20, 10, 10, 10)
    assert sheet.landscape == (name != "A4")


def test_each_a_size_is_half_the_next() -> None:
    """ISO 216: the long side of one is the short side of the next, to a millimetre; 1 m2 is A0's area."""
    sizes = [sorted((sheet.width_mm, sheet.height_mm)) for sheet in sheets_of(usual_shop("mm"))]
    for (short, long), (next_short, next_long) in pairwise(sizes):
        assert long == next_short
        assert 2 * short == pytest.approx(next_long, abs=1.0)
    assert math.prod(sizes[-1]) == pytest.approx(1e6, rel=1e-3)


@pytest.mark.parametrize("name", Y14_1)
def test_asme_y14_1(name: str) -> None:
    sheet = drawing_sheet(name)
    assert (sheet.width_mm, sheet.height_mm) == pytest.approx([25.4 * side for side in Y14_1[name]])


def test_smallest_first_and_only_of_the_shop_s_standard() -> None:
    for units, names in (("mm", list(ISO_5457)), ("in", list(Y14_1))):
        found = sheets_of(usual_shop(units))
        assert [sheet.name for sheet in found] == names
        areas = [sheet.width_mm * sheet.height_mm for sheet in found]
        assert areas == sorted(areas)


@pytest.mark.parametrize("sheet", EVERY, ids=lambda s: s.name)
def test_everything_is_inside_the_trimmed_sheet(sheet: DrawingSheet) -> None:
    for item in border_items(sheet):
        half = item.pen.width_mm / 2 if isinstance(item, Path) and item.pen else 0.0
        for x, y in extremes(item):
            assert half - 1e-9 <= x <= sheet.width_mm - half + 1e-9
            assert half - 1e-9 <= y <= sheet.height_mm - half + 1e-9


@pytest.mark.parametrize("sheet", EVERY, ids=lambda s: s.name)
def test_nothing_of_the_border_reaches_into_the_drawing_space(sheet: DrawingSheet) -> None:
    frame, *others = border_items(sheet)
    assert isinstance(frame, Path)
    assert (frame.points[0], frame.points[2]) == (sheet.space[:2], sheet.space[2:])
    for item in others:
        points = extremes(item)
        ends = [*points, points[0]] if isinstance(item, Path) and item.closed else points
        assert all(_beside(piece, sheet) for piece in pairwise(ends))


def _beside(piece: tuple[tuple[float, float], tuple[float, float]], sheet: DrawingSheet) -> bool:
    """Whether a straight piece, which lies upright or level, is on one side of the drawing space."""
    x0, y0, x1, y1 = sheet.space
    (ax, ay), (bx, by) = piece
    hair = 1e-9
    beside = max(ax, bx) <= x0 + hair or min(ax, bx) >= x1 - hair
    return beside or max(ay, by) <= y0 + hair or min(ay, by) >= y1 - hair


@pytest.mark.parametrize("name", FIELDS)
def test_fields_of_the_grid_reference(name: str) -> None:
    """ISO 5457, 4.4 (from memory): 50 mm from the centring marks outwards, the rest to the corner fields."""
    sheet = drawing_sheet(name)
    assert (len(sheet.columns), len(sheet.rows)) == FIELDS[name]
    for zones, size in ((sheet.columns, sheet.width_mm), (sheet.rows, sheet.height_mm)):
        inner = [zone.end for zone in zones[:-1]]
        assert size / 2 == pytest.approx(inner[len(inner) // 2])
        steps = {round(b - a, 6) for a, b in pairwise(inner)}
        assert steps <= ({50.0} if sheet.standard == "iso" else {round(size / len(zones), 6)})
    assert (sheet.columns[0].start, sheet.columns[-1].end) == (sheet.space[0], sheet.space[2])
    assert (sheet.rows[0].start, sheet.rows[-1].end) == (sheet.space[1], sheet.space[3])


def test_which_way_fields_are_named() -> None:
    """ISO: letters from the top down, numbers from the left. ASME: letters from the bottom, numbers from the
    right. Both from memory."""
    iso, asme = drawing_sheet("A2"), drawing_sheet("D")
    assert [zone.name for zone in iso.columns] == [str(n) for n in range(1, 13)]
    assert "".join(zone.name for zone in iso.rows) == "HGFEDCBA"
    assert [zone.name for zone in asme.columns] == [str(n) for n in range(8, 0, -1)]
    assert "".join(zone.name for zone in asme.rows) == "ABCD"
    assert not {"I", "O"} & {zone.name for zone in drawing_sheet("A0").rows}


@pytest.mark.parametrize("sheet", EVERY, ids=lambda s: s.name)
def test_names_of_fields_stand_in_the_strip(sheet: DrawingSheet) -> None:
    a, b, c, d = strip(sheet)
    x0, y0, x1, y1 = sheet.space
    names = [item for item in border_items(sheet) if isinstance(item, Text)]
    once = sheet.name == "A4"
    assert len(names) == (len(sheet.columns) + len(sheet.rows)) * (1 if once else 2)
    for text in names:
        xs, ys = zip(*extremes(text), strict=True)
        assert (a <= min(xs), max(xs) <= c, b <= min(ys), max(ys) <= d) == (True,) * 4
        hair = 1e-9
        sides = (max(xs) <= x0 + hair, min(xs) >= x1 - hair, max(ys) <= y0 + hair, min(ys) >= y1 - hair)
        assert any(sides)


def test_capitals_are_3_5_mm_high() -> None:
    """ISO 5457 (from memory); a capital of this font family is 0.718 of its size."""
    sizes = {item.size_mm for item in border_items(drawing_sheet("A3")) if isinstance(item, Text)}
    assert [size * 0.718 for size in sizes] == pytest.approx([3.5])


@pytest.mark.parametrize("sheet", EVERY, ids=lambda s: s.name)
def test_sources_say_what_is_from_memory(sheet: DrawingSheet) -> None:
    assert source(sheet.source).status == ("standard" if sheet.standard == "iso" else "memory")
    assert sheet.wide_mm == pytest.approx(2 * sheet.narrow_mm, rel=0.03)


def test_an_unknown_sheet_is_refused() -> None:
    with pytest.raises(KeyError):
        drawing_sheet("A5")
