"""Quantities as people write them, to numbers in the project's units."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from clampwright.quantities.kinds import ANGLE, INCH, LENGTH, MASS, TEMPERATURE, Kind
from clampwright.quantities.refusal import NotAQuantity, shown
from clampwright.quantities.text import read_text, to_base

_SCREW = re.compile(r"\s*(?:#|no\.?)\s*(\d{1,3})\s*", re.ASCII | re.IGNORECASE)
_SCREW_SIZES = (0, 1, 2, 3, 4, 5, 6, 8, 10, 12)


def length_mm(value: str | float, unit: str = "mm") -> float:
    """Length in millimetres. A bare number (or a text without a unit) is in `unit` ("mm" or "in").

    A text may hold a fraction or a mixed number ("3/4", "1-1/4 in", "1 1/4 in"), feet and inches
    ("2 ft 3 in"), or a numbered screw size, whose diameter is 0.060 + 0.013 n inch (ASME B1.1). The
    arithmetic is exact and rounded once, at the end.

    Raises
    ------
    NotAQuantity
        For every value that is no length, or one beyond 100 m.

    Examples
    --------
    >>> length_mm("1-1/4 in"), length_mm(0.75, "in"), length_mm("#10")
    (31.75, 19.05, 4.826)
    """
    if isinstance(value, str) and (screw := _SCREW.fullmatch(value)):
        return float(_screw_diameter(int(screw[1]), value) * INCH)
    return float(_read(value, unit, LENGTH))


def angle_rad(value: str | float, unit: str = "deg") -> float:
    """Angle in radians. A bare number is in `unit` ("deg" or "rad").

    Raises
    ------
    NotAQuantity
        For every value that is no angle.

    Examples
    --------
    >>> angle_rad("180 deg") == angle_rad("180°") == angle_rad(180) == math.pi
    True
    """
    return float(_read(value, unit, ANGLE))


def mass_kg(value: str | float, unit: str = "kg") -> float:
    """Mass in kilograms ("1.4 lb", "350 g", "12 oz"). A bare number is in `unit`.

    Raises
    ------
    NotAQuantity
        For every value that is no mass, and for a negative one.

    Examples
    --------
    >>> mass_kg("1 lb"), mass_kg("350 g")
    (0.45359237, 0.35)
    """
    return float(_read(value, unit, MASS))


def temperature_c(value: str | float, unit: str = "degC") -> float:
    """Temperature in degrees Celsius ("250 degF", "121 °C", "394 K"). A bare number is in `unit`.

    Raises
    ------
    NotAQuantity
        For every value that is no temperature.

    Examples
    --------
    >>> temperature_c("212 degF"), temperature_c("121 °C"), temperature_c("273.15 K")
    (100.0, 121.0, 0.0)
    """
    return float(_read(value, unit, TEMPERATURE))


def _read(value: object, unit: str, kind: Kind) -> Fraction:
    """The value in the kind's base unit, exactly."""
    if unit.casefold() not in kind.units:
        raise ValueError(f"{unit!r} is no unit of {kind.name}")
    base = read_text(value, unit, kind) if isinstance(value, str) else _read_number(value, unit, kind)
    if not kind.least <= base <= kind.most:
        raise NotAQuantity(kind.expected, shown(value), kind.bounds)
    return base


def _read_number(value: object, unit: str, kind: Kind) -> Fraction:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise NotAQuantity(kind.expected, shown(value))
    if isinstance(value, int):
        return to_base(Fraction(value), unit, kind)
    if not math.isfinite(value):
        raise NotAQuantity(kind.expected, shown(value), "a number must be finite")
    return to_base(Fraction(float.__repr__(value)), unit, kind)


def _screw_diameter(number: int, text: str) -> Fraction:
    if number not in _SCREW_SIZES:
        sizes = ", ".join(f"#{size}" for size in _SCREW_SIZES)
        hint = f"no such screw size, and a number drill is not a length; sizes: {sizes}"
        raise NotAQuantity(LENGTH.expected, shown(text), hint)
    return Fraction(60 + 13 * number, 1000)
