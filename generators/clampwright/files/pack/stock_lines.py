"""Bars and sheets to buy for the made parts of a bay."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from clampwright.files.pack.bay_cuts import BayCuts
from clampwright.layout.shop.told import FlatPart
from clampwright.nesting.nested import Nest, NestedSheet, Stock
from clampwright.nesting.stocks import sheet_words
from clampwright.sheets.both_units import both

BAR, SHEET = "bar stock", "sheet stock"


@dataclass(frozen=True, slots=True)
class StockLine:
    """A kind of bar or sheet: how many of which size, for which recipes."""

    kind: str
    stock: str
    what: str
    pieces: int
    recipes: tuple[str, ...]
    note: str


def bar_lines(cuts: Sequence[BayCuts], units: str) -> Iterator[StockLine]:
    """A line a stock of bars."""
    for each in cuts:
        bars = each.cuts.bars
        yield StockLine(
            BAR,
            each.stock,
            f"{both(bars[0].length_mm, units)} long",
            len(bars),
            each.recipes,
            f"at least {both(each.needed_mm, units)} of it, a saw cut a piece and facing counted; what the "
            "chuck holds on top; the shop may supply it",
        )


def sheet_lines(nest: Nest, units: str) -> Iterator[StockLine]:
    """A line a kind of sheet."""
    for stock in dict.fromkeys(sheet.stock for sheet in nest.sheets):
        sheets = [sheet for sheet in nest.sheets if sheet.stock == stock]
        longest = max(sheet.used_mm2 / stock.width_mm for sheet in sheets)
        yield StockLine(
            SHEET,
            f"{stock.material}, {both(stock.thickness_mm, units)}",
            f"{both(stock.width_mm, units)} x {both(stock.length_mm, units)}",
            len(sheets),
            _recipes(sheets),
            _enough(stock, longest, units),
        )


def blank_lines(parts: Sequence[FlatPart], nest: Nest | None, units: str) -> Iterator[StockLine]:
    """A blank for each copy of every part that lies on no nested sheet."""
    laid = {each.part.number for sheet in (nest.sheets if nest else ()) for each in sheet.laid}
    for part in parts:
        if part.number not in laid:
            x0, y0, x1, y1 = part.outline.box()
            rim = 2 * part.shop.edge_margin_mm
            yield StockLine(
                SHEET,
                f"{part.material.name}, {both(part.thickness_mm, units)}",
                f"{sheet_words((x1 - x0 + rim, y1 - y0 + rim), units, up=True)} or more",
                part.quantity,
                (part.recipe,),
                f"a blank for each {part.number}, which is not nested; the shop may supply it",
            )


def _recipes(sheets: Sequence[NestedSheet]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(laid.part.recipe for sheet in sheets for laid in sheet.laid))


def _enough(stock: Stock, longest_mm: float, units: str) -> str:
    piece = f"{both(stock.width_mm, units)} x {both(longest_mm, units)}"
    return f"a piece {piece} of each is enough; the shop may supply it"
