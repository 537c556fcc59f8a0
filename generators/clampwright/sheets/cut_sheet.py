"""The bushing cut sheet: every made length at 1:1, stock and cut plan, which bushing goes where."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.checks.finding import Finding
from clampwright.layout.bushing_parts import BushingPart, CutList
from clampwright.layout.cut_long import as_sawn
from clampwright.layout.joined import Joined
from clampwright.sheets.bars import STRIP, bars
from clampwright.sheets.cut_notes import bushing_blocks, making_notes, print_notes
from clampwright.sheets.cut_plan import cut_plan, stock_blocks
from clampwright.sheets.drawing import Item, Page, Sheet
from clampwright.sheets.flow import Block, Column, flow, gap
from clampwright.sheets.gap_table import gap_table
from clampwright.sheets.paper import Paper, paper
from clampwright.sheets.print_check import print_check
from clampwright.sheets.template_notes import cautions, finding_notes, print_words
from clampwright.sheets.title_block import Head, title_block

TITLE = "BUSHING CUT SHEET 1:1"
STOP = "DO NOT MAKE"
_AIR = 1.5


def cut_sheet(layout: Joined, cuts: CutList, findings: tuple[Finding, ...], paper_name: str) -> Sheet:
    """The bushing cut sheet of a layout of any kind on a paper ("letter" or "a4").

    Drawn with the correction for the printer that `recipe.template.prints` gives, as the template is;
    every page has the bars to measure the print by.
    """
    check = print_check(layout.recipe.template.prints)
    page = paper(paper_name, check.stretch)
    parts = layout.bushings
    words = print_words(check)
    head = Head(TITLE, layout, findings, page.name, words, not check.verified, fact=_fact(parts), stop=STOP)
    x0, y0, x1, y1 = page.frame
    room = x1 - x0 - STRIP - _AIR
    top, bottom = y1 - head.height() - 1.0, y0 + STRIP + _AIR
    blocks = _blocks(layout, as_sawn(layout, cuts), findings, room, verified=check.verified)
    placed = flow(blocks, _columns(x0 + STRIP + _AIR, top, bottom))
    count = 1 + max([0, *placed])
    scale = bars((x0, y0), x1 - x0, top - y0)
    pages = tuple(
        _page(page, head, scale, placed.get(number, ()), number + 1, count, check.stretch)
        for number in range(count)
    )
    recipe = layout.recipe
    return Sheet(f"{recipe.name} {recipe.digest}", f"{recipe.name}: bushing cut sheet 1:1", pages, True)


def _fact(parts: tuple[BushingPart, ...]) -> tuple[str, str]:
    if not parts:
        return "bushings", "none"
    pieces, lengths = sum(part.quantity for part in parts), len(parts)
    stock = ", ".join(dict.fromkeys(part.material for part in parts))
    return "bushings", f"{pieces} to make, {lengths} length{'s' if lengths > 1 else ''}, {stock}"


def _blocks(
    layout: Joined,
    cuts: CutList,
    findings: tuple[Finding, ...],
    room: float,
    *,
    verified: bool,
) -> list[Block]:
    """Everything, in the order of work; `cuts` with every bushing as long as it is first cut."""
    units = layout.recipe.units
    return [
        *print_notes(verified=verified, room=room),
        gap(2.0),
        *bushing_blocks(layout, room),
        *gap_table(layout, room),
        *stock_blocks(cuts, units, room),
        *cut_plan(cuts, units, room),
        *making_notes(layout, room),
        *finding_notes(findings, room),
        *cautions(room, "cut"),
    ]


def _columns(x: float, top: float, bottom: float) -> Iterator[Column]:
    number = 0
    while True:
        yield Column(number, x, top, bottom)
        number += 1


def _page(
    page: Paper,
    head: Head,
    scale: tuple[Item, ...],
    items: tuple[Item, ...],
    number: int,
    count: int,
    stretch: tuple[float, float],
) -> Page:
    block = title_block(head, page.frame, number, count)
    title = f"{TITLE}, page {number}"
    return Page(title, page.width_mm, page.height_mm, (*block, *scale, *items), stretch)
