"""Pictures of nested sheets for the shop: a page a stock sheet, with its parts and how full it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from clampwright.nesting.nested import Nest, NestedSheet
from clampwright.quantities import Vec2
from clampwright.recipe.model import Shop
from clampwright.sheets.both_units import both
from clampwright.sheets.drawing import Box, Item, Page, Sheet, moved
from clampwright.sheets.flow import Column, flow
from clampwright.sheets.shop.block import Block, beside_block, block_items, free_box
from clampwright.sheets.shop.block_words import units_words
from clampwright.sheets.shop.border import border_items
from clampwright.sheets.shop.nest_drawing import SheetDrawn, sheet_drawn
from clampwright.sheets.shop.nest_notes import left_out_blocks, nest_notes
from clampwright.sheets.shop.sizes import DrawingSheet, sheets_of
from clampwright.structure.wording import counted

_COLUMN_MM = 68.0
"""Least width of the words beside the picture."""
_APART_MM = 6.0
_UPPER = 0.6
"""Share of the page's height for a picture that has its words under it."""
_SHEETS = 2
"""Of the drawing sheets that there are, how many of the smallest it may stand on."""
_LARGE = 8
"""A picture is large enough where so many millimetres of the sheet or fewer are one on the page."""
_ON_DRAWINGS = "as on the part drawings"


@dataclass(frozen=True, slots=True)
class NestHead:
    """What the title block says of a nest."""

    number: str
    """Drawing and file name: "left-bay-nest"."""
    about: str
    digest: str
    """Revision: of the recipe, or of the bay."""
    units: str
    """"mm" or "in": what is said first."""
    checks: str = ""
    """What the checks found: counts of verdicts."""
    stop: str = ""
    """Codes and places of failing checks; where there are any every page says DO NOT MAKE."""


@dataclass(frozen=True, slots=True)
class _Laid:
    """One stock sheet on its page, and words that go on to further pages."""

    sheet: DrawingSheet
    drawn: SheetDrawn
    pages: tuple[tuple[Item, ...], ...]

    @property
    def cost(self) -> tuple[int, bool, int, float, int]:
        """What makes one worse than another: pages, too small, parts without a mark, paper, scale."""
        area, per = self.sheet.width_mm * self.sheet.height_mm, self.drawn.per
        return len(self.pages), per > _LARGE, len(self.drawn.unmarked), area, per


def nest_sheet(nest: Nest, shop: Shop, head: NestHead) -> Sheet:
    """A page for each stock sheet; where nothing was laid, one that says what was left out.

    Parameters
    ----------
    nest : Nest
        The sheets.
    shop : Shop
        Whose drawing sheets and angle of projection hold.
    head : NestHead
        For the title block.
    """
    laid = [_best(nest, each, shop, head) for each in nest.sheets]
    total = sum(len(each.pages) for each in laid)
    pages: list[Page] = []
    for sheet, each in zip(nest.sheets, laid, strict=True):
        block = replace(_block(sheet, shop, head, each.drawn), sheets=total)
        for items in each.pages:
            pages.append(_page(each.sheet, items, replace(block, sheet=len(pages) + 1)))
    if not pages:
        pages = [_nothing(nest, shop, head)]
    title = f"{head.number}: flat parts on {counted(len(nest.sheets), 'stock sheet')}"
    return Sheet(f"{head.number} {head.digest}", title, tuple(pages), False)


def marks_of(nest: Nest) -> dict[str, str]:
    """What each part is marked with in the pictures: 1, 2 ... by part number."""
    numbers = sorted({laid.part.number for sheet in nest.sheets for laid in sheet.laid})
    return {number: str(mark) for mark, number in enumerate(numbers, 1)}


def _best(nest: Nest, sheet: NestedSheet, shop: Shop, head: NestHead) -> _Laid:
    """On the drawing sheet of least cost, its words beside the picture or under it."""
    tried = [
        _laid(nest, sheet, on, head, under=under)
        for on in sheets_of(shop)[:_SHEETS]
        for under in (False, True)
    ]
    return min(tried, key=lambda each: each.cost)


