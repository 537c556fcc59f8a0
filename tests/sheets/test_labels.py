"""Labels touch nothing: checked with plain geometry that the placing does not use."""

from __future__ import annotations

import math
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st
from sheets.page_geometry import circle_meets_quad, quad, to_segment

from clampwright.sheets.drawing import Text
from clampwright.sheets.labels import Label, Line, Placed, Room, place

WINDOW = (0.0, 0.0, 180.0, 150.0)
Circle = tuple[float, float, float]


def crowd(points: list[tuple[float, float]], radius: float) -> list[Circle]:
    """Circles that do not touch each other, from a list of places."""
    kept: list[Circle] = []
    for x, y in points:
        if all(math.hypot(x - a, y - b) > 2 * radius + 4 for a, b, _ in kept):
            kept.append((x, y, radius))
    return kept


def labelled(circles: list[Circle]) -> tuple[tuple[Placed | None, ...], Room]:
    """A label for each circle."""
    room = Room(WINDOW, circles=[(x, y, r + 1.2) for x, y, r in circles])
    labels = [
        Label(
            (Line(f"C{n}", 2.9, True), Line("#40 then #11", 2.25)),
            (((x, y), r),),
            (Line(f"C{n}", 2.25, True),),
        )
        for n, (x, y, r) in enumerate(circles, 1)
    ]
    return place(labels, room), room


def crosses(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    """Whether two segments cross, by the signs of four areas."""

    def side(px: float, py: float, qx: float, qy: float, rx: float, ry: float) -> float:
        return (qx - px) * (ry - py) - (qy - py) * (rx - px)

    one = side(*a, b[0], b[1]) * side(*a, b[2], b[3])
    two = side(*b, a[0], a[1]) * side(*b, a[2], a[3])
    return one < 0 and two < 0


@given(
    st.lists(st.tuples(st.floats(8, 172), st.floats(8, 142)), min_size=1, max_size=60), st.floats(1.0, 6.0)
)
@settings(deadline=None, max_examples=30)
def test_labels_touch_no_hole_no_label_and_no_leader(
    points: list[tuple[float, float]], radius: float
) -> None:
    circles = crowd(points, radius)
    placed, _ = labelled(circles)
    shown = [one for one in placed if one is not None]
    for one in shown:
        assert WINDOW[0] <= one.box[0] <= one.box[2] <= WINDOW[2]
        assert WINDOW[1] <= one.box[1] <= one.box[3] <= WINDOW[3]
        for item in one.items():
            if isinstance(item, Text):
                assert not any(circle_meets_quad((x, y), r, quad(item)) for x, y, r in circles)
    for one, other in combinations(shown, 2):
        a, b = one.box, other.box
        assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
    leaders = [(*one.leader[0], *one.leader[1]) for one in shown if one.leader is not None]
    assert not any(crosses(a, b) for a, b in combinations(leaders, 2))
    for one, circle in ((one, circle) for one in shown if one.leader for circle in circles):
        assert one.leader is not None
        starts_here = abs(math.dist(one.leader[0], circle[:2]) - circle[2]) < 1e-6
        assert starts_here or to_segment(circle[:2], *one.leader) > circle[2]


def test_every_hole_of_a_usual_plate_is_labelled_in_full() -> None:
    """Twelve holes an inch apart: room for all."""
    circles = [(30.0 + 25.4 * i, 30.0 + 25.4 * j, 2.43) for i in range(4) for j in range(3)]
    placed, _ = labelled(circles)
    assert all(one is not None and len(one.lines) == 2 for one in placed)


def test_a_crowd_gets_brief_labels_before_none() -> None:
    """120 holes 12 mm apart: 7 mm between the rims holds no second line for all, but a name for each."""
    circles = [(24.0 + 12.0 * i, 15.0 + 12.0 * j, 2.49) for i in range(12) for j in range(10)]
    placed, _ = labelled(circles)
    assert all(one is not None for one in placed)
    assert any(one is not None and len(one.lines) == 1 for one in placed)


def test_no_room_is_said_and_not_drawn_over() -> None:
    room = Room((0.0, 0.0, 20.0, 20.0), boxes=[(0.0, 0.0, 20.0, 20.0)])
    label = Label((Line("A1", 3.0),), (((10.0, 10.0), 2.0),), (Line("A1", 2.0),))
    assert place([label], room) == (None,)


def test_a_label_goes_to_the_nearest_free_side() -> None:
    """Blocked on three sides, the label is below its hole."""
    walls = [(0.0, 0.0, 44.0, 100.0), (56.0, 0.0, 100.0, 100.0), (44.0, 53.0, 56.0, 100.0)]
    room = Room((0.0, 0.0, 100.0, 100.0), boxes=walls, circles=[(50.0, 50.0, 2.0)])
    (one,) = place([Label((Line("A1", 3.0),), (((50.0, 50.0), 2.0),))], room)
    assert one is not None
    assert one.box[3] < 48.0
    assert 44.0 < one.box[0] < one.box[2] < 56.0
