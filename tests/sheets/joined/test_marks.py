"""Where a tube has a mark, people are told to measure from it: plain differences of stations."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sheets.joined.any_layout import any_layout
from sheets.joined.by_hand import LEVEL, ByHand
from sheets.known_plates import PLATE, on_tubes, with_known, with_marks
from sheets.page_geometry import outside, overlapping, texts, words
from sheets.sheet_plates import FAILING, FINE

from clampwright.layout.order_of_work import order
from clampwright.sheets.drawing import Path, Sheet
from clampwright.sheets.drill_sheet import drill_sheet
from clampwright.sheets.installation_sheet import installation_sheet
from clampwright.sheets.template import template
from clampwright.sheets.tube_wraps import tube_wraps
from clampwright.sheets.wrap_drawing import CUT, piece_items
from clampwright.sheets.wrap_mark import MARK
from clampwright.sheets.wrap_strip import pieces, strips
from clampwright.trade.tables import rule

PAPERS = ["letter", "a4"]
NEAR, ON = 100.0, 210.0
"""Marks before both clamps of the level tube, and between them."""


def flat(sheet: Sheet) -> str:
    return words(sheet.pages).replace("\n", " ")


def mark_lines(layout: ByHand) -> list[tuple[str, float]]:
    """(tube, station) of every mark's line on the strips."""
    return [
        (strip.tube.name, strip.low_mm + item.points[0][1])
        for strip in strips(layout, 190.0)
        for piece in pieces(strip, 180.0)
        for item in piece_items(piece, "mm")
        if isinstance(item, Path) and item.pen == MARK
    ]


def test_installation_sheet_counts_from_the_mark_by_hand() -> None:
    """Stations 150 and 270 from a mark at 210: 60 towards the start, 60 towards the end."""
    text = flat(installation_sheet(with_marks(on_tubes(), ON), FINE, "a4"))
    assert "60.00 mm (2.362 in) from the mark towards the start, chosen by the layout; the mark lies" in text
    assert "60.00 mm (2.362 in) from the mark towards the end, chosen by the layout; the mark lies" in text
    assert text.count("the mark lies 210.00 mm (8.268 in) from the start at [100, -50, 20] mm") == 2
    assert "A1 lower-left mark - 60.00 1.21" in text
    assert "A2 lower-left mark + 60.00 2.21" in text
    assert "B1 ring-left mark - 90.00 3.21" in text
    assert "150.00 mm" not in text.replace("A1 to A2: ", "")
    assert "towards its end, mark - towards its start" in text


def test_order_of_work_marks_them_from_the_mark_with_their_plus_minus() -> None:
    (marks,) = [step for step in order(with_marks(on_tubes(), ON)) if step.startswith("Mark where")]
    assert "A1 on lower-left at mark - 60.00 mm ± 1.21 mm" in marks
    assert "A2 on lower-left at mark + 60.00 mm ± 2.21 mm" in marks


def test_template_and_drill_sheet_count_from_the_mark() -> None:
    """Stations are 100 + x of the hole: 115 and 235 on the lower tube, from a mark at 150."""
    marked = with_marks(PLATE, 150.0)
    held, drilled = flat(template(marked, FINE, "a4")), flat(drill_sheet(marked, FINE, "a4"))
    assert "mark - 35.00 1.21" in held
    assert "mark + 85.00 2.21" in held
    assert "at mark - 35.00 mm ± 1.21 mm, inboard" in drilled
    assert "Stations on lower-left and upper-left count from the mark" in held
    assert "Stations on lower-left and upper-left count from the mark" in drilled


def test_a_mark_on_one_tube_leaves_the_others() -> None:
    layout = on_tubes()
    first, second = layout.recipe.structure.tubes
    structure = replace(layout.recipe.structure, tubes=(replace(first, mark_mm=ON), second))
    layout = replace(layout, recipe=replace(layout.recipe, structure=structure))
    text = flat(installation_sheet(layout, FINE, "a4"))
    assert "A1 lower-left mark - 60.00" in text
    assert "B1 ring-left 120.00" in text
    assert "120.00 mm (4.724 in) from the start at [0, 0, 0] mm" in text
    assert "the mark on its tube, or where it has none from the tube's start," in flat(
        tube_wraps(layout, FINE, "a4")
    )


