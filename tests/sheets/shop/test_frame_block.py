"""The title block: the fields of ISO 7200, nothing over anything, nothing outside its cell."""

from __future__ import annotations

import dataclasses
import itertools
import string

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sheets.page_geometry import extremes, overlapping, quad

from clampwright.sheets.drawing import Box, Item, Page, Path, Text
from clampwright.sheets.shop.block import (
    DO_NOT_MAKE,
    Block,
    beside_block,
    block_box,
    block_items,
    free_box,
)
from clampwright.sheets.shop.border import border_items
from clampwright.sheets.shop.sizes import DrawingSheet, drawing_sheet

SHEETS = [drawing_sheet(name) for name in ("A4", "A3", "A", "B", "D")]
USUAL = Block(
    number="relay-plate-plate",
    title="Accessory plate",
    about="Relay and breaker of the auxiliary bus",
    document="part drawing",
    revision="0123456789abcdef",
    scale="1:1",
    units="ALL SIZES IN INCHES [MILLIMETRES IN BRACKETS]",
    tolerances=("General tolerances ISO 2768-m", "± 0.1 to 6, ± 0.2 to 30, ± 0.3 to 120, ± 0.5 to 400"),
    material="6061-T6 to AMS 4027 or equal, certified",
    stock="sheet 0.125 in (3.18 mm)",
    finish="none asked for",
    edge_break="break 0.30 mm (0.012 in), no burrs",
    quantity="2",
    mass="0.41 lb (186.0 g)",
    projection="third",
    checks="PASS: 33 pass, 2 cautions",
)
WORDY = " ".join(["the-long-name-of-a-thing", "on a tube of the lower ring"] * 12)
STOP = "; ".join(f"EDGE-{n} at A{n}, B{n}" for n in range(1, 40))


def page(block: Block, sheet: DrawingSheet) -> Page:
    """The block on its sheet."""
    items = (*border_items(sheet), *block_items(block, sheet))
    return Page("frame", sheet.width_mm, sheet.height_mm, items)


def wordy(words: str) -> Block:
    """A block with these words in every field of words."""
    fields = {
        f.name: words for f in dataclasses.fields(Block) if getattr(USUAL, f.name, None).__class__ is str
    }
    fields |= {"projection": "first", "stop": words}
    return dataclasses.replace(USUAL, **fields, tolerances=(words,) * 5, sheet=888, sheets=888)


def boxes(items: tuple[Item, ...]) -> list[Box]:
    """Rectangles among the items."""
    paths = (i for i in items if isinstance(i, Path) and i.closed and len(i.points) == 4)
    upright = (p.points for p in paths if len({x for x, _ in p.points}) == 2 == len({y for _, y in p.points}))
    return [(p[0][0], p[0][1], p[2][0], p[2][1]) for p in upright]


def within(text: Text, box: Box) -> bool:
    """Whether all of a text, by another reader's widths, is in a box."""
    return all(box[0] <= x <= box[2] and box[1] <= y <= box[3] for x, y in quad(text))


def every_text_in_a_cell(block: Block, sheet: DrawingSheet) -> bool:
    items = block_items(block, sheet)
    cells = boxes(items)
    return all(any(within(item, box) for box in cells) for item in items if isinstance(item, Text))


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda s: s.name)
@pytest.mark.parametrize("block", [USUAL, wordy(WORDY), wordy("W" * 300), wordy("a")], ids=range(4))
def test_no_text_leaves_its_cell_or_lies_over_another(sheet: DrawingSheet, block: Block) -> None:
    assert every_text_in_a_cell(block, sheet)
    assert overlapping(page(block, sheet)) == []


