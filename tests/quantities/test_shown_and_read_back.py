"""Laws that hold for every quantity: no text gives a traceback, and what is shown reads back."""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.quantities import (
    NotAQuantity,
    angle_rad,
    length_mm,
    mass_kg,
    show_angle,
    show_fraction,
    show_length,
    show_mass,
    show_temperature,
    temperature_c,
)

READERS = (length_mm, angle_rad, mass_kg, temperature_c)
LENGTHS = st.floats(-50_000, 50_000)
FEW = settings(max_examples=300, deadline=None)


@FEW
@given(st.text() | st.text("0123456789/.-+ #\"'°inmfteglbozKFCdrad½", max_size=14))
def test_no_text_gives_anything_but_a_number_or_not_a_quantity(text: str) -> None:
    for read in READERS:
        outcome = _outcome(read, text)
        if isinstance(outcome, NotAQuantity):
            assert outcome.expected
            assert outcome.found
            assert str(outcome).isprintable()
        else:
            assert math.isfinite(outcome)


@FEW
@given(st.floats() | st.integers() | st.booleans() | st.none())
def test_no_number_gives_anything_but_a_number_or_not_a_quantity(value: float) -> None:
    for read in READERS:
        outcome = _outcome(read, value)
        assert isinstance(outcome, NotAQuantity) or math.isfinite(outcome)


def _outcome(read: Callable[[str | float], float], value: str | float) -> float | NotAQuantity:
    try:
        return read(value)
    except NotAQuantity as refusal:
        return refusal


@FEW
@given(LENGTHS)
def test_lengths_read_back_to_half_the_last_figure(mm: float) -> None:
    assert abs(length_mm(show_length(mm, "mm")) - mm) <= 0.005 + 1e-9
    assert abs(length_mm(show_length(mm, "in")) - mm) <= 0.0005 * 25.4 + 1e-9


@FEW
@given(LENGTHS, st.sampled_from([1, 2, 8, 16, 32, 64]))
def test_fractions_read_back_to_half_a_division(mm: float, denominator: int) -> None:
    shown = show_fraction(mm, denominator)
    assert abs(length_mm(shown, "in") - mm) <= 25.4 / denominator / 2 + 1e-9
    assert show_fraction(length_mm(shown, "in"), denominator) == shown


@FEW
@given(st.integers(-200, 200), st.sampled_from([2, 4, 8, 16, 32, 64]), st.integers(1, 63))
def test_every_way_to_write_a_mixed_number_agrees(whole: int, under: int, over: int) -> None:
    over %= under
    exact = (abs(whole) + Fraction(over, under)) * (-1 if whole < 0 else 1) * Fraction(254, 10)
    assert length_mm(f"{whole}-{over}/{under} in") == float(exact)
    assert length_mm(f'{whole} {over}/{under}"') == float(exact)


@FEW
@given(st.floats(0, 5000), st.floats(-200, 1900), st.floats(-10, 10))
def test_masses_temperatures_and_angles_read_back(kg: float, celsius: float, rad: float) -> None:
    assert abs(mass_kg(show_mass(kg, "kg")) - kg) <= 0.0005 + 1e-9
    assert abs(mass_kg(show_mass(kg, "g")) - kg) <= 0.00005 + 1e-9
    assert abs(mass_kg(show_mass(kg, "lb")) - kg) <= 0.005 * 0.4536 + 1e-9
    assert abs(mass_kg(show_mass(kg, "oz")) - kg) <= 0.05 * 0.02835 + 1e-9
    assert abs(temperature_c(show_temperature(celsius, "degC")) - celsius) <= 0.5 + 1e-9
    assert abs(temperature_c(show_temperature(celsius, "degF")) - celsius) <= 0.5 * 5 / 9 + 1e-9
    assert abs(angle_rad(show_angle(rad)) - rad) <= math.radians(0.05) + 1e-9


def test_drill_sizes_are_not_cut_short() -> None:
    """#5, #10 and #18 end in a fourth decimal; the values .205, .193 and .170 circulate."""
    shown = [show_length(inches * 25.4, "in") for inches in (0.2055, 0.1935, 0.1695, 0.191, 0.25)]
    assert shown == ["0.2055 in", "0.1935 in", "0.1695 in", "0.191 in", "0.250 in"]


def test_no_minus_before_nothing() -> None:
    assert show_length(-0.001, "mm") == "0.00 mm"
    assert show_length(-0.001, "in") == "0.000 in"
    assert show_fraction(-0.01) == "0"
    assert show_temperature(-0.2, "degC") == "0 °C"


def test_units_that_nothing_is_shown_in() -> None:
    with pytest.raises(ValueError, match="shown in mm or in"):
        show_length(1.0, "ft")
    with pytest.raises(ValueError, match="shown in degC or degF"):
        show_temperature(1.0, "K")
    with pytest.raises(ValueError, match="shown in kg, g, lb, oz"):
        show_mass(1.0, "t")
