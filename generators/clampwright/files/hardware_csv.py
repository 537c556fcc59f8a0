"""The order list as CSV (RFC 4180, UTF-8), one line a part number."""

from __future__ import annotations

import csv
import io

from clampwright.files.written import Written
from clampwright.layout.joined import Joined
from clampwright.layout.placed import HardwareLine
from clampwright.quantities import inch_pounds
from clampwright.trade.sources import source

COLUMNS = (
    "part",
    "what",
    "quantity",
    "torque_low_in_lb",
    "torque_high_in_lb",
    "torque_low_n_m",
    "torque_high_n_m",
    "torque_note",
    "mass_each_g",
    "mass_total_g",
    "where_used",
    "source",
    "source_status",
)
TORQUE_NOTE = "at the nut, on top of the nut's own running torque"


def hardware_csv(layout: Joined) -> Written:
    """Part numbers, quantities (no spares), torque in both units, weights, where used and source."""
    text = io.StringIO(newline="")
    lines = csv.writer(text)
    lines.writerow(COLUMNS)
    lines.writerows(_row(line) for line in layout.hardware)
    name = f"{layout.recipe.name}-hardware.csv"
    return Written(name, text.getvalue().encode("utf-8"), "Hardware to order: what is fitted, without spares")


def _row(line: HardwareLine) -> tuple[str, ...]:
    each = line.mass_each_kg
    grams = ("", "") if each is None else (f"{each * 1e3:.1f}", f"{each * line.quantity * 1e3:.1f}")
    status = source(line.source).status if line.source else ""
    what, where = as_text(line.what), as_text(line.where)
    return (line.part, what, str(line.quantity), *_torque(line), *grams, where, line.source, status)


def _torque(line: HardwareLine) -> tuple[str, ...]:
    if line.torque_nm is None:
        return ("",) * 5
    low, high = line.torque_nm
    return (f"{inch_pounds(low):.0f}", f"{inch_pounds(high):.0f}", f"{low:.2f}", f"{high:.2f}", TORQUE_NOTE)


def as_text(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula."""
    return f"'{cell}" if cell[:1] in ("=", "+", "-", "@") else cell
