"""The form for measuring finished parts: a CSV with every hole and bushing named, and cells to fill in."""

from __future__ import annotations

import csv
import io

from clampwright.quantities import length_mm
from clampwright.recipe.measured_model import Drawn
from clampwright.recipe.measured_rows import PLUS_MINUS, THICKNESS

_DECIMALS = {"mm": 2, "in": 4}
_HOW = (
    "Lay the finished plate down component side up. x: from its left edge to the hole's centre, y: from its",
    "bottom edge; with calipers, edge to rim and half the diameter. Fill in what you measured and leave the",
    "rest empty. Numbers without a unit are {unit}; 12.3 mm, 0.484 in and 31/64 in are read as well.",
    "Several pieces of one mark have a row each. The columns that start with drawn are not read.",
)


def measuring_form(drawn: Drawn) -> bytes:
    """The form as a CSV file (RFC 4180, UTF-8), with a row for each hole and each piece of bushing.

    Examples
    --------
    >>> from clampwright.recipe.measured_model import DrawnHole
    >>> form = measuring_form(Drawn("relay-plate", "mm", (DrawnHole("A1", (12.3, 45.6), 4.85),)))
    >>> print(form.decode().splitlines()[-2])
    A1,,,,,12.30,45.60,4.85,,
    """
    unit = drawn.units
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    for line in (f"{drawn.name}: finished parts as measured", *_HOW):
        text.write(f"# {line.format(unit={'mm': 'millimetres', 'in': 'inches'}[unit])}\r\n")
    names = ("x", "y", "diameter", "length")
    heads = [f"{kind}{name} {unit}" for kind in ("", "drawn ") for name in names]
    writer.writerow(["what", *heads, "note"])
    for hole in drawn.holes:
        place = [_shown(value, unit) for value in (*hole.at, hole.diameter_mm)]
        writer.writerow([hole.label, "", "", "", "", *place, "", ""])
    if drawn.thickness_mm is not None:
        writer.writerow([THICKNESS, *[""] * 7, _shown(drawn.thickness_mm, unit), "of the plate"])
    for piece in drawn.lengths:
        note = "" if piece.trimmed_mm is None else "left long: trimmed to the gap found"
        for _ in range(piece.quantity):
            writer.writerow([piece.mark, *[""] * 7, _shown(piece.length_mm, unit), note])
    writer.writerow([PLUS_MINUS, *[""] * 8, "of what you measured with, 95 %"])
    return text.getvalue().encode("utf-8")


def _shown(mm: float, unit: str) -> str:
    return f"{mm / length_mm(1.0, unit):.{_DECIMALS[unit]}f}"
