"""Clipping held against points sampled along what was there before."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from clampwright.sheets.clip import clip_segment, clipped, inside
from clampwright.sheets.drawing import ArcPath, Circle, Path, Pen, Text

BOX = (0.0, 0.0, 60.0, 40.0)
COORDINATE = st.integers(-8000, 14000).map(lambda n: n / 100)
POINT = st.tuples(COORDINATE, COORDINATE)


def length(arc: ArcPath | Circle) -> float:
    """Degrees that an arc or circle runs over."""
    return 360.0 if isinstance(arc, Circle) else (arc.end_deg - arc.start_deg) % 360 or 360.0


@given(POINT, POINT)
def test_a_clipped_line_is_the_part_inside(a: tuple[float, float], b: tuple[float, float]) -> None:
    assume(math.dist(a, b) > 0.1)
    piece = clip_segment(a, b, BOX)
    shares = [n / 400 for n in range(401)]
    within = [s for s in shares if inside((a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])), BOX)]
    if piece is None:
        assert not within
        return
    assert all(inside(end, BOX, 1e-6) for end in piece)
    seen = math.dist(*piece) / math.dist(a, b)
    assert seen == pytest.approx(len(within) / 401, abs=2 / 400)


@given(POINT, st.floats(0.5, 90.0), st.floats(-360.0, 360.0), st.floats(1.0, 359.0))
def test_a_clipped_arc_is_the_part_inside(
    centre: tuple[float, float], radius: float, start: float, extent: float
) -> None:
    arc = ArcPath(centre, radius, start, start + extent)
    pieces = clipped([arc], BOX)
    angles = [math.radians(start + extent * (n + 0.5) / 2000) for n in range(2000)]
    within = [
        inside((centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)), BOX) for a in angles
    ]
    shown = sum(length(piece) for piece in pieces if isinstance(piece, ArcPath)) / extent
    assert shown == pytest.approx(sum(within) / 2000, abs=5 / 2000)


def test_a_circle_over_the_edge_becomes_the_arc_inside() -> None:
    (arc,) = clipped([Circle((0.0, 20.0), 5.0)], BOX)
    assert isinstance(arc, ArcPath)
    assert length(arc) == pytest.approx(180.0)
    assert arc.start_deg % 360 == pytest.approx(270.0)


def test_a_closed_path_loses_only_what_is_outside() -> None:
    square = Path(((50.0, 10.0), (70.0, 10.0), (70.0, 30.0), (50.0, 30.0)), Pen(), closed=True)
    pieces = clipped([square], BOX)
    shown = sum(math.dist(a, b) for p in pieces if isinstance(p, Path) for a, b in pairwise(p.points))
    assert shown == pytest.approx(40.0)


def test_texts_and_fills_stay_whole_or_go() -> None:
    fill = Path(((50.0, 10.0), (70.0, 10.0), (70.0, 30.0)), None, closed=True, fill="#000000")
    assert clipped([fill, Text((58.0, 5.0), "outside", 3.0)], BOX) == ()
    assert len(clipped([Text((5.0, 5.0), "inside", 3.0)], BOX)) == 1
