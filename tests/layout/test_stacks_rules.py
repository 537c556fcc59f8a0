"""Rules of a bolted stack, worked out anew from the tables: common practice, no source."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.layout.clamp_stack import packed_stack
from clampwright.layout.packing import pack
from clampwright.layout.placed import Stack
from clampwright.layout.stacks import build_stack, clamp_items, component_items
from clampwright.trade.bolts import bolt, bolt_lengths
from clampwright.trade.hardware import nut

AN = st.sampled_from(["AN3", "AN4", "AN5", "AN6"])
ANY = st.sampled_from(["AN3", "AN4", "AN5", "AN6", "M4", "M5", "M6", "M8"])
PLATES = st.floats(0.8, 6.0)
FEET = st.floats(1.5, 5.0)
GAPS = st.floats(0.0, 60.0)
HEIGHTS = st.one_of(st.none(), st.floats(3.0, 14.0))
NOISE = 1e-5


def series(name: str) -> str:
    return "MS21042" if name.startswith("AN") else "ISO 7040"


def built(name: str, plate: float, gap: float, feet: float, height: float | None) -> Stack:
    items = clamp_items(plate, pack(gap, name, 90.0, "mm"), feet, name)
    return build_stack(name, items, nut(series(name), name), nut_height_mm=height)


def next_dash(dash: int) -> int:
    """Dashes are inches and eighths: after 7 eighths comes the next inch."""
    return dash + 1 if dash % 10 < 7 else dash + 3


@given(ANY, PLATES, GAPS, FEET, HEIGHTS)
@settings(deadline=None, max_examples=150)
def test_a_bolt_that_fits_keeps_the_rules(
    name: str, plate: float, gap: float, feet: float, height: float | None
) -> None:
    """Shank inside, at most one thread hidden (AN), at least one past the nut (known height)."""
    stack = built(name, plate, gap, feet, height)
    assert stack.chosen is not None
    total = sum(item.thickness_mm * item.count for item in stack.items)
    pitch, length = bolt(name).pitch_mm, stack.chosen.length
    assert stack.thickness_mm == pytest.approx(total)
    assert stack.chosen.shank_past_stack_mm == pytest.approx(length.grip_mm - total)
    if stack.nut.height_mm is None:
        assert stack.chosen.threads_showing is None
    else:
        past = (length.length_mm - total - stack.nut.height_mm) / pitch
        assert stack.chosen.threads_showing == pytest.approx(past)
    if stack.chosen.fits:
        assert length.grip_mm <= total + NOISE
        if not bolt(name).metric or stack.nut.height_mm is None:
            assert total - length.grip_mm <= pitch + NOISE
        if stack.nut.height_mm is not None:
            assert length.length_mm - total - stack.nut.height_mm >= pitch - NOISE
    else:
        assert stack.chosen.breaks


@given(ANY, PLATES, GAPS, FEET, HEIGHTS)
@settings(deadline=None, max_examples=150)
def test_washers_never_exceed_three_and_one_lies_under_the_nut(
    name: str, plate: float, gap: float, feet: float, height: float | None
) -> None:
    stack = built(name, plate, gap, feet, height)
    assert sum(item.count for item in stack.items if item.name in ("washer", "washers")) <= 3
    assert stack.items[-1].name == "washer"


@given(ANY, PLATES, GAPS, FEET, HEIGHTS)
@settings(deadline=None, max_examples=100)
def test_only_washers_under_head_and_nut_are_changed(
    name: str, plate: float, gap: float, feet: float, height: float | None
) -> None:
    given_items = clamp_items(plate, pack(gap, name, 90.0, "mm"), feet, name)
    stack = build_stack(name, given_items, nut(series(name), name), nut_height_mm=height)
    kept = [item for item in given_items if item.name != "washer"]
    assert [item for item in stack.items if item.name != "washer"] == kept
    assert bool(stack.adjusted) == (stack.items != given_items)


@given(AN, PLATES, GAPS, FEET)
@settings(deadline=None, max_examples=150)
def test_neighbours_are_the_next_dashes(name: str, plate: float, gap: float, feet: float) -> None:
    stack = built(name, plate, gap, feet, None)
    three = [c.length.dash for c in (stack.below, stack.chosen, stack.above) if c is not None]
    assert len(three) >= 2
    assert all(next_dash(low) == high for low, high in pairwise(three))


@given(AN, PLATES, GAPS, FEET, st.sampled_from(["mm", "in"]))
@settings(deadline=None, max_examples=200)
def test_packed_clamps_always_find_an_an_bolt(
    name: str, plate: float, gap: float, feet: float, units: str
) -> None:
    """Washers of 1/32 and 1/16 bridge the eighths between dashes: some packing always fits."""
    packing, stack = packed_stack(gap, plate, feet, name, nut("MS21042", name), 90.0, units)
    assert stack.chosen is not None
    assert stack.chosen.fits, stack
    assert [item for item in stack.items if item in packing] == list(packing)


@given(AN, st.floats(1.0, 8.0), st.floats(0.0, 6.0), st.floats(0.0, 6.0))
@settings(deadline=None, max_examples=150)
def test_a_thicker_lug_never_takes_a_shorter_bolt(name: str, plate: float, lug: float, more: float) -> None:
    lock = nut("MS21042", name)
    thin, thick = (build_stack(name, component_items(t, plate, name), lock) for t in (lug, lug + more))
    assert thin.chosen is not None
    assert thick.chosen is not None
    assert thin.chosen.length.length_mm <= thick.chosen.length.length_mm


@given(ANY, PLATES, GAPS, FEET, HEIGHTS)
@settings(deadline=None, max_examples=60)
def test_no_other_dash_fits_where_the_chosen_does_not(
    name: str, plate: float, gap: float, feet: float, height: float | None
) -> None:
    """Second route: every length of the table tried with the stack as it stands."""
    stack = built(name, plate, gap, feet, height)
    assert stack.chosen is not None
    if stack.chosen.fits:
        return
    pitch, total, high = bolt(name).pitch_mm, stack.thickness_mm, stack.nut.height_mm
    for length in bolt_lengths(name):
        inside = total - length.grip_mm >= -NOISE
        near = total - length.grip_mm <= pitch + NOISE or (bolt(name).metric and high is not None)
        enough = length.length_mm - total - (high or 0.0) >= pitch - NOISE
        assert not (inside and near and enough), length
