"""Measurements typed at the command line: A1=12.30,45.61,4.9 and S1=12.72."""

from __future__ import annotations

from collections.abc import Sequence

from clampwright.recipe.faults import Fault, RecipeFaults
from clampwright.recipe.measured_cells import Cell
from clampwright.recipe.measured_figures import Reading
from clampwright.recipe.measured_head import COLUMNS
from clampwright.recipe.measured_model import Drawn, MeasuredPart
from clampwright.recipe.measured_rows import Found, take
from clampwright.recipe.measured_slips import Size, slips

_HOLE, _BUSHING = "LABEL=X,Y or LABEL=X,Y,DIAMETER", "MARK=LENGTH"


def measured_typed(holes: Sequence[str], bushings: Sequence[str], drawn: Drawn) -> MeasuredPart:
    """What was typed. Semicolons may part the figures, and decimals then have commas.

    Parameters
    ----------
    holes
        "A1=12.30,45.61" or "A1=12.30,45.61,4.9"; figures may carry a unit.
    bushings
        "S1=12.72"; "thickness=2.03" and "plus or minus=0.05" are read here as well.
    drawn
        What there is to measure.

    Raises
    ------
    RecipeFaults
        All faults at once; the line is the number of the option, the column the place in it.

    Examples
    --------
    >>> from clampwright.recipe.measured_model import DrawnHole
    >>> drawn = Drawn("relay-plate", "mm", (DrawnHole("A1", (12.3, 45.6), 4.85),))
    >>> measured_typed(["a1=12,31; 45,58; 0.191 in"], [], drawn).holes[0].diameter_mm
    4.8514
    """
    found, sizes = Found(), list[Size]()
    faults: list[Fault] = []
    for option, texts in (("--hole", holes), ("--bushing", bushings)):
        for number, text in enumerate(texts, 1):
            reading = Reading(option, drawn.units, sizes=sizes)
            _take(text, number, option == "--hole", drawn, found, reading)
            faults += reading.faults
    faults += slips(sizes)
    if faults:
        raise RecipeFaults(tuple(faults))
    return found.part()


def _take(text: str, number: int, hole: bool, drawn: Drawn, found: Found, reading: Reading) -> None:
    label, sign, rest = text.partition("=")
    what = Cell(label.strip(), number, 1)
    form = _HOLE if hole else _BUSHING
    if not sign or not label.strip():
        reading.wrong(
            Cell(text, number, 1), "", form, "such as A1=12.30,45.61" if hole else "such as S1=12.72"
        )
        return
    separator = ";" if ";" in rest else ","
    reading.comma = separator == ";"
    cells = _cells(rest, separator, number, len(label) + 2)
    names = ("x", "y", "diameter") if hole else ("length",)
    if len(cells) > len(names):
        hint = "" if reading.comma else "decimals have a point, or semicolons part the figures"
        reading.wrong(cells[len(names)], what.text, form, hint)
        return
    filled = {name: cell for name, cell in zip(names, cells, strict=False) if cell.text}
    if not filled:
        reading.wrong(what, what.text, form, "the figures are missing")
        return
    take(what, filled, dict.fromkeys(COLUMNS, drawn.units), drawn, found, reading)


def _cells(text: str, separator: str, number: int, column: int) -> list[Cell]:
    cells = []
    for part in text.split(separator):
        blanks = len(part) - len(part.lstrip())
        cells.append(Cell(part.strip(), number, column + blanks))
        column += len(part) + 1
    return cells
