"""Fewest lengths against brute force: every choice of one way a gap, for gaps few enough to try them all."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.layout.bushing_groups import Way, fewest_lengths, washer_sets, ways
from clampwright.trade.tables import rule

STEPS = {"mm": 0.1, "in": 0.127}
MOST_LEFT = 0.1 + 1e-6


def cost(taken: tuple[Way, ...]) -> tuple[int, int, int]:
    """Lengths, washers, nanometres left."""
    left = sum(round(abs(way.left_mm) * 1_000_000) for way in taken)
    return len({way.steps for way in taken}), sum(len(way.washers) for way in taken), left


def choices(gaps: list[float], step: float) -> list[dict[int, Way]]:
    return [ways(gap, washer_sets("AN3"), step) for gap in gaps]


@given(st.lists(st.floats(3.2, 9.0), min_size=1, max_size=3), st.sampled_from(["mm", "in"]))
@settings(deadline=None, max_examples=40)
def test_as_good_as_trying_everything(gaps: list[float], units: str) -> None:
    found = choices(gaps, STEPS[units])
    every = product(*(each.values() for each in found))
    assert cost(fewest_lengths(found)) == min(cost(taken) for taken in every)


@given(st.lists(st.floats(3.2, 60.0), min_size=1, max_size=12), st.sampled_from(["AN3", "AN7", "M5"]))
@settings(deadline=None, max_examples=60)
def test_every_gap_is_filled_within_its_limit_by_few_lengths_and_few_washers(
    gaps: list[float], name: str
) -> None:
    taken = fewest_lengths([ways(gap, washer_sets(name), 0.1) for gap in gaps])
    assert len({way.steps for way in taken}) <= len(gaps)
    for gap, way in zip(gaps, taken, strict=True):
        stack = way.steps * 0.1 + sum(washer.thickness_mm for washer in way.washers)
        assert gap - stack == pytest.approx(way.left_mm, abs=1e-9)
        assert abs(way.left_mm) <= MOST_LEFT
        assert len(way.washers) <= rule("gap-washers-most").value
        assert way.steps * 0.1 >= rule("bushing-least").value - 1e-6


def test_two_gaps_a_thin_washer_apart_share_a_length() -> None:
    """AN960-10L is .032 in: 12.70 and 13.51 mm."""
    one, other = fewest_lengths(choices([12.7, 13.51], 0.127))
    assert one.steps == other.steps == 100
    assert [w.part for w in other.washers] == ["AN960-10L"]
    assert one.washers == ()


def test_gaps_too_far_apart_for_washers_get_their_own() -> None:
    assert len({way.steps for way in fewest_lengths(choices([12.0, 17.0], 0.1))}) == 2


def test_nothing_gained_no_washer() -> None:
    assert [way.washers for way in fewest_lengths(choices([12.0], 0.1))] == [()]


def test_equal_gaps_are_filled_alike() -> None:
    taken = fewest_lengths(choices([14.03, 9.0, 14.03, 14.03], 0.1))
    assert taken[0] == taken[2] == taken[3]


def test_eight_gaps_in_three_lengths_by_hand() -> None:
    """10.0 with 0, .8128, 1.6002 and 1.6256 mm of washers; 20.0 with none and 2.413; 33.3 alone, twice."""
    gaps = [10.0, 10.8128, 11.6002, 11.6256, 20.0, 22.413, 33.3, 33.3]
    taken = fewest_lengths(choices(gaps, 0.1))
    assert sorted({way.steps for way in taken}) == [100, 200, 333]
    assert sum(len(way.washers) for way in taken) == 0 + 1 + 1 + 1 + 0 + 2
