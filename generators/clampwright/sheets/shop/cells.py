"""Cells of a title block: a small label, and words that never leave the cell."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from clampwright.sheets.drawing import Box, Item, Pen, Text, box_path
from clampwright.sheets.ink import BLACK, GREY
from clampwright.sheets.lettering import CAPITAL, DESCENDER, first_lines, shortened, wrap

LABEL_MM = 1.9
LEAST_MM = 2.0
"""Smallest letters of a value."""
LEAD = 1.22
"""Distance of two lines, of the letter size."""
_AIR, _ABOVE = 1.0, 0.7
_UNDER_LABEL = 0.25
"""Least room between a label and the words under it."""
_STEP, _NOISE = 0.1, 1e-9


@dataclass(frozen=True, slots=True)
class Cell:
    """A box with a label at its upper left and lines of words below it."""

    box: Box
    label: str
    lines: tuple[str, ...] = ()
    size_mm: float = 2.9
    """Letters at most so large; smaller where the words need it."""
    bold: bool = False


def cell_items(cell: Cell, pen: Pen) -> tuple[Item, ...]:
    """Box, label and words of a cell.

    Words that do not fit in one line are wrapped, then set smaller, and cut short with "..." in the end.

    Examples
    --------
    >>> items = cell_items(Cell((0.0, 0.0, 20.0, 8.0), "Title", ("coil plate",)), Pen())
    >>> [item.text for item in items[1:]]
    ['Title', 'coil plate']
    """
    x0, y0, x1, y1 = cell.box
    room = x1 - x0 - 2 * _AIR
    items: list[Item] = [box_path(cell.box, pen)]
    top = y1 - _ABOVE
    if cell.label:
        base = top - LABEL_MM * CAPITAL
        items.append(Text((x0 + _AIR, base), shortened(cell.label, room, LABEL_MM), LABEL_MM, colour=GREY))
        top = base - LABEL_MM * DESCENDER - _UNDER_LABEL
    size, lines = fitted(cell.lines, room, top - y0 - _AIR / 2, cell.size_mm, cell.bold)
    base = top - size * CAPITAL - (top - y0 - _AIR / 2 - _height(len(lines), size)) / 2
    for number, line in enumerate(lines):
        at = (x0 + _AIR, base - number * LEAD * size)
        items.append(Text(at, line, size, bold=cell.bold, colour=BLACK))
    return tuple(items)


def is_whole(cell: Cell) -> bool:
    """Whether all words of a cell fit into it."""
    x0, y0, x1, y1 = cell.box
    room = x1 - x0 - 2 * _AIR
    label = LABEL_MM * (CAPITAL + DESCENDER) + _UNDER_LABEL if cell.label else 0.0
    high = y1 - _ABOVE - label - y0 - _AIR / 2
    most = _most(high, LEAST_MM)
    return len(first_lines(cell.lines, most + 1, room, LEAST_MM, cell.bold)) <= most


def fitted(
    texts: Sequence[str], room: float, high: float, size_mm: float, bold: bool = False
) -> tuple[float, tuple[str, ...]]:
    """The largest letters, no larger than asked for, at which the texts fit into a room, and their lines.

    Where even the smallest do not fit, the last line that does is cut short.

    Examples
    --------
    >>> fitted(["break sharp edges"], 14.0, 6.5, 2.9)
    (2.6, ('break sharp', 'edges'))
    """
    size = size_mm
    while True:
        most = _most(high, size)
        lines = first_lines(texts, most + 1, room, size, bold)
        if len(lines) <= most:
            return size, lines
        if size - _STEP < LEAST_MM - _NOISE:
            break
        size = round(size - _STEP, 3)
    whole = max(0, most - 1)
    left = [line for text in texts if text for line in wrap(text, room, size, bold)][whole:]
    return size, (*lines[:whole], shortened(" ".join(left), room, size, bold))


def _most(high: float, size: float) -> int:
    """How many lines of letters find room."""
    count = 0
    while _height(count + 1, size) <= high + _NOISE:
        count += 1
    return count


def _height(count: int, size: float) -> float:
    """Room that lines of letters take, ascender to descender."""
    return size * (CAPITAL + DESCENDER + LEAD * (count - 1)) if count else 0.0
