"""The kinds of quantity, their units, and the bounds beyond which a value is a slip."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity: unit to (offset, factor), base = (value + offset) * factor, and sane bounds."""

    name: str
    example: str
    units: dict[str, tuple[Fraction, Fraction]]
    least: Fraction
    most: Fraction
    bounds: str

    @property
    def expected(self) -> str:
        """What a message says was expected."""
        return f"{'an' if self.name[0] in 'aeiou' else 'a'} {self.name} such as {self.example}"


def _units(*groups: tuple[str, Fraction]) -> dict[str, tuple[Fraction, Fraction]]:
    return {name: (Fraction(0), factor) for names, factor in groups for name in names.split()}


INCH = Fraction(254, 10)
"""Millimetres in an inch, exact (international yard and pound agreement, 1959)."""

POUND = Fraction("0.45359237")
"""Kilograms in a pound, exact (the same agreement)."""

LENGTH = Kind(
    "length",
    '"3/4 in" or "19.05 mm"',
    _units(
        ("mm millimetre millimetres millimeter millimeters", Fraction(1)),
        ("cm centimetre centimetres centimeter centimeters", Fraction(10)),
        ("m metre metres meter meters", Fraction(1000)),
        ("um \u03bcm", Fraction(1, 1000)),
        ('in inch inches "', INCH),
        ("thou", INCH / 1000),
        ("ft foot feet '", 12 * INCH),
    ),
    Fraction(-100_000),
    Fraction(100_000),
    "lengths here stay within 100 m: is the unit right?",
)
ANGLE = Kind(
    "angle",
    '"20 deg"',
    _units(
        ("deg degree degrees °", Fraction(math.pi) / 180),
        ("rad radian radians", Fraction(1)),
    ),
    Fraction(-1000),
    Fraction(1000),
    "that is more than a hundred turns",
)
MASS = Kind(
    "mass",
    '"1.4 lb" or "350 g"',
    _units(
        ("kg kilogram kilograms", Fraction(1)),
        ("g gram grams", Fraction(1, 1000)),
        ("lb lbs pound pounds", POUND),
        ("oz ounce ounces", POUND / 16),
    ),
    Fraction(0),
    Fraction(10_000),
    "a mass lies between 0 and 10 000 kg",
)
TEMPERATURE = Kind(
    "temperature",
    '"250 degF" or "121 degC"',
    {
        **dict.fromkeys(("degc", "°c", "c", "celsius"), (Fraction(0), Fraction(1))),
        **dict.fromkeys(("degf", "°f", "f", "fahrenheit"), (Fraction(-32), Fraction(5, 9))),
        **dict.fromkeys(("k", "kelvin"), (Fraction("-273.15"), Fraction(1))),
    },
    Fraction("-273.15"),
    Fraction(2000),
    "a temperature lies between absolute zero and 2000 degC",
)
KINDS = (LENGTH, ANGLE, MASS, TEMPERATURE)

SHOWN_UNITS = {"degc": "degC", "degf": "degF", "°c": "°C", "°f": "°F", "c": "C", "f": "F", "k": "K"}
"""Units as people write them, where that is not as they are looked up."""
