"""A sheet of notes in parts: each part begins a page of its own and flows in its own columns."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from clampwright.layout.joined import Joined
from clampwright.sheets.drawing import Item, Page
from clampwright.sheets.flow import Block, Column, flow, gap, heading, paragraph
from clampwright.sheets.ink import SMALL
from clampwright.sheets.paper import Paper
from clampwright.sheets.title_block import Head, title_block

GUTTER = 8.0
"""Between two columns, mm."""


@dataclass(frozen=True, slots=True)
class Part:
    """One part: the words in its title block, and what flows on its pages in so many columns."""

    what: str
    blocks: Sequence[Block]
    columns: int


def column_width(page: Paper, columns: int) -> float:
    """Width of one of so many equal columns, mm."""
    return (page.frame[2] - page.frame[0] - (columns - 1) * GUTTER) / columns


def in_parts(page: Paper, head_of: Callable[[str], Head], parts: Sequence[Part]) -> tuple[Page, ...]:
    """The pages of all parts, numbered through; `head_of` makes a part's title block from its words."""
    made = [(head_of(part.what), items) for part in parts for items in _flowed(page, head_of, part)]
    return tuple(
        Page(
            f"{head.what}, page {number}",
            page.width_mm,
            page.height_mm,
            (*title_block(head, page.frame, number, len(made)), *items),
        )
        for number, (head, items) in enumerate(made, 1)
    )


def assumed_blocks(layout: Joined, room: float) -> list[Block]:
    """What nobody gave and the recipe's reader or the layout filled in."""
    assumed = dict((*layout.recipe.assumed, *layout.assumed))
    if not assumed:
        return []
    blocks = heading("Assumed: the recipe does not say", room)
    for what, value in assumed.items():
        blocks += paragraph(f"{what}: {value}", room, SMALL, after=0.6)
    return [*blocks, gap(3.0)]


def _flowed(page: Paper, head_of: Callable[[str], Head], part: Part) -> list[tuple[Item, ...]]:
    items = flow(part.blocks, _columns(page, head_of(""), part.columns))
    return [items.get(number, ()) for number in range(1 + max(items, default=-1))]


def _columns(page: Paper, head: Head, count: int) -> Iterator[Column]:
    x0, y0, _, y1 = page.frame
    step, number = column_width(page, count) + GUTTER, 0
    while True:
        for column in range(count):
            yield Column(number, x0 + column * step, y1 - head.height() - 1.0, y0)
        number += 1
