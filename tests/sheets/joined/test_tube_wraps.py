"""Tube wraps: as long as the tube is round, every mark at its clock and station, nothing over anything."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sheets.joined.any_layout import any_layout, feet_direction, independent_clock
from sheets.joined.by_hand import LEVEL, SHORT, THIN, UPRIGHT, USUAL, WIDE, ByHand, layout_of
from sheets.joined.vector_paths import Stroke, strokes
from sheets.page_geometry import outside, overlapping, quad, words
from sheets.sheet_plates import FAILING, FINE

from clampwright.files.pdf import pdf
from clampwright.sheets.drawing import Page, Path, Sheet, Text
from clampwright.sheets.ink import DATUM
from clampwright.sheets.tube_wraps import tube_wraps
from clampwright.sheets.wrap_drawing import BAND_EDGE, CUT, FACE, FEET, piece_items
from clampwright.sheets.wrap_strip import Piece, Strip, pieces, strips
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule

PAPERS = ["letter", "a4"]
LAYOUTS = {
    "usual": USUAL,
    "inch": layout_of([(LEVEL, [(150.0, 0.7), (270.0, 0.7)])], units="in"),
    "wide": layout_of([(WIDE, [(200.0, 0.0), (230.0, 3.0)])]),
    "thin": layout_of([(THIN, [(40.0, 1.0), (60.0, 2.0)])]),
    "short": layout_of([(SHORT, [(7.0, 1.0), (24.0, 4.0)])]),
    "past the ends": layout_of([(LEVEL, [(-30.0, 1.0), (900.0, 2.0)])]),
    "one over the other": layout_of([(LEVEL, [(150.0, 0.2), (152.0, 1.9), (158.0, 2.0)])]),
    "corrected": layout_of([(LEVEL, [(150.0, 0.7)])], prints=((96.5, 97.0),)),
}


def with_pen(items: Sequence[object], pen: object) -> list[Path]:
    """Paths drawn with a pen."""
    return [item for item in items if isinstance(item, Path) and item.pen == pen]


def marks(strip: Strip, pen: object, wide_mm: float = 180.0) -> list[tuple[float, float, float]]:
    """(mm round from the left edge, lower, upper station) of the lines along the tube drawn with a pen."""
    found = []
    for piece in pieces(strip, wide_mm):
        for path in with_pen(piece_items(piece, "mm"), pen):
            (x, low), (same, high) = path.points
            if x == same:
                found.append((piece.start + x, strip.low_mm + low, strip.low_mm + high))
    return found


def apart_round(a: float, b: float, round_mm: float) -> float:
    """Distance of two places round a tube, the shorter way."""
    return min((a - b) % round_mm, (b - a) % round_mm)


@pytest.mark.parametrize("name", LAYOUTS)
@pytest.mark.parametrize("wide", [80.0, 187.0])
def test_the_pieces_are_together_as_long_as_the_tube_is_round(name: str, wide: float) -> None:
    """Circumference of a circle, pi times its diameter."""
    for strip in strips(LAYOUTS[name], 150.0):
        drawn = [with_pen(piece_items(piece, "mm"), CUT)[0] for piece in pieces(strip, wide)]
        lengths = [max(x for x, _ in path.points) - min(x for x, _ in path.points) for path in drawn]
        assert sum(lengths) == pytest.approx(math.pi * strip.tube.od_mm, abs=0.01)
        assert all(length + rule("wrap-tab").value <= wide + 1e-6 for length in lengths)


@pytest.mark.parametrize("name", LAYOUTS)
def test_marks_lie_where_the_clock_says(name: str) -> None:
    """Clock over 360 of the circumference from the zero line, the clock worked out here from the vectors."""
    layout = LAYOUTS[name]
    drawn = strips(layout, 150.0)
    assert sorted(loop.label for strip in drawn for loop in strip.loops) == sorted(
        loop.label for loop in layout.loops
    )
    for strip in drawn:
        round_mm = math.pi * strip.tube.od_mm
        ((zero, _, _),) = marks(strip, DATUM)
        feet, face = marks(strip, FEET), marks(strip, FACE)
        assert len(feet) == len(face) == len(strip.loops)
        for loop in strip.loops:
            mine = [
                min(
                    found, key=lambda mark: (not mark[1] - 1e-6 <= loop.station_mm <= mark[2] + 1e-6, mark[2])
                )
                for found in (feet, face)
            ]
            for mark, direction in zip(mine, (feet_direction(loop), np.asarray(loop.bolt_axis)), strict=True):
                expected = zero + independent_clock(loop, direction) / 360 * round_mm
                assert apart_round(mark[0], expected, round_mm) < 0.005


def test_wrapped_round_its_tube_the_feet_line_lies_under_the_bolt() -> None:
    """The strip laid on the tube in space: printed side out, upper edge to the end, zero on top."""
    for strip in strips(USUAL, 150.0):
        ((zero, _, _),) = marks(strip, DATUM)
        radius, a = strip.tube.od_mm / 2, np.asarray(strip.tube.direction)
        top = np.asarray(strip.zero.zero)
        for (x, _, _), loop in zip(marks(strip, FEET), strip.loops, strict=True):
            turn = (x - zero) / radius
            # Who looks at the zero line from outside, the end above, sees forward x up on the right.
            right = np.cross(-top, a)
            wrapped = math.cos(turn) * top + math.sin(turn) * right
            assert np.allclose(wrapped, feet_direction(loop), atol=1e-3)


def test_band_edges_lie_half_a_band_from_the_station() -> None:
    for strip in strips(USUAL, 150.0):
        (piece,) = pieces(strip, 180.0)
        edges = sorted(
            path.points[0][1] + strip.low_mm for path in with_pen(piece_items(piece, "mm"), BAND_EDGE)
        )
        expected = sorted(loop.station_mm + s * 6.35 for loop in strip.loops for s in (-1, 1))
        assert edges == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(("units", "step"), [("mm", 5.0), ("in", 6.35)])
def test_the_edge_that_is_laid_is_at_a_round_station_on_the_tube(units: str, step: float) -> None:
    layout = layout_of([(LEVEL, [(12.0, 0.7), (333.3, 0.7)]), (UPRIGHT, [(120.1, 2.0)])], units=units)
    for strip in strips(layout, 100.0):
        assert strip.edge_mm / step == pytest.approx(round(strip.edge_mm / step), abs=1e-9)
        assert 0 <= strip.edge_mm <= strip.tube.length_mm
        assert strip.low_mm < strip.loops[0].station_mm - 6.35
        assert strip.high_mm > strip.loops[-1].station_mm + 6.35


def test_neighbours_share_a_strip_where_one_is_long_enough() -> None:
    near, far = (
        layout_of([(LEVEL, [(150.0, 0.0), (250.0, 0.0)])]),
        layout_of([(LEVEL, [(150.0, 0), (400.0, 0)])]),
    )
    assert [len(strip.loops) for strip in strips(near, 150.0)] == [2]
    assert [len(strip.loops) for strip in strips(far, 150.0)] == [1, 1]
    assert all(strip.height_mm <= 150.0 for strip in strips(near, 150.0))
    text = words(tube_wraps(far, FINE, "a4").pages).replace("\n", " ")
    assert "A1 - A2 lower-left 250.00" in text
    assert "A1 to A2: 100.00 mm" in words(tube_wraps(near, FINE, "a4").pages)


def test_the_seam_keeps_away_from_the_marks() -> None:
    for turned in np.linspace(0.0, 2 * math.pi, 37):
        for strip in strips(layout_of([(LEVEL, [(150.0, float(turned))])]), 150.0):
            for pen in (DATUM, FEET, FACE):
                ((x, _, _),) = marks(strip, pen)
                assert min(x, strip.length_mm - x) > 15 / 360 * strip.length_mm


def check_pages(sheet: Sheet) -> None:
    """Nothing outside the printable border, no text over a text."""
    for page in sheet.pages:
        assert outside(page, 8.0) == []
        assert overlapping(page) == []


def outlines(page: Page) -> list[Path]:
    """The strips' outlines on a page."""
    return [path for path in with_pen(page.items, CUT) if path.closed]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", LAYOUTS)
