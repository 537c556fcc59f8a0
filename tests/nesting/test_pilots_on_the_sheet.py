"""Holes on a nested sheet: pilots only where the hole is transferred."""

from __future__ import annotations

import pytest
from nesting.cut_parts import part

from clampwright.layout.outlines import rounded_rectangle
from clampwright.layout.shop.told import ToldHole
from clampwright.nesting.nest import nest
from clampwright.nesting.on_sheet import holes_on_sheet


@pytest.mark.parametrize(
    ("pilot", "transferred", "cut_mm"),
    [("#40", True, 0.098 * 25.4), ("#40", False, 4.8514), ("", True, 4.8514), ("", False, 4.8514)],
)
def test_only_a_transferred_hole_with_a_pilot_is_cut_as_one(
    pilot: str, transferred: bool, cut_mm: float
) -> None:
    """Drill #40 is .0980 in: ASME B94.11M."""
    hole = ToldHole("A1", (20.0, 20.0), 4.8514, "AN3", "clamp", "#11", pilot, transferred=transferred)
    plate = part("plate", rounded_rectangle((0, 0, 60, 40), 5), holes=(hole,), stock_sheet_mm=(300.0, 300.0))
    (laid,) = nest([plate]).sheets[0].laid
    ((_, diameter),) = holes_on_sheet(laid)
    assert diameter == pytest.approx(cut_mm)
