"""Lengths in the recipe's unit with the other behind it, for whoever has the other calipers."""

from __future__ import annotations

from clampwright.quantities import show_length


def both(mm: float, units: str) -> str:
    """A length in both units, the recipe's first.

    Examples
    --------
    >>> both(12.7, "in"), both(12.7, "mm")
    ('0.500 in (12.70 mm)', '12.70 mm (0.500 in)')
    """
    other = "in" if units == "mm" else "mm"
    return f"{show_length(mm, units)} ({show_length(mm, other)})"