def test_nothing_lies_over_anything(name: str, paper: str) -> None:
    sheet = tube_wraps(LAYOUTS[name], FAILING, paper)
    check_pages(sheet)
    assert sheet.true_scale
    for page in sheet.pages:
        assert bool(outlines(page)) == ("100 mm bar, across" in words((page,)))
        assert ("100 mm bar, along" in words((page,))) == bool(outlines(page))


@given(any_layout(), st.sampled_from(PAPERS), st.sampled_from([FINE, FAILING]))
@settings(deadline=None, max_examples=40, suppress_health_check=[HealthCheck.too_slow])
def test_random_tubes_stay_on_their_pages(layout: ByHand, paper: str, findings: tuple) -> None:
    sheet = tube_wraps(layout, findings, paper)
    check_pages(sheet)
    widths = [
        max(x for x, _ in path.points) - min(x for x, _ in path.points)
        for page in sheet.pages
        for path in outlines(page)
    ]
    for tube in layout.recipe.structure.tubes:
        round_mm = math.pi * tube.od_mm
        counts = [
            n for n in range(1, 5) if any(width == pytest.approx(round_mm / n, abs=1e-6) for width in widths)
        ]
        assert counts, f"no strip for {tube.name}"
    rounds = [math.pi * tube.od_mm for tube in layout.recipe.structure.tubes]
    for width in widths:
        assert any(width == pytest.approx(each / n, abs=1e-6) for each in rounds for n in range(1, 5))
    text = words(sheet.pages)
    assert all(loop.label in text for loop in layout.loops)


