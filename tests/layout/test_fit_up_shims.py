"""Shims to have ready: three feet as listed, each other gap and its ±."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.hand_clamps import place

from clampwright.layout.known_to import KnownTo
from clampwright.layout.on_feet import stands_on
from clampwright.layout.packing import pack
from clampwright.layout.placed import ClampPlace, ShimReady
from clampwright.layout.shims_ready import ready

SPREAD = 2.12
SPOTS = {"A1": (0.0, 0.0), "A2": (100.0, 0.0), "B1": (0.0, 100.0), "B2": (100.0, 100.0), "B3": (50.0, 80.0)}


def gapped(label: str, gap: float) -> ClampPlace:
    return place(
        label,
        f"tube {label[0]}",
        SPOTS[label],
        gap_mm=gap,
        seat_z_mm=-gap,
        packing=pack(gap, "AN3", 90.0, "mm"),
    )


def four_feet(last: float, others: float = 0.0) -> list[ClampPlace]:
    """Four feet, three of which carry it; the gap at B2."""
    return [*(gapped(label, others) for label in ("A1", "A2", "B1")), gapped("B2", last)]


def known(spread: float = SPREAD, **more: float) -> tuple[KnownTo, ...]:
    return tuple(
        replace(KnownTo(label, 0.0, 0.0, spread if label in ("B2", "B3") else 0.0, True), **more)  # type: ignore[arg-type]
        for label in SPOTS
    )


def one(shims: tuple[ShimReady, ...], label: str) -> ShimReady:
    return next(shim for shim in shims if shim.clamp == label)


def test_it_stands_on_three_feet_as_listed() -> None:
    """Two of the tube that comes first, and the one farthest off their line."""
    shims = ready(four_feet(3.0), known(), "mm")
    assert [shim.clamp for shim in shims] == ["A1", "A2", "B1", "B2"]
    for label in ("A1", "A2", "B1"):
        shim = one(shims, label)
        assert (shim.low_mm, shim.nominal_mm, shim.high_mm) == (0.0, 0.0, 0.0)
        assert shim.advice.startswith("The part is set on A1, A2 and B1: no shim here.")
    listed = one(ready(four_feet(3.0, others=6.35), known(), "mm"), "A1")
    assert listed.advice.startswith("The part is set on A1, A2 and B1: packed as listed.")


def test_feet_on_one_line_carry_as_two() -> None:
    """Three feet in a row do not keep it from rocking: two of them carry it, squarely as their faces lie."""
    row = [gapped("A1", 0.0), gapped("A2", 0.0), replace(gapped("B1", 0.0), at=(50.0, 0.1))]
    assert stands_on(row) == ("A1", "A2")
    assert stands_on(row[:1]) == ("A1",)


def test_the_foot_farthest_off_the_line_carries() -> None:
    feet = [gapped(label, 0.0) for label in ("A1", "A2", "B3", "B1")]
    assert stands_on(feet) == ("A1", "A2", "B1")
    assert stands_on([gapped(label, 0.0) for label in ("A1", "B3", "B1")]) == ("B1", "B3", "A1")


def test_a_bushing_is_cut_long_and_trimmed() -> None:
    """12.7 ± 2.12 mm: 10.58 to 14.82; cut 14.82 + 0.5 up to 15.4 mm."""
    shim = one(ready(four_feet(12.7), known(), "mm"), "B2")
    assert (shim.low_mm, shim.high_mm) == pytest.approx((12.7 - SPREAD, 12.7 + SPREAD))
    assert shim.advice.startswith("a bushing cut 15.40 mm long and trimmed to the gap found")


def test_a_level_foot_gets_washers_for_what_may_turn_up() -> None:
    """0 ± 2.12 mm, 0 at least: a thin and a regular AN960 (0.81 + 1.60 = 2.41 mm), and shim stock."""
    shim = one(ready(four_feet(0.0), known(), "mm"), "B2")
    assert (shim.low_mm, shim.high_mm) == pytest.approx((0.0, SPREAD))
    assert "1 x AN960-10L and 1 x AN960-10 and shim stock" in shim.advice
    assert "A1, A2 and B1 are packed" in shim.advice


def test_a_gap_between_washers_and_bushing_has_both_ready() -> None:
    """3.0 ± 2.12 mm: 0.88 to 5.12 mm."""
    shim = one(ready(four_feet(3.0), known(), "mm"), "B2")
    assert "bushing cut" in shim.advice
    assert "AN960-10L" in shim.advice


def test_bolts_for_both_ends_of_the_range() -> None:
    """The stack over a 12.7 mm bushing (.7565 in) takes an AN3-11A; -10A and -12A stand beside it."""
    feet = four_feet(12.7)
    assert feet[3].stack.chosen is not None
    assert feet[3].stack.chosen.length.part == "AN3-11A"
    assert "AN3-10A and AN3-12A" in one(ready(feet, known(), "mm"), "B2").advice


def test_default_seats_that_count_are_measured_first() -> None:
    assert "measure them first" in one(ready(four_feet(2.0), known(seat_mm=1.0), "mm"), "B2").advice
    assert "measure them first" not in one(ready(four_feet(2.0), known(seat_mm=0.05), "mm"), "B2").advice


def test_no_clamps_no_shims() -> None:
    assert ready([], (), "mm") == ()


@given(st.lists(st.floats(0.0, 40.0), min_size=1, max_size=5), st.floats(0.0, 4.0))
@settings(deadline=None, max_examples=60)
def test_every_range_holds_its_gap_and_is_no_wider_than_its_plus_minus(
    gaps: list[float], spread: float
) -> None:
    feet = [gapped(label, gap) for label, gap in zip(SPOTS, gaps, strict=False)]
    shims = ready(feet, known(spread), "mm")
    for shim, gap in zip(shims, gaps, strict=True):
        assert 0.0 <= shim.low_mm <= shim.nominal_mm <= shim.high_mm
        assert shim.nominal_mm == gap
        assert shim.high_mm - shim.low_mm <= 2 * spread + 1e-9
    carrying = [shim.clamp for shim in shims if "The part is set on" in shim.advice]
    assert carrying == [foot.label for foot in feet if foot.label in stands_on(feet)]
    assert len(carrying) == min(3, len(feet))
