"""Where dimensions, views and labels are put, and how much is tried for it."""

from __future__ import annotations

import math
from dataclasses import replace

import cadquery as cq
import pytest
from sheets.shop.collisions_on_page import (
    extension_lines,
    extension_lines_twice,
    heads,
    leaders_on_extension_lines,
)
from sheets.shop.told_parts import hand_made, spread_holes

from clampwright.layout.outlines import rounded_rectangle
from clampwright.layout.shop.told import FlatPart
from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Box, Dimension, Page, Path, Pen, Text, box_path
from clampwright.sheets.shop.dimensioning import callouts
from clampwright.sheets.shop.dimensioning.callouts import Callout, Placed, Target, placed
from clampwright.sheets.shop.dimensioning.lanes import NoRoom, beside, in_lanes
from clampwright.sheets.shop.dimensioning.linear import Length
from clampwright.sheets.shop.dimensioning.room import Room
from clampwright.sheets.shop.dimensioning.style import LANE, Style, style_of
from clampwright.sheets.shop.dimensioning.wording import length
from clampwright.sheets.shop.flat_drawing import flat_drawing
from clampwright.sheets.shop.flat_views import drawn_views, reach_of, views_wanted
from clampwright.sheets.shop.hole_places import may_stand_in_view
from clampwright.sheets.shop.sizes import sheets_of
from clampwright.solids.no_part import NoPart
from clampwright.solids.shop_views import views_of
from clampwright.trade.limits import Limits

PEN = Pen(0.25)
STYLE = Style("mm", False, PEN)
FRAME: Box = (-900.0, -900.0, 1200.0, 1200.0)


def plate(width: float, height: float, count: int, projection: str = "third") -> FlatPart:
    """A plate with so many holes of 3.5 mm."""
    outline = rounded_rectangle((0.0, 0.0, width, height), 6.0)
    return hand_made(outline, spread_holes(width, height, count, 3.5), projection=projection)


def across(start: float, end: float, y: float = 0.0) -> Length:
    """A horizontal length at 1:1."""
    return Length("horizontal", ((start, y), (end, y)), end - start, length(end - start, "mm"), 1.0)


def level(each: Dimension) -> float:
    """Height of a horizontal dimension line: of its arrow heads' tips."""
    first, second = (head.points[0][1] for head in heads(each.strokes))
    assert math.isclose(first, second, abs_tol=1e-9)
    return first


@pytest.mark.parametrize(
    ("width", "height", "count", "most"), [(320.0, 90.0, 220, 1100), (60.0, 40.0, 60, 600)]
)
def test_the_work_for_many_holes_is_bounded(
    monkeypatch: pytest.MonkeyPatch, width: float, height: float, count: int, most: int
) -> None:
    """Places looked for: no more than some two plans of everything, each tried in two sizes of letters."""
    calls, looked = 0, callouts._at

    def counted(*told: object) -> object:
        nonlocal calls
        calls += 1
        return looked(*told)  # type: ignore[arg-type]

    monkeypatch.setattr(callouts, "_at", counted)
    flat_drawing(plate(width, height, count), (), ())
    assert count <= calls <= most


def test_a_part_that_fits_on_no_sheet_is_no_part_and_says_so() -> None:
    with pytest.raises(NoPart, match="test-plate: its drawing fits on none of the sheets"):
        flat_drawing(plate(90000.0, 60000.0, 2), (), ())


@pytest.mark.parametrize(
    ("width", "height", "scale"),
    [(30.0, 20.0, 2.0), (120.0, 80.0, 1.0), (700.0, 100.0, 0.5), (1500.0, 300.0, 0.1)],
)
def test_the_largest_scale_that_fits_is_taken(width: float, height: float, scale: float) -> None:
    """By hand: A4 has 180 mm inside its frame, A3 390; long parts are at least 150 mm on it, 30 mm grow."""
    (page, *_) = flat_drawing(plate(width, height, 2), (), ()).pages
    assert {each.scale for each in page.dimensions} == {scale}
    assert page.width_mm <= 420.0


