"""Stacks worked by hand on the bolt grip chart of a kit manual (grips and lengths in inches).

| dash | AN3 grip, length | AN4 | AN5 |
|---|---|---|---|
| 4 | .125, .531 | .0625, .531 | .0625, .594 |
| 5 | .250, .656 | .1875, .656 | .1875, .719 |
| 6 | .375, .781 | .3125, .781 | .3125, .844 |
| 7 | .500, .906 | .4375, .906 | .4375, .969 |
| 10 | .625, 1.031 | .5625, 1.031 | .5625, 1.094 |

AN960 washers are 1/16 (.063) and 1/32 (.032) thick; an MS21044 nut for AN3 is .249 high (from memory).
"""

from __future__ import annotations

import pytest

from clampwright.layout.placed import Stack, StackItem
from clampwright.layout.stacks import build_stack, clamp_items, component_items, count_washers
from clampwright.trade.hardware import nut

INCH = 25.4


def bushing(inches: float) -> StackItem:
    return StackItem("bushing", "bushing", inches * INCH)


def parts(stack: Stack) -> list[str]:
    return [item.part for item in stack.items if item.name == "washer"]


def test_an3_clamp_takes_both_washers_thin() -> None:
    """.063 + .090 + .1025 + .063 = .3185: -6 (grip .375) passes through, -5 (.250) hides 2.19 threads.

    With .032 under head and nut the stack is .2565 and -5 hides .0065 x 32 = 0.21 threads;
    .65625 - .2565 - .249 = .15075 leaves 4.82 threads past the nut.
    """
    regular = clamp_items(0.090 * INCH, (), 0.1025 * INCH, "AN3")[-1]
    given = (regular, *clamp_items(0.090 * INCH, (), 0.1025 * INCH, "AN3")[1:])
    stack = build_stack("AN3", given, nut("MS21044", "AN3"))
    assert stack.chosen is not None
    assert stack.chosen.length.part == "AN3-5A"
    assert parts(stack) == ["AN960-10L", "AN960-10L"]
    assert stack.thickness_mm == pytest.approx(0.2565 * INCH)
    assert stack.chosen.threads_in_stack == pytest.approx(0.208, abs=1e-3)
    assert stack.chosen.threads_showing == pytest.approx(4.824, abs=1e-3)
    assert stack.chosen.fits
    assert "AN960-10L under the nut" in stack.adjusted


def test_an3_clamp_neighbours_say_what_they_would_do() -> None:
    """In .2565 the -4 (grip .125) hides 4.2 threads, the -6 (.375) passes .1185 in through the stack."""
    stack = build_stack("AN3", clamp_items(0.090 * INCH, (), 0.1025 * INCH, "AN3"), nut("MS21044", "AN3"))
    assert stack.below is not None
    assert stack.above is not None
    assert (stack.below.length.part, stack.above.length.part) == ("AN3-4A", "AN3-6A")
    assert not stack.below.fits
    assert not stack.above.fits
    assert "4.2 threads hidden" in stack.below.says
    assert "0.1185 in" in stack.above.says
    assert stack.above.shank_past_stack_mm == pytest.approx(0.1185 * INCH)


def test_an3_component_swaps_the_washer_under_the_nut() -> None:
    """.032 + .125 + .090 + .063 = .310: -5 hides 1.92 threads; with a thin washer .279, 0.93 threads."""
    stack = build_stack("AN3", component_items(0.125 * INCH, 0.090 * INCH, "AN3"), nut("MS21044", "AN3"))
    assert stack.chosen is not None
    assert stack.chosen.length.part == "AN3-5A"
    assert parts(stack) == ["AN960-10L", "AN960-10L"]
    assert stack.chosen.threads_in_stack == pytest.approx(0.928, abs=1e-3)


def test_an4_clamp_needs_no_change() -> None:
    """.032 + .125 + .1025 + .063 = .3225: -6 (grip .3125) hides .010 x 28 = 0.28 threads."""
    stack = build_stack("AN4", clamp_items(0.125 * INCH, (), 0.1025 * INCH, "AN4"), nut("MS21044", "AN4"))
    assert stack.chosen is not None
    assert stack.chosen.length.part == "AN4-6A"
    assert stack.chosen.threads_in_stack == pytest.approx(0.28, abs=1e-3)
    assert stack.adjusted == ""


def test_an5_over_a_bushing() -> None:
    """.032 + .125 + .500 + .1425 + .063 = .8625: -12 (1 1/4 - 7/16 = .8125) hides .05 x 24 = 1.2.

    A thin washer under the nut makes it .8315 and 0.456 threads.
    """
    items = clamp_items(0.125 * INCH, (bushing(0.5),), 0.1425 * INCH, "AN5")
    stack = build_stack("AN5", items, nut("MS21044", "AN5"))
    assert stack.chosen is not None
    assert stack.below is not None
    assert stack.above is not None
    dashes = [c.length.part for c in (stack.below, stack.chosen, stack.above)]
    assert dashes == ["AN5-11A", "AN5-12A", "AN5-13A"]
    assert stack.chosen.threads_in_stack == pytest.approx(0.456, abs=1e-3)


