"""Units and decimal points that slipped in all of somebody's figures: most are off by one factor."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from clampwright.quantities import length_mm
from clampwright.quantities.kinds import INCH
from clampwright.recipe.faults import Fault, listed
from clampwright.recipe.measured_cells import Cell
from clampwright.recipe.written import quoted
from clampwright.trade.tables import rule

_UNITS = {"mm": "millimetres", "in": "inches", "cm": "centimetres"}
_OTHER = {
    ("in", float(INCH)): "mm",
    ("mm", 1 / float(INCH)): "in",
    ("mm", 0.1): "cm",
    ("cm", 10.0): "mm",
    ("cm", 1 / float(INCH)): "in",
}
"""Unit that figures were most likely read in, by the one they stand for and their factor."""


@dataclass(frozen=True, slots=True)
class Size:
    """A figure that was read, and what it should come to."""

    file: str
    cell: Cell
    thing: str
    """Label of the hole, or mark."""
    column: str
    about: str
    value_mm: float
    drawn_mm: float
    units: str
    """Of a bare number in its cell."""

    @property
    def key(self) -> str:
        """As faults name it."""
        return f"{self.thing}.{self.column}" if self.column in ("x", "y", "diameter") else self.thing


def factor(value_mm: float, drawn_mm: float) -> float | None:
    """25.4 or 10, or one by that, where a value is just so many times what is drawn; else None.

    Examples
    --------
    >>> factor(123.1, 12.3), factor(12.5, 12.3)
    (10.0, None)
    """
    if not drawn_mm or abs(value_mm - drawn_mm) < rule("made-slip-least").value:
        return None
    ratio, share = value_mm / drawn_mm, rule("made-slip-share").value
    times = (float(INCH), 10.0, 1 / float(INCH), 0.1)
    return next((each for each in times if abs(ratio / each - 1) <= share), None)


def times_too(times: float) -> str:
    """A factor in words.

    >>> times_too(25.4), times_too(0.1)
    ('25.4 times too large', '10 times too small')
    """
    return f"{times:g} times too large" if times > 1 else f"{1 / times:g} times too small"


def slips(sizes: Sequence[Size], heading: Sequence[tuple[str, Cell]] = ()) -> Iterator[Fault]:
    """Faults of figures most of which are off by one factor; none where x and y exchanged explain it.

    Parameters
    ----------
    sizes
        All that were read.
    heading
        Name and cell of each column, where there is one that can be changed.
    """
    exchanged = _exchanged(sizes)
    off = [None if each.thing in exchanged else factor(each.value_mm, each.drawn_mm) for each in sizes]
    counted = Counter(each for each in off if each is not None)
    if not counted:
        return
    ((times, many),) = counted.most_common(1)
    if 2 * many <= len(sizes):
        return
    wrong = [size for size, found in zip(sizes, off, strict=True) if found == times]
    if heading and many >= rule("made-slip-figures").value:
        yield _of_all(wrong, times, len(sizes), heading)
    else:
        yield from (_of_one(size, times) for size in wrong)


def _exchanged(sizes: Sequence[Size]) -> set[str]:
    """Holes whose x comes to their y as drawn, and the other way round."""
    near = rule("made-slip-least").value
    x = {size.thing: size for size in sizes if size.column == "x"}
    y = {size.thing: size for size in sizes if size.column == "y"}
    return {
        each
        for each in x.keys() & y.keys()
        if max(abs(x[each].value_mm - y[each].drawn_mm), abs(y[each].value_mm - x[each].drawn_mm)) <= near
    }


def _of_one(size: Size, times: float) -> Fault:
    other = _OTHER.get((size.units, times))
    hint = "is the decimal point where it should be?"
    if other is not None and abs(times - 0.1) > 1e-9:
        bare = size.value_mm / length_mm(1.0, size.units)
        hint = f'were these {_UNITS[other]}? Write the unit with it: "{bare:.4g} {other}"'
    cell, said = size.cell, quoted(size.cell.text)
    return Fault(size.file, cell.line, cell.column, size.key, size.about, said, f"{times_too(times)}: {hint}")


def _of_all(wrong: Sequence[Size], times: float, of: int, heading: Sequence[tuple[str, Cell]]) -> Fault:
    """One fault, at the heading of the first of the columns."""
    columns = {size.column for size in wrong}
    cells = [(name, cell) for name, cell in heading if name in columns]
    units = wrong[0].units
    other = _OTHER.get((units, times))
    hint = "are the decimal points where they should be?"
    if other is not None:
        asked = listed([f"{name} {other}" for name, _ in cells], "and", most=8).replace('"', "")
        hint = f"were these {_UNITS[other]}? Then change the heading to {asked}"
    at, found = cells[0][1], f"{len(wrong)} of {of} figures {times_too(times)}"
    return Fault(wrong[0].file, at.line, at.column, "", f"figures in {_UNITS[units]}", found, hint)
