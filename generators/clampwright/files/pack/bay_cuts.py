"""Bars cut for the turned parts of a whole bay, and the cut list of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from clampwright.files.bar_rows import bar_row, length_cells, stock_row
from clampwright.files.csv_text import csv_bytes, mm, stands
from clampwright.files.pack.bay import Bay, Job
from clampwright.files.written import Written
from clampwright.layout.bushing_cuts import cut_list
from clampwright.layout.bushing_parts import Bar, BushingPart, CutList
from clampwright.layout.cut_long import as_marked
from clampwright.layout.increment import up_to
from clampwright.layout.placed import PlateLayout
from clampwright.layout.plate_bushings import plate_cuts
from clampwright.layout.shop.told import TurnedGroup
from clampwright.trade.tables import rule

NAME = "cut-list.csv"
COLUMNS = (
    *("line", "mark", "quantity", "material", "make", "stock"),
    *("length_mm", "length_in", "under_mm", "over_mm", "cut_length_mm"),
    *("od_mm", "id_mm", "id_under_mm", "id_over_mm", "chamfer_mm", "square_mm"),
    *("for", "trim", "mass_each_g", "kerf_mm", "needed_mm", "left_mm", "cuts", "check"),
)


@dataclass(frozen=True, slots=True)
class BayCuts:
    """Bars of one stock, and the recipes whose pieces are cut from them."""

    stock: str
    cuts: CutList
    groups: tuple[TurnedGroup, ...]

    @property
    def needed_mm(self) -> float:
        """Length cut up: pieces with their facing, and a saw cut behind each where anything remains."""
        return sum(bar.length_mm - bar.left_mm for bar in self.cuts.bars)

    @property
    def recipes(self) -> tuple[str, ...]:
        """In the order of the groups."""
        return tuple(dict.fromkeys(each.recipe for group in self.groups for each in group.belongs))


def bay_cuts(bay: Bay, groups: Sequence[TurnedGroup]) -> tuple[BayCuts, ...]:
    """The bars of each stock, with the pieces of all recipes merged.

    Where recipes differ the wider saw cut and the longer bar of theirs stand; a bar is as many usual lengths
    long as its longest piece asks for.
    """
    stocks = dict.fromkeys(group.stock for group in groups)
    return tuple(_of_stock(stock, bay, [g for g in groups if g.stock == stock]) for stock in stocks)


def _of_stock(stock: str, bay: Bay, groups: list[TurnedGroup]) -> BayCuts:
    own = [bar for job in bay.jobs for bar in _bars(job) if bar.stock == stock]
    kerf, usual = max(bar.kerf_mm for bar in own), max(bar.length_mm for bar in own)
    pieces = [_piece(group, bay) for group in groups]
    longest = max(piece.length_mm for piece in pieces) + rule("bushing-facing").value
    cuts = cut_list(pieces, kerf, max(usual, up_to(longest, usual)), bay.units)
    return BayCuts(stock, cuts, tuple(groups))


def _bars(job: Job) -> tuple[Bar, ...]:
    layout = job.layout
    return plate_cuts(layout).bars if isinstance(layout, PlateLayout) else layout.cuts.bars


def _piece(group: TurnedGroup, bay: Bay) -> BushingPart:
    """A group as a part to be cut: one of its own bushings, as long and as many as the group."""
    first = group.belongs[0]
    job = next(job for job in bay.jobs if job.recipe.name == first.recipe)
    part = next(part for part in as_marked(job.layout) if part.mark == first.mark)
    return replace(
        part, mark=group.number, length_mm=group.length_mm, quantity=group.quantity, stock=group.stock
    )


def bay_cut_list(bay: Bay, cuts: Sequence[BayCuts]) -> Written:
    """Every group with its sizes and whose it is, stock to buy, and each bar with its cuts in order."""
    failing = {job.recipe.name for job in bay.failing}
    rows = [row for each in cuts for row in _rows(each, failing)]
    about = "Bushings and spacers of all recipes, the bars that they are cut from, and the cuts of each bar"
    return Written(NAME, csv_bytes(COLUMNS, rows), about)


def _rows(each: BayCuts, failing: set[str]) -> Iterator[dict[str, str]]:
    for group in each.groups:
        yield _group(group) | {"check": _stands([own.recipe for own in group.belongs], failing)}
    check = {"check": _stands(each.recipes, failing)}
    yield stock_row(each.stock, each.cuts.bars, each.needed_mm) | check
    for number, bar in enumerate(each.cuts.bars, 1):
        yield bar_row(number, bar) | check


def _stands(recipes: Sequence[str], failing: set[str]) -> str:
    return stands(any(recipe in failing for recipe in recipes))


def _group(group: TurnedGroup) -> dict[str, str]:
    return {
        "line": "piece",
        "mark": group.number,
        "quantity": str(group.quantity),
        "material": group.material,
        "make": group.make,
        "stock": group.stock,
        **length_cells(group.length_mm),
        "under_mm": mm(group.length.under_mm),
        "over_mm": mm(group.length.over_mm),
        "cut_length_mm": mm(group.length_mm + rule("bushing-facing").value),
        "od_mm": mm(group.od_mm),
        "id_mm": mm(group.bore_mm),
        "id_under_mm": mm(group.bore.under_mm),
        "id_over_mm": mm(group.bore.over_mm),
        "chamfer_mm": mm(group.chamfer_mm),
        "square_mm": mm(group.square_mm),
        "for": "; ".join(f"{o.recipe} {o.mark}: {o.quantity} at {' '.join(o.where)}" for o in group.belongs),
        "trim": group.trim,
        "mass_each_g": f"{group.mass_each_kg * 1e3:.2f}",
    }
