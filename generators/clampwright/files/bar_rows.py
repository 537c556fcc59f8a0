"""Lines of a cut list that a recipe's own and a bay's have alike: stock to buy, and the cuts of each bar."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from clampwright.files.csv_text import mm
from clampwright.layout.bushing_parts import Bar
from clampwright.quantities.kinds import INCH


def stock_row(stock: str, bars: Sequence[Bar], needed_mm: float) -> dict[str, str]:
    """How many bars of a stock to buy, and how much of their length is needed."""
    first = bars[0]
    return {
        "line": "stock",
        "quantity": str(len(bars)),
        "stock": stock,
        **length_cells(first.length_mm),
        "kerf_mm": mm(first.kerf_mm),
        "needed_mm": mm(needed_mm),
    }


def bar_row(number: int, bar: Bar) -> dict[str, str]:
    """A bar with its pieces in order; those that follow one another alike are counted."""
    runs = ((cut, len(list(same))) for cut, same in groupby(bar.cuts))
    return {
        "line": "bar",
        "mark": f"bar {number}",
        "quantity": str(len(bar.cuts)),
        "stock": bar.stock,
        **length_cells(bar.length_mm),
        "left_mm": mm(bar.left_mm),
        "kerf_mm": mm(bar.kerf_mm),
        "cuts": "; ".join(f"{count} x {cut.mark} at {mm(cut.length_mm)}" for cut, count in runs),
    }


def length_cells(length_mm: float) -> dict[str, str]:
    """A length in millimetres and in inches.

    >>> length_cells(25.4)
    {'length_mm': '25.400', 'length_in': '1.0000'}
    """
    return {"length_mm": mm(length_mm), "length_in": f"{length_mm / float(INCH):.4f}"}
