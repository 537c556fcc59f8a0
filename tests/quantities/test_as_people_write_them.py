"""Quantities as builders write them, against the exact definitions of the units.

International yard and pound agreement (1959): 1 in = 25.4 mm, 1 lb = 0.45359237 kg, both exact.
Numbered screw sizes: 0.060 + 0.013 n inch (ASME B1.1).
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from clampwright.quantities import NotAQuantity, angle_rad, length_mm, mass_kg, temperature_c

INCH = Fraction(254, 10)
POUND = Fraction(45359237, 100_000_000)


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("3/4 in", Fraction(3, 4)),
        ("1-1/4 in", Fraction(5, 4)),
        ("1 1/4 in", Fraction(5, 4)),
        ("1  1/4 inches", Fraction(5, 4)),
        ("-1-1/4 in", Fraction(-5, 4)),
        ("0.063in", Fraction(63, 1000)),
        (".063 IN", Fraction(63, 1000)),
        ("+.5 in.", Fraction(1, 2)),
        ('5/8"', Fraction(5, 8)),
        ("5/8″", Fraction(5, 8)),
        ("5/8”", Fraction(5, 8)),
        ("5⁄8 in", Fraction(5, 8)),
        ("1½ in", Fraction(3, 2)),
        ("¾″", Fraction(3, 4)),
        ("2 ft", Fraction(24)),
        ("2 ft 3-1/2 in", Fraction(55, 2)),
        ("2' 6\"", Fraction(30)),
        ("2 ft .5 in", Fraction(49, 2)),
        ("-1 ft 1 in", Fraction(-13)),
        ("-0 ft 1 in", Fraction(-1)),
        ("63 thou", Fraction(63, 1000)),
        ("6.3e-2 in", Fraction(63, 1000)),
        ("#10", Fraction(190, 1000)),
        ("#8", Fraction(164, 1000)),
        ("# 6", Fraction(138, 1000)),
        ("No. 4", Fraction(112, 1000)),
        ("#0", Fraction(60, 1000)),
    ],
)
def test_inches_are_exact(text: str, inches: Fraction) -> None:
    assert length_mm(text) == float(inches * INCH)


@pytest.mark.parametrize(
    ("text", "mm"),
    [("19.05 mm", 19.05), ("3 cm", 30.0), ("0.5 m", 500.0), ("12", 12.0), ("3/4", 0.75), ("250 µm", 0.25)],
)
def test_metric_lengths(text: str, mm: float) -> None:
    assert length_mm(text) == mm


def test_a_bare_number_is_in_the_recipes_unit() -> None:
    assert length_mm(0.75, "in") == length_mm("3/4", "in") == length_mm("3/4 in", "mm") == 19.05
    assert length_mm(3, "in") == 76.2
    assert length_mm(0.063, "in") == length_mm("0.063 in") == float(Fraction(63, 1000) * INCH)


def test_masses_by_the_international_pound() -> None:
    assert mass_kg("1.4 lb") == float(Fraction(14, 10) * POUND)
    assert mass_kg("12 oz") == float(Fraction(12, 16) * POUND)
    assert mass_kg("1 lb 4 oz") == float(Fraction(5, 4) * POUND)
    assert mass_kg("350 g") == 0.35
    assert mass_kg(2) == mass_kg("2 kg") == 2.0


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("32 degF", 0.0),
        ("212 °F", 100.0),
        ("212F", 100.0),
        ("212 deg F", 100.0),
        ("212 ° F", 100.0),
        ("-40 degF", -40.0),
        ("450 degF", float(Fraction(418 * 5, 9))),
        ("121 °C", 121.0),
        ("121 degc", 121.0),
        ("394 K", 120.85),
    ],
)
def test_temperatures_by_the_fixed_points_of_water(text: str, celsius: float) -> None:
    assert temperature_c(text) == celsius


def test_angles() -> None:
    assert angle_rad(90) == angle_rad("90 deg") == angle_rad("90°") == math.pi / 2
    assert angle_rad("1.5 rad") == 1.5
    assert angle_rad("-30 º") == -math.pi / 6


@pytest.mark.parametrize(
    ("value", "hint"),
    [
        ("3 inn", "did you mean in?"),
        ("3 mn", "did you mean m"),
        ("1.4 lb", '"lb" is a unit of mass'),
        ("20 deg", '"deg" is a unit of angle'),
        ("250 degF", '"degf" is a unit of temperature'),
        ("3 parsecs", "units: mm, cm, m, um, in, thou, ft"),
        ("1,5 mm", "write decimals with a point"),
        ("1/0 in", "division by zero"),
        ("1-5/4 in", "less than one"),
        ("1 - 1/4 in", "write one number and its unit"),
        ("3 in 2 ft", "write one number and its unit"),
        ("2 ft -3 in", "write one number and its unit"),
        ("2 ft 3", "write one number and its unit"),
        ("#11", "number drill"),
        ("#10 in", "stands alone"),
        (math.nan, "finite"),
        (-math.inf, "finite"),
        ("1e99 mm", "100 m"),
        (1e300, "100 m"),
        ("200 m", "is the unit right?"),
        ("9" * 5000, "80 characters"),
    ],
)
def test_what_is_no_length_says_what_to_do(value: str | float, hint: str) -> None:
    with pytest.raises(NotAQuantity) as caught:
        length_mm(value)
    assert hint in caught.value.hint
    assert caught.value.expected.startswith("a length such as")


@pytest.mark.parametrize(
    "value", ["", "  ", "nan", "inf", "-", "in", "#", "/", "3//4", "--1", "5.5.5", "3/4/5"]
)
def test_texts_that_are_nothing(value: str) -> None:
    with pytest.raises(NotAQuantity):
        length_mm(value)


def test_numbers_too_long_to_print() -> None:
    with pytest.raises(NotAQuantity, match="very many digits"):
        length_mm(10**5000)


@pytest.mark.parametrize("value", [True, None, [1], {"mm": 1}, b"3 mm", 1 + 2j])
def test_other_types_are_refused(value: object) -> None:
    with pytest.raises(NotAQuantity):
        length_mm(value)  # type: ignore[arg-type]


def test_what_was_found_is_shown_as_the_recipe_wrote_it() -> None:
    with pytest.raises(NotAQuantity) as caught:
        length_mm("three\x1b quarters")
    assert caught.value.found == '"three\\x1b quarters"'
    with pytest.raises(NotAQuantity) as caught:
        mass_kg(True)
    assert caught.value.found == "true"


def test_bounds_of_the_other_kinds() -> None:
    for bad in ("-1 lb", "11 t", "11000 kg"):
        with pytest.raises(NotAQuantity):
            mass_kg(bad)
    for bad in ("-460 degF", "-1 K", "5000 degC", "300 deg"):
        with pytest.raises(NotAQuantity):
            temperature_c(bad)
    with pytest.raises(NotAQuantity):
        angle_rad("1e6 deg")
    assert temperature_c("-273.15 degC") == -273.15


def test_an_unknown_default_unit_is_a_fault_of_the_caller() -> None:
    with pytest.raises(ValueError, match="furlong"):
        length_mm(1.0, "furlong")