@given(any_layout(), st.sampled_from([60.0, 187.0]))
@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
def test_what_is_written_on_a_strip_stays_on_it(layout: ByHand, wide: float) -> None:
    for strip in strips(layout, 150.0):
        for piece in pieces(strip, wide):
            long = piece.end - piece.start
            for item in piece_items(piece, layout.recipe.units):
                if isinstance(item, Text):
                    xs, ys = zip(*quad(item), strict=True)
                    assert min(ys) >= 0
                    assert max(ys) <= strip.height_mm
                    assert 0 <= min(xs) < max(xs) <= long or long <= min(xs) < max(xs) <= long + 8.0


def strip_boxes(data: bytes, pages: int) -> list[Stroke]:
    """The outlines as read back from the file: closed boxes drawn with the pen of the outline."""
    found = []
    for page in range(pages):
        for stroke in strokes(data, page):
            corners = set(stroke.points)
            if stroke.stroked and len(corners) == 4 and abs(stroke.width_mm - CUT.width_mm) < 0.005:
                found.append(stroke)
    return found


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("od", [6.35, 15.875, 19.05, 25.4, 44.45])
def test_the_strip_is_as_long_in_the_file_as_the_tube_is_round(od: float, paper: str) -> None:
    """Read back with pdfium: pi times the diameter, to 0.01 mm; marks and bands too."""
    tube = replace(LEVEL, od_mm=od)
    layout = layout_of([(tube, [(150.0, 0.7)])])
    sheet = tube_wraps(layout, FINE, paper)
    data = pdf(sheet)
    sizes = [box.size[0] for box in strip_boxes(data, len(sheet.pages))]
    assert min(abs(size - math.pi * od) for size in sizes) < 0.01
    (strip,) = strips(layout, 150.0)
    box = min(strip_boxes(data, len(sheet.pages)), key=lambda each: abs(each.size[0] - math.pi * od))
    (loop,) = strip.loops
    upright = [s for s in strokes(data, 0) if s.stroked and s.size[0] < 0.001 and s.size[1] > 12.0]
    inside = [s for s in upright if box.low[0] < s.low[0] < box.low[0] + math.pi * od]
    feet = next(s for s in inside if abs(s.width_mm - FEET.width_mm) < 0.01)
    zero = next(s for s in inside if abs(s.width_mm - DATUM.width_mm) < 0.01)
    expected = independent_clock(loop, feet_direction(loop)) / 360 * math.pi * od
    assert apart_round(feet.low[0] - zero.low[0], expected, math.pi * od) < 0.02
    level = [s for s in strokes(data, 0) if s.stroked and s.size[1] < 0.001]
    bands = [
        s
        for s in level
        if abs(s.width_mm - BAND_EDGE.width_mm) < 0.005 and abs(s.size[0] - math.pi * od) < 0.01
    ]
    assert len(bands) == 2
    assert abs(bands[0].low[1] - bands[1].low[1]) == pytest.approx(loop.clamp.band_width_mm, abs=0.01)


