"""Counts and lengths in sentences on what was found in a file."""

from __future__ import annotations

import numpy as np

from clampwright.quantities import show_length
from clampwright.quantities.kinds import INCH


def counted(count: int, one: str) -> str:
    """A count and what it counts.

    >>> counted(1, "round piece"), counted(2, "round piece")
    ('1 round piece', '2 round pieces')
    """
    return f"{count} {one}" if count == 1 else f"{count} {one}s"


def with_plus_minus(mm: float, plus_minus_mm: float, units: str) -> str:
    """A length and its ± (95 %), in "mm" or "in"; without that where there is none.

    >>> with_plus_minus(19.05, 0.2, "mm"), with_plus_minus(19.05, 0.0, "in")
    ('19.05 ± 0.20 mm', '0.750 in')
    """
    shown = show_length(mm, units)
    if not plus_minus_mm:
        return shown
    return f"{shown.removesuffix(f' {units}')} ± {show_length(plus_minus_mm, units)}"


def stretch(low_mm: float, high_mm: float, units: str) -> str:
    """A stretch along a tube.

    >>> stretch(25.4, 50.8, "in")
    '1.000 to 2.000 in'
    """
    return f"{show_length(low_mm, units).removesuffix(f' {units}')} to {show_length(high_mm, units)}"


def show_small(mm: float, units: str) -> str:
    """A length too small for two decimals, to two digits.

    >>> show_small(0.01, "mm"), show_small(0.01, "in")
    ('0.01 mm', '0.00039 in')
    """
    number = mm / float(INCH) if units == "in" else mm
    return f"{np.format_float_positional(number, 2, fractional=False, trim='-')} {units}"
