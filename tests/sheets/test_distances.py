"""Distances to check, against a 3-4-5 triangle and counts by hand."""

from __future__ import annotations

import math

import pytest
from sheets.sheet_plates import plate

from clampwright.sheets.distances import distances, farthest

SQUARE = [(60.0, 30.0), (90.0, 30.0), (90.0, 70.0), (60.0, 70.0)]


def test_a_pattern_of_four_gives_four_sides_and_two_diagonals() -> None:
    found = {(d.first, d.second): (d.mm, d.what) for d in distances(plate(patterns=[SQUARE]))}
    within = {pair: value for pair, value in found.items() if pair[0][0] == "C" and pair[1][0] == "C"}
    assert len(within) == 6
    assert found["C1", "C2"] == (pytest.approx(30.0), "side")
    assert found["C2", "C3"] == (pytest.approx(40.0), "side")
    assert found["C1", "C3"] == (pytest.approx(50.0), "diagonal")
    assert found["C2", "C4"] == (pytest.approx(50.0), "diagonal")


def test_every_component_is_tied_to_the_clamp_pattern() -> None:
    found = distances(plate())
    ties = [(d.first, d.second) for d in found if d.what == "between patterns"]
    assert ("A1", "C1") in ties
    assert ("A2", "C1") in ties
    assert {second[0] for _, second in ties} == {"C", "D"}


@pytest.mark.parametrize("count", [1, 2, 3, 5, 8])
def test_patterns_of_other_counts(count: int) -> None:
    ring = [
        (75 + 20 * math.cos(2 * math.pi * n / count), 50 + 20 * math.sin(2 * math.pi * n / count))
        for n in range(count)
    ]
    within = [d for d in distances(plate(patterns=[ring])) if d.first[0] == "C" and d.second[0] == "C"]
    sides = [d for d in within if d.what == "side"]
    assert len(sides) == {1: 0, 2: 1, 3: 3, 5: 5, 8: 8}[count]
    chord = 2 * 20 * math.sin(math.pi / count)
    assert all(d.mm == pytest.approx(chord) for d in sides)
    assert len({frozenset((d.first, d.second)) for d in within}) == len(within)
    if count == 8:
        assert all(d.mm == pytest.approx(40.0) for d in within if d.what == "diagonal")


def test_the_farthest_pair_is_found_by_trying_all() -> None:
    layout = plate(lightening=[((140.0, 95.0), 10.0)])
    pair = farthest(layout.holes)
    assert pair is not None
    most = max(math.dist(a.at, b.at) for a in layout.holes for b in layout.holes)
    assert math.dist(pair[0].at, pair[1].at) == most
    assert farthest(layout.holes[:1]) is None
