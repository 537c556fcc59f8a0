"""Rounding to the increment that a person can mark."""

from __future__ import annotations

import math

_SAME = 1e-6
"""Parts of an increment below which a number is the increment itself: noise must not add a step."""


def to_nearest(value: float, increment: float) -> float:
    """The multiple of `increment` nearest to a value, halves away from zero; increment 0: the value.

    >>> to_nearest(10.3, 0.5), to_nearest(-10.25, 0.5), to_nearest(10.3, 0)
    (10.5, -10.5, 10.3)
    """
    if increment <= 0:
        return value
    return math.copysign(math.floor(abs(value) / increment + 0.5 + _SAME) * increment, value)


def up_to(value: float, increment: float) -> float:
    """The least multiple of `increment` that is not below a value; increment 0: the value.

    >>> up_to(10.1, 0.5), up_to(10.5 + 1e-9, 0.5), up_to(-0.7, 0.5)
    (10.5, 10.5, -0.5)
    """
    if increment <= 0:
        return value
    return math.ceil(value / increment - _SAME) * increment


def down_to(value: float, increment: float) -> float:
    """The greatest multiple of `increment` that is not above a value; increment 0: the value.

    >>> down_to(10.4, 0.5), down_to(-0.7, 0.5)
    (10.0, -1.0)
    """
    return -up_to(-value, increment)
