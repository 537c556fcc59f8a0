"""The test tool for collisions sees what it is there to see: sound pages, spoilt one way at a time."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import cache

import pytest
from sheets.shop.collisions_on_page import collisions, heads
from sheets.shop.dimensions_true import untrue
from sheets.shop.holes_said import holes_said_once
from sheets.shop.told_parts import hand_made

from clampwright.layout.outlines import rounded_rectangle
from clampwright.sheets.drawing import Circle, Dimension, Item, Page, Path, Pen, Text, moved
from clampwright.sheets.lettering import corners
from clampwright.sheets.shop.drawn_view import shifted_dimension
from clampwright.sheets.shop.flat_drawing import flat_drawing
from clampwright.sheets.shop.sizes import drawing_sheet
from clampwright.sheets.shop.view_items import view_items
from clampwright.solids.place import Place
from clampwright.solids.view_lines import ViewLines

HOLES = [((float(x), float(y)), 5.0) for x in (12, 60, 108) for y in (12, 68)]


@cache
def sound() -> Page:
    """A page on which nothing touches, with dimensions in lanes, with leaders, labels and tables."""
    (page,) = flat_drawing(hand_made(rounded_rectangle((0.0, 0.0, 120.0, 80.0), 6.0), HOLES), (), ()).pages
    assert collisions(page) == []
    assert untrue(page, "mm") == []
    return page


def kinds(page: Page) -> set[str]:
    """What is found on a page."""
    return {each.what for each in collisions(page)}


def with_items(*items: Item) -> Page:
    """The sound page with more drawn on it."""
    return replace(sound(), items=(*sound().items, *items))


def middle(text: Text) -> tuple[float, float]:
    """The middle of a text's box."""
    xs, ys = zip(*corners(text), strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def test_a_label_written_twice_is_text_on_text() -> None:
    label = next(item for item in sound().items if isinstance(item, Text) and item.text == "H1")
    assert "text on text" in kinds(with_items(*moved([label], (0.5, 0.5))))


@pytest.mark.parametrize("shape", ["line", "circle", "head"])
def test_a_line_circle_or_head_through_a_label_is_seen(shape: str) -> None:
    label = next(item for item in sound().items if isinstance(item, Text) and item.text == "H1")
    x, y = middle(label)
    spoilt: dict[str, Item] = {
        "line": Path(((x - 5.0, y), (x + 5.0, y)), Pen(0.25)),
        "circle": Circle((x - 2.0, y), 2.0, Pen(0.25)),
        "head": Path(((x, y), (x + 1.0, y - 3.0), (x - 1.0, y - 3.0)), None, True, "#000000"),
    }
    assert kinds(with_items(spoilt[shape])) == {"text on line"}


def test_every_dimension_moved_onto_another_is_seen() -> None:
    """Each dimension, moved so that its text lies on the next one's, touches."""
    dimensions = sound().dimensions
    for one, two in zip(dimensions, (*dimensions[1:], dimensions[0]), strict=True):
        (ax, ay), (bx, by) = (middle(text_of(each)) for each in (one, two))
        others = tuple(each for each in dimensions if each is not one)
        page = replace(sound(), dimensions=(*others, shifted_dimension(one, (bx - ax, by - ay))))
        assert "text on text" in kinds(page)


def test_a_dimension_line_across_another_is_seen() -> None:
    across = next(each for each in sound().dimensions if each.kind == "horizontal")
    tip = heads(across.strokes)[0].points[0]
    pen = Pen(0.25)
    x, y = (a + b for a, b in zip(tip, (4.0, 0.0), strict=True))
    line, head = (
        Path(((x, y - 2.0), (x, y + 2.0)), pen),
        ((x, y + 2.0), (x - 0.4, y + 1.0), (x + 0.4, y + 1.0)),
    )
    strokes = (line, Path(head, None, True, "#000000"))
    page = replace(sound(), dimensions=(*sound().dimensions, replace(across, strokes=strokes)))
    assert "dimension line on dimension line" in kinds(page)


def test_heads_on_one_another_are_seen() -> None:
    first = sound().dimensions[0]
    page = replace(sound(), dimensions=(*sound().dimensions, shifted_dimension(first, (0.0, 0.3))))
    assert "arrow head on arrow head" in kinds(page)


def test_whatever_leaves_the_frame_is_seen() -> None:
    far = Path(((30.0, 100.0), (5.0, 100.0)), Pen(0.25))
    assert kinds(with_items(far)) == {"out of the frame"}
    last = sound().dimensions[-1]
    page = replace(sound(), dimensions=(*sound().dimensions[:-1], shifted_dimension(last, (300.0, 0.0))))
    assert "dimension out of the frame" in kinds(page)


def test_a_text_on_hatching_is_seen() -> None:
    ring = ((0.0, 0.0), (30.0, 0.0), (30.0, 12.0), (0.0, 12.0), (0.0, 0.0))
    view = ViewLines("section A-A", Place(), (ring,), (), ((ring,),))
    hatched = view_items(view, 1.0, (40.0, 100.0), drawing_sheet("A4"))
    free = replace(sound(), items=hatched_only(hatched), dimensions=())
    assert kinds(free) == set()
    label = Text((45.0, 104.0), "12", 3.5)
    assert kinds(replace(free, items=(*free.items, label))) == {"text on line"}


def hatched_only(items: Iterable[Item]) -> tuple[Item, ...]:
    """The border and block of the sound page with a section on it."""
    words = {item for item in sound().items if isinstance(item, Path) and item.closed and item.pen}
    frame = max(words, key=lambda item: item.pen.width_mm)  # type: ignore[union-attr]
    return (frame, *items)


def text_of(dimension: Dimension) -> Text:
    """The first text of a dimension."""
    return next(stroke for stroke in dimension.strokes if isinstance(stroke, Text))


def test_a_dimension_that_says_or_points_wrong_is_seen() -> None:
    first, *rest = sound().dimensions
    for spoilt in (
        replace(first, value=first.value + 1e-4),
        replace(first, text="13.37"),
        replace(first, points=((0.0, 0.0), first.points[1])),
    ):
        assert untrue(replace(sound(), dimensions=(spoilt, *rest)), "mm") != []


def test_a_hole_that_is_not_placed_or_placed_twice_is_seen() -> None:
    part = hand_made(rounded_rectangle((0.0, 0.0, 120.0, 80.0), 6.0), HOLES)
    sheet = flat_drawing(part, (), ())
    assert holes_said_once(part, sheet) == []
    page = sheet.pages[0]
    less = replace(page, dimensions=page.dimensions[1:])
    twice = replace(page, dimensions=(*page.dimensions, page.dimensions[0]))
    for spoilt in (less, twice):
        assert holes_said_once(part, replace(sheet, pages=(spoilt,))) != []
