"""The printed template measured from its pixels at 600 dpi: hole centres within 0.05 mm of the layout."""

from __future__ import annotations

import math

import numpy as np
import pytest
from files.raster import Raster, rasters
from sheets.page_geometry import texts
from sheets.sheet_plates import FAILING, FINE, plate

from clampwright.files.pdf import pdf
from clampwright.layout.placed import Hole, PlateLayout
from clampwright.quantities import Vec2
from clampwright.sheets.bars import STRIP
from clampwright.sheets.drawing import Circle, Page, Sheet
from clampwright.sheets.paper import paper
from clampwright.sheets.template import template

NEAR = 0.05
"""Largest distance of a hole centre from the layout, mm."""

UPRIGHT = plate(lightening=[((75.0, 85.0), 12.7)])
TURNED = plate(215.0, 120.0)
TILED = plate(430.0, 250.0, lightening=[((215.0, 200.0), 40.0)])


def bars_pages(sheet: Sheet) -> list[int]:
    """Numbers of the pages that are at 1:1."""
    return [
        n for n, page in enumerate(sheet.pages) if any("100 mm bar, across" in t.text for t in texts(page))
    ]


def expected(page: Page, layout: PlateLayout) -> list[tuple[Hole, Vec2]]:
    """Roughly where the file draws each hole of a page: where to start looking."""
    found = []
    circles = [i for i in page.items if isinstance(i, Circle) and i.fill is None]
    names = {t.text: t for t in texts(page)}
    for hole in layout.holes:
        same = [c for c in circles if c.radius == pytest.approx(hole.diameter_mm / 2)]
        if hole.label in names and same:
            found.append((hole, same))
    return [(hole, on_file(page, _own(hole, same, page, layout))) for hole, same in found]


def _own(hole: Hole, same: list[Circle], page: Page, layout: PlateLayout) -> Vec2:
    """The circle of a hole: the circles stand in the layout's order."""
    order = [h for h in layout.holes if h.diameter_mm == hole.diameter_mm]
    if len(order) == len(same):
        return same[order.index(hole)].centre
    label = next(t for t in texts(page) if t.text == hole.label)
    return min(same, key=lambda c: math.dist(c.centre, label.at)).centre


def on_file(page: Page, at: Vec2) -> Vec2:
    """A place of the page as the file draws it, with the correction."""
    half = page.width_mm / 2, page.height_mm / 2
    return (
        half[0] + page.stretch[0] * (at[0] - half[0]),
        half[1] + page.stretch[1] * (at[1] - half[1]),
    )


def measured(page: Page, raster: Raster, layout: PlateLayout, printer: Vec2) -> list[tuple[Hole, Vec2]]:
    """Hole centres on the paper that a printer gives which scales by `printer`."""
    found = []
    for hole, near in expected(page, layout):
        (x, y), r = raster.circle(near, hole.diameter_mm / 2)
        assert r == pytest.approx(hole.diameter_mm / 2, rel=0.012, abs=0.02)
        found.append((hole, (x * printer[0], y * printer[1])))
    return found


def residuals(found: list[tuple[Hole, Vec2]], turned: bool) -> list[float]:
    """Distances between measured and laid out centres once the part is slid into place."""
    got = np.asarray([at for _, at in found])
    wanted = np.asarray([(-h.at[1], h.at[0]) if turned else h.at for h, _ in found])
    off = got - wanted
    return [float(v) for v in np.hypot(*(off - off.mean(axis=0)).T)]


@pytest.mark.parametrize("name", ["letter", "a4"])
@pytest.mark.parametrize(
    "prints", [(), ((99.2, 99.4),), ((101.3, 98.7),)], ids=["true", "shrinks", "both ways"]
)
def test_hole_centres_on_one_page(name: str, prints: tuple[Vec2, ...]) -> None:
    """The printer of the measured bars gives the layout back, on both papers."""
    layout = plate(lightening=[((75.0, 85.0), 12.7)], prints=prints)
    printer = (prints[-1][0] / 100, prints[-1][1] / 100) if prints else (1.0, 1.0)
    sheet = template(layout, FAILING, name)
    raster = rasters(pdf(sheet))[0]
    found = measured(sheet.pages[0], raster, layout, printer)
    assert len(found) == len(layout.holes)
    assert max(residuals(found, turned=False)) <= NEAR


