"""Sizes and limits as a turning sheet prints them: in the drawing's unit, the other one behind."""

from __future__ import annotations

from clampwright.layout.shop.told import Limits
from clampwright.quantities import fixed, length_mm, show_length
from clampwright.sheets.figures import distance
from clampwright.trade.general_tolerances import WHY

STOCK_SIZE = "as supplied"
"""Behind an outside diameter that is left as the tube or rod comes, with no machining and no limits."""
OTHER = {"mm": "in", "in": "mm"}
_PLACES = {"mm": 2, "in": 3}
_SHARE = 0.05
"""Largest part of a tolerance that may go by rounding; one more decimal where more would."""


def own_limits(limits: Limits | None) -> Limits | None:
    """Limits that a size is told for itself; None where the general tolerance holds."""
    return None if limits is None or limits.why == WHY else limits


def size_words(mm: float, units: str) -> str:
    """A size without its unit.

    Examples
    --------
    >>> size_words(13.2, "mm"), size_words(12.7, "in"), size_words(5.0165, "in")
    ('13.20', '0.500', '0.1975')
    """
    return show_length(mm, units).removesuffix(units).strip()


def limit_words(limits: Limits | None, units: str) -> str:
    """Limits behind a size; nothing where there are none of its own.

    Examples
    --------
    >>> even, odd = Limits(0.1, 0.1, "", "assumed"), Limits(0.0, 0.15, "", "assumed")
    >>> limit_words(even, "mm"), limit_words(odd, "in")
    ('±0.10', '+0.006 0')
    """
    return "" if limits is None else _limits(limits, units, _PLACES[units])


def _limits(limits: Limits, units: str, least: int) -> str:
    """With as many decimals for both as the one needs that needs more."""
    places = max(least, _most_places(limits, units))
    under, over = _off(limits.under_mm, units, places), _off(limits.over_mm, units, places)
    if abs(limits.under_mm - limits.over_mm) < 1e-9:
        return f"±{over}"
    return f"{_signed('+', over)} {_signed('-', under)}"


def toleranced(mm: float, limits: Limits | None, units: str) -> str:
    """A size with its limits, all with the same decimals; without limits as every other length is printed.

    Examples
    --------
    >>> toleranced(4.3053, Limits(0.1016, 0.0, "", "assumed"), "in"), toleranced(223.8375, None, "in")
    ('0.1695 0 -0.0040', '8.813')
    >>> toleranced(13.2, Limits(0.1, 0.1, "", "assumed"), "mm")
    '13.20 ±0.10'
    >>> toleranced(5.0165, Limits(0.1159, 0.3095, "", "assumed"), "in")
    '0.1975 +0.0122 -0.0046'
    """
    if limits is None:
        return distance(mm, units)
    places = max(len(size_words(mm, units).partition(".")[2]), _most_places(limits, units))
    return f"{fixed(mm / length_mm(1.0, units), places)} {_limits(limits, units, places)}"


def off_words(mm: float, units: str) -> str:
    """How much a size may be off, rounded as long as that takes little of it away.

    >>> off_words(0.1, "in"), off_words(0.05, "in"), off_words(0.0, "mm")
    ('0.004', '0.002', '0')
    """
    return _off(mm, units, _places(mm, units))


def _most_places(limits: Limits, units: str) -> int:
    return max(_places(each, units) for each in (limits.under_mm, limits.over_mm))


def _places(mm: float, units: str) -> int:
    value, places = mm / length_mm(1.0, units), _PLACES[units]
    while abs(round(value, places) - value) > _SHARE * value and places < _PLACES[units] + 2:
        places += 1
    return places


def _off(mm: float, units: str, places: int) -> str:
    value = mm / length_mm(1.0, units)
    return "0" if value < 1e-9 else fixed(value, places)


def _signed(sign: str, words: str) -> str:
    return words if words == "0" else sign + words
