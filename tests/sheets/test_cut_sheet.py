"""The bushing cut sheet: lengths at 1:1, nothing over anything, every gap and every piece on it."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest
from joined_recipes import STOCK
from sheets.cut_layouts import FIVE, Cutting, cutting
from sheets.page_geometry import outside, overlap, overlapping, quad, texts, words
from sheets.sheet_plates import FAILING, FINE, plate

from clampwright.checks.finding import Finding
from clampwright.layout.plate_bushings import plate_cuts
from clampwright.sheets.bars import STRIP
from clampwright.sheets.bushing_figure import BAR, bushing_figure
from clampwright.sheets.cut_notes import bored_with
from clampwright.sheets.cut_sheet import cut_sheet
from clampwright.sheets.drawing import Circle, Page, Path, Sheet
from clampwright.trade.holes import drill

LONG = replace(STOCK, stock_length_mm=1000.0, od_mm=14.0)
MANY = tuple(5.0 + 4.4 * n for n in range(12)) * 2
CASES = {
    "none": cutting([0.05, 1.6]),
    "one": cutting([12.7], units="in"),
    "five": cutting(FIVE),
    "many": cutting(MANY, units="in"),
    "long": cutting([180.0, 8.0, 130.0], bolt="M6", degrees_c=150.0, stock=LONG),
    "forty of a kind": cutting([12.7] * 40),
}


def sheet(made: Cutting, findings: tuple[Finding, ...] = FINE, paper: str = "a4") -> Sheet:
    return cut_sheet(made, made.cuts, findings, paper)  # type: ignore[arg-type]


def flat(made: Cutting, findings: tuple[Finding, ...] = FINE) -> str:
    return words(sheet(made, findings).pages).replace("\n", " ")


def extent(path: Path) -> tuple[float, float, float, float]:
    xs, ys = zip(*path.points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def length_bars(page: Page) -> list[tuple[float, float, float, float]]:
    """Solid black bars of a length bar's height right of the strip of scale bars, from the top."""
    left = min(x for item in page.items if isinstance(item, Path) for x, _ in item.points) + STRIP
    solid = [i for i in page.items if isinstance(i, Path) and i.fill == "#000000" and i.pen is None]
    boxes = [extent(path) for path in solid]
    found = [b for b in boxes if abs(b[3] - b[1] - BAR) < 1e-9 and b[0] > left + 0.5 and b[1] > 8.0 + STRIP]
    return sorted(found, key=lambda box: -box[1])


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("findings", [FINE, FAILING], ids=["fine", "failing"])
def test_nothing_lies_over_anything(name: str, paper: str, findings: tuple[Finding, ...]) -> None:
    for page in sheet(CASES[name], findings, paper).pages:
        assert outside(page, 8.0) == []
        assert overlapping(page) == []


def crossed(page: Page) -> list[str]:
    """Texts that a drawn line, taken 0.1 mm thick, runs through."""
    words_at = [(text.text, quad(text)) for text in texts(page)]
    found = []
    for item in page.items:
        if isinstance(item, Path):
            ends = [*item.points, item.points[0]] if item.closed else list(item.points)
            for (ax, ay), (bx, by) in pairwise(ends):
                long = math.dist((ax, ay), (bx, by)) or 1.0
                x, y = 0.05 * (by - ay) / long, 0.05 * (ax - bx) / long
                line = ((ax + x, ay + y), (bx + x, by + y), (bx - x, by - y), (ax - x, ay - y))
                found += [text for text, box in words_at if overlap(line, box)]
    return found


@pytest.mark.parametrize("name", CASES)
def test_no_line_runs_through_a_word(name: str) -> None:
    for page in sheet(CASES[name], FAILING).pages:
        assert crossed(page) == []