def test_after_dash_7_comes_dash_10() -> None:
    """.032 + .090 + .2225 + .1025 + .063 = .510: -7 (grip .500) hides 0.32; -8 and -9 do not exist."""
    items = clamp_items(0.090 * INCH, (bushing(0.2225),), 0.1025 * INCH, "AN3")
    stack = build_stack("AN3", items, nut("MS21044", "AN3"))
    assert stack.chosen is not None
    assert stack.below is not None
    assert stack.above is not None
    dashes = [c.length.dash for c in (stack.below, stack.chosen, stack.above)]
    assert dashes == [6, 7, 10]


def test_metric_screw_threaded_to_the_head() -> None:
    """ISO 7089 washers of 1 mm, an ISO 7040 nut 6.8 high: 1 + 2.3 + 2.6 + 1 = 6.9.

    M5x16 shows (16 - 6.9 - 6.8)/0.8 = 2.875 threads; a 25 has its shank of 9 past the stack.
    """
    stack = build_stack("M5", clamp_items(2.3, (), 2.6, "M5"), nut("ISO 7040", "M5"))
    assert stack.chosen is not None
    assert stack.chosen.length.part == "M5x16"
    assert stack.chosen.threads_showing == pytest.approx(2.875)
    assert stack.chosen.fits
    assert stack.chosen.breaks == ("threads hidden",)
    assert "threaded to the head" in stack.chosen.says


def test_an_unknown_nut_height_is_judged_by_the_grip() -> None:
    stack = build_stack("AN3", clamp_items(0.090 * INCH, (), 0.1025 * INCH, "AN3"), nut("MS21042", "AN3"))
    assert stack.nut.height_mm is None
    assert stack.chosen is not None
    assert stack.chosen.threads_showing is None
    assert stack.chosen.fits
    assert "not known" in stack.chosen.says


def test_a_measured_nut_replaces_the_table() -> None:
    """A nut measured at .188 in: .65625 - .2565 - .188 = .21175 in, 6.78 threads."""
    items = clamp_items(0.090 * INCH, (), 0.1025 * INCH, "AN3")
    stack = build_stack("AN3", items, nut("MS21042", "AN3"), nut_height_mm=0.188 * INCH)
    assert stack.nut.height_mm == pytest.approx(0.188 * INCH)
    assert stack.nut.height_source == ""
    assert stack.chosen is not None
    assert stack.chosen.threads_showing == pytest.approx(6.776, abs=1e-3)


@pytest.mark.parametrize("name", ["AN7", "AN8"])
def test_without_known_lengths_nothing_is_chosen(name: str) -> None:
    stack = build_stack(name, clamp_items(3.0, (), 3.0, name), nut("MS21044", name))
    assert stack.chosen is stack.below is stack.above is None
    assert stack.torque is not None
    assert stack.thickness_mm == pytest.approx(6.0 + 2 * 0.063 * INCH)


def test_a_stack_too_thin_for_any_bolt_says_so() -> None:
    """A plate of .010 in without washers: even the -3 (grip 1/16) passes through."""
    thin = (StackItem("plate", "plate", 0.010 * INCH),)
    stack = build_stack("AN3", thin, nut("MS21044", "AN3"))
    assert stack.chosen is not None
    assert stack.chosen.length.part == "AN3-3A"
    assert not stack.chosen.fits
    assert stack.chosen.breaks[0] == "shank past the stack"
    assert stack.below is None


def test_a_stack_too_thick_for_any_bolt_says_so() -> None:
    thick = clamp_items(0.090 * INCH, (bushing(4.0),), 0.1025 * INCH, "AN3")
    stack = build_stack("AN3", thick, nut("MS21044", "AN3"))
    assert stack.chosen is not None
    assert stack.chosen.length.part == "AN3-37A"
    assert not stack.chosen.fits
    assert "threads missing" in stack.chosen.breaks
    assert "inside the nut" in stack.chosen.says
    assert stack.above is None
    unknown = build_stack("AN3", thick, nut("MS21042", "AN3"))
    assert unknown.chosen is not None
    assert "threads missing" in unknown.chosen.breaks


def test_two_washers_in_the_packing_leave_none_under_the_head() -> None:
    packing = tuple(StackItem("washers", "AN960-10", 0.063 * INCH) for _ in range(2))
    items = clamp_items(0.090 * INCH, packing, 0.1025 * INCH, "AN3")
    assert [item.name for item in items] == ["plate", "washers", "washers", "clamp feet", "washer"]
    assert count_washers(build_stack("AN3", items, nut("MS21044", "AN3")).items) == 3