@pytest.mark.parametrize(("projection", "sign"), [("third", 1.0), ("first", -1.0)])
def test_the_top_view_stands_over_the_front_view_in_third_angle_and_below_it_in_first(
    projection: str, sign: float
) -> None:
    """ISO 5456-2: seen from above, third angle puts it above, first angle below."""
    part = plate(120.0, 30.0, 2, projection)
    sheet = sheets_of(part.shop)[0]
    front, top = drawn_views(part, (), sheet, style_of("mm", part.shop, sheet), 1.0, "table")
    assert top.view.name == "top"
    (_, a, _, b), (_, c, _, d) = reach_of([front]), reach_of([top])
    assert (c > b) if sign > 0 else (d < a)


def test_a_hole_held_to_its_place_is_told_in_the_table() -> None:
    part = plate(120.0, 80.0, 2)
    assert may_stand_in_view(part, 1.0)
    held = replace(part.holes[0], place=Limits(0.1, 0.1, "so that it fits", "practice"))
    assert not may_stand_in_view(replace(part, holes=(held, *part.holes[1:])), 1.0)


def test_no_extension_line_runs_through_a_text_that_stands_there() -> None:
    """On the line of every lane there is no room; beyond the end of the first lane's it is free."""
    box = (0.0, 0.0, 60.0, 40.0)
    for depth, taken in ((-6.0, True), (-16.0, False)):
        room = Room(FRAME)
        room.add_items((box_path(box, PEN), Text((60.0, depth), "MARK", 3.5, "middle")))
        if taken:
            with pytest.raises(NoRoom):
                in_lanes([across(0.0, 60.0)], "below", box, room, STYLE)
        else:
            assert level(in_lanes([across(0.0, 60.0)], "below", box, room, STYLE)[0]) == -10.0


def test_lines_that_overlap_stand_a_lane_apart_and_lines_end_to_end_share_one() -> None:
    box = (0.0, 0.0, 200.0, 40.0)
    for pairs in ([(0.0, 100.0), (0.0, 60.0)], [(0.0, 100.0), (50.0, 180.0)]):
        made = in_lanes([across(*pair) for pair in pairs], "below", box, Room(FRAME), STYLE)
        assert abs(level(made[0]) - level(made[1])) >= LANE - 1e-9
    made = in_lanes([across(0.0, 80.0), across(100.0, 200.0)], "below", box, Room(FRAME), STYLE)
    assert level(made[0]) == level(made[1])


def test_oblique_lines_that_overlap_stand_a_lane_apart() -> None:
    """Two lengths along one 3-4-5 line: the distance of their lines is measured square to it."""
    room, levels = Room(FRAME), []
    for reach in (10.0, 16.0):
        leg = Length("aligned", ((0.0, 0.0), (4 * reach, 3 * reach)), 5 * reach, length(5 * reach, "mm"), 1.0)
        x, y = heads(beside(leg, 1.0, room, STYLE).strokes)[0].points[0]
        levels.append(0.8 * y - 0.6 * x)
    assert levels[0] == pytest.approx(10.0)
    assert levels[1] - levels[0] >= LANE - 1e-9


def test_a_shared_extension_line_is_drawn_once_as_far_as_the_longest() -> None:
    """Three lengths from one edge: one line at the edge, to the third lane, and one at each other end."""
    box = (0.0, 0.0, 100.0, 40.0)
    lengths = [across(0.0, end) for end in (30.0, 60.0, 100.0)]
    made = in_lanes(lengths, "below", box, Room(FRAME), STYLE)
    lines = [line for each in made for line in extension_lines(each)]
    assert len(lines) == 4
    at_edge = [line for line in lines if line.bounds[0] == line.bounds[2] == 0.0]
    assert [line.bounds[1] for line in at_edge] == [min(level(each) for each in made) - 1.5]


