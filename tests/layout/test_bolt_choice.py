"""Rules that a bolt length breaks, thread by thread: common practice, no source."""

from __future__ import annotations

import pytest

from clampwright.layout.bolt_choice import HIDDEN, MISSING, SHANK, SHOWING, Joint, breaks, limits
from clampwright.trade.bolts import BoltLength

PITCH = 25.4 / 32
FIVE = BoltLength("AN3-5A", "AN3", 5, 6.35, 16.66875, 0.005, "example")


def broken(threads_hidden: float, threads_showing: float) -> tuple[str, ...]:
    """What AN3-5A breaks with so many threads inside the stack and past a nut made to suit."""
    thickness = FIVE.grip_mm + threads_hidden * PITCH
    nut = FIVE.length_mm - thickness - threads_showing * PITCH
    return breaks(FIVE, Joint(thickness, PITCH, nut), limits(metric=False, nut_height_mm=nut))


@pytest.mark.parametrize(
    ("showing", "expected"),
    [(0.9, (MISSING,)), (1.0, ()), (2.0, ()), (3.0, ()), (3.01, (SHOWING,)), (3.5, (SHOWING,))],
)
def test_one_to_three_threads_stand_past_the_nut(showing: float, expected: tuple[str, ...]) -> None:
    assert broken(0.5, showing) == expected


@pytest.mark.parametrize(
    ("inside", "expected"), [(-0.01, (SHANK,)), (0.0, ()), (1.0, ()), (1.01, (HIDDEN,)), (1.5, (HIDDEN,))]
)
def test_no_shank_past_the_stack_and_at_most_one_thread_inside(
    inside: float, expected: tuple[str, ...]
) -> None:
    assert broken(inside, 2.0) == expected
