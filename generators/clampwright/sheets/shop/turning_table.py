"""The table of a turning sheet: one line a length group, under the stock that it is made from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from clampwright.layout.shop.told import ForWhich, TurnedGroup
from clampwright.quantities import show_mass
from clampwright.sheets.both_units import both
from clampwright.sheets.drawing import Item, Path, Pen, Text
from clampwright.sheets.flow import LEADING, Block
from clampwright.sheets.ink import GREY
from clampwright.sheets.lettering import width, wrap
from clampwright.sheets.shop.size_words import (
    OTHER,
    STOCK_SIZE,
    off_words,
    own_limits,
    size_words,
    toleranced,
)
from clampwright.trade.limits import Limits
from clampwright.trade.tables import rule

SIZE = 2.9
_PAD, _LEAST_LAST = 1.1, 26.0


@dataclass(frozen=True, slots=True)
class _Column:
    title: tuple[str, ...]
    right: bool = False
    bold: bool = False


def columns(units: str) -> tuple[_Column, ...]:
    """Headings: the drawing's unit first, the other in brackets under it."""
    other = f"{units} [{OTHER[units]}]"
    return (
        _Column(("No.",), bold=True),
        _Column(("Make", "each")),
        _Column(("Length L", other), bold=True),
        _Column(("Outside Ø", other)),
        _Column(("Bore Ø, datum A", other)),
        _Column(("Chamfers", f"x 45°, {units}")),
        _Column(("Faces", f"square, {units}")),
        _Column(("For: recipe, mark", "(pieces), clamps")),
    )


def turning_table(groups: Sequence[TurnedGroup], units: str, room: float, pen: Pen) -> list[Block]:
    """The table `room` mm wide, a block a line; headings are repeated on every page.

    The last column takes the room that the others leave, and its words are wrapped into it.
    """
    rows = [_cells(group, units) for group in groups]
    wide = _widths(columns(units), rows, room)
    head = _row([c.title for c in columns(units)], wide, pen, units, titles=True)
    head = Block(head.height, head.items, keep=True)
    blocks = [head]
    for stock in dict.fromkeys(group.stock for group in groups):
        held = [group for group in groups if group.stock == stock]
        blocks.append(_stock_line(stock, held, units, sum(wide), pen, head))
        for group in held:
            row = _row(_wrapped(_cells(group, units), wide[-1]), wide, pen, units)
            blocks.append(Block(row.height, row.items, head))
    return blocks


def stock_needed_mm(groups: Sequence[TurnedGroup]) -> float:
    """Length cut up of a longer bar: each piece with what is faced off, and the saw cut behind it."""
    pieces = sum(group.quantity for group in groups)
    faced = sum(group.quantity * (group.length_mm + rule("bushing-facing").value) for group in groups)
    return faced + rule("bushing-kerf-default").value * pieces


def chamfer_cell(group: TurnedGroup, units: str) -> str:
    """The chamfer with its limits."""
    return toleranced(group.chamfer_mm, own_limits(group.chamfer), units)


def which_words(which: ForWhich) -> str:
    """ "coil-plate S1 (4): A1, A2, B1, B2"."""
    where = f": {', '.join(which.where)}" if which.where else ""
    return f"{which.recipe} {which.mark} ({which.quantity}){where}"


def _cells(group: TurnedGroup, units: str) -> list[tuple[str, ...]]:
    """The cells of a group's line, each of some lines; the last not yet wrapped."""
    return [
        (group.number,),
        (str(group.quantity), show_mass(group.mass_each_kg, "g")),
        _both(group.length_mm, own_limits(group.length), units),
        (f"{size_words(group.od_mm, units)} {STOCK_SIZE}", f"[{size_words(group.od_mm, OTHER[units])}]")
        if group.od is None
        else _both(group.od_mm, group.od, units),
        _both(group.bore_mm, own_limits(group.bore), units),
        (chamfer_cell(group, units),),
        (off_words(group.square_mm, units),),
        tuple(which_words(each) for each in group.belongs),
    ]


def _both(mm: float, limits: Limits | None, units: str) -> tuple[str, str]:
    return toleranced(mm, limits, units), f"[{toleranced(mm, limits, OTHER[units])}]"


def _widths(heads: Sequence[_Column], rows: Sequence[list[tuple[str, ...]]], room: float) -> list[float]:
    """What each column needs; the last what is left of what it needs, and at least something."""
    found = []
    for number, head in enumerate(heads[:-1]):
        titles = max(width(line, SIZE, True) for line in head.title)
        cells = [width(line, SIZE, head.bold) for row in rows for line in row[number]]
        found.append(max([titles, *cells]) + 2 * _PAD)
    last = [heads[-1].title, *(row[-1] for row in rows)]
    wanted = max(width(line, SIZE, True) for lines in last for line in lines) + 2 * _PAD
    return [*found, max(min(room - sum(found), wanted), _LEAST_LAST)]


def _wrapped(cells: list[tuple[str, ...]], wide: float) -> list[tuple[str, ...]]:
    lines = tuple(line for text in cells[-1] for line in wrap(text, wide - 2 * _PAD, SIZE))
    return [*cells[:-1], lines]


def _row(
    cells: Sequence[tuple[str, ...]], wide: Sequence[float], pen: Pen, units: str, *, titles: bool = False
) -> Block:
    """Cells side by side, and the rule under them; lines in brackets are set in grey."""
    most = max(len(cell) for cell in cells)
    height = most * SIZE * LEADING + 2 * _PAD - SIZE * (LEADING - 1.0)
    items: list[Item] = []
    x = 0.0
    for column, cell, each in zip(columns(units), cells, wide, strict=True):
        for number, line in enumerate(cell):
            at = (x + _PAD, -_PAD - SIZE * (0.78 + LEADING * number))
            bold = titles or (column.bold and number == 0)
            colour = GREY if line.startswith("[") and not titles else "#000000"
            items.append(Text(at, line, SIZE, bold=bold, colour=colour))
        x += each
    return Block(height, (*items, Path(((0.0, -height), (x, -height)), pen)))


def _stock_line(
    stock: str, groups: Sequence[TurnedGroup], units: str, wide: float, pen: Pen, head: Block
) -> Block:
    """What the lines under it are made from, and how much of it: kept with the first of them."""
    pieces = sum(group.quantity for group in groups)
    needed = both(stock_needed_mm(groups), units)
    count = "1 piece" if pieces == 1 else f"{pieces} pieces"
    text = f"From {stock}: {count}, at least {needed} of it, a saw cut a piece and facing counted"
    lines = list(_lines(text, wide))
    height = len(lines) * SIZE * LEADING + 2 * _PAD - SIZE * (LEADING - 1.0)
    texts = tuple(
        Text((_PAD, -_PAD - SIZE * (0.78 + LEADING * n)), line, SIZE, bold=True)
        for n, line in enumerate(lines)
    )
    return Block(height, (*texts, Path(((0.0, -height), (wide, -height)), pen)), head, keep=True)


def _lines(text: str, wide: float) -> Iterator[str]:
    yield from wrap(text, wide - 2 * _PAD, SIZE, True)
