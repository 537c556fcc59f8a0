"""Columns and tables: nothing is lost, nothing runs over, heads are repeated."""

from __future__ import annotations

from collections.abc import Iterator

from hypothesis import given, settings
from hypothesis import strategies as st
from sheets.page_geometry import overlapping, quad

from clampwright.sheets.drawing import Page, Text
from clampwright.sheets.flow import Block, Column, flow, heading, paragraph, ticked
from clampwright.sheets.table import Heading, table

CELL = st.text(st.characters(min_codepoint=32, max_codepoint=255, exclude_characters="\x7f\xad"), max_size=40)


def columns(top: float = 280.0, bottom: float = 20.0) -> Iterator[Column]:
    """One column a page, without end."""
    return (Column(page, 20.0, top, bottom) for page in range(10_000))


def pages(blocks: list[Block], top: float = 280.0, bottom: float = 20.0) -> list[Page]:
    """The blocks on pages."""
    return [Page("", 210.0, 297.0, items) for items in flow(blocks, columns(top, bottom)).values()]


@given(st.lists(st.tuples(CELL, CELL, CELL), min_size=1, max_size=30), st.floats(40.0, 170.0))
@settings(deadline=None, max_examples=40)
def test_cells_stay_in_their_table_and_off_each_other(rows: list[tuple[str, str, str]], room: float) -> None:
    headings = (Heading("hole", bold=True), Heading("X mm", "right"), Heading("what it is for", wraps=True))
    for page in pages(table(headings, rows, room)):
        assert overlapping(page) == []
        for item in page.items:
            if isinstance(item, Text) and len(item.text) > 1:
                assert all(20.0 - 0.01 <= x <= 20.0 + room + 0.01 for x, _ in quad(item)), item


@given(st.lists(CELL, min_size=1, max_size=80))
@settings(deadline=None, max_examples=30)
def test_every_row_is_printed_once_in_order(cells: list[str]) -> None:
    rows = [(f"row-{n}", cell) for n, cell in enumerate(cells)]
    found = pages(table((Heading("name", bold=True), Heading("cell", wraps=True)), rows, 60.0), top=120.0)
    bold = [
        i.text
        for page in found
        for i in page.items
        if isinstance(i, Text) and i.bold and i.text[:4] == "row-"
    ]
    assert bold == [name for name, _ in rows]


def test_the_heading_of_a_table_is_repeated_on_every_page() -> None:
    rows = [(f"A{n}", "12.50") for n in range(200)]
    found = pages(table((Heading("hole"), Heading("x", "right")), rows, 60.0))
    assert len(found) > 2
    assert all(sum(i.text == "hole" for i in page.items if isinstance(i, Text)) == 1 for page in found)
    assert [i.text for page in found for i in page.items if isinstance(i, Text) and i.text[0] == "A"] == [
        name for name, _ in rows
    ]


def test_a_heading_is_never_left_alone_at_the_foot() -> None:
    for lines in range(40, 80):
        blocks = [Block(5.0, (Text((0.0, -4.0), "line", 3.0),))] * lines
        found = pages([*blocks, *heading("Title", 80.0), *paragraph("What follows.", 80.0)])
        title = next(
            n for n, page in enumerate(found) for i in page.items if getattr(i, "text", "") == "Title"
        )
        body = next(
            n for n, p in enumerate(found) for i in p.items if getattr(i, "text", "") == "What follows."
        )
        assert title == body


def test_nothing_reaches_below_a_column() -> None:
    blocks = [line for n in range(40) for line in ticked(f"Step {n}: " + "word " * 20, 80.0, number=str(n))]
    for page in pages(blocks, bottom=30.0):
        assert min(y for item in page.items if isinstance(item, Text) for _, y in quad(item)) >= 30.0
        assert overlapping(page) == []


def test_a_turn_begins_a_new_column() -> None:
    line = Block(4.0, (Text((0.0, -3.0), "x", 3.0),))
    assert list(flow([line, Block(0.0, turn=True), line], columns())) == [0, 1]
