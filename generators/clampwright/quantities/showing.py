"""Numbers in the project's units to quantities for people."""

from __future__ import annotations

import math
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from clampwright.quantities.kinds import INCH, MASS, POUND

NOISE_DECIMALS = 9
"""Decimals behind which a number is taken for noise of the arithmetic."""

_STANDARD_GRAVITY = 9.80665
"""m/s², exact (third General Conference on Weights and Measures, 1901)."""

_INCH_POUND_NM = float(INCH) / 1000 * float(POUND) * _STANDARD_GRAVITY
"""Newton metres in a pound-force inch."""


def show_length(mm: float, unit: str) -> str:
    """A length for people: '19.05 mm' or '0.750 in'.

    Two decimals of a millimetre or three of an inch; a fourth where the inch value ends there, so that
    drill sizes are not cut short.

    Examples
    --------
    >>> show_length(19.05, "mm"), show_length(19.05, "in"), show_length(4.9149, "in")
    ('19.05 mm', '0.750 in', '0.1935 in')
    """
    if unit == "mm":
        return f"{fixed(mm, 2)} mm"
    if unit != "in":
        raise ValueError(f"lengths are shown in mm or in, not {unit!r}")
    inch = mm / float(INCH)
    tenths = inch * 10_000
    ends_there = abs(tenths - round(tenths)) < 0.001 and round(tenths) % 10 != 0
    return f"{fixed(inch, 4 if ends_there else 3)} in"


def show_fraction(mm: float, denominator: int = 64) -> str:
    """The nearest binary fraction of an inch, as on a rule: '1-1/4', '3/4', '0'.

    Examples
    --------
    >>> show_fraction(31.75), show_fraction(19.0), show_fraction(0.1), show_fraction(-31.75)
    ('1-1/4', '3/4', '0', '-1-1/4')
    """
    inch = Fraction(round(Fraction(mm) / INCH * denominator), denominator)
    whole, rest = divmod(abs(inch), 1)
    parts = [str(whole)] if whole or not rest else []
    parts += [f"{rest.numerator}/{rest.denominator}"] if rest else []
    return ("-" if inch < 0 else "") + "-".join(parts)


def show_temperature(c: float, unit: str) -> str:
    """A temperature for people in 'degC' or 'degF', to the whole degree.

    Examples
    --------
    >>> show_temperature(121.1, "degF"), show_temperature(121.1, "degC")
    ('250 °F', '121 °C')
    """
    if unit == "degC":
        return f"{fixed(c, 0)} °C"
    if unit != "degF":
        raise ValueError(f"temperatures are shown in degC or degF, not {unit!r}")
    return f"{fixed(c * 9 / 5 + 32, 0)} °F"


def show_mass(kg: float, unit: str) -> str:
    """A mass for people: unit 'kg', 'g', 'lb' or 'oz'.

    Examples
    --------
    >>> show_mass(0.635, "kg"), show_mass(0.635, "lb"), show_mass(0.35, "g"), show_mass(0.35, "oz")
    ('0.635 kg', '1.40 lb', '350.0 g', '12.3 oz')
    """
    decimals = {"kg": 3, "g": 1, "lb": 2, "oz": 1}
    if unit not in decimals:
        raise ValueError(f"masses are shown in {', '.join(decimals)}, not {unit!r}")
    return f"{fixed(kg / float(MASS.units[unit][1]), decimals[unit])} {unit}"


def inch_pounds(nm: float) -> float:
    """A torque in pound-force inches, as wrenches for small bolts show it.

    Examples
    --------
    >>> round(inch_pounds(1.0), 4)
    8.8507
    """
    return nm / _INCH_POUND_NM


def show_torque(low_nm: float, high_nm: float, unit: str) -> str:
    """A torque window in both units of the trade, first the one that goes with "in" or "mm".

    Examples
    --------
    >>> show_torque(2.26, 2.82, "in"), show_torque(2.26, 2.82, "mm")
    ('20 to 25 in-lb (2.3 to 2.8 N m)', '2.3 to 2.8 N m (20 to 25 in-lb)')
    """
    pounds = f"{inch_pounds(low_nm):.0f} to {inch_pounds(high_nm):.0f} in-lb"
    metric = f"{low_nm:.1f} to {high_nm:.1f} N m"
    return f"{pounds} ({metric})" if unit == "in" else f"{metric} ({pounds})"


def show_angle(rad: float) -> str:
    """An angle for people, in degrees.

    Examples
    --------
    >>> show_angle(math.pi / 9)
    '20.0°'
    """
    return f"{fixed(math.degrees(rad), 1)}°"


def fixed(value: float, decimals: int) -> str:
    """A number to so many decimals; a half goes away from zero, and nothing is -0.

    What the arithmetic adds or takes is rounded off first: 11.1125 mm / 25.4 is a little off 0.4375.

    Parameters
    ----------
    value
        In any unit.
    decimals
        At most `NOISE_DECIMALS`.

    Examples
    --------
    >>> fixed(11.1125 / 25.4, 3), fixed(73.025, 2), fixed(-0.4375, 3), fixed(-0.0001, 3)
    ('0.438', '73.03', '-0.438', '0.000')
    """
    clean = Decimal(f"{value:.{NOISE_DECIMALS}f}")
    text = f"{clean.quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP):f}"
    return text.lstrip("-") if float(text) == 0 else text
