"""Blocks of text and tables, filled into columns from the top."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from clampwright.sheets.drawing import Item, Text, box_path, moved
from clampwright.sheets.ink import ACCENT, BLACK, BODY, HEAD
from clampwright.sheets.lettering import wrap

LEADING = 1.28
"""Line spacing over letter size."""

_MOST_TURNS = 4
"""A block that fits none of so many columns is set down where it is."""


@dataclass(frozen=True, slots=True)
class Block:
    """Something that is never broken: its items hang from (0, 0), downwards, over `height` mm.

    `head` is repeated above it where it is the first of a later column; `keep` keeps it with the next, `turn`
    begins a new column.
    """

    height: float
    items: tuple[Item, ...] = ()
    head: Block | None = None
    keep: bool = False
    turn: bool = False


@dataclass(frozen=True, slots=True)
class Column:
    """Room for blocks: upper left corner, and where it ends."""

    page: int
    x: float
    top: float
    bottom: float


def flow(blocks: Sequence[Block], columns: Iterable[Column]) -> dict[int, tuple[Item, ...]]:
    """The blocks placed one under the other, by page; `columns` must not run out.

    Examples
    --------
    >>> line = Block(4.0, (Text((0.0, -3.0), "x"),))
    >>> placed = flow([line, line], (Column(page, 10.0, 50.0, 45.0) for page in range(9)))
    >>> [(page, items[0].at) for page, items in placed.items()]
    [(0, (10.0, 47.0)), (1, (10.0, 47.0))]
    """
    supply = iter(columns)
    column = next(supply)
    y = column.top
    placed: dict[int, list[Item]] = {}
    for unit in _units(blocks):
        if unit[0].turn:
            column = next(supply)
            y = column.top
        for _ in range(_MOST_TURNS):
            if sum(block.height for block in unit) <= y - column.bottom + 1e-9:
                break
            column = next(supply)
            y, unit = column.top, _under_its_head(unit)
        if y == column.top and not any(block.items for block in unit):
            continue
        for block in unit:
            placed.setdefault(column.page, []).extend(moved(block.items, (column.x, y)))
            y -= block.height
    return {page: tuple(items) for page, items in placed.items()}


def _under_its_head(unit: list[Block]) -> list[Block]:
    head = unit[0].head
    return unit if head is None else [head, *unit]


def _units(blocks: Sequence[Block]) -> Iterator[list[Block]]:
    """Runs of blocks that stay together."""
    unit: list[Block] = []
    for block in blocks:
        unit.append(block)
        if not block.keep:
            yield unit
            unit = []
    if unit:
        yield unit


def gap(height: float) -> Block:
    """Empty room."""
    return Block(height)


def heading(text: str, room: float, size_mm: float = HEAD, colour: str = BLACK) -> list[Block]:
    """A heading, kept with what follows."""
    lines = paragraph(text, room, size_mm, bold=True, colour=colour, after=1.0)
    return [replace(line, keep=True) for line in lines]


def paragraph(
    text: str,
    room: float,
    size_mm: float = BODY,
    *,
    bold: bool = False,
    colour: str = BLACK,
    indent: float = 0.0,
    after: float = 1.2,
) -> list[Block]:
    """A paragraph, a block a line; the first two and the last two lines stay together."""
    lines = wrap(text, room - indent, size_mm, bold)
    step = size_mm * LEADING
    blocks = []
    for number, line in enumerate(lines):
        item = Text((indent, -size_mm), line, size_mm, bold=bold, colour=colour)
        last = number == len(lines) - 1
        keep = not last and (number == 0 or number == len(lines) - 2)
        blocks.append(Block(step + (after if last else 0.0), (item,), keep=keep))
    return blocks


def ticked(text: str, room: float, size_mm: float = BODY, number: str = "") -> list[Block]:
    """A step with a box to tick before it."""
    side = size_mm * 1.15
    indent = side + 2.0 + (size_mm * 1.5 if number else 0.0)
    blocks = paragraph(text, room, size_mm, indent=indent, after=1.8)
    square = box_path((0.0, -size_mm * 1.1, side, side - size_mm * 1.1))
    label = (Text((side + 2.0, -size_mm), number, size_mm, bold=True),) if number else ()
    blocks[0] = replace(blocks[0], items=(square, *label, *blocks[0].items))
    return blocks


def warning(text: str, room: float, size_mm: float = BODY) -> list[Block]:
    """A paragraph in the accent colour, bold."""
    return paragraph(text, room, size_mm, bold=True, colour=ACCENT)
