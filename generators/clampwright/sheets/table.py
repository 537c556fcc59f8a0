"""Tables whose cells fit: widths from the texts, long cells wrapped, the heading repeated."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from clampwright.sheets.drawing import Item, Path, Pen, Text
from clampwright.sheets.flow import LEADING, Block
from clampwright.sheets.ink import BODY, PALE
from clampwright.sheets.lettering import width, wrap

_PAD = 1.0
_HEAD_PEN = Pen(0.25)
_ROW_PEN = Pen(0.13, PALE)


@dataclass(frozen=True, slots=True)
class Heading:
    """A column: its title, where its cells stand, and whether it may be made narrower by wrapping."""

    title: str
    anchor: Literal["left", "right", "middle"] = "left"
    wraps: bool = False
    bold: bool = False


def table(
    headings: Sequence[Heading], rows: Sequence[Sequence[str]], room: float, size_mm: float = BODY
) -> list[Block]:
    """A table `room` mm wide, a block a row; the first two rows and the last two stay together.

    Examples
    --------
    >>> blocks = table([Heading("hole"), Heading("x", "right")], [["A1", "12.50"]], 40.0)
    >>> [item.text for item in blocks[1].items if isinstance(item, Text)]
    ['A1', '12.50']
    """
    widths = _widths(headings, rows, room, size_mm)
    titles = [heading.title for heading in headings]
    head = _row(headings, titles, widths, size_mm, titles=True)
    head = Block(head.height, head.items, keep=True)
    body = [_row(headings, row, widths, size_mm, titles=False) for row in rows]
    last = len(body) - 1
    pairs = {0, last - 1} if last >= 2 else set()
    return [head, *(Block(row.height, row.items, head, n in pairs) for n, row in enumerate(body))]


def _widths(
    headings: Sequence[Heading], rows: Sequence[Sequence[str]], room: float, size: float
) -> list[float]:
    natural = []
    for number, heading in enumerate(headings):
        words = [width(word, size, True) for word in heading.title.split()] or [0.0]
        cells = [width(row[number], size, heading.bold) for row in rows]
        natural.append(max([*words, *cells]) + 2 * _PAD)
    spare = room - sum(natural)
    if spare >= 0:
        return [wide + spare / len(natural) for wide in natural]
    wrapping = [heading.wraps for heading in headings]
    fixed = sum(wide for wide, soft in zip(natural, wrapping, strict=True) if not soft)
    if not any(wrapping) or fixed > 0.8 * room:
        return _shared(natural, room)
    soft = iter(_shared([w for w, s in zip(natural, wrapping, strict=True) if s], room - fixed))
    return [next(soft) if s else w for w, s in zip(natural, wrapping, strict=True)]


def _shared(natural: list[float], room: float) -> list[float]:
    """Room shared out: the narrow get what they need, the wide the same share each."""
    widths = [0.0] * len(natural)
    left, waiting = room, sorted(range(len(natural)), key=lambda n: natural[n])
    while waiting:
        n = waiting.pop(0)
        widths[n] = min(natural[n], left / (len(waiting) + 1))
        left -= widths[n]
    return widths


def _row(
    headings: Sequence[Heading], cells: Sequence[str], widths: Sequence[float], size: float, *, titles: bool
) -> Block:
    items: list[Item] = []
    x, most = 0.0, 1
    for heading, cell, wide in zip(headings, cells, widths, strict=True):
        bold = titles or heading.bold
        lines = wrap(cell, wide - 2 * _PAD + 1e-6, size, bold)
        shift = {"left": _PAD, "middle": wide / 2, "right": wide - _PAD}[heading.anchor]
        items += [
            Text((x + shift, -_PAD * 0.6 - size * (0.8 + LEADING * n)), line, size, heading.anchor, bold=bold)
            for n, line in enumerate(lines)
            if line
        ]
        most = max(most, len(lines))
        x += wide
    height = most * size * LEADING + _PAD
    rule = Path(((0.0, -height), (x, -height)), _HEAD_PEN if titles else _ROW_PEN)
    return Block(height, (*items, rule))
