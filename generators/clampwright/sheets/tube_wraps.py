"""Paper strips to cut out and wrap round the tubes: they mark each clamp's station and clock at 1:1."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from clampwright.checks.finding import Finding
from clampwright.layout.joined import Joined
from clampwright.sheets.bars import STRIP, bars
from clampwright.sheets.drawing import Item, Page, Sheet, moved
from clampwright.sheets.flow import Block, Column, flow
from clampwright.sheets.paper import Paper, paper
from clampwright.sheets.print_check import PrintCheck, print_check
from clampwright.sheets.shelves import Spot, shelved
from clampwright.sheets.template_notes import print_words
from clampwright.sheets.title_block import Head, title_block
from clampwright.sheets.wrap_drawing import piece_items
from clampwright.sheets.wrap_notes import caption, note_blocks
from clampwright.sheets.wrap_strip import Piece, Strip, pieces, strips
from clampwright.trade.tables import rule

TITLE, NOTES = "TUBE WRAPS 1:1", "TUBE WRAPS: how to lay them"
STOP = "DO NOT INSTALL"
_APART, _GUTTER = 7.0, 6.0
_CAPTION_LEAST = 60.0
_CAPTION_MOST = 40.0
"""Height kept for a caption under the longest strip."""

_LEAST_COLUMN = 45.0


@dataclass(frozen=True, slots=True)
class _Cut:
    """A piece with its caption: items hang from (0, 0) downwards."""

    piece: Piece
    words: tuple[Block, ...]
    wide: float
    high: float


@dataclass(frozen=True, slots=True)
class _Work:
    layout: Joined
    findings: tuple[Finding, ...]
    check: PrintCheck
    paper: Paper

    def head(self, what: str, *, prints: bool) -> Head:
        words = print_words(self.check) if prints else None
        alarm = not self.check.verified
        return Head(what, self.layout, self.findings, self.paper.name, words, alarm, stop=STOP)

    @property
    def room(self) -> tuple[float, float]:
        """What bars and title block leave for the strips."""
        x0, y0, x1, y1 = self.paper.frame
        top = self.head(TITLE, prints=True).height()
        return x1 - x0 - STRIP - 2.0, y1 - y0 - top - STRIP - 3.0


def tube_wraps(layout: Joined, findings: tuple[Finding, ...], paper_name: str) -> Sheet:
    """The strips of a layout of any kind on a paper ("letter" or "a4"), with notes after them.

    Whatever is drawn is at 1:1 once printed: `recipe.template.prints` corrects a printer that is not.
    """
    check = print_check(layout.recipe.template.prints)
    work = _Work(layout, findings, check, paper(paper_name, check.stretch))
    wide, high = work.room
    made = strips(layout, high - _CAPTION_MOST)
    cuts = [_cut(piece, layout) for strip in made for piece in pieces(strip, wide)]
    spots = shelved([(cut.wide, cut.high) for cut in cuts], work.room, _APART)
    pages = _pages(work, made, cuts, spots)
    recipe = layout.recipe
    return Sheet(f"{recipe.name} {recipe.digest}", f"{recipe.name}: tube wraps 1:1", pages, True)


def _cut(piece: Piece, layout: Joined) -> _Cut:
    long = piece.end - piece.start + rule("wrap-tab").value
    wide = max(long, _CAPTION_LEAST)
    words = tuple(caption(piece, layout, wide))
    return _Cut(piece, words, wide, piece.strip.height_mm + 1.5 + sum(block.height for block in words))


def _pages(
    work: _Work, made: tuple[Strip, ...], cuts: list[_Cut], spots: tuple[Spot, ...]
) -> tuple[Page, ...]:
    held = 1 + max((spot.page for spot in spots), default=-1)
    drawn: dict[int, list[Item]] = {page: [] for page in range(held)}
    for cut, spot in zip(cuts, spots, strict=True):
        drawn[spot.page] += _placed(work, cut, spot)
    column = (work.room[0] - _GUTTER) / 2
    blocks = note_blocks(work.layout, made, work.findings, work.check, column)
    notes = flow(blocks, _columns(work, held, _used(cuts, spots, held - 1), column))
    count = max(held, 1 + max(notes, default=0))
    return tuple(
        _page(work, number, count, (*drawn.get(number, ()), *notes.get(number, ())), strips=number < held)
        for number in range(count)
    )


def _placed(work: _Work, cut: _Cut, spot: Spot) -> list[Item]:
    """A piece and its caption on the page."""
    x0, _, _, y1 = work.paper.frame
    x = x0 + STRIP + 2.0 + spot.x
    y = y1 - work.head(TITLE, prints=True).height() - 1.0 - spot.down
    low = y - cut.piece.strip.height_mm
    items = list(moved(piece_items(cut.piece, work.layout.recipe.units), (x, low)))
    y = low - 1.5
    for block in cut.words:
        items += moved(block.items, (x, y))
        y -= block.height
    return items


def _used(cuts: list[_Cut], spots: tuple[Spot, ...], page: int) -> float:
    """How far down the strips reach on a page."""
    return max((s.down + c.high for c, s in zip(cuts, spots, strict=True) if s.page == page), default=0.0)


def _columns(work: _Work, held: int, used: float, column: float) -> Iterator[Column]:
    """The room under the last strips if it is worth it, then pages of their own."""
    x0, y0, x1, y1 = work.paper.frame
    top = y1 - work.head(TITLE, prints=True).height() - 1.0 - used - _GUTTER
    bottom = y0 + STRIP + 1.0
    starts = (x0 + STRIP + 2.0, x1 - column)
    if held and top - bottom >= _LEAST_COLUMN:
        yield from (Column(held - 1, x, top, bottom) for x in starts)
    page = held
    while True:
        top = y1 - work.head(NOTES, prints=False).height() - 1.0
        yield from (Column(page, x, top, y0) for x in (x0, x1 - column))
        page += 1


def _page(work: _Work, number: int, count: int, items: tuple[Item, ...], *, strips: bool) -> Page:
    x0, y0, x1, y1 = work.paper.frame
    head = work.head(TITLE if strips else NOTES, prints=strips)
    block = title_block(head, work.paper.frame, number + 1, count)
    scale = bars((x0, y0), x1 - x0, y1 - head.height() - y0) if strips else ()
    size = work.paper.width_mm, work.paper.height_mm
    return Page(f"{head.what}, page {number + 1}", *size, (*block, *scale, *items), work.check.stretch)
