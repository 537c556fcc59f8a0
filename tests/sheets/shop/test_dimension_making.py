"""Dimensions one by one: worded as they measure, in lanes and rows that keep clear of each other."""

from __future__ import annotations

import math
import re

from hypothesis import given, settings
from hypothesis import strategies as st
from sheets.shop.collisions_on_page import collisions, dimension_lines, heads
from sheets.shop.dimensions_true import measured, misread

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Dimension, Item, Page, Pen, Text, box_path
from clampwright.sheets.lettering import corners
from clampwright.sheets.shop.dimensioning.angular import Angle, angular
from clampwright.sheets.shop.dimensioning.callouts import Target
from clampwright.sheets.shop.dimensioning.lanes import in_lanes
from clampwright.sheets.shop.dimensioning.led import Led, with_leaders
from clampwright.sheets.shop.dimensioning.linear import Length, linear, spots
from clampwright.sheets.shop.dimensioning.ordinates import Ordinate, in_a_row
from clampwright.sheets.shop.dimensioning.room import Room
from clampwright.sheets.shop.dimensioning.style import Style
from clampwright.sheets.shop.dimensioning.wording import length
from clampwright.trade.limits import Limits

PEN = Pen(0.25)
FRAME = (-900.0, -900.0, 1200.0, 1200.0)
STYLES = [Style(units, upright, PEN) for units in ("mm", "in") for upright in (False, True)]
sizes = st.floats(0.8, 400.0)


def page_of(dimensions: tuple[Dimension, ...], *items: Item) -> Page:
    """Dimensions on a page with a frame far around them."""
    return Page("test", 2100.0, 2100.0, (box_path(FRAME, Pen(0.7)), *items), dimensions=dimensions)


def room_with(*items: Item) -> Room:
    room = Room(FRAME)
    room.add_items(items)
    return room


@given(st.floats(0.3, 3000.0), st.sampled_from(("mm", "in")), st.integers(1, 40))
def test_a_text_reads_back_to_its_value_within_its_decimals(value: float, units: str, count: int) -> None:
    for kind, sign in (("horizontal", ""), ("diameter", "Ø"), ("radius", "R")):
        for limits in (None, Limits(0.0, 0.1, "", "practice"), Limits(0.1, 0.1, "", "practice")):
            words = length(value, units, sign=sign, count=count, limits=limits)
            made = Dimension(kind, ((0.0, 0.0), (value, 0.0)), value, words.text, 1.0, ())  # type: ignore[arg-type]
            assert misread(made, units) == []
            assert re.match(rf"{count}x ", words.text) or count == 1


@given(st.lists(sizes, min_size=1, max_size=8), st.sampled_from(STYLES), st.sampled_from(["below", "above"]))
@settings(max_examples=60, deadline=None)
def test_lengths_from_one_edge_in_lanes_touch_nothing(ends: list[float], style: Style, side: str) -> None:
    box = (0.0, 0.0, max(ends), 60.0)
    outline = box_path(box, PEN)
    ends = sorted({round(end, 3) for end in ends})
    lengths = [
        Length("horizontal", ((0.0, 20.0), (end, 30.0)), end, length(end, style.units), 1.0) for end in ends
    ]
    made = in_lanes(lengths, side, box, room_with(outline), style)
    assert [each.value for each in made] == ends
    assert all(abs(measured(each) - each.value) < 1e-9 for each in made)
    assert collisions(page_of(made, outline)) == []


@given(st.lists(sizes, min_size=1, max_size=8), st.sampled_from(STYLES), st.sampled_from(["left", "right"]))
@settings(max_examples=60, deadline=None)
def test_heights_from_one_edge_in_lanes_touch_nothing(ends: list[float], style: Style, side: str) -> None:
    box = (0.0, 0.0, 60.0, max(ends))
    outline = box_path(box, PEN)
    ends = sorted({round(end, 3) for end in ends})
    lengths = [
        Length("vertical", ((20.0, 0.0), (30.0, end)), 2 * end, length(2 * end, style.units), 0.5)
        for end in ends
    ]
    made = in_lanes(lengths, side, box, room_with(outline), style)
    assert all(abs(measured(each) - each.value) < 1e-9 for each in made)
    assert collisions(page_of(made, outline)) == []


