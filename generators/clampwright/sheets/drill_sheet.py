"""The drill sheet for a garage: bench steps with ticks, bits and speeds, fit-up plan, stacks, findings."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.checks.finding import Finding
from clampwright.layout.placed import PlateLayout
from clampwright.sheets.drawing import Item, Page, Sheet
from clampwright.sheets.drill_steps import bit_blocks, step_blocks
from clampwright.sheets.fit_up_sheet import fit_up_blocks, stack_blocks
from clampwright.sheets.flow import Block, Column, flow, gap, heading, paragraph
from clampwright.sheets.ink import SMALL
from clampwright.sheets.paper import Paper, paper
from clampwright.sheets.template_notes import cautions, finding_notes
from clampwright.sheets.title_block import Head, title_block

BENCH, FIT_UP = "DRILL SHEET: bench", "DRILL SHEET: fit-up"
_GUTTER = 8.0


def drill_sheet(layout: PlateLayout, findings: tuple[Finding, ...], paper_name: str) -> Sheet:
    """The drill sheet on a paper ("letter" or "a4"): bench first, the engine mount on its own pages."""
    page = paper(paper_name)
    head = Head("", layout, findings, page.name)
    wide = page.frame[2] - page.frame[0]
    column = (wide - _GUTTER) / 2
    bench = flow(_bench(layout, findings, column), _columns(page, head, (0.0, column + _GUTTER)))
    fit_up = flow(_fit_up(layout, wide), _columns(page, head, (0.0,)))
    parts = [(BENCH, items) for items in _in_order(bench)] + [(FIT_UP, items) for items in _in_order(fit_up)]
    pages = tuple(
        _page(page, Head(what, layout, findings, page.name), items, number, len(parts))
        for number, (what, items) in enumerate(parts, 1)
    )
    name = layout.recipe.name
    return Sheet(f"{name} {layout.recipe.digest}", f"{name}: drill sheet", pages, False)


def _bench(layout: PlateLayout, findings: tuple[Finding, ...], room: float) -> list[Block]:
    return [
        *step_blocks(layout, room),
        gap(3.0),
        *bit_blocks(layout, room),
        Block(0.0, turn=True),
        *finding_notes(findings, room),
        *_assumed(layout, room),
        *cautions(room),
    ]


def _fit_up(layout: PlateLayout, room: float) -> list[Block]:
    return [*fit_up_blocks(layout, room), *stack_blocks(layout, room)]


def _assumed(layout: PlateLayout, room: float) -> list[Block]:
    """What nobody gave and the recipe's reader or the layout filled in."""
    assumed = dict((*layout.recipe.assumed, *layout.assumed))
    if not assumed:
        return []
    blocks = heading("Assumed: the recipe does not say", room)
    for what, value in assumed.items():
        blocks += paragraph(f"{what}: {value}", room, SMALL, after=0.6)
    return [*blocks, gap(3.0)]


def _columns(page: Paper, head: Head, starts: tuple[float, ...]) -> Iterator[Column]:
    x0, y0, _, y1 = page.frame
    number = 0
    while True:
        for start in starts:
            yield Column(number, x0 + start, y1 - head.height() - 1.0, y0)
        number += 1


def _in_order(items: dict[int, tuple[Item, ...]]) -> list[tuple[Item, ...]]:
    return [items.get(number, ()) for number in range(1 + max(items, default=-1))]


def _page(page: Paper, head: Head, items: tuple[Item, ...], number: int, count: int) -> Page:
    block = title_block(head, page.frame, number, count)
    return Page(f"{head.what}, page {number}", page.width_mm, page.height_mm, (*block, *items))
