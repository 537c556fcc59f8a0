"""Pictures of nested sheets: nothing overlaps, everything is said, the picture is to its scale."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
import shapely
from nesting.cut_parts import angle, disc, fine, hull, part, rounded
from sheets.page_geometry import outside, overlap, overlapping, quad, texts, words

from clampwright.files.svg import svg
from clampwright.layout.shop.told import ToldHole
from clampwright.nesting.nest import nest
from clampwright.recipe.shop import usual_shop
from clampwright.sheets.drawing import Circle, Path, Text
from clampwright.sheets.shop.nest_drawing import sheet_drawn
from clampwright.sheets.shop.nest_picture import NestHead, marks_of, nest_sheet

HOLE = ToldHole("A1", (15.0, 15.0), 4.9, "AN3", "clamp", "#10", "#30", transferred=True)
FEW = (part("angle", angle(120, 90, 30, 4), 2, holes=(HOLE,)), part("disc", disc(22.5), 3))
MANY = (
    *FEW,
    part("band", hull(((0.0, 0.0), 12.0), ((90.0, 10.0), 15.0), ((40.0, 60.0), 10.0)), 12, grain="along"),
    part("long", rounded(420, 60, 5), 9),
    part("tiny", disc(3.0), 2),
    part("large", rounded(700, 700, 5)),
)
HEAD = NestHead("left-bay-nest", "All plates of the left bay", "0123456789abcdef", "mm")
JOBS = {
    "few": (nest(FEW), usual_shop("mm"), HEAD),
    "many": (nest(MANY), usual_shop("mm"), HEAD),
    "stopped": (nest(FEW), usual_shop("mm"), replace(HEAD, stop="EDGE-1 at A1, A2")),
    "inch": (nest(MANY), usual_shop("in"), replace(HEAD, units="in")),
}


@pytest.fixture(scope="module", params=JOBS)
def drawn(request):
    found, shop, head = JOBS[request.param]
    return found, nest_sheet(found, shop, head)


def test_no_two_texts_overlap_and_all_stand_on_the_paper(drawn):
    _, sheet = drawn
    for page in sheet.pages:
        assert overlapping(page) == []
        assert [item for item in outside(page, 0.0) if isinstance(item, Text)] == []


def part_paths(page):
    return [i for i in page.items if isinstance(i, Path) and i.closed and i.fill == "#e4e4e4"]


def test_marks_touch_no_line(drawn):
    """Every text keeps clear of every part's contour and of every hole: it lies within or beside."""
    _, sheet = drawn
    for page in sheet.pages:
        shapes = [shapely.LinearRing(path.points) for path in part_paths(page)]
        holes = [shapely.Point(c.centre).buffer(c.radius) for c in page.items if isinstance(c, Circle)]
        for text in texts(page):
            box = shapely.Polygon(quad(text))
            assert not any(box.intersects(shape) for shape in (*shapes, *holes)), text.text


def test_words_lie_beside_the_picture(drawn):
    """No line of words crosses the box of the stock sheet, but for marks and the cut-off's own words."""
    _, sheet = drawn
    for page in sheet.pages:
        points = [p for path in part_paths(page) for p in path.points]
        if not points:
            continue
        xs, ys = zip(*points, strict=True)
        box = ((min(xs), min(ys)), (max(xs), min(ys)), (max(xs), max(ys)), (min(xs), max(ys)))
        inside = {t.text for t in texts(page) if overlap(quad(t), box)}
        assert all(word.isdigit() for word in inside), inside


def test_a_page_a_stock_sheet_with_its_utilisation_beside_that_of_boxes(drawn):
    found, sheet = drawn
    said = words(sheet.pages)
    for each in found.sheets:
        assert f"Sheet {each.number} of {len(found.sheets)}" in said
        assert f"{100 * each.utilisation:.1f} % of the length used" in said
    for filled in found.by_stock():
        assert f"{100 * filled.boxes:.1f} %" in said
    assert len(sheet.pages) == len(found.sheets)
    assert "rolling direction" in said


def test_every_part_is_in_the_table_and_every_piece_in_the_picture(drawn):
    found, sheet = drawn
    for page, each in zip(sheet.pages, found.sheets, strict=True):
        said = words((page,))
        assert all(laid.part.number in said for laid in each.laid)
        assert len(part_paths(page)) == len(each.laid)


@pytest.mark.parametrize("name", JOBS)
def test_the_picture_is_to_its_scale(name):
    """Held against shapely's own view of the nest, times the scale."""
    found, _, head = JOBS[name]
    for sheet in found.sheets:
        picture = sheet_drawn(sheet, marks_of(found), (170.0, 190.0), head.units)
        paths = [i for i in picture.items if isinstance(i, Path) and i.fill == "#e4e4e4"]
        measured = [shapely.Polygon(p.points) for p in paths]
        true = [fine(laid) for laid in sheet.laid]
        for (a, b), (c, d) in zip(combinations(measured, 2), combinations(true, 2), strict=True):
            assert a.centroid.distance(b.centroid) == pytest.approx(
                c.centroid.distance(d.centroid) / picture.per, abs=0.01
            )
        for shape, its in zip(measured, true, strict=True):
            assert shape.area == pytest.approx(its.area / picture.per**2, rel=0.005, abs=0.03)


def test_a_piece_too_small_for_its_mark_is_named():
    assert "Too small to be marked here: tiny." in words(nest_sheet(*JOBS["many"]).pages)


def test_what_was_left_out_is_said_in_red():
    found, shop, head = JOBS["many"]
    said = [t for t in texts(nest_sheet(found, shop, head).pages[0]) if "Left out: large" in t.text]
    assert said[0].bold
    assert said[0].colour != "#000000"


def test_a_failing_check_is_said_on_every_page():
    found, shop, head = JOBS["stopped"]
    assert all("DO NOT MAKE" in words((page,)) for page in nest_sheet(found, shop, head).pages)


def test_nothing_laid_still_says_why():
    found = nest([part("large", rounded(700, 700, 5))])
    (page,) = nest_sheet(found, usual_shop("mm"), HEAD).pages
    assert "Left out: large" in words((page,))


def test_the_page_is_also_a_picture_for_the_screen():
    found, shop, head = JOBS["few"]
    text = svg(nest_sheet(found, shop, head).pages[0])
    assert text.count('fill="#e4e4e4"') == 5
    assert text == svg(nest_sheet(nest(FEW[::-1]), shop, head).pages[0])
