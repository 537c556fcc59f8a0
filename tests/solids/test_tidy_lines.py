"""Lines of a picture put in order."""

from __future__ import annotations

import math
import random
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.solids.chained import chained
from clampwright.solids.stretches import joined, less
from clampwright.solids.tidy_lines import tidy
from clampwright.solids.view_lines import ViewArc

STRETCHES = st.lists(
    st.tuples(st.integers(0, 40), st.integers(1, 9)).map(lambda p: (p[0], p[0] + p[1])), max_size=8
)


@settings(deadline=None)
@given(STRETCHES, STRETCHES)
def test_stretches_cover_what_sets_of_unit_steps_do(
    first: list[tuple[int, int]], second: list[tuple[int, int]]
) -> None:
    """Against plain sets of whole numbers."""
    steps, taken = ({n for a, b in each for n in range(a, b)} for each in (first, second))
    whole = joined(first, 1e-9)
    rest = less(whole, second, 1e-9)
    assert {n for a, b in whole for n in range(int(a), int(b))} == steps
    assert {n for a, b in rest for n in range(int(a), int(b))} == steps - taken
    assert all(a[1] < b[0] for a, b in pairwise(whole))


def test_a_hidden_line_under_a_seen_one_goes() -> None:
    seen, hidden = tidy([((0, 0), (10, 0))], [((10, 0), (2, 0)), ((4, -3), (4, 3))])
    assert seen == (((0, 0), (10, 0)),)
    assert hidden == (((4, -3), (4, 3)),)


def test_arcs_in_a_row_are_one_and_a_round_is_whole() -> None:
    quarters = [ViewArc((1, 2), 3, start, start + 90) for start in (270, 0, 180, 90)]
    assert tidy(quarters, quarters) == ((ViewArc((1, 2), 3, 0, 360),), ())
    (arc,), () = tidy([ViewArc((0, 0), 5, 300, 370), ViewArc((0, 0), 5, 5, 40)], [])
    assert (arc.start_deg, arc.end_deg) == (300, 400)
    over, under = tidy([ViewArc((0, 0), 5, 0, 90)], [ViewArc((0, 0), 5, 45, 180)])
    assert over == (ViewArc((0, 0), 5, 0, 90),)
    assert under == (ViewArc((0, 0), 5, 90, 180),)


def test_a_curve_seen_edge_on_is_a_line() -> None:
    to_and_fro = tuple((5 * math.cos(k / 10), 2.0) for k in range(63))
    ((line,), ()) = tidy([to_and_fro], [to_and_fro])
    assert line[0][0] == min(p[0] for p in to_and_fro)
    assert len(line) == 2


def test_a_curve_over_a_curve_goes() -> None:
    curve = tuple((x / 10, (x / 10) ** 2) for x in range(20))
    part = tuple((x / 10, (x / 10) ** 2) for x in range(4, 9))
    seen, hidden = tidy([curve, part[::-1]], [part])
    assert seen == (curve,)
    assert hidden == ()


@settings(deadline=None, max_examples=30)
@given(st.randoms(use_true_random=False))
def test_the_order_of_the_edges_does_not_matter(chance: random.Random) -> None:
    edges = [((0, 0), (4, 0)), ((4, 0), (4, 3)), ((4, 3), (0, 3)), ((0, 3), (0, 0)), ((1, 1), (2, 1))]
    turned = [edge if chance.random() < 0.5 else edge[::-1] for edge in edges]
    chance.shuffle(turned)
    seen, _ = tidy(turned, [])
    assert seen == (((0, 0), (0, 3), (4, 3), (4, 0), (0, 0)), ((1, 1), (2, 1)))


def test_three_pieces_at_a_point_end_there() -> None:
    pieces = [((0.0, 0.0), (1.0, 0.0)), ((1.0, 0.0), (2.0, 0.0)), ((1.0, 0.0), (1.0, 1.0))]
    assert len(chained(pieces, 1e-6)) == 3
