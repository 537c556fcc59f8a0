"""Ways to share a sheet between views and tables, and whether a part's tables fit."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from clampwright.sheets.drawing import Box, Item, Text
from clampwright.sheets.flow import Block, Column, flow
from clampwright.sheets.ink import BODY
from clampwright.sheets.shop.block import beside_block, block_box, free_box
from clampwright.sheets.shop.sizes import DrawingSheet

BlocksFor = Callable[[float], list[Block]]
"""The tables and notes for columns of a width."""

_AIR, _BETWEEN = 4.0, 6.0
_COLUMN, _WIDEST = 95.0, 125.0
"""Widths of a column: as many as have about the first, none wider than the second."""
_SHORT = 12
"""A table of no more rows is not broken where any arrangement has room for it whole."""
_STEPS = (40.0, 55.0, 70.0, 85.0, 100.0, 120.0)
"""Heights of a strip of tables above the title block of an upright sheet, mm: the least that does."""


@dataclass(frozen=True, slots=True)
class Share:
    """Room for the views, and the tables as they stand on the first sheet and on those after it."""

    views: Box
    tables: tuple[Item, ...]
    later: tuple[tuple[Item, ...], ...] = ()


def shares_of_one(sheet: DrawingSheet, stop: str, blocks_for: BlocksFor) -> Iterator[Share]:
    """Ways to have everything on one sheet; those that break no short table come first."""
    whole = [*_shares(sheet, stop, lambda room: _unbroken(blocks_for(room)))]
    yield from whole
    taken = [share.views for share in whole]
    yield from (share for share in _shares(sheet, stop, blocks_for) if share.views not in taken)


def _unbroken(blocks: Sequence[Block]) -> list[Block]:
    """The same with every short table in one piece."""
    rows = Counter(id(block.head) for block in blocks if block.head is not None)
    kept = list(blocks)
    for n, (block, after) in enumerate(pairwise(blocks)):
        if block.head is not None and block.head is after.head and rows[id(block.head)] <= _SHORT:
            kept[n] = replace(block, keep=True)
    return kept


def _shares(sheet: DrawingSheet, stop: str, blocks_for: BlocksFor) -> Iterator[Share]:
    free, beside, block = free_box(sheet, stop), beside_block(sheet), block_box(sheet)
    if beside is None:
        for high in _STEPS:
            strip = (free[0], free[1], free[2], free[1] + high)
            found = _filled(blocks_for, _columns(strip, 2))
            if found is not None:
                yield Share((free[0], strip[3] + _AIR, free[2], free[3]), found)
                return
        return
    right = (block[0] + _AIR, free[1], free[2], free[3])
    left_of = right[0] - _AIR
    low = _columns(beside, _count(beside[2] - beside[0]))
    tall = (free[0], beside[1], left_of, free[3])
    for columns, room in (
        (low, free),
        (_columns(right, 1), tall),
        (_columns(right, 2), tall),
        ([*_columns(right, 2), *low], (free[0], free[1], left_of, free[3])),
    ):
        found = _filled(blocks_for, columns)
        if found is not None:
            yield Share(room, found)


def share_of_more(sheet: DrawingSheet, stop: str, blocks_for: BlocksFor) -> Share:
    """Tables that begin beside the title block, where there is room, and go on on further sheets."""
    (x0, y0, x1, y1), beside = free_box(sheet, stop), beside_block(sheet)
    after = _columns((x0, y0, x1, y1), _count(x1 - x0))
    if beside is None:
        words, first = "Tables and notes: next sheet.", []
        at, views = (x0, y0 + 1.0), (x0, y0 + 7.0, x1, y1)
    else:
        words, views, at = "Continued on the next sheet.", (x0, y0, x1, y1), (beside[0], beside[1] + 1.0)
        first = _columns((beside[0], beside[1] + 6.0, beside[2], beside[3]), _count(beside[2] - beside[0]))
    wide = min(box[2] - box[0] for box in (*first, *after))
    endless = ((page, box) for page in range(1000) for box in (after if page else first))
    placed = flow(blocks_for(wide), (Column(page, box[0], box[3], box[1]) for page, box in endless))
    here = (*placed.pop(0, ()), Text(at, words, BODY, bold=True))
    return Share(views, here, tuple(placed[page] for page in sorted(placed)))


def _columns(box: Box, count: int) -> list[Box]:
    wide = min(_WIDEST, (box[2] - box[0] - (count - 1) * _BETWEEN) / count)
    lefts = [box[0] + n * (wide + _BETWEEN) for n in range(count)]
    return [(left, box[1], left + wide, box[3]) for left in lefts]


def _filled(blocks_for: BlocksFor, columns: Sequence[Box]) -> tuple[Item, ...] | None:
    """The tables in these columns; None where they do not fit."""
    wide = min(box[2] - box[0] for box in columns)
    try:
        placed = flow(blocks_for(wide), (Column(0, box[0], box[3], box[1]) for box in columns))
    except StopIteration:
        return None
    return placed.get(0, ())


def _count(wide: float) -> int:
    return max(2, int(wide // _COLUMN))
