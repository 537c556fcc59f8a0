"""Shims to have ready: gap ± e·√2, the highest foot bare."""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.hand_clamps import place

from clampwright.layout.packing import pack
from clampwright.layout.placed import ClampPlace, ShimReady
from clampwright.layout.shims_ready import ready

SPREAD = 1.5 * sqrt(2)


def gapped(label: str, gap: float, *, seat_mm: float = 12.8, measured: str = "reach seat feet") -> ClampPlace:
    return place(
        label,
        f"tube {label[0]}",
        (0.0, 0.0),
        gap_mm=gap,
        seat_z_mm=-gap,
        packing=pack(gap, "AN3", 90.0, "mm"),
        seat_mm=seat_mm,
        measured=frozenset(measured.split()),
    )


def one(shims: tuple[ShimReady, ...], label: str) -> ShimReady:
    return next(shim for shim in shims if shim.clamp == label)


def test_the_highest_foot_needs_nothing() -> None:
    shims = ready([gapped("A1", 3.0), gapped("B1", 0.0), gapped("B2", 0.0)], 1.5, "mm")
    assert [shim.clamp for shim in shims] == ["A1", "B1", "B2"]
    assert (one(shims, "B1").low_mm, one(shims, "B1").high_mm) == (0.0, 0.0)
    assert "highest" in one(shims, "B1").advice


def test_of_equally_high_feet_the_first_is_the_reference() -> None:
    """A difference in the thirteenth decimal is arithmetic, not metal."""
    shims = ready([gapped("A1", 6.35 + 1e-13), gapped("A2", 6.35)], 1.5, "mm")
    assert one(shims, "A1").advice.startswith("The part is set on this foot, the highest: packed as listed")
    assert one(shims, "A2").high_mm == pytest.approx(6.35 + SPREAD)


def test_a_bushing_is_cut_long_and_trimmed() -> None:
    """12.7 ± 2.12 mm: 10.58 to 14.82; cut 14.82 + 0.5 up to 15.4 mm."""
    shim = one(ready([gapped("A1", 0.0), gapped("B1", 12.7)], 1.5, "mm"), "B1")
    assert (shim.low_mm, shim.high_mm) == pytest.approx((12.7 - SPREAD, 12.7 + SPREAD))
    assert shim.advice.startswith("a bushing cut 15.40 mm long and trimmed to the gap found")


def test_a_level_foot_gets_washers_for_what_may_turn_up() -> None:
    """0 ± 2.12 mm, 0 at least: a thin and a regular AN960 (0.81 + 1.60 = 2.41 mm), and shim stock."""
    shim = one(ready([gapped("A1", 0.0), gapped("B1", 0.0)], 1.5, "mm"), "B1")
    assert (shim.low_mm, shim.high_mm) == pytest.approx((0.0, SPREAD))
    assert "1 x AN960-10L and 1 x AN960-10 and shim stock" in shim.advice
    assert "A1 is packed" in shim.advice


def test_a_gap_between_washers_and_bushing_has_both_ready() -> None:
    """3.0 ± 2.12 mm: 0.88 to 5.12 mm."""
    shim = one(ready([gapped("A1", 0.0), gapped("B1", 3.0)], 1.5, "mm"), "B1")
    assert "bushing cut" in shim.advice
    assert "AN960-10L" in shim.advice


def test_bolts_for_both_ends_of_the_range() -> None:
    """The stack over a 12.7 mm bushing (.7565 in) takes an AN3-11A; -10A and -12A stand beside it."""
    clamp = gapped("B1", 12.7)
    assert clamp.stack.chosen is not None
    assert clamp.stack.chosen.length.part == "AN3-11A"
    shim = one(ready([gapped("A1", 0.0), clamp], 1.5, "mm"), "B1")
    assert "AN3-10A and AN3-12A" in shim.advice


def test_a_default_seat_of_another_size_is_measured_first() -> None:
    clamps = [gapped("A1", 0.0), gapped("B1", 2.0, seat_mm=14.0, measured="reach")]
    assert "measure it first" in one(ready(clamps, 1.5, "mm"), "B1").advice
    same = [gapped("A1", 0.0), gapped("B1", 2.0, measured="reach")]
    assert "measure it first" not in one(ready(same, 1.5, "mm"), "B1").advice


def test_no_clamps_no_shims() -> None:
    assert ready([], 1.5, "mm") == ()


@given(st.lists(st.floats(0.0, 40.0), min_size=1, max_size=6), st.floats(0.0, 4.0))
@settings(deadline=None, max_examples=60)
def test_every_range_holds_its_gap_and_one_clamp_is_the_reference(gaps: list[float], error: float) -> None:
    shims = ready([gapped(f"A{i}", gap) for i, gap in enumerate(gaps, 1)], error, "mm")
    for shim, gap in zip(shims, gaps, strict=True):
        assert 0.0 <= shim.low_mm <= shim.nominal_mm <= shim.high_mm
        assert shim.nominal_mm == gap
        assert shim.high_mm - shim.low_mm <= 2 * error * sqrt(2) + 1e-9
    bare = [shim for shim in shims if "highest" in shim.advice]
    assert len(bare) == 1
    assert bare[0].nominal_mm == pytest.approx(min(gaps), abs=1e-6)
