"""Figures of a measurement: a length as somebody wrote it, and whether its unit or point has slipped."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from clampwright.quantities import NotAQuantity, length_mm, show_length
from clampwright.quantities.kinds import INCH
from clampwright.recipe.faults import Fault
from clampwright.recipe.measured_cells import Cell
from clampwright.recipe.written import quoted
from clampwright.trade.tables import rule

_DECIMAL_COMMA = re.compile(r"(?<!\d)(-?\d*),(\d+)(?![\d,.])")
_UNITS = {"mm": "millimetres", "in": "inches"}


@dataclass(slots=True)
class Reading:
    """A file of measurements, or typed ones, being read: what is wrong so far."""

    file: str
    units: str
    """"mm" or "in": of bare numbers."""
    comma: bool = False
    """Whether a comma may stand for the decimal point, because another sign parts the cells."""
    faults: list[Fault] = field(default_factory=list)

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
        slip = slip_of(value, drawn_mm, units)
        if slip:
            self.wrong(cell, key, about, slip)
            return None
        return value


def slip_of(value_mm: float, drawn_mm: float | None, units: str) -> str:
    """A hint where a value is just 25.4 or 10 times too large or too small for what is drawn; else "".

    Examples
    --------
    >>> slip_of(0.484, 12.3, "mm")
    '25.4 times too small: were these inches? Write the unit with it: "0.484 in"'
    >>> slip_of(12.5, 12.3, "mm"), slip_of(123.1, 12.3, "mm")
    ('', '10 times too large: is the decimal point where it should be?')
    """
    if not drawn_mm or abs(value_mm - drawn_mm) < rule("made-slip-least").value:
        return ""
    share, ratio = rule("made-slip-share").value, value_mm / drawn_mm
    for times, way in ((ratio, "large"), (1 / ratio if ratio else 0.0, "small")):
        if abs(times / float(INCH) - 1) <= share:
            other = "in" if way == "small" else "mm"
            bare = value_mm / float(length_mm(1.0, units))
            return (
                f"{float(INCH):g} times too {way}: were these {_UNITS[other]}? "
                f'Write the unit with it: "{bare:.4g} {other}"'
            )
        if abs(times / 10 - 1) <= share:
            return f"10 times too {way}: is the decimal point where it should be?"
    return ""


def _comma_hint(text: str, comma: bool) -> str:
    if "," not in text:
        return ""
    if comma:
        return "one comma at most, for the decimal point"
    return "write decimals with a point, or part the cells with semicolons"
