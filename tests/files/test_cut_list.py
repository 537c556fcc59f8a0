"""The cut list as a spreadsheet reads it, and the cut sheet's lengths as another program finds them."""

from __future__ import annotations

import csv
import ctypes
import io
from dataclasses import replace
from importlib import resources

import pypdfium2
import pypdfium2.raw
import pytest
from sheets.cut_layouts import FIVE, Cutting, cutting
from sheets.sheet_plates import FINE

from clampwright.files.cut_list import COLUMNS, cut_list_csv
from clampwright.files.pdf import pdf
from clampwright.layout.known_to import KnownTo
from clampwright.sheets.cut_sheet import cut_sheet
from clampwright.trade.sources import sources

POINT_MM = 25.4 / 72


def rows(made: Cutting) -> list[dict[str, str]]:
    """The list as a spreadsheet reads it."""
    written = cut_list_csv(made, made.cuts)  # type: ignore[arg-type]
    return list(csv.DictReader(io.StringIO(written.data.decode("utf-8"), newline="")))


def test_one_line_a_length_then_stock_then_bars() -> None:
    made = cutting(FIVE)
    kinds = [row["line"] for row in rows(made)]
    assert kinds == ["bushing"] * len(made.bushings) + ["stock", "bar"]


def test_a_bushing_by_hand() -> None:
    """Gaps of 12.7 and 13.5 mm: two of 12.70 mm (half an inch), the second under a thin washer of .032 in."""
    bushing, stock, bar = rows(cutting([12.7, 13.5]))
    assert (bushing["mark"], bushing["quantity"]) == ("S1", "2")
    assert (bushing["length_mm"], bushing["length_in"]) == ("12.700", "0.5000")
    assert (bushing["under_mm"], bushing["over_mm"]) == ("0.100", "0.100")
    assert (bushing["od_mm"], bushing["id_mm"]) == ("11.113", "5.016")
    assert bushing["where"] == "A1; A2"
    assert bushing["washers"] == "A2: 1 x AN960-10L"
    assert bushing["left_mm"] == "A1: 0.000; A2: -0.013"
    assert bushing["mass_each_g"] == "2.66"
    assert (stock["quantity"], stock["length_mm"], stock["needed_mm"]) == ("1", "305.000", "27.900")
    assert (bar["cuts"], bar["left_mm"]) == ("2 x S1 at 13.200", "275.600")


@pytest.mark.parametrize("gaps", [FIVE, (0.05, 1.6), (12.7,) * 30])
def test_no_cell_is_taken_for_a_formula_and_every_source_is_known(gaps: tuple[float, ...]) -> None:
    for row in rows(cutting(gaps)):
        assert set(row) == set(COLUMNS)
        assert not any(cell.startswith(("=", "+", "-", "@")) for cell in row.values())
        assert set(filter(None, row["sources"].split("; "))) <= set(sources())


def test_pieces_of_the_bars_are_the_bushings() -> None:
    made = cutting((12.7,) * 30)
    found = rows(made)
    assert sum(int(row["quantity"]) for row in found if row["line"] == "bushing") == 30
    assert sum(int(row["quantity"]) for row in found if row["line"] == "bar") == 30
    assert [row["quantity"] for row in found if row["line"] == "stock"] == ["2"]


def test_gaps_that_are_not_sure_enough_are_cut_long() -> None:
    """12.7 ± 2.12 mm and 0.5 to spare is 15.4 in tenths: 2.7 longer, and .5 for facing is 15.9 sawn.

    A1 is sure: its bushing has a line, and a mark, of its own.
    """
    known = (KnownTo("A1", 1.0, 0.0, 0.05, True), KnownTo("A2", 1.0, 0.0, 2.12, True))
    short, long, stock, bar = rows(replace(cutting([12.7, 12.7]), known_to=known))
    assert [(row["mark"], row["quantity"], row["where"]) for row in (short, long)] == [
        ("S1", "1", "A1"),
        ("S1L", "1", "A2"),
    ]
    assert [row["gaps_plus_minus_mm"] for row in (short, long)] == ["A1: 0.050", "A2: 2.120"]
    assert [row["cut_longer_mm"] for row in (short, long)] == ["", "A2: 2.700"]
    assert (short["length_mm"], short["cut_length_mm"]) == ("12.700", "13.200")
    assert (long["length_mm"], long["cut_length_mm"]) == ("12.700", "15.900")
    assert bar["cuts"] == "1 x S1L at 15.900; 1 x S1 at 13.200"
    assert stock["needed_mm"] == f"{15.9 + 13.2 + 1.5:.3f}"


def test_where_nothing_is_known_nothing_is_cut_long() -> None:
    bushing, _, _ = rows(cutting([12.7, 12.7]))
    assert bushing["gaps_plus_minus_mm"] == bushing["cut_longer_mm"] == ""


def test_every_column_is_described() -> None:
    text = resources.files("clampwright.files").joinpath("cut_list_keys.csv").read_text("utf-8")
    told = list(csv.DictReader(text.splitlines()))
    assert [row["key"] for row in told] == list(COLUMNS)
    assert all(row["about"] for row in told)


def test_the_same_gaps_give_the_same_bytes() -> None:
    one, other = cutting(FIVE), cutting(FIVE)
    assert cut_list_csv(one, one.cuts).data == cut_list_csv(other, other.cuts).data  # type: ignore[arg-type]


def filled_boxes(data: bytes) -> list[tuple[float, float]]:
    """Width and height in mm of every filled path of a PDF, by PDFium's own bounds."""
    found = []
    document = pypdfium2.PdfDocument(data)
    for page in document:
        for shape in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH]):
            mode, stroke = ctypes.c_int(), ctypes.c_int()
            pypdfium2.raw.FPDFPath_GetDrawMode(shape.raw, mode, stroke)
            if mode.value and not stroke.value:
                left, low, right, top = shape.get_bounds()
                found.append(((right - left) * POINT_MM, (top - low) * POINT_MM))
    document.close()
    return found


@pytest.mark.parametrize("units", ["mm", "in"])
def test_bars_in_the_file_are_as_long_as_the_bushings(units: str) -> None:
    made = cutting(FIVE, units=units)
    boxes = filled_boxes(pdf(cut_sheet(made, made.cuts, FINE, "letter")))  # type: ignore[arg-type]
    bars = sorted(wide for wide, high in boxes if high == pytest.approx(1.6, abs=0.01))
    scale_bars = [wide for wide in bars if wide > 99.0]
    assert {round(wide, 2) for wide in scale_bars} == {100.0, 101.6}
    lengths = [wide for wide in bars if wide <= 99.0]
    assert lengths == [pytest.approx(part.length_mm, abs=0.01) for part in made.bushings]