def test_a_printer_that_is_off_is_corrected_as_the_template_does_it() -> None:
    """Bars of 96.5 and 97.0 mm: drawn 100/96.5 times as long across, so that it prints true."""
    sheet = tube_wraps(LAYOUTS["corrected"], FINE, "a4")
    assert sheet.pages[0].stretch == pytest.approx((100 / 96.5, 100 / 97.0))
    wide = [s.size[0] for s in strokes(pdf(sheet), 0) if s.stroked]
    assert min(abs(size * 0.965 - math.pi * LEVEL.od_mm) for size in wide) < 0.01
    assert "NOT VERIFIED" in words(sheet.pages)


def test_the_file_asks_to_be_printed_without_scaling() -> None:
    """ISO 32000-1 table 150: PrintScaling None."""
    assert b"/PrintScaling /None" in pdf(tube_wraps(USUAL, FINE, "letter"))


def test_a_strip_too_long_for_the_paper_comes_in_pieces_that_name_their_joins() -> None:
    text = words(tube_wraps(LAYOUTS["wide"], FINE, "letter").pages)
    assert "glue under piece 2" in text
    assert "glue under piece 1" in text
    assert "A1, A2, piece 2 of 2" in text.replace("\n", " ")


def test_the_sheet_says_how_to_tell_a_wrong_diameter_from_a_wrong_print() -> None:
    text = words(tube_wraps(USUAL, FINE, "letter").pages).replace("\n", " ")
    for wanted in (
        "Bars off: the print is wrong",
        "the tube is thicker than the recipe says, by the gap over 3.14",
        "The paper is not counted",
        "Never scratch, scribe or punch",
        "arrow to the start",
    ):
        assert wanted in text


def test_figures_beside_the_strip_are_those_of_the_marks() -> None:
    """Millimetres from 12:00, worked out here."""
    text = words(tube_wraps(USUAL, FINE, "a4").pages).replace("\n", " ")
    for loop in USUAL.loops:
        od = USUAL.recipe.structure.tube(loop.tube).od_mm
        feet = independent_clock(loop, feet_direction(loop)) / 360 * math.pi * od
        assert f"{feet:.2f} mm" in text
        assert f"{loop.label} at {loop.station_mm:.2f} mm" in text


def test_carried_lines_have_no_strip_and_are_named() -> None:
    hose = Tube("oil hose", (0.0, 0.0, 60.0), (300.0, 0.0, 60.0), 20.0)
    layout = layout_of([(LEVEL, [(150.0, 0.7)]), (hose, [(100.0, 0.2)])], lines=(hose,))
    assert [strip.tube.name for strip in strips(layout, 150.0)] == ["lower-left"]
    assert "No strip: B1 on oil hose" in words(tube_wraps(layout, FINE, "a4").pages)


def test_nothing_to_wrap_is_a_sheet_without_strips() -> None:
    hose = Tube("oil hose", (0.0, 0.0, 60.0), (300.0, 0.0, 60.0), 20.0)
    sheet = tube_wraps(layout_of([(hose, [(100.0, 0.2)])], lines=(hose,)), FINE, "a4")
    assert len(sheet.pages) == 1
    assert outlines(sheet.pages[0]) == []


def test_do_not_install_exactly_when_a_check_fails() -> None:
    for findings, stops in ((FINE, False), ((), False), (FAILING, True)):
        for page in tube_wraps(USUAL, findings, "letter").pages:
            assert ("DO NOT INSTALL" in words((page,))) is stops


def test_equal_layouts_give_equal_bytes() -> None:
    assert pdf(tube_wraps(USUAL, FAILING, "a4")) == pdf(tube_wraps(USUAL, FAILING, "a4"))


def test_a_piece_names_itself() -> None:
    (strip,) = strips(layout_of([(WIDE, [(200.0, 0.0)])]), 150.0)
    assert Piece(strip, 1, 1, 0.0, 9.0).name == "A1"
