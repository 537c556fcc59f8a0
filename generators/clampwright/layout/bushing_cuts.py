"""Bushings cut from bars: pieces with what is left for facing, saw cuts between them, fewest bars."""

from __future__ import annotations

from collections.abc import Sequence

from clampwright.layout.bushing_parts import Bar, BushingPart, Cut, CutList
from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.increment import up_to
from clampwright.layout.packing import STEPS
from clampwright.quantities import show_length
from clampwright.trade.tables import rule

_SAME_MM = 1e-6


def cut_list(parts: Sequence[BushingPart], kerf_mm: float, bar_mm: float, units: str) -> CutList:
    """The bars to buy and what is cut from each.

    A piece is the finished length + `bushing-facing`, both ends together. n pieces need Σ pieces +
    (n - 1)·kerf of a bar, and n·kerf where anything of it is left over. The fewest bars are found
    exactly for up to `bushing-pieces-exact` pieces of a stock, else the longest pieces are set first,
    each into the first bar with room.

    Parameters
    ----------
    parts
        Every one from the stock that its `stock` names.
    kerf_mm, bar_mm
        Width of the saw cut, and length in which the stock is bought.
    units
        "mm" or "in", of the figures in a refusal.

    Raises
    ------
    CannotLayOut
        A piece is longer than the bar.
    """
    bars: list[Bar] = []
    needed: list[tuple[str, float]] = []
    for stock in dict.fromkeys(part.stock for part in parts):
        cuts = _pieces([part for part in parts if part.stock == stock])
        _must_fit(cuts, bar_mm, stock, units)
        packed = [_bar(stock, own, kerf_mm, bar_mm) for own in _packed(cuts, kerf_mm, bar_mm)]
        bars += packed
        needed.append((stock, sum(used_mm(bar.cuts, kerf_mm) for bar in packed)))
    return CutList(tuple(bars), tuple(needed))


def used_mm(cuts: Sequence[Cut], kerf_mm: float) -> float:
    """Least length of a bar that gives these pieces: the last one is what remains of it.

    Examples
    --------
    >>> used_mm([Cut("S1", 20.5), Cut("S1", 20.5), Cut("S2", 30.0)], 1.5)
    74.0
    """
    return sum(cut.length_mm for cut in cuts) + kerf_mm * max(0, len(cuts) - 1)


def _pieces(parts: Sequence[BushingPart]) -> list[Cut]:
    """Every piece, the longest first."""
    facing = rule("bushing-facing").value
    cuts = [Cut(part.mark, part.length_mm + facing) for part in parts for _ in range(part.quantity)]
    return sorted(cuts, key=lambda cut: -cut.length_mm)


def _must_fit(cuts: Sequence[Cut], bar_mm: float, stock: str, units: str) -> None:
    if cuts and cuts[0].length_mm > bar_mm + _SAME_MM:
        longest, bar = show_length(cuts[0].length_mm, units), show_length(bar_mm, units)
        raise CannotLayOut(
            f"bushing {cuts[0].mark} is cut {longest} long with what is left for facing, and bars of {stock} "
            f"are {bar}",
            f"set bushings.stock_length = {enough(cuts[0].length_mm, units)} or more, or bring what is held "
            "nearer to the tubes",
        )


def enough(least_mm: float, units: str) -> str:
    """The next round length that is not below a least one.

    Examples
    --------
    >>> enough(180.42, "mm"), enough(25.4001 * 0.5, "in")
    ('180.50 mm', '0.505 in')
    """
    return show_length(up_to(least_mm, rule(f"bushing-step-{STEPS[units]}").value), units)


def _bar(stock: str, cuts: tuple[Cut, ...], kerf_mm: float, bar_mm: float) -> Bar:
    left = max(0.0, bar_mm - used_mm(cuts, kerf_mm) - kerf_mm)
    return Bar(stock, bar_mm, kerf_mm, cuts, left)


def _fits(cuts: Sequence[Cut], kerf_mm: float, bar_mm: float) -> bool:
    return used_mm(cuts, kerf_mm) <= bar_mm + _SAME_MM


def _packed(cuts: Sequence[Cut], kerf_mm: float, bar_mm: float) -> list[tuple[Cut, ...]]:
    """The pieces by bar: first fit, longest first, and the exact answer where the pieces are few."""
    bars = _first_fit(cuts, kerf_mm, bar_mm)
    if len(cuts) <= int(rule("bushing-pieces-exact").value):
        for count in range(1, len(bars)):
            found = _into(count, cuts, kerf_mm, bar_mm, ((),) * count)
            if found is not None:
                return found
    return bars


def _first_fit(cuts: Sequence[Cut], kerf_mm: float, bar_mm: float) -> list[tuple[Cut, ...]]:
    bars: list[tuple[Cut, ...]] = []
    for cut in cuts:
        at = next((n for n, bar in enumerate(bars) if _fits((*bar, cut), kerf_mm, bar_mm)), None)
        if at is None:
            bars.append((cut,))
        else:
            bars[at] = (*bars[at], cut)
    return bars


def _into(
    count: int, cuts: Sequence[Cut], kerf_mm: float, bar_mm: float, bars: tuple[tuple[Cut, ...], ...]
) -> list[tuple[Cut, ...]] | None:
    """The pieces in exactly so many bars, or None; equal bars are tried once."""
    if not cuts:
        return list(bars)
    for n, bar in enumerate(bars):
        longer = (*bar, cuts[0])
        if bar not in bars[:n] and _fits(longer, kerf_mm, bar_mm):
            found = _into(count, cuts[1:], kerf_mm, bar_mm, (*bars[:n], longer, *bars[n + 1 :]))
            if found is not None:
                return found
    return None