@given(st.lists(st.floats(1.0, 200.0), min_size=1, max_size=14), st.sampled_from(STYLES))
@settings(max_examples=60, deadline=None)
def test_coordinates_in_a_row_touch_nothing_however_near_they_lie(places: list[float], style: Style) -> None:
    box = (0.0, 0.0, 200.0, 200.0)
    places = sorted({round(place, 3) for place in places})
    for kind, side in (("horizontal", "below"), ("vertical", "left")):
        rows = []
        for place in places:
            end: Vec2 = (place, 50.0) if side == "below" else (50.0, place)
            words = length(place, style.units)
            rows.append(Ordinate(Length(kind, ((0.0, 0.0), end), place, words, 1.0), -0.5))  # type: ignore[arg-type]
        made = in_a_row(rows, side, box, room_with(), style)
        texts = [text for each in made for text in each.strokes if isinstance(text, Text)]
        middles = [sum(p[side == "left"] for p in corners(text)) / 4 for text in texts]
        assert middles == sorted(middles), "figures stand in the order of the holes"
        assert [found.what for found in collisions(page_of(made))] == []


@given(st.floats(5.0, 300.0), st.floats(0.0, 360.0), st.sampled_from(STYLES))
def test_an_aligned_length_measures_along_itself(long: float, turn: float, style: Style) -> None:
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    wanted = Length(
        "aligned", ((10.0, 20.0), (10 + long * c, 20 + long * s)), long / 2, length(long / 2, "mm"), 2.0
    )
    depth = wanted.depths()[0] + 15.0
    for spot in spots(wanted, style):
        made = linear(wanted, depth, spot, style)
        assert abs(measured(made) - made.value) < 1e-9
        assert collisions(page_of((made,))) == []
        tips = [head.points[0] for head in heads(made.strokes)]
        assert abs(math.dist(*tips) - long) < 1e-6


@given(st.floats(0.0, 2 * math.pi), st.floats(0.2, 3.0), st.sampled_from(STYLES))
def test_an_angle_is_counter_clockwise_and_touches_nothing(start: float, sweep: float, style: Style) -> None:
    vertex = (50.0, 50.0)
    sides = [(50 + 25 * math.cos(a), 50 + 25 * math.sin(a)) for a in (start, start + sweep)]
    made = angular(Angle(vertex, sides[0], sides[1], 1.0), room_with(), style)
    assert abs(made.value - sweep) < 1e-9
    assert abs(measured(made) - made.value) < 1e-9
    assert misread(made, "mm") == []
    assert collisions(page_of((made,))) == []
    for head in heads(made.strokes):
        assert min(abs(math.dist(head.points[0], vertex) - r) for r in (11, 14, 18, 23, 29, 36, 44)) < 1e-6


@given(st.floats(2.0, 40.0), st.floats(0.5, 40.0), st.integers(1, 9))
@settings(max_examples=40, deadline=None)
def test_a_leader_ends_on_the_rim_and_points_at_the_centre(radius: float, apart: float, count: int) -> None:
    room = Room((-200.0, -200.0, 400.0, 200.0))
    targets = tuple(Target((n * (2 * radius + apart), 0.0), radius) for n in range(count))
    wanted = Led("diameter", targets, 2 * radius, length(2 * radius, "mm", sign="Ø", count=count), 1.0)
    (made,), _ = with_leaders([wanted], [], room, PEN)
    centre, rim = made.points
    assert abs(math.dist(centre, rim) - radius) < 1e-9
    (head,) = heads(made.strokes)
    tip, back = head.points[0], [(a + b) / 2 for a, b in zip(*head.points[1:], strict=True)]
    cross = (tip[0] - back[0]) * (centre[1] - tip[1]) - (tip[1] - back[1]) * (centre[0] - tip[0])
    assert abs(cross) < 1e-6
    assert len(list(dimension_lines(made))) == 1
    assert collisions(page_of((made,))) == []
