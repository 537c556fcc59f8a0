"""Figures of a measurement: a length as somebody wrote it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from clampwright.quantities import NotAQuantity, length_mm, show_length
from clampwright.recipe.faults import Fault
from clampwright.recipe.measured_cells import Cell
from clampwright.recipe.measured_slips import Size
from clampwright.recipe.written import quoted

_DECIMAL_COMMA = re.compile(r"(?<!\d)(-?\d*),(\d+)(?![\d,.])")


@dataclass(slots=True)
class Reading:
    """A file of measurements, or typed ones, being read: what is wrong so far."""

    file: str
    units: str
    """"mm" or "in": of bare numbers."""
    comma: bool = False
    """Whether a comma may stand for the decimal point, because another sign parts the cells."""
    faults: list[Fault] = field(default_factory=list)
    sizes: list[Size] = field(default_factory=list)
    """Figures that there is something to hold against."""

    def wrong(self, cell: Cell, key: str, expected: str, hint: str = "", said: str | None = None) -> None:
        """Note a fault about a cell."""
        found = said if said is not None else quoted(cell.text) if cell.text else "nothing"
        self.faults.append(Fault(self.file, cell.line, cell.column, key, expected, found, hint))

    def length(
        self, cell: Cell, key: str, units: str, drawn_mm: float | None, least_mm: float
    ) -> float | None:
        """A length in mm; None for one that is none, which is noted.

        Parameters
        ----------
        cell, key
            Where it stands, and what it is called in a fault.
        units
            Of a bare number here.
        drawn_mm
            What it should come to; None: nothing to hold it against.
        least_mm
            Shorter ones are no such measurement.
        """
        about = f"a length, about {show_length(drawn_mm, self.units)}" if drawn_mm is not None else "a length"
        text = _DECIMAL_COMMA.sub(r"\1.\2", cell.text) if self.comma else cell.text
        try:
            value = length_mm(text, units)
        except NotAQuantity as fault:
            self.wrong(cell, key, about, _comma_hint(cell.text, self.comma) or fault.hint)
            return None
        if value < least_mm or (value == 0 and least_mm > -1):
            self.wrong(cell, key, about, "measured from the datum edge, or as a size: above 0")
            return None
        if drawn_mm:
            thing, _, column = key.partition(".")
            size = Size(self.file, cell, thing, column or "length", about, value, drawn_mm, units)
            self.sizes.append(size)
        return value


def _comma_hint(text: str, comma: bool) -> str:
    if "," not in text:
        return ""
    if comma:
        return "one comma at most, for the decimal point"
    return "write decimals with a point, or part the cells with semicolons"
