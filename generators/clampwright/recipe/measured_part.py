"""A finished part as it was measured, from a CSV file: all that is wrong with the file at once."""

from __future__ import annotations

import re
from pathlib import Path

from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.measured_cells import Row, rows, separator_of
from clampwright.recipe.measured_figures import Reading
from clampwright.recipe.measured_file import measured_text, one_fault
from clampwright.recipe.measured_head import Head, head_of
from clampwright.recipe.measured_model import Drawn, MeasuredLength, MeasuredPart
from clampwright.recipe.measured_rows import THICKNESS, Found, choice, take
from clampwright.recipe.measured_slips import slips
from clampwright.recipe.written import printable

_SEPARATOR = re.compile(r'\s*"?sep=([,;\t])"?;*[ \t]*(?=[\r\n]|$)', re.IGNORECASE)
"""A first line that spreadsheets write and read: which sign parts the cells."""


def read_measured(path: Path, drawn: Drawn) -> MeasuredPart:
    """What was measured, from a file.

    Parameters
    ----------
    path
        A CSV file.
    drawn
        What there is to measure: `layout.as_made_drawn.drawn`.

    Raises
    ------
    RecipeFaults
        All faults at once, each with its line and column.
    """
    return read_measured_text(measured_text(path), drawn, printable(path))


def read_measured_text(text: str, drawn: Drawn, file: str = "measured") -> MeasuredPart:
    """The same from a text, called `file` in messages.

    Examples
    --------
    >>> from clampwright.recipe.measured_model import DrawnHole, DrawnLength
    >>> hole, bushing = DrawnHole("A1", (12.3, 45.6), 4.85), DrawnLength("S1", 12.7, 1)
    >>> drawn = Drawn("relay-plate", "mm", (hole,), (bushing,))
    >>> part = read_measured_text("what,x,y,diameter,length\\nA1,12.31,45.58,4.9,\\nS1,,,,1/2 in\\n", drawn)
    >>> part.holes[0].at, part.lengths[0].length_mm
    ((12.31, 45.58), 12.7)
    """
    said = _SEPARATOR.match(text)
    separator = said[1] if said else separator_of(text)
    text = f"#{text}" if said else text
    reading = Reading(file, drawn.units, comma=separator != ",")
    table = rows(text, separator, file, reading.faults)
    if not table:
        raise one_fault(file, 1, "measurements", "an empty file", "--form writes a form to fill in")
    head = head_of(table[0], reading)
    found = Found()
    for row in table[1:] if head else ():
        _read(row, head, drawn, found, reading)
    if head is not None:
        heading = [(name, table[0][place]) for name, place in head.places.items()]
        reading.faults += slips(reading.sizes, heading)
    if not reading.faults and not (found.holes or found.lengths or THICKNESS in found.single):
        raise one_fault(
            file, table[-1][0].line, "at least one measurement", "a form with nothing filled in", ""
        )
    if reading.faults:
        raise RecipeFaults(tuple(sorted(dict.fromkeys(reading.faults), key=lambda f: (f.line, f.column))))
    return found.part()


def together(*parts: MeasuredPart) -> MeasuredPart:
    """Several measurements of the same parts as one; what comes later stands for what came before.

    >>> from clampwright.recipe.measured_model import MeasuredHole
    >>> one = MeasuredPart((MeasuredHole("A1", (1.0, 2.0)),), (MeasuredLength("S1", 9.0),), 2.0)
    >>> again = MeasuredPart((MeasuredHole("A1", (1.1, 2.0)),), ())
    >>> both = together(one, again)
    >>> both.holes[0].at, both.lengths[0].length_mm, both.thickness_mm
    ((1.1, 2.0), 9.0, 2.0)
    """
    holes = {hole.label: hole for part in parts for hole in part.holes}
    lengths: dict[str, list[MeasuredLength]] = {}
    thickness = error = None
    for part in parts:
        lengths |= {one.mark: [] for one in part.lengths}
        for one in part.lengths:
            lengths[one.mark].append(one)
        thickness = part.thickness_mm if part.thickness_mm is not None else thickness
        error = part.plus_minus_mm if part.plus_minus_mm is not None else error
    every = tuple(one for of_mark in lengths.values() for one in of_mark)
    return MeasuredPart(tuple(holes.values()), every, thickness, error)


def _read(row: Row, head: Head | None, drawn: Drawn, found: Found, reading: Reading) -> None:
    """One row; a form's row that is not filled in is none."""
    assert head is not None
    cells = {name: row[place] for name, place in head.places.items() if place < len(row)}
    over = [cell for cell in row[head.width :] if cell.text]
    if over:
        commas = "" if reading.comma else ": are decimals written with a comma? Write them with a point"
        hint = f"as many cells as the first row has{commas}"
        reading.wrong(over[0], "", "the end of the row", hint)
        return
    filled = {name: cell for name, cell in cells.items() if name != "what" and cell.text}
    if not filled:
        return
    what = cells.get("what")
    if what is None or not what.text:
        reading.wrong(what or row[0], "what", choice(drawn), "say which hole or bushing this is")
        return
    take(what, filled, head.units, drawn, found, reading)
