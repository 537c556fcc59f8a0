"""The installation sheet: each clamp's place, each bolt's stack, the order of work, what to inspect later."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.checks.finding import Finding
from clampwright.checks.not_judged import NOT_JUDGED
from clampwright.layout.joined import Joined
from clampwright.layout.order_of_work import order
from clampwright.sheets.choices import choice_blocks
from clampwright.sheets.drawing import Item, Page, Sheet
from clampwright.sheets.flow import Block, Column, flow, gap, heading, paragraph, ticked
from clampwright.sheets.ink import SMALL
from clampwright.sheets.joint_panel import joint_panels
from clampwright.sheets.next_mechanic import inspection_blocks
from clampwright.sheets.paper import Paper, paper
from clampwright.sheets.scene import scene_blocks
from clampwright.sheets.template_notes import finding_notes
from clampwright.sheets.title_block import Head, title_block
from clampwright.sheets.verdict import CAUTIONS
from clampwright.sheets.where_on_tube import COUNTED

CLAMPS, NOTES = "INSTALLATION: clamps and bolts", "INSTALLATION: order of work, inspection"
STOP = "DO NOT INSTALL"
_GUTTER = 8.0


def installation_sheet(layout: Joined, findings: tuple[Finding, ...], paper_name: str) -> Sheet:
    """The installation sheet on a paper ("letter" or "a4"), of a layout of any kind."""
    page = paper(paper_name)
    head = Head("", layout, findings, page.name, stop=STOP)
    wide = page.frame[2] - page.frame[0]
    column = (wide - _GUTTER) / 2
    clamps = flow(_clamps(layout, wide), _columns(page, head, (0.0,)))
    notes = flow(_notes(layout, findings, column), _columns(page, head, (0.0, column + _GUTTER)))
    parts = [(CLAMPS, items) for items in _in_order(clamps)] + [(NOTES, items) for items in _in_order(notes)]
    pages = tuple(
        _page(page, Head(what, layout, findings, page.name, stop=STOP), items, number, len(parts))
        for number, (what, items) in enumerate(parts, 1)
    )
    name = layout.recipe.name
    return Sheet(f"{name} {layout.recipe.digest}", f"{name}: installation", pages, False)


def _clamps(layout: Joined, room: float) -> list[Block]:
    return [
        *paragraph(COUNTED, room, SMALL, after=2.0),
        *scene_blocks(layout, room),
        *joint_panels(layout, room),
        *choice_blocks(layout, room),
    ]


def _notes(layout: Joined, findings: tuple[Finding, ...], room: float) -> list[Block]:
    return [
        *_order(layout, room),
        *inspection_blocks(layout, room),
        *finding_notes(findings, room),
        *_assumed(layout, room),
        *_cautions(room),
    ]


def _order(layout: Joined, room: float) -> list[Block]:
    steps = order(layout)
    blocks = heading("Order of assembly", room) if steps else []
    for number, text in enumerate(steps, 1):
        blocks += ticked(text, room, number=str(number))
    return [*blocks, gap(3.0)]


def _assumed(layout: Joined, room: float) -> list[Block]:
    """What nobody gave and the recipe's reader or the layout filled in."""
    assumed = dict((*layout.recipe.assumed, *layout.assumed))
    if not assumed:
        return []
    blocks = heading("Assumed: the recipe does not say", room)
    for what, value in assumed.items():
        blocks += paragraph(f"{what}: {value}", room, SMALL, after=0.6)
    return [*blocks, gap(3.0)]


def _cautions(room: float) -> list[Block]:
    blocks = heading("Before you install", room)
    for text in (*CAUTIONS, NOT_JUDGED):
        blocks += paragraph(text, room, SMALL)
    return blocks


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