def test_the_line_of_the_mark_lies_on_the_strip_at_the_mark() -> None:
    assert mark_lines(with_marks(on_tubes(), ON)) == [("lower-left", pytest.approx(ON))]
    assert mark_lines(with_marks(on_tubes(), 110.0)) == [("ring-left", pytest.approx(110.0))]
    assert mark_lines(with_marks(on_tubes(), NEAR)) == [("ring-left", pytest.approx(NEAR))]
    assert mark_lines(with_marks(on_tubes(), 600.0)) == []
    assert mark_lines(on_tubes()) == []


def test_the_strip_says_what_its_line_of_dots_is() -> None:
    text = flat(tube_wraps(with_marks(on_tubes(), ON), FINE, "a4"))
    assert text.count("The line of dots is the tube's mark") == 1
    assert " mark " in text
    assert "The line of dots" not in flat(tube_wraps(with_marks(on_tubes(), 600.0), FINE, "a4"))


@pytest.mark.parametrize(("units", "step"), [("mm", 5.0), ("in", 6.35)])
@pytest.mark.parametrize("mark", [3.7, NEAR + 1.3, ON, 463.21, -12.6])
def test_the_edge_that_is_laid_is_a_round_length_from_the_mark(units: str, step: float, mark: float) -> None:
    layout = with_marks(on_tubes(units=units), mark)
    for strip in strips(layout, 190.0):
        steps = (strip.edge_mm - mark) / step
        assert steps == pytest.approx(round(steps), abs=1e-9)
        assert 0 <= strip.edge_mm <= strip.tube.length_mm
        assert strip.low_mm < strip.loops[0].station_mm - 6.35
        assert strip.high_mm > strip.loops[-1].station_mm + 6.35
        assert step == rule(f"wrap-edge-step-{'metric' if units == 'mm' else 'inch'}").value


def test_captions_of_the_strips_count_from_the_mark() -> None:
    """A1 at 150: the band ends at 143.65, less 13 of words: 130.65, down to 130 in steps of 5 from 210."""
    text = flat(tube_wraps(with_marks(on_tubes(), ON), FINE, "a4"))
    assert "Lower edge 80.00 mm (3.150 in) from the mark towards the start." in text
    assert "this edge at mark - 80.00 mm" in text
    assert "A1 60.00 mm (2.362 in) from the mark towards the start ± 1.21 mm: feet" in text
    assert "A1 at mark - 60.00 mm" in text
    assert "named edge from the mark on its tube and lay" in text
    assert "from the start at" not in text


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("mark", [ON, 152.0, 145.0, 134.0, 281.0, 270.0])
@pytest.mark.parametrize("units", ["mm", "in"])
def test_nothing_lies_over_anything(mark: float, units: str, paper: str) -> None:
    layout = with_marks(on_tubes(units=units), mark)
    for sheet in (tube_wraps(layout, FAILING, paper), installation_sheet(layout, FAILING, paper)):
        for page in sheet.pages:
            assert outside(page, 8.0) == []
            assert overlapping(page) == []


@given(any_layout(), st.floats(-20.0, 700.0), st.sampled_from(PAPERS))
@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
def test_random_tubes_with_marks_stay_on_their_pages(layout: ByHand, mark: float, paper: str) -> None:
    layout = with_known(with_marks(layout, mark), measured=False)
    sheet = tube_wraps(layout, FINE, paper)
    for page in sheet.pages:
        assert outside(page, 8.0) == []
        assert overlapping(page) == []
        outlines = [i for i in page.items if isinstance(i, Path) and i.pen == CUT and i.closed]
        lines = [i for i in page.items if isinstance(i, Path) and i.pen == MARK]
        for line in lines:
            (x0, y), (x1, _) = line.points
            boxes = [tuple(zip(*box.points, strict=True)) for box in outlines]
            assert any(
                min(xs) - 1e-6 <= x0 and x1 <= max(xs) + 1e-6 and min(ys) - 1e-6 <= y <= max(ys) + 1e-6
                for xs, ys in boxes
            )


def test_the_word_at_the_line_keeps_off_the_other_words() -> None:
    """Wherever the line falls, "mark" stands on the strip clear of its other texts, or not at all."""
    found = 0
    for mark in range(120, 300, 3):
        layout = with_marks(on_tubes(LEVEL), float(mark))
        for page in tube_wraps(layout, FINE, "a4").pages:
            found += sum(text.text == "mark" for text in texts(page))
            assert overlapping(page) == []
    assert found > 40


def test_no_sheet_speaks_of_marks_where_there_are_none() -> None:
    for sheet in (installation_sheet(on_tubes(), FINE, "a4"), tube_wraps(on_tubes(), FINE, "a4")):
        assert not re.search(r"mark [+-]|from the mark|the tube's mark", flat(sheet))
