"""The order list of a pack: hardware with spares, torque, weight and use; then the stock to buy."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from clampwright.files.csv_text import csv_bytes, stands
from clampwright.files.hardware_csv import TORQUE_NOTE
from clampwright.files.pack.bay import Bay
from clampwright.files.pack.order_lines import OrderLine, Use, order_lines
from clampwright.files.pack.stock_lines import StockLine
from clampwright.files.written import Written
from clampwright.quantities import inch_pounds
from clampwright.trade.sources import source

NAME = "order-list.csv"
COLUMNS = (
    *("kind", "part", "what", "fitted", "spares", "to_order"),
    *("torque_in_lb", "torque_n_m", "torque_note", "mass_each_g", "mass_fitted_g"),
    *("where_used", "note", "source", "source_status", "check"),
)
NO_LENGTH = "length: add up what it passes through, or measure it, before you buy"
NO_SPARES = "no spare asked for"


def order_list(bay: Bay, stock: Iterable[StockLine]) -> Written:
    """Every part to buy, merged over the recipes by part number, then bars and sheets.

    Parameters
    ----------
    bay : Bay
        The recipes; quantities count all sets.
    stock : Iterable[StockLine]
        Bars and sheets that the made parts are cut from.
    """
    failing = {job.recipe.name for job in bay.failing}
    rows = [_row(line, failing) for line in order_lines(bay)]
    rows += [_stock(line, bool(failing & set(line.recipes))) for line in stock]
    about = "What to buy: fitted in all sets, spares on top, then bars and sheets"
    return Written(NAME, csv_bytes(COLUMNS, rows), about, (("lines", len(rows)),))


def _row(line: OrderLine, failing: set[str]) -> dict[str, str]:
    each = line.mass_each_kg
    return {
        "kind": line.kind,
        "part": line.part,
        "what": "; ".join(line.what),
        "fitted": str(line.fitted),
        "spares": str(line.spares),
        "to_order": str(line.to_order),
        **_torque(line),
        "mass_each_g": "" if each is None else f"{each * 1e3:.1f}",
        "mass_fitted_g": "" if each is None else f"{each * line.fitted * 1e3:.1f}",
        "where_used": "; ".join(_used(use) for use in line.uses),
        "note": "; ".join(_notes(line)),
        "source": "; ".join(line.sources),
        "source_status": "; ".join(dict.fromkeys(source(key).status for key in line.sources)),
        "check": stands(any(use.recipe in failing for use in line.uses)),
    }


def _used(use: Use) -> str:
    return f"{use.recipe}: {use.quantity} at {use.where}"


def _notes(line: OrderLine) -> Iterator[str]:
    if line.length_missing:
        yield NO_LENGTH
    if not line.spares:
        yield NO_SPARES


def _torque(line: OrderLine) -> dict[str, str]:
    """The window, once where all recipes have the same."""
    windows: dict[tuple[float, float], list[str]] = {}
    for use in line.uses:
        if use.torque_nm is not None:
            windows.setdefault(use.torque_nm, []).append(use.recipe)
    if not windows:
        return {}

    def told(show: str, factor: float) -> str:
        said = [f"{low * factor:{show}} to {high * factor:{show}}" for low, high in windows]
        if len(said) == 1:
            return said[0]
        return "; ".join(f"{' '.join(who)}: {text}" for text, who in zip(said, windows.values(), strict=True))

    return {
        "torque_in_lb": told(".0f", inch_pounds(1.0)),
        "torque_n_m": told(".2f", 1.0),
        "torque_note": TORQUE_NOTE,
    }


def _stock(line: StockLine, failing: bool) -> dict[str, str]:
    return {
        "kind": line.kind,
        "part": line.stock,
        "what": line.what,
        "fitted": str(line.pieces),
        "spares": "0",
        "to_order": str(line.pieces),
        "where_used": "; ".join(line.recipes),
        "note": line.note,
        "check": stands(failing),
    }
