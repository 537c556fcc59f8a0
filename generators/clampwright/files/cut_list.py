"""The bushings' cut list as CSV (RFC 4180, UTF-8): one line a made length, then what to buy, then each bar.

Columns are described in `files/cut_list_keys.csv`.
"""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterator

from clampwright.files.bar_rows import bar_row, length_cells, stock_row
from clampwright.files.csv_text import mm
from clampwright.files.written import Written
from clampwright.layout.bushing_parts import BushingPart, CutList, MadeUp
from clampwright.layout.cut_long import as_marked, as_sawn, gap_known, left_long
from clampwright.layout.joined import Joined
from clampwright.layout.shop.piece_limits import finished_limits, length_limits
from clampwright.trade.tables import rule

COLUMNS = (
    *("line", "mark", "quantity", "material", "make", "stock"),
    *("length_mm", "length_in", "under_mm", "over_mm"),
    *("made_length_mm", "made_under_mm", "made_over_mm", "cut_length_mm"),
    *("od_mm", "id_mm", "id_least_mm", "id_most_mm", "chamfer_mm", "bolt"),
    *("where", "washers", "gaps_mm", "gaps_plus_minus_mm", "cut_longer_mm", "left_mm"),
    *("max_temperature_degc", "mass_each_g", "made_mass_each_g", "kerf_mm", "needed_mm", "cuts", "sources"),
)


def cut_list_csv(layout: Joined, cuts: CutList) -> Written:
    """Every bushing with its sizes, where it goes and its washers; stock to buy; bars with their pieces.

    Pieces are as long as they are first cut: longer where a gap is not known well enough.
    """
    text = io.StringIO(newline="")
    lines = csv.DictWriter(text, COLUMNS, restval="")
    lines.writeheader()
    sawn = as_sawn(layout, cuts)
    lines.writerows(_bushing(part, layout) for part in as_marked(layout))
    lines.writerows(_stock(sawn))
    lines.writerows(bar_row(number, bar) for number, bar in enumerate(sawn.bars, 1))
    name = f"{layout.recipe.name}-cut-list.csv"
    about = "Bushings to make, the stock they are cut from, and the cuts of each bar"
    return Written(name, text.getvalue().encode("utf-8"), about)


def _bushing(part: BushingPart, layout: Joined) -> dict[str, str]:
    longer = left_long(part, layout.known_to, layout.recipe.units)
    shop, made = layout.recipe.shop, part.length_mm + longer.longer_mm
    finished = finished_limits(part, shop)
    first = length_limits(part, shop, made, long=bool(longer.long))
    low, high = part.id_window_mm
    return {
        "line": "bushing",
        "mark": part.mark,
        "quantity": str(part.quantity),
        "material": part.material,
        "make": part.make,
        "stock": part.stock,
        **length_cells(part.length_mm),
        "under_mm": mm(finished.under_mm),
        "over_mm": mm(finished.over_mm),
        "made_length_mm": mm(made),
        "made_under_mm": mm(first.under_mm),
        "made_over_mm": mm(first.over_mm),
        "cut_length_mm": mm(made + rule("bushing-facing").value),
        "od_mm": mm(part.od_mm),
        "id_mm": mm(part.id_mm),
        "id_least_mm": mm(low),
        "id_most_mm": mm(high),
        "chamfer_mm": mm(part.chamfer_mm),
        "bolt": part.bolt,
        "where": "; ".join(fill.where for fill in part.fills),
        "washers": "; ".join(_washers(fill) for fill in part.fills if fill.washers),
        "gaps_mm": "; ".join(f"{fill.where}: {mm(fill.gap_mm)}" for fill in part.fills),
        "gaps_plus_minus_mm": "; ".join(_unsure(part, layout)),
        "cut_longer_mm": "; ".join(f"{where}: {mm(longer.longer_mm)}" for where in longer.long),
        "left_mm": "; ".join(f"{fill.where}: {mm(fill.left_mm)}" for fill in part.fills),
        "max_temperature_degc": f"{part.max_temperature_c:.0f}",
        "mass_each_g": f"{part.mass_each_kg * 1e3:.2f}",
        "made_mass_each_g": f"{part.mass_each_kg * made / part.length_mm * 1e3:.2f}",
        "sources": "; ".join(part.sources),
    }


def _unsure(part: BushingPart, layout: Joined) -> Iterator[str]:
    """± of each gap of which it is known."""
    for fill in part.fills:
        each = gap_known(fill.where, layout.known_to)
        if each is not None:
            yield f"{fill.where}: {mm(each.gap_mm)}"


def _stock(cuts: CutList) -> Iterator[dict[str, str]]:
    for stock, needed in cuts.needed_mm:
        yield stock_row(stock, [bar for bar in cuts.bars if bar.stock == stock], needed)


def _washers(fill: MadeUp) -> str:
    count = Counter(part for part, _ in fill.washers)
    return f"{fill.where}: " + " + ".join(f"{n} x {part}" for part, n in count.items())
