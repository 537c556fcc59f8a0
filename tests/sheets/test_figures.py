"""Lengths as sheets print them: a half goes away from zero, whatever the arithmetic added to it."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.quantities import fixed, show_length
from clampwright.sheets.figures import coordinate, distance, figure
from clampwright.sheets.shop.dimensioning.wording import length, plain, sized
from clampwright.sheets.shop.size_words import toleranced
from clampwright.trade.limits import Limits

PER = {"mm": Decimal(1), "in": Decimal("25.4")}
PLACES = {"mm": Decimal("0.01"), "in": Decimal("0.001")}


@pytest.mark.parametrize(
    ("mm", "units", "said"),
    [
        (11.1125, "in", "0.438"),
        (-11.1125, "in", "-0.438"),
        (1.5875, "in", "0.063"),
        (223.8375, "in", "8.813"),
        (73.025, "mm", "73.03"),
        (-73.025, "mm", "-73.03"),
        (223.8375, "mm", "223.84"),
        (1.005, "mm", "1.01"),
        (2.675, "mm", "2.68"),
    ],
)
def test_halves_go_away_from_zero(mm: float, units: str, said: str) -> None:
    """By hand: 7/16, 1/16 and 8-13/16 in end in 5 at the fourth decimal."""
    assert distance(mm, units) == said
    assert distance(mm + 4e-13, units) == said
    assert distance(mm - 4e-13, units) == said


@given(st.integers(-64 * 40, 64 * 40), st.sampled_from(["mm", "in"]), st.sampled_from([-1e-12, 0.0, 1e-12]))
@settings(deadline=None, max_examples=200)
def test_sixty_fourths_as_exact_decimals_round(n: int, units: str, noise: float) -> None:
    """Closed form: n / 64 in is an exact decimal, rounded half up by Python's decimal arithmetic."""
    exact = Decimal(n) / 64 * Decimal("25.4") / PER[units]
    said = distance(n / 64 * 25.4 + noise, units)
    assert Decimal(said) == exact.quantize(PLACES[units], ROUND_HALF_UP)
    assert not said.startswith("-0.000")


def test_noise_comes_from_either_way_of_working_it_out() -> None:
    """0.4375 in three ways that differ in the last bits."""
    ways = {0.4375 * 25.4, 7 * 25.4 / 16, sum([25.4 / 16] * 7), 25.4 - 9 * 25.4 / 16}
    assert {distance(way, "in") for way in ways} == {"0.438"}
    assert {plain(way, "in") for way in ways} == {"0.438"}
    assert {coordinate(way, "in") for way in ways} == {"0.4375"}
    assert {figure(way, "in") for way in ways} == {"0.4375"}


@pytest.mark.parametrize(("mm", "said"), [(73.025, "73.03 mm"), (-0.125, "-0.13 mm"), (-0.001, "0.00 mm")])
def test_findings_round_as_drawings_do(mm: float, said: str) -> None:
    assert show_length(mm, "mm") == said


def test_a_number_keeps_its_decimals() -> None:
    assert [fixed(2.5, 0), fixed(-2.5, 0), fixed(1e6, 2), fixed(0.0, 3)] == ["3", "-3", "1000000.00", "0.000"]


@given(st.floats(0.2, 400.0))
@settings(deadline=None, max_examples=100)
def test_a_length_of_an_inch_drawing_has_three_decimals(mm: float) -> None:
    """The block of an inch drawing gives .XXX a tolerance and .XXXX none."""
    first, bracket = length(mm, "in").lines
    assert len(first.partition(".")[2]) == 3
    assert first == distance(mm, "in") == toleranced(mm, None, "in")
    assert bracket == f"[{plain(mm, 'mm')}]"


@pytest.mark.parametrize(
    ("mm", "limits", "units", "said"),
    [
        (4.3053, Limits(0.1016, 0.0, "", "assumed"), "in", "0.1695 0 -0.0040"),
        (4.9149, Limits(0.0, 0.0254, "", "assumed"), "in", "0.1935 +0.0010 0"),
        (4.8514, Limits(0.0127, 0.0127, "", "assumed"), "in", "0.1910 ±0.0005"),
        (4.8514, Limits(0.0, 0.1524, "", "assumed"), "in", "0.191 +0.006 0"),
        (5.0, Limits(0.0, 0.05, "", "assumed"), "mm", "5.00 +0.05 0"),
        (4.85, Limits(0.005, 0.015, "", "assumed"), "mm", "4.850 +0.015 -0.005"),
    ],
)
def test_limits_have_the_decimals_of_their_size(mm: float, limits: Limits, units: str, said: str) -> None:
    """ASME Y14.5: a size and its limits have the same decimals; a nil limit is a bare 0 (ISO 129-1)."""
    assert sized(mm, limits, units) == said == toleranced(mm, limits, units)
    decimals = {len(word.partition(".")[2]) for word in said.split() if word != "0"}
    assert len(decimals) == 1
