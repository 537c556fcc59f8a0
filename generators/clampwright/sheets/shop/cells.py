"""Cells of a title block: a small label, and words that never leave the cell."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from clampwright.sheets.drawing import Box, Item, Pen, Text, box_path
from clampwright.sheets.ink import BLACK, GREY
from clampwright.sheets.lettering import shortened, wrap

LABEL_MM = 1.9
LEAST_MM = 2.0
"""Smallest letters of a value."""
LEAD = 1.22
"""Distance of two lines, of the letter size."""
_AIR, _ABOVE = 1.0, 0.7
_ASCENT, _DESCENT = 0.73, 0.21
_STEP = 0.1


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
        base = top - LABEL_MM * _ASCENT
        items.append(Text((x0 + _AIR, base), shortened(cell.label, room, LABEL_MM), LABEL_MM, colour=GREY))
        top = base - LABEL_MM * _DESCENT
    size, lines = fitted(cell.lines, room, top - y0 - _AIR / 2, cell.size_mm, cell.bold)
    base = top - size * _ASCENT - (top - y0 - _AIR / 2 - _height(len(lines), size)) / 2
    for number, line in enumerate(lines):
        at = (x0 + _AIR, base - number * LEAD * size)
        items.append(Text(at, line, size, bold=cell.bold, colour=BLACK))
    return tuple(items)


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
        lines = [line for text in texts if text for line in wrap(text, room, size, bold)]
        if _height(len(lines), size) <= high + 1e-9:
            return size, tuple(lines)
        if size - _STEP < LEAST_MM - 1e-9:
            break
        size = round(size - _STEP, 3)
    most = max(1, int((high / size - _ASCENT - _DESCENT) / LEAD + 1e-9) + 1)
    return size, (*lines[: most - 1], shortened(" ".join(lines[most - 1 :]), room, size, bold))


def _height(count: int, size: float) -> float:
    """Room that lines of letters take, ascender to descender."""
    return size * (_ASCENT + _DESCENT + LEAD * (count - 1)) if count else 0.0
