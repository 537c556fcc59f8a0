"""Things to be written into by hand: lines with a name, tables with empty boxes, paper for a sketch."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from clampwright.sheets.drawing import Item, Path, Pen, Text, box_path
from clampwright.sheets.flow import LEADING, Block
from clampwright.sheets.ink import BODY, GREY, PALE, SMALL
from clampwright.sheets.lettering import width, wrap

ROW = 8.0
"""Height of a row that a person writes into, mm."""

_PAD, _RULE, _THIN = 1.0, Pen(0.25), Pen(0.13, GREY)
_BAR, _UNIT = 5.5, 4.0
Kind = Literal["text", "tick", "length", "degrees"]


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table to fill in: title, width against the others, and what goes into empty cells."""

    title: str
    share: float
    kind: Kind = "text"


def form_table(
    columns: Sequence[Column],
    rows: Sequence[Sequence[str]],
    room: float,
    units: str = "",
    high: float = ROW,
) -> list[Block]:
    """A table with boxes round its cells; an empty cell is to be written into, a "-" stays empty.

    An empty length in inches has a bar for the fraction, in mm only its unit; "" draws neither.

    >>> head, row = form_table([Column("tube", 2.0), Column("OD", 1.0, "length")], [["left", ""]], 60.0, "mm")
    >>> [item.text for item in row.items if isinstance(item, Text)], row.height
    (['left', 'mm'], 8.0)
    """
    total = sum(column.share for column in columns)
    widths = [room * column.share / total for column in columns]
    head = Block(*_head(columns, widths), keep=True)
    body = [_row(columns, widths, row, units, high) for row in rows]
    return [head, *(Block(h, items, head, keep=number == 0) for number, (h, items) in enumerate(body))]


def empty(count: int, columns: Sequence[Column]) -> list[list[str]]:
    """So many rows with nothing in them."""
    return [[""] * len(columns) for _ in range(count)]


def lines_to_fill(names: Sequence[tuple[str, float]], room: float) -> Block:
    """Names side by side, each with a line after it; the second number is a share of the room.

    >>> lines_to_fill([("who", 1.0), ("date", 1.0)], 100.0).items[1].points
    ((5.63, -6.2), (47.0, -6.2))
    """
    total, x = sum(share for _, share in names), 0.0
    items: list[Item] = []
    for name, share in names:
        wide = room * share / total
        items.append(Text((x, -6.0), name, SMALL, colour=GREY))
        start = round(x + width(name, SMALL) + 1.5, 2)
        items.append(Path(((start, -6.2), (round(x + wide - 3.0, 2), -6.2)), _THIN))
        x += wide
    return Block(ROW, tuple(items))


def choices(name: str, words: Sequence[str], x: float = 0.0) -> tuple[Item, ...]:
    """A name and words with a box to tick before each, in a row of `lines_to_fill` from x on."""
    items: list[Item] = [Text((x, -6.0), name, SMALL, colour=GREY)]
    x += width(name, SMALL) + 2.0
    for word in words:
        items += [box_path((x, -6.4, x + 2.6, -3.8)), Text((x + 3.6, -6.0), word, SMALL)]
        x += 3.6 + width(word, SMALL) + 4.0
    return tuple(items)


def sketch_paper(room: float, high: float, step: float = 5.0) -> Block:
    """A grid to sketch on, framed."""
    wide = int(room / step) * step
    rows = int(high / step)
    items: list[Item] = [
        Path(((n * step, -1.0), (n * step, -1.0 - rows * step)), Pen(0.1, PALE))
        for n in range(int(wide / step))
    ]
    items += [Path(((0.0, -1.0 - n * step), (wide, -1.0 - n * step)), Pen(0.1, PALE)) for n in range(rows)]
    return Block(2.0 + rows * step, (*items, box_path((0.0, -1.0 - rows * step, wide, -1.0), _THIN)))


def _head(columns: Sequence[Column], widths: Sequence[float]) -> tuple[float, tuple[Item, ...]]:
    lines = [wrap(c.title, w - 2 * _PAD, SMALL, True) for c, w in zip(columns, widths, strict=True)]
    high = max(len(each) for each in lines) * SMALL * LEADING + 1.4
    items: list[Item] = []
    x = 0.0
    for said, wide in zip(lines, widths, strict=True):
        low = -high + 1.2 + (len(said) - 1) * SMALL * LEADING
        items += [
            Text((x + _PAD, low - n * SMALL * LEADING), line, SMALL, bold=True)
            for n, line in enumerate(said)
            if line
        ]
        x += wide
    return high, (*items, Path(((0.0, -high), (x, -high)), _RULE))


def _row(
    columns: Sequence[Column], widths: Sequence[float], cells: Sequence[str], units: str, least: float
) -> tuple[float, tuple[Item, ...]]:
    said = [wrap(cell, wide - 2 * _PAD, BODY) for cell, wide in zip(cells, widths, strict=True)]
    high = max(least, max(len(lines) for lines in said) * BODY * LEADING + 1.6)
    items: list[Item] = [Path(((0.0, -high), (sum(widths), -high)), _THIN)]
    x = 0.0
    for column, wide, cell, lines in zip(columns, widths, cells, said, strict=True):
        items.append(Path(((x, 0.0), (x, -high)), _THIN))
        if column.kind == "tick":
            items += _tick(x, wide, high)
        elif not cell:
            items += _to_write(column.kind, x, wide, high, units)
        elif cell != "-":
            items += _said(lines, x, high)
        x += wide
    return high, (*items, Path(((x, 0.0), (x, -high)), _THIN))


def _tick(x: float, wide: float, high: float) -> Iterator[Item]:
    side = min(4.0, wide - 2 * _PAD)
    left, low = x + (wide - side) / 2, -(high + side) / 2
    yield box_path((left, low, left + side, low + side))


def _said(lines: Sequence[str], x: float, high: float) -> Iterator[Item]:
    top = -(high - len(lines) * BODY * LEADING) / 2
    for number, line in enumerate(lines):
        yield Text((x + _PAD, top - BODY * (0.92 + LEADING * number)), line, BODY)


def _to_write(kind: Kind, x: float, wide: float, high: float, units: str) -> Iterator[Item]:
    if kind == "degrees":
        yield Text((x + wide - _PAD, -high / 2 - 0.9), "°", BODY, "right", colour=GREY)
    if kind != "length" or not units:
        return
    yield Text((x + wide - _PAD, -high / 2 - 0.9), units, SMALL, "right", colour=GREY)
    if units == "in" and wide > 2 * _BAR + _UNIT:
        right = x + wide - _PAD - _UNIT
        yield Path(((right - _BAR, -high / 2), (right, -high / 2)), _THIN)