def test_the_tools_see_a_line_drawn_twice_and_a_leader_across_one() -> None:
    one = in_lanes([across(0.0, 60.0)], "below", (0.0, 0.0, 60.0, 40.0), Room(FRAME), STYLE)[0]
    tip = (66.0, -5.0)
    head = Path((tip, (64.0, -4.6), (64.0, -5.4)), None, True, "#000000")
    leader = Dimension("radius", (tip, tip), 3.0, "R3", 1.0, (Path((tip, (50.0, -5.0)), PEN), head))
    page = Page("test", 2100.0, 2100.0, (box_path(FRAME, Pen(0.7)),), dimensions=(one, one, leader))
    assert len(extension_lines_twice(page)) == 2
    assert [each.first for each in leaders_on_extension_lines(page)] == ["R3", "R3"]


CORNERS = [(114.0, 6.0, 270.0), (6.0, 6.0, 180.0), (6.0, 74.0, 90.0), (114.0, 74.0, 0.0)]


def with_overall_sizes() -> Room:
    """A plate of 120 x 80, its width below it and its height left of it, from the ends of its radii of 6."""
    room, box = Room((-60.0, -60.0, 180.0, 140.0)), (0.0, 0.0, 120.0, 80.0)
    room.add_items((box_path(box, PEN),))
    in_lanes([across(0.0, 120.0, 6.0)], "below", box, room, STYLE)
    high = Length("vertical", ((6.0, 0.0), (6.0, 80.0)), 80.0, length(80.0, "mm"), 1.0)
    in_lanes([high], "left", box, room, STYLE)
    return room


def led_to(room: Room, corners: list[tuple[float, float, float]]) -> tuple[Placed, Vec2]:
    """Where a radius of some corners is placed, and the first bend of its leader."""
    targets = tuple(Target((x, y), 6.0, turn, turn + 90.0) for x, y, turn in corners)
    (found,) = placed([Callout(("4x R6",), targets, arrow=True)], room, PEN)
    assert found is not None
    leader = found.strokes.lines[0]
    assert isinstance(leader, Path)
    return found, leader.points[1]


def test_a_radius_is_led_from_the_corner_that_no_extension_line_takes() -> None:
    """All four corners are alike; lines run down from both lower ones and left from the left ones."""
    found, (x, y) = led_to(with_overall_sizes(), CORNERS)
    assert found.target.centre == (114.0, 74.0)
    assert x > 120.0 or y > 80.0


def test_where_lines_take_every_way_outside_a_radius_is_led_from_inside() -> None:
    """The lower left corner alone: the width's line stands on its left, the height's below it."""
    _, (x, y) = led_to(with_overall_sizes(), CORNERS[1:2])
    assert 0.0 < x < 120.0
    assert 0.0 < y < 80.0


def test_a_short_table_is_not_broken_over_two_columns() -> None:
    """Its head would stand twice; only on an upright sheet, whose columns all stand side by side, it may."""
    wide = 0
    for count in range(4, 13):
        for width, height in ((120.0, 80.0), (160.0, 130.0), (90.0, 200.0)):
            held = Limits(0.1, 0.1, "so that it fits", "practice")
            part = plate(width, height, count)
            part = replace(part, holes=tuple(replace(hole, place=held) for hole in part.holes))
            for page in flat_drawing(part, (), ()).pages:
                if page.width_mm > page.height_mm:
                    wide += 1
                    said = [item.text for item in page.items if isinstance(item, Text)]
                    assert said.count("X mm") == 1, (count, width)
    assert wide >= 9


@pytest.mark.parametrize(("width", "height", "edge"), [(120.0, 80.0, "top"), (80.0, 120.0, "right")])
def test_a_plate_is_seen_from_the_front_and_along_its_long_side(
    width: float, height: float, edge: str
) -> None:
    part = plate(width, height, 2)
    solid = cq.Workplane().box(width, height, part.thickness_mm, centered=False).val()
    names = views_wanted(part)
    assert names == ("front", edge)
    sheet = sheets_of(part.shop)[0]
    views = views_of(solid, names)
    drawn = drawn_views(part, views, sheet, style_of("mm", part.shop, sheet), 1.0, "table")
    assert [each.view for each in drawn] == list(views)