@pytest.mark.parametrize("name", ["letter", "a4"])
def test_holes_stand_true_to_the_datum_edges(name: str) -> None:
    """Both edges of the outline measured, then X and Y of every hole from them."""
    sheet = template(UPRIGHT, FINE, name)
    raster = rasters(pdf(sheet))[0]
    found = measured(sheet.pages[0], raster, UPRIGHT, (1.0, 1.0))
    by_label = {hole.label: at for hole, at in found}
    ax, ay = by_label["A1"]
    left = np.mean(raster.edge((ax - 16.5, ay + 40.0), (1.0, 0.0), 3.0)) + ax - 16.5
    low = np.mean(raster.edge((ax + 60.0, ay - 16.5), (0.0, 1.0), 3.0)) + ay - 16.5
    for hole, (x, y) in found:
        assert math.hypot(x - left - hole.at[0], y - low - hole.at[1]) <= NEAR


@pytest.mark.parametrize("name", ["letter", "a4"])
def test_a_part_turned_on_the_page_is_not_mirrored(name: str) -> None:
    sheet = template(TURNED, FINE, name)
    raster = rasters(pdf(sheet))[0]
    found = measured(sheet.pages[0], raster, TURNED, (1.0, 1.0))
    assert len(found) == len(TURNED.holes)
    assert max(residuals(found, turned=True)) <= NEAR
    assert max(residuals(found, turned=False)) > 10.0


@pytest.mark.parametrize(("name", "prints"), [("letter", ()), ("a4", ((99.2, 99.4),))])
def test_tiles_laid_on_their_marks_bring_every_hole_to_its_place(name: str, prints: tuple[Vec2, ...]) -> None:
    """Marks measured on each page; pages slid until marks of one name meet; then all holes together."""
    layout = plate(430.0, 250.0, lightening=[((215.0, 200.0), 40.0)], prints=prints)
    printer = (prints[-1][0] / 100, prints[-1][1] / 100) if prints else (1.0, 1.0)
    sheet = template(layout, FINE, name)
    images = rasters(pdf(sheet))
    seen = {}
    for number in bars_pages(sheet):
        page = sheet.pages[number]
        holes = measured(page, images[number], layout, printer)
        seen[number] = holes, _marks(page, images[number], printer)
    assert len(seen) >= 4
    placed = _joined({number: marks for number, (_, marks) in seen.items()})
    together: dict[str, tuple[Hole, Vec2]] = {}
    for number, (holes, _) in seen.items():
        for hole, (x, y) in holes:
            together[hole.label] = hole, (x + placed[number][0], y + placed[number][1])
    assert len(together) == len(layout.holes)
    found = list(together.values())
    assert min(max(residuals(found, turned=turned)) for turned in (False, True)) <= 2 * NEAR


def _marks(page: Page, raster: Raster, printer: Vec2) -> dict[str, Vec2]:
    rings = [i.centre for i in page.items if isinstance(i, Circle) and i.radius == pytest.approx(2.0)]
    found = {}
    for text in texts(page):
        if text.text[:1] == "R" and text.text[1:].isdigit():
            near = min(rings, key=lambda ring: math.dist(ring, text.at))
            (x, y), _ = raster.circle(on_file(page, near), 2.0)
            found[text.text] = (x * printer[0], y * printer[1])
    return found


def _joined(marks: dict[int, dict[str, Vec2]]) -> dict[int, Vec2]:
    """How far to slide each page so that the marks meet, one page after the other."""
    placed = {min(marks): (0.0, 0.0)}
    for _ in marks:
        for number in marks.keys() - placed.keys():
            for other in list(placed):
                shared = marks[number].keys() & marks[other].keys()
                if shared and number not in placed:
                    off = [
                        np.subtract(marks[other][k], marks[number][k]) + placed[other] for k in sorted(shared)
                    ]
                    assert max(np.hypot(*(o - off[0])) for o in off) <= NEAR
                    x, y = np.mean(off, axis=0)
                    placed[number] = (float(x), float(y))
    assert placed.keys() == marks.keys()
    return placed


@pytest.mark.parametrize("name", ["letter", "a4"])
@pytest.mark.parametrize("prints", [(), ((99.2, 99.4),)], ids=["true", "shrinks"])
def test_bars_measure_100_mm_and_4_in_both_ways(name: str, prints: tuple[Vec2, ...]) -> None:
    layout = plate(prints=prints)
    printer = (prints[-1][0] / 100, prints[-1][1] / 100) if prints else (1.0, 1.0)
    sheet = template(layout, FINE, name)
    page, raster = sheet.pages[0], rasters(pdf(sheet))[0]
    x, y, _, _ = paper(name, page.stretch).frame
    for offset, length in ((6.0, 100.0), (3.8, 101.6)):
        start = on_file(page, (x + STRIP - 3.0, y + offset))
        low, high = raster.edge(start, (1.0, 0.0), 108.0)
        assert (high - low) * printer[0] == pytest.approx(length, abs=NEAR)
        start = on_file(page, (x + STRIP - offset, y + STRIP - 3.0))
        low, high = raster.edge(start, (0.0, 1.0), 108.0)
        assert (high - low) * printer[1] == pytest.approx(length, abs=NEAR)
