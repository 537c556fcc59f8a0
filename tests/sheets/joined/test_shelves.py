"""Boxes on shelves: inside the room, clear of each other, in order."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from clampwright.quantities import Vec2
from clampwright.sheets.shelves import shelved

ROOM = (188.0, 220.0)


@given(st.lists(st.tuples(st.floats(5.0, 188.0), st.floats(5.0, 220.0)), max_size=20))
def test_no_box_touches_another_or_the_border(sizes: list[Vec2]) -> None:
    spots = shelved(sizes, ROOM, 6.0)
    boxes = [
        (spot.page, spot.x, spot.down, spot.x + wide, spot.down + high)
        for spot, (wide, high) in zip(spots, sizes, strict=True)
    ]
    assert len(boxes) == len(sizes)
    for _, x0, y0, x1, y1 in boxes:
        assert x0 >= 0
        assert y0 >= 0
        assert x1 <= ROOM[0] + 1e-6
        assert y1 <= ROOM[1] + 1e-6
    for a, b in combinations(boxes, 2):
        apart = (
            a[1] >= b[3] + 6 - 1e-6
            or b[1] >= a[3] + 6 - 1e-6
            or a[2] >= b[4] + 6 - 1e-6
            or b[2] >= a[4] + 6 - 1e-6
        )
        assert a[0] != b[0] or apart
    assert [box[0] for box in boxes] == sorted(box[0] for box in boxes)


def test_a_box_larger_than_the_room_stands_alone() -> None:
    spots = shelved([(20.0, 20.0), (300.0, 20.0), (20.0, 20.0), (20.0, 400.0)], ROOM, 6.0)
    assert [(s.page, s.x, s.down) for s in spots] == [(0, 0, 0), (0, 0, 26), (0, 0, 52), (1, 0, 0)]
