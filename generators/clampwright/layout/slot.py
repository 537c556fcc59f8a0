"""Slots and oversize holes under a large washer: how long, and what a washer covers."""

from __future__ import annotations

from clampwright.layout.increment import up_to
from clampwright.trade.hardware import Washer, washer
from clampwright.trade.tables import rule


def opening_mm(diameter_mm: float, lacking_mm: float) -> float:
    """Length of a slot, or diameter of an oversize hole, that makes up for lacking clearance.

    The bolt may stand `lacking` further to either side than the hole allows: L = D + 2·lacking, rounded
    up to `slot-step`.

    Examples
    --------
    >>> round(opening_mm(5.0, 1.83), 3)
    8.7
    """
    return up_to(diameter_mm + 2 * lacking_mm, rule("slot-step").value)


def covered_mm(large: Washer, diameter_mm: float) -> float:
    """Longest slot, or largest oversize hole, that a large washer covers wherever in it the bolt stands.

    With the bolt at one end, the far rim is L − D/2 away; the washer reaches OD/2 and is to lie on at
    least `slot-cover-least` beyond the rim: L = OD/2 + D/2 − cover.

    Examples
    --------
    An AN970-3 of 7/8 in over a 5 mm slot: 11.1125 + 2.5 - 1.5.

    >>> from clampwright.trade.hardware import washer
    >>> large = washer("AN3", "large")
    >>> large is not None and round(covered_mm(large, 5.0), 4)
    12.1125
    """
    return large.od_mm / 2 + diameter_mm / 2 - rule("slot-cover-least").value


def large_washer(fastener: str) -> Washer | None:
    """The large washer of a bolt or screw size, or None.

    Examples
    --------
    >>> found = large_washer("AN4")
    >>> found is not None and found.part
    'AN970-4'
    """
    try:
        return washer(fastener, "large")
    except LookupError:
        return None


def cover(fastener: str, diameter_mm: float, length_mm: float) -> Washer | None:
    """The large washer where it covers an opening of this length, else None.

    Examples
    --------
    >>> cover("AN3", 5.0, 30.0) is None
    True
    """
    large = large_washer(fastener)
    return large if large is not None and length_mm <= covered_mm(large, diameter_mm) else None