@settings(deadline=None, max_examples=25)
@given(st.text(string.ascii_letters + " -/.", min_size=1, max_size=200))
def test_any_words_stay_in_their_cells(words: str) -> None:
    sheet = drawing_sheet("A4")
    assert every_text_in_a_cell(wordy(words), sheet)
    assert overlapping(page(wordy(words), sheet)) == []


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda s: s.name)
def test_cells_tile_the_block(sheet: DrawingSheet) -> None:
    """No cell over another; together they are the block, to the last square millimetre."""
    whole = block_box(sheet)
    cells = boxes(block_items(USUAL, sheet))
    for a, b in itertools.combinations(cells, 2):
        apart = a[2] <= b[0] + 1e-9 or b[2] <= a[0] + 1e-9 or a[3] <= b[1] + 1e-9 or b[3] <= a[1] + 1e-9
        assert apart, (a, b)
    area = sum((x1 - x0) * (y1 - y0) for x0, y0, x1, y1 in cells)
    assert area == pytest.approx((whole[2] - whole[0]) * (whole[3] - whole[1]))
    assert whole[2] - whole[0] == pytest.approx(180.0)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda s: s.name)
@pytest.mark.parametrize("stop", ["", STOP])
def test_block_and_free_room_are_inside_the_frame_and_apart(sheet: DrawingSheet, stop: str) -> None:
    block = dataclasses.replace(USUAL, stop=stop)
    x0, y0, x1, y1 = sheet.space
    rooms = [free_box(sheet, stop), *filter(None, [beside_block(sheet)])]
    for item in block_items(block, sheet):
        points = extremes(item)
        assert all(x0 - 1e-9 <= x <= x1 + 1e-9 and y0 - 1e-9 <= y <= y1 + 1e-9 for x, y in points)
        for a, b, c, d in rooms:
            assert a > x0
            assert c < x1
            assert all(x <= a or x >= c or y <= b or y >= d for x, y in points)


def test_iso_7200_mandatory_fields() -> None:
    """ISO 7200:2004, tables 1 to 3, mandatory: as listed in open summaries of the standard."""
    said = {item.text for item in block_items(USUAL, drawing_sheet("A3")) if isinstance(item, Text)}
    labels = {"Legal owner", "Drawing number", "Date of issue", "Sheet", "Title", "Created by", "Approved by"}
    assert labels | {"Document type", "Revision"} <= said
    assert {USUAL.number, USUAL.title, USUAL.revision, USUAL.document, "1 of 1"} <= said


def test_every_word_of_a_usual_block_is_printed_whole() -> None:
    said = " ".join(item.text for item in block_items(USUAL, drawing_sheet("A4")) if isinstance(item, Text))
    words = [value for f in dataclasses.fields(Block) if isinstance(value := getattr(USUAL, f.name), str)]
    for word in " ".join([*words, *USUAL.tolerances]).split():
        assert word in said
    assert "..." not in said


def test_no_date_of_its_own() -> None:
    """The same recipe gives the same bytes: date, owner and names are left to be written by hand."""
    for sheet in SHEETS:
        items = block_items(USUAL, sheet)
        for label in ("Legal owner", "Created by", "Approved by", "Date of issue"):
            (text,) = (item for item in items if isinstance(item, Text) and item.text == label)
            (cell,) = (box for box in boxes(items) if within(text, box))
            inside = [item for item in items if isinstance(item, Text) and within(item, cell)]
            assert inside == [text]
            assert cell[2] - cell[0] >= 35
            assert cell[3] - cell[1] >= 8
        assert items == block_items(USUAL, sheet)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda s: s.name)
def test_do_not_make_stands_twice_and_large(sheet: DrawingSheet) -> None:
    few = dataclasses.replace(USUAL, stop="EDGE-1 at A1; BOLT-1 at B1")
    items = block_items(few, sheet)
    big = [item for item in items if isinstance(item, Text) and item.text == DO_NOT_MAKE]
    assert len(big) == 2
    assert max(item.size_mm for item in big) >= 7
    bands = [i for i in items if isinstance(i, Path) and i.fill]
    across = max(bands, key=lambda i: i.points[2][1]).points
    assert (across[0][0], across[2]) == (sheet.space[0], sheet.space[2:])
    codes = [i for i in items if isinstance(i, Text) and few.stop in i.text]
    assert len(codes) == 2
    assert not any(DO_NOT_MAKE in i.text for i in block_items(USUAL, sheet) if isinstance(i, Text))
    assert free_box(sheet, few.stop)[3] < across[0][1]