def test_a_line_through_a_word_would_be_found() -> None:
    page = sheet(CASES["one"]).pages[0]
    x, y = next(text.at for text in texts(page) if text.text.startswith("S1: make"))
    through = Path(((x - 5.0, y + 1.0), (x + 50.0, y + 1.0)))
    assert crossed(replace(page, items=(*page.items, through))) == ["S1: make 1"]


@pytest.mark.parametrize("name", ["one", "five", "many"])
def test_length_bars_are_as_long_as_the_bushings(name: str) -> None:
    made = CASES[name]
    bars = [box for page in sheet(made).pages for box in length_bars(page)]
    assert [x1 - x0 for x0, _, x1, _ in bars] == [pytest.approx(p.length_mm, abs=1e-9) for p in made.bushings]


def test_section_and_end_view_have_the_part_s_sizes() -> None:
    made = CASES["five"]
    pages = sheet(made).pages
    rings = [i for page in pages for i in page.items if isinstance(i, Circle)]
    assert [round(2 * ring.radius, 6) for ring in rings] == [
        round(size, 6) for part in made.bushings for size in (part.od_mm, part.id_mm)
    ]
    for part in made.bushings:
        drawn = bushing_figure(part, "mm", 180.0)
        walls = [i for i in drawn.items if isinstance(i, Path) and i.closed and len(i.points) == 8]
        assert len(walls) == 2
        boxes = [extent(wall) for wall in walls]
        assert {round(b[2] - b[0], 9) for b in boxes} == {round(part.length_mm, 9)}
        top, low = max(b[3] for b in boxes), min(b[1] for b in boxes)
        assert top - low == pytest.approx(part.od_mm)
        assert boxes[0][1] - boxes[1][3] == pytest.approx(part.id_mm)
        assert drawn.true_size


def test_ticks_stand_at_the_end_faces() -> None:
    (part,) = CASES["one"].bushings
    drawn = bushing_figure(part, "in", 180.0)
    upright = [i for i in drawn.items if isinstance(i, Path) and len(i.points) == 2]
    at = sorted({round(a[0], 6) for a, b in (i.points for i in upright) if a[0] == b[0]})
    assert round(at[-1] - at[0], 6) >= round(part.length_mm, 6)
    wall = next(extent(i) for i in drawn.items if isinstance(i, Path) and len(i.points) == 8)
    assert round(wall[0], 6) in at
    assert round(wall[2], 6) in at


def test_a_bushing_longer_than_the_page_is_broken_out_and_says_so() -> None:
    made = CASES["long"]
    text = flat(made)
    assert text.count("NOT TO SCALE along its length") == 1
    assert "180.00 mm (7.087 in)" in text
    assert len([box for page in sheet(made).pages for box in length_bars(page)]) == 2


def test_a_box_to_tick_for_each_piece() -> None:
    made = CASES["forty of a kind"]
    boxes = [
        extent(item)
        for page in sheet(made).pages
        for item in page.items
        if isinstance(item, Path) and item.closed and item.fill is None and len(item.points) == 4
    ]
    ticks = [b for b in boxes if abs(b[2] - b[0] - 3.2) < 1e-6 and abs(b[3] - b[1] - 3.2) < 1e-6]
    assert len(ticks) == 40


@pytest.mark.parametrize("name", ["one", "five", "many", "long"])
def test_every_gap_stands_in_the_table_with_bushing_and_washers(name: str) -> None:
    made = CASES[name]
    text = flat(made)
    for part in made.bushings:
        assert f"{part.mark}: make {part.quantity}" in text
        for fill in part.fills:
            assert f" {fill.where} " in text
        for washer in {washer for fill in part.fills for washer, _ in fill.washers}:
            assert washer in text


def test_the_table_by_hand() -> None:
    """13.5 is 12.7 and a thin washer of .8128; - 0.0128 is left, shown as 0.01 too long."""
    text = flat(cutting([12.7, 13.5]))
    assert "A1 12.70 S1 12.70 none 0.00 ________ A2 13.50 S1 12.70 1 x AN960-10L -0.01 ________" in text


