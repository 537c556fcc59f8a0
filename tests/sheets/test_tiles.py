"""Tiles cover the drawing, share their strips, keep their seams off the holes; marks agree."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sheets.page_geometry import texts
from sheets.sheet_plates import FINE, plate

from clampwright.sheets.drawing import Circle, Path, Text
from clampwright.sheets.template import template
from clampwright.sheets.tiles import Tiling, axis

LARGE = plate(500.0, 350.0, lightening=[((250.0, 280.0), 60.0)])


@given(st.floats(10.0, 2000.0), st.floats(60.0, 250.0), st.floats(4.0, 20.0))
def test_windows_cover_the_length_with_the_fewest_pages(length: float, window: float, overlap: float) -> None:
    """n windows cover n (W - s) + s; one less would not do."""
    cover = axis(0.0, length, window, overlap, ())
    count = len(cover.starts)
    assert cover.starts[0] <= 1e-9
    assert cover.starts[-1] + window >= length - 1e-9
    assert all(b - a == pytest.approx(window - overlap) for a, b in pairwise(cover.starts))
    assert count == 1 or (count - 1) * (window - overlap) + overlap < length


def test_seams_keep_off_the_holes_where_they_can() -> None:
    """Two windows of 180 over 300 mm leave 48 mm to shift: a hole in the first seam's way is avoided."""
    plain = axis(0.0, 300.0, 180.0, 12.0, ()).seams()[0]
    moved = axis(0.0, 300.0, 180.0, 12.0, [(plain, 3.0)]).seams()[0]
    assert abs(moved - plain) >= 3.0 + 6.0


def test_tiles_count_from_the_upper_left_as_one_reads() -> None:
    tiles = Tiling(axis(0.0, 500.0, 180.0, 12.0, ()), axis(0.0, 350.0, 220.0, 12.0, ())).tiles()
    assert tiles[0].box[3] == max(tile.box[3] for tile in tiles)
    assert tiles[0].box[0] == min(tile.box[0] for tile in tiles)
    assert min(tile.box[1] for tile in tiles) < tiles[0].box[1]
    assert [tile.number for tile in tiles] == list(range(6))
    assert list(tiles) == sorted(tiles, key=lambda tile: (-tile.box[1], tile.box[0]))


def test_marks_lie_in_the_shared_strip_of_exactly_the_tiles_that_join() -> None:
    tiling = Tiling(axis(0.0, 500.0, 180.0, 12.0, ()), axis(0.0, 350.0, 220.0, 12.0, ()))
    tiles = tiling.tiles()
    assert len(tiles) == 6
    for mark in tiling.marks(()):
        x, y = mark.at
        showing = [t for t in tiles if t.box[0] <= x <= t.box[2] and t.box[1] <= y <= t.box[3]]
        assert len(showing) == 2
        a, b = showing
        assert abs(a.column - b.column) + abs(a.row - b.row) == 1


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_mark_has_the_same_place_among_the_holes_on_both_its_pages(paper: str) -> None:
    """On each page, mark minus a hole must be the same vector for every page that shows both."""
    pages = [page for page in template(LARGE, FINE, paper).pages if "tile" in page.title]
    assert len(pages) >= 4
    spots: dict[str, list[tuple[float, float]]] = {}
    for page in pages:
        names = {t.text: t.at for t in texts(page) if t.text[:1] == "R" and t.text[1:].isdigit()}
        rings = [i.centre for i in page.items if isinstance(i, Circle) and i.radius == pytest.approx(2.0)]
        centres = {name: min(rings, key=lambda ring: math.dist(ring, at)) for name, at in names.items()}
        for first in centres:
            for second in centres:
                if first < second:
                    a, b = centres[first], centres[second]
                    spots.setdefault(f"{first} {second}", []).append((b[0] - a[0], b[1] - a[1]))
    shared = [vectors for vectors in spots.values() if len(vectors) > 1]
    assert shared
    for vectors in shared:
        assert all(v == pytest.approx(vectors[0], abs=1e-9) for v in vectors)


def test_each_hole_is_whole_on_some_page_and_labelled() -> None:
    pages = [page for page in template(LARGE, FINE, "letter").pages if "tile" in page.title]
    words = [t.text for page in pages for t in texts(page)]
    whole = [i.radius for page in pages for i in page.items if isinstance(i, Circle)]
    for hole in LARGE.holes:
        assert hole.label in words
        assert any(radius == pytest.approx(hole.diameter_mm / 2) for radius in whole)


def test_pages_say_which_page_joins_and_the_map_shows_them() -> None:
    sheet = template(LARGE, FINE, "letter")
    numbers = [n for n, page in enumerate(sheet.pages, 1) if "tile" in page.title]
    for number in numbers:
        page = sheet.pages[number - 1]
        joins = [t.text for t in texts(page) if t.text.endswith("joins here")]
        assert 2 <= len(joins) <= 4
        assert all(int(text.split()[1]) in numbers and int(text.split()[1]) != number for text in joins)
        mapped = {t.text for t in texts(page) if t.text.isdigit()}
        assert {str(n) for n in numbers} <= mapped
        assert any(t.text == f"Letter, page {number} of {len(sheet.pages)}" for t in texts(page))


def test_trim_lines_are_dashed_and_in_the_middle_of_the_shared_strip() -> None:
    page = next(p for p in template(LARGE, FINE, "a4").pages if "tile" in p.title)
    dashed = [i for i in page.items if isinstance(i, Path) and i.pen and i.pen.dash_mm == (1.5, 1.5)]
    frame = next(i for i in dashed if i.closed)
    right = max(x for x, _ in frame.points)
    assert any(
        all(x == pytest.approx(right - 6.0) for x, _ in line.points) for line in dashed if not line.closed
    )
    assert not any(isinstance(i, Text) and i.text == "not to scale" for i in page.items)
