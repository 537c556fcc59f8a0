"""Where every piece lies on its stock sheet, as rows of a table: one a stock, a sheet and a piece.

Columns are described in `files/nest_keys.csv`.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from clampwright.nesting.nested import BY_BOXES, Laid, Nest, NestedSheet, Stock

COLUMNS = (
    *("line", "sheet", "part", "copy", "recipe", "x_mm", "y_mm", "turn_deg", "grain"),
    *("material", "thickness_mm", "width_mm", "length_mm", "kerf_mm", "margin_mm"),
    *("used_length_mm", "utilisation_percent", "boxes_percent", "boxes_sheets", "why"),
)


def nest_rows(nest: Nest) -> Iterator[dict[str, str]]:
    """Sheets with their stock and how full they are, pieces with their places, and what was left out."""
    yield from _stocks(nest)
    for sheet in nest.sheets:
        yield _sheet(sheet)
        yield from (_piece(sheet, laid) for laid in sheet.laid)
    for number, why in nest.left_out:
        yield {"line": "left out", "part": number, "why": why}


def _sheet(sheet: NestedSheet) -> dict[str, str]:
    return {
        "line": "sheet",
        "sheet": f"{sheet.number}",
        **_of_stock(sheet.stock),
        "used_length_mm": f"{sheet.used_mm2 / sheet.stock.width_mm:.3f}",
        "utilisation_percent": f"{100 * sheet.utilisation:.1f}",
    }


def _piece(sheet: NestedSheet, laid: Laid) -> dict[str, str]:
    return {
        "line": "piece",
        "sheet": f"{sheet.number}",
        "part": laid.part.number,
        "copy": f"{laid.copy}",
        "recipe": laid.part.recipe,
        "x_mm": f"{laid.at[0]:.6f}",
        "y_mm": f"{laid.at[1]:.6f}",
        "turn_deg": f"{math.degrees(laid.turn_rad):.6f}",
        "grain": laid.why,
    }


def _stocks(nest: Nest) -> Iterator[dict[str, str]]:
    """A line for all sheets of a stock, beside what their boxes alone would give."""
    for filled in nest.by_stock():
        used = math.fsum(sheet.used_mm2 for sheet in filled.sheets) / filled.stock.width_mm
        yield {
            "line": "stock",
            "sheet": f"{len(filled.sheets)}",
            **_of_stock(filled.stock),
            "used_length_mm": f"{used:.3f}",
            "utilisation_percent": f"{100 * filled.utilisation:.1f}",
            "boxes_percent": f"{100 * filled.boxes:.1f}",
            "boxes_sheets": f"{filled.boxes_sheets}",
            "why": f"{filled.stock.why} {BY_BOXES}" if filled.stock in nest.by_boxes else filled.stock.why,
        }


def _of_stock(stock: Stock) -> dict[str, str]:
    return {
        "material": stock.material,
        "thickness_mm": f"{stock.thickness_mm:g}",
        "width_mm": f"{stock.width_mm:g}",
        "length_mm": f"{stock.length_mm:g}",
        "kerf_mm": f"{stock.kerf_mm:g}",
        "margin_mm": f"{stock.margin_mm:g}",
    }