def test_both_units_the_recipe_s_first() -> None:
    assert "0.500 in (12.70 mm)" in flat(CASES["one"])
    assert "22.20 mm (0.874 in)" in flat(CASES["five"])
    assert "± 0.10 mm" in flat(CASES["five"])


def test_the_cut_plan_shows_every_piece_saw_cut_and_what_is_left() -> None:
    """305 mm bar on 180 mm of paper: labelled as not 1:1, and drawn in the scale that it names."""
    made = CASES["five"]
    text = flat(made)
    assert "NOT 1:1" in text
    (bar,) = made.cuts.bars
    black = [
        extent(item)
        for page in sheet(made).pages
        for item in page.items
        if isinstance(item, Path) and item.fill == "#000000" and abs(_high(item) - 7.0) < 1e-9
    ]
    assert len(black) == len(bar.cuts)
    scale = (black[1][0] - black[0][2]) / bar.cuts[1].length_mm
    assert f"1:{1 / scale:.2f}" in text
    assert black[0][2] - black[0][0] == pytest.approx(bar.kerf_mm * scale)
    for mark, count in Counter(cut.mark for cut in bar.cuts).items():
        assert f"{count} x {mark} at " in text
    assert f"{bar.left_mm:.2f} mm" in text


def _high(path: Path) -> float:
    _, y0, _, y1 = extent(path)
    return y1 - y0


def test_a_short_bar_is_drawn_at_1_1() -> None:
    made = cutting([12.7], stock=replace(STOCK, stock_length_mm=150.0))
    assert "drawn at 1:1" in flat(made)
    assert "NOT 1:1" not in flat(made)


@pytest.mark.parametrize(("findings", "stops"), [(FINE, False), (FAILING, True)])
def test_do_not_make_exactly_when_a_check_fails(findings: tuple[Finding, ...], stops: bool) -> None:
    for page in sheet(CASES["many"], findings).pages:
        assert ("DO NOT MAKE" in words((page,))) is stops
        assert "DO NOT DRILL" not in words((page,))


def test_every_page_has_the_bars_both_ways() -> None:
    for page in sheet(CASES["many"]).pages:
        assert {"100 mm bar, across", "100 mm bar, along"} <= {text.text for text in texts(page)}


def test_drawn_with_the_correction_of_the_template() -> None:
    plain, shrunk = sheet(CASES["five"]), sheet(cutting(FIVE, prints=((99.2, 99.4),)))
    assert plain.pages[0].stretch == (1.0, 1.0)
    assert shrunk.pages[0].stretch == (pytest.approx(100 / 99.2), pytest.approx(100 / 99.4))
    assert plain.true_scale
    for page in shrunk.pages:
        assert outside(page, 8.0) == []
        assert overlapping(page) == []


def test_nothing_to_cut_is_said() -> None:
    text = flat(CASES["none"])
    assert "no gap here asks for a bushing" in text
    assert "Cut plan" not in text


def test_a_rod_is_bored_with_a_drill_that_has_a_name() -> None:
    for part in CASES["long"].bushings:
        assert part.make == "rod"
        assert bored_with(part) == "drill 6.4 mm"
        assert drill("6.4 mm").diameter_mm == part.id_mm
    assert "bore with drill 6.4 mm" in flat(CASES["long"])


def test_cautions_and_the_maker_come_first() -> None:
    text = flat(CASES["one"])
    assert "maker's instructions come first" in text
    assert "Strength and vibration are not judged" in text


def test_a_plate_s_bushings_too() -> None:
    layout = plate()
    found = cut_sheet(layout, plate_cuts(layout), FINE, "letter")
    text = words(found.pages)
    for part in layout.bushings:
        assert f"{part.mark}: make {part.quantity}" in text
    for page in found.pages:
        assert outside(page, 8.0) == []
        assert overlapping(page) == []