def _laid(nest: Nest, sheet: NestedSheet, on: DrawingSheet, head: NestHead, *, under: bool) -> _Laid:
    x0, y0, x1, y1 = box = free_box(on, head.stop)
    marks = marks_of(nest)
    room: Vec2 = (x1 - x0, _UPPER * (y1 - y0)) if under else (x1 - x0 - _COLUMN_MM - _APART_MM, y1 - y0)
    drawn = sheet_drawn(sheet, marks, room, head.units)
    words: Box = (
        (x0, y0, x1, y1 - drawn.high - _APART_MM) if under else (x0 + drawn.wide + _APART_MM, y0, x1, y1)
    )
    count = max(1, int((words[2] - words[0] + _APART_MM) / (_COLUMN_MM + _APART_MM)))
    wide = (words[2] - words[0] + _APART_MM) / count - _APART_MM
    blocks = nest_notes(nest, sheet, marks, head.units, drawn.unmarked, wide)
    texts = flow(blocks, _columns(on, words, box, wide))
    picture = moved(drawn.items, (x0, y1 - drawn.high))
    pages = [texts.get(number, ()) for number in range(max(texts) + 1)]
    return _Laid(on, drawn, tuple((*picture, *page) if n == 0 else page for n, page in enumerate(pages)))


def _columns(on: DrawingSheet, words: Box, box: Box, wide: float) -> Iterator[Column]:
    """Beside the picture or under it; left of the title block; then further pages."""
    yield from (Column(0, x, words[3], words[1]) for x in _lefts(words[0], words[2], wide))
    beside = beside_block(on)
    if beside is not None:
        yield from (Column(0, x, beside[3], beside[1]) for x in _lefts(beside[0], beside[2], wide))
    page = 0
    while True:
        page += 1
        yield from (Column(page, x, box[3], box[1]) for x in _lefts(box[0], box[2], wide))


def _lefts(left: float, right: float, wide: float) -> list[float]:
    count = int((right - left + _APART_MM) / (wide + _APART_MM) + 1e-9)
    return [left + k * (wide + _APART_MM) for k in range(count)]


def _block(sheet: NestedSheet, shop: Shop, head: NestHead, drawn: SheetDrawn) -> Block:
    return replace(
        _empty_block(shop, head),
        scale=f"1:{drawn.per}",
        material=sheet.stock.material,
        stock=f"sheet {both(sheet.stock.thickness_mm, head.units)}",
        quantity=counted(len(sheet.laid), "piece"),
    )


def _empty_block(shop: Shop, head: NestHead) -> Block:
    return Block(
        number=head.number,
        title="Flat parts on stock sheets",
        about=head.about,
        document="nest",
        revision=head.digest,
        scale="-",
        units=units_words(head.units),
        tolerances=(_ON_DRAWINGS,),
        material="-",
        stock="-",
        finish=_ON_DRAWINGS,
        edge_break=_ON_DRAWINGS,
        quantity="0",
        mass="see drawings",
        projection=shop.projection,
        checks=head.checks or "see drawings",
        stop=head.stop,
    )


def _nothing(nest: Nest, shop: Shop, head: NestHead) -> Page:
    on = sheets_of(shop)[0]
    box = free_box(on, head.stop)
    blocks = left_out_blocks(nest, box[2] - box[0])
    texts = flow(blocks, _columns(on, box, box, box[2] - box[0])) if blocks else {}
    return _page(on, texts.get(0, ()), _empty_block(shop, head))


def _page(on: DrawingSheet, items: Sequence[Item], block: Block) -> Page:
    drawn = (*border_items(on), *block_items(block, on), *items)
    return Page(f"{block.number}, sheet {block.sheet}", on.width_mm, on.height_mm, drawn)
