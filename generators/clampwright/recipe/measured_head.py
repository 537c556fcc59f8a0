"""The first row of a file of measurements: which column holds what, and in which unit."""

from __future__ import annotations

import re
from dataclasses import dataclass

from clampwright.recipe.faults import did_you_mean, listed
from clampwright.recipe.measured_cells import Cell, Row
from clampwright.recipe.measured_figures import Reading

COLUMNS = ("what", "x", "y", "diameter", "length")
"""Columns that are read."""
LEFT_ALONE = ("drawn", "note")
"""What the names of other columns start with."""

_NAMES = {"label": "what", "mark": "what", "across": "x", "up": "y", "dia": "diameter", "ø": "diameter"}
_NAME = re.compile(r"(?P<name>.*?)\s*(?:[\[(]?\s*(?P<unit>mm|cm|in|inch|inches)\.?\s*[\])]?)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Head:
    """Where each column stands in a row, and the unit of bare numbers in it."""

    places: dict[str, int]
    units: dict[str, str]
    width: int
    """Cells in the first row."""


def head_of(row: Row, reading: Reading) -> Head | None:
    """The columns; None where they are none, which is noted.

    Examples
    --------
    >>> from clampwright.recipe.measured_cells import rows
    >>> (row,) = rows("what,x (in),y in,note", ",", "m.csv", [])
    >>> head = head_of(row, Reading("m.csv", "mm"))
    >>> head.places, head.units["x"], head.units["length"]
    ({'what': 0, 'x': 1, 'y': 2}, 'in', 'mm')
    """
    places: dict[str, int] = {}
    units = dict.fromkeys(COLUMNS, reading.units)
    before = len(reading.faults)
    for place, cell in enumerate(row):
        name, unit = _named(cell.text)
        if name.startswith(LEFT_ALONE) or not name:
            continue
        if name not in COLUMNS:
            _strange(cell, name, reading)
        elif name in places:
            reading.wrong(cell, "", f"each column once, {name!r} stands there twice", "leave one of them")
        else:
            places[name] = place
            units[name] = unit or reading.units
    if "what" not in places:
        del reading.faults[before:]
        hint = f"the first row names the columns: {','.join(COLUMNS)}"
        reading.wrong(row[0], "", "a row that names the columns", hint)
        return None
    return Head(places, units, len(row)) if len(reading.faults) == before else None


def _named(text: str) -> tuple[str, str]:
    """A column's name, and its unit or ""."""
    match = _NAME.fullmatch(text.strip().casefold())
    if match is None:
        return text.strip().casefold(), ""
    unit = match["unit"] or ""
    return _NAMES.get(match["name"], match["name"]), "in" if unit.startswith("in") else unit


def _strange(cell: Cell, name: str, reading: Reading) -> None:
    hint = did_you_mean(name, COLUMNS) or f"a name that starts with {listed(LEFT_ALONE)} is left alone"
    reading.wrong(cell, "", f"a column {listed(COLUMNS)}", hint)
