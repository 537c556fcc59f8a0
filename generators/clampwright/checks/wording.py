"""Numbers in sentences: shown in the recipe's units, rounded to the safe side."""

from __future__ import annotations

import math
from collections.abc import Callable

from clampwright.layout.joined import Joined
from clampwright.quantities import length_mm, show_length, show_temperature

_EXACT = 1e-6  # of a step: rounding of the arithmetic
_STEP = {"mm": 0.01, "in": 0.001}  # what show_length shows last


def shown(mm: float, layout: Joined) -> str:
    """A length in the recipe's units."""
    return show_length(mm, layout.recipe.units)


def at_least(mm: float, layout: Joined) -> str:
    """A length rounded up to the last digit shown, so that doing what is shown is enough."""
    return _stepped(mm, math.ceil, -_EXACT, layout)


def at_most(mm: float, layout: Joined) -> str:
    """A length rounded down to the last digit shown."""
    return _stepped(mm, math.floor, _EXACT, layout)


def _stepped(mm: float, whole: Callable[[float], int], slack: float, layout: Joined) -> str:
    """A length in whole steps of what is shown; as it is where showing it loses nothing."""
    units = layout.recipe.units
    if abs(length_mm(shown(mm, layout)) - mm) <= _EXACT:
        return shown(mm, layout)
    step = length_mm(_STEP[units], units)
    return shown(whole(mm / step + slack) * step, layout)


def warm(celsius: float, layout: Joined) -> str:
    """A temperature in the scale that goes with the recipe's units."""
    return show_temperature(celsius, "degF" if layout.recipe.units == "in" else "degC")


def floor_2(value: float) -> str:
    """A bare number to two decimals, rounded down: 1.998 is not shown as 2.00.

    >>> floor_2(1.998), floor_2(2.0)
    ('1.99', '2.00')
    """
    return f"{math.floor(value * 100 + 1e-6) / 100:.2f}"
