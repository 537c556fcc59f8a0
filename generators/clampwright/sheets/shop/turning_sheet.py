"""The turning sheet: bushings and spacers for a lathe, a drawing of each shape and a line a length group."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from clampwright.checks.finding import Finding
from clampwright.layout.shop.told import TurnedGroup
from clampwright.recipe.model import Shop
from clampwright.sheets.drawing import Box, Dimension, Item, Page, Sheet
from clampwright.sheets.flow import Column, flow, gap
from clampwright.sheets.shelves import shelved
from clampwright.sheets.shop.block import Block, beside_block, block_items, free_box, has_room
from clampwright.sheets.shop.block_words import NO_FINISH, tolerance_words
from clampwright.sheets.shop.border import border_items
from clampwright.sheets.shop.cell_or_note import cell_or_note
from clampwright.sheets.shop.size_words import OTHER
from clampwright.sheets.shop.sizes import DrawingSheet, sheets_of
from clampwright.sheets.shop.turning_figure import (
    LEAST_HIGH,
    TurnedFigure,
    TurnedViews,
    drawn_of,
    shapes,
    turned_figure,
)
from clampwright.sheets.shop.turning_notes import materials, note_texts, turning_notes
from clampwright.sheets.shop.turning_table import turning_table
from clampwright.sheets.shop.view_items import thin_pen
from clampwright.sheets.verdict import counts, failing, in_short

_NAMES = {"mm": "MILLIMETRES", "in": "INCHES"}
_APART, _UNDER = 10.0, 6.0
"""Between two drawings, and between the drawings and the table."""
_HIGHEST = (48.0, 34.0, 24.0)
"""Largest outside diameter on the page: tried one after the other while it takes more than one page."""
_SHEETS = 2
"""Of the sheets that there are, how many of the smallest it may stand on: more is for a plotter."""


@dataclass(frozen=True, slots=True)
class TurningHead:
    """What the title block says of the turned parts of a recipe or a bay."""

    number: str
    """Drawing and file name: "coil-plate-turning"."""
    about: str
    digest: str
    units: str
    """"mm" or "in": what is said first."""


@dataclass(frozen=True, slots=True)
class _Laid:
    """Everything placed on sheets of one size, by page."""

    sheet: DrawingSheet
    items: Mapping[int, tuple[Item, ...]]
    dimensions: Mapping[int, tuple[Dimension, ...]]
    figures: tuple[TurnedFigure, ...]

    @property
    def pages(self) -> int:
        """How many there are."""
        return 1 + max([0, *self.items])

    @property
    def cost(self) -> tuple[bool, int, float]:
        """What makes one worse than another: parts too small to see, then pages, then paper."""
        small = any(figure.drawn.od_mm * figure.scale < LEAST_HIGH for figure in self.figures)
        return small, self.pages, self.sheet.width_mm * self.sheet.height_mm


def turning_sheet(
    groups: Sequence[TurnedGroup],
    shop: Shop,
    head: TurningHead,
    findings: tuple[Finding, ...],
    views: Mapping[str, TurnedViews],
) -> Sheet:
    """The turning sheet of some groups on the smallest sheet that takes them on the fewest pages.

    Parameters
    ----------
    groups
        As `layout.shop.turned.turned` gives them; at least one.
    shop
        Whose sheets, projection and tolerances hold.
    head
        For the title block.
    findings
        Where one fails, every page says DO NOT MAKE.
    views
        Of the group that `drawn_of` names for each of the `shapes`, by its number.
    """
    stop = in_short(failing(findings))
    laid = _best(groups, shop, head, stop, views)
    block = _block(groups, shop, head, findings, laid)
    pages = tuple(_page(laid, replace(block, sheet=number + 1), number) for number in range(laid.pages))
    return Sheet(f"{head.number} {head.digest}", f"{head.number}: bushings and spacers to turn", pages, False)


def _best(
    groups: Sequence[TurnedGroup],
    shop: Shop,
    head: TurningHead,
    stop: str,
    views: Mapping[str, TurnedViews],
) -> _Laid:
    """The first on one page, the largest drawings on the smallest sheet first; else the one of least cost."""
    tried: list[_Laid] = []
    for sheet in sheets_of(shop)[:_SHEETS]:
        for most_high in _HIGHEST:
            tried.append(_laid(sheet, groups, shop, head, stop, views, most_high))
            if tried[-1].pages == 1 and not tried[-1].cost[0]:
                return tried[-1]
    return min(tried, key=lambda each: each.cost)


def _laid(
    sheet: DrawingSheet,
    groups: Sequence[TurnedGroup],
    shop: Shop,
    head: TurningHead,
    stop: str,
    views: Mapping[str, TurnedViews],
    most_high: float,
) -> _Laid:
    box = free_box(sheet, stop)
    room = (box[2] - box[0], box[3] - box[1])
    figures = tuple(
        turned_figure(shape, views[drawn_of(shape).number], head.units, sheet, room, most_high)
        for shape in shapes(groups)
    )
    spots = shelved([(figure.wide, figure.high) for figure in figures], room, _APART)
    items: dict[int, tuple[Item, ...]] = {}
    dimensions: dict[int, tuple[Dimension, ...]] = {}
    for figure, spot in zip(figures, spots, strict=True):
        drawn, told = figure.at((box[0] + spot.x, box[3] - spot.down))
        items[spot.page] = (*items.get(spot.page, ()), *drawn)
        dimensions[spot.page] = (*dimensions.get(spot.page, ()), *told)
    last = spots[-1].page
    used = max(s.down + f.high for s, f in zip(spots, figures, strict=True) if s.page == last)
    beside = beside_block(sheet)
    wide = room[0] if beside is None else (room[0] - _APART) / 2
    blocks = turning_table(groups, head.units, wide, thin_pen(sheet))
    placed: list[dict[int, tuple[Item, ...]]] = []
    if beside is None:
        blocks += [gap(_UNDER), *turning_notes(groups, shop, head.units, room[0])]
    else:
        notes = turning_notes(groups, shop, head.units, beside[2] - beside[0])
        placed.append(flow(notes, _columns(beside, last, beside[3], beside[2] - beside[0])))
    placed.append(flow(blocks, _columns(box, last, box[3] - used - _UNDER, wide)))
    for each in placed:
        for page, more in each.items():
            items[page] = (*items.get(page, ()), *more)
    return _Laid(sheet, items, dimensions, figures)


def _columns(box: Box, page: int, top: float, wide: float) -> Iterator[Column]:
    """Columns side by side in the room under the drawings, then in the whole of page after page."""
    lefts = [box[0]] if box[2] - box[0] < 2 * wide else [box[0], box[2] - wide]
    yield from (Column(page, x, top, box[1]) for x in lefts)
    while True:
        page += 1
        yield from (Column(page, x, box[3], box[1]) for x in lefts)


def _block(
    groups: Sequence[TurnedGroup],
    shop: Shop,
    head: TurningHead,
    findings: tuple[Finding, ...],
    laid: _Laid,
) -> Block:
    scales = list(dict.fromkeys(figure.scale_said for figure in laid.figures))
    told = tuple(note_texts(groups, shop, head.units))
    stocks = list(dict.fromkeys(group.stock.removesuffix(f", {group.material}") for group in groups))
    pieces = sum(group.quantity for group in groups)
    return Block(
        number=head.number,
        title="Bushings and spacers",
        about=head.about,
        document="turning sheet",
        revision=head.digest,
        scale=scales[0] if len(scales) == 1 else "as shown",
        units=f"ALL SIZES IN {_NAMES[head.units]} [{_NAMES[OTHER[head.units]]} IN BRACKETS]",
        tolerances=tolerance_words(shop, head.units),
        material=_material(groups, told),
        stock=stocks[0] if len(stocks) == 1 and has_room("stock", stocks[0]) else "see table",
        finish=cell_or_note("finish", shop.finish or NO_FINISH, told),
        edge_break="chamfered as drawn",
        quantity=f"{pieces} in {len(groups)} groups" if len(groups) > 1 else str(pieces),
        mass="see table",
        projection=shop.projection,
        checks=counts(findings),
        sheets=laid.pages,
        stop=in_short(failing(findings)),
    )


def _material(groups: Sequence[TurnedGroup], notes: Sequence[str]) -> str:
    """The one material, or which notes have what they are."""
    found = list(materials(groups))
    if len(found) == 1:
        return cell_or_note("material", found[0], notes)
    numbers = [n for n, note in enumerate(notes, 1) if any(said in note for said in found)]
    return f"see notes {numbers[0]} to {numbers[-1]}"


def _page(laid: _Laid, block: Block, number: int) -> Page:
    sheet = laid.sheet
    items = (*border_items(sheet), *block_items(block, sheet), *laid.items.get(number, ()))
    title = f"{block.number}, sheet {number + 1}"
    told = laid.dimensions.get(number, ())
    return Page(title, sheet.width_mm, sheet.height_mm, items, dimensions=told)
