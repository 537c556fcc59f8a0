"""What a stock sheet is cut from: a file with contours alone, and one to read, with part numbers."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.files.nest_dxf import nest_cut_dxf, nest_marks_dxf
from clampwright.files.nest_preflight import refuse_unfit_nest
from clampwright.files.written import Fact, Written
from clampwright.nesting.nested import NestedSheet
from clampwright.structure.wording import counted


def nested_sheet_files(sheet: NestedSheet, name: str, stop: str = "") -> Iterator[Written]:
    """A DXF to cut and one with part numbers; the cut file is read back and held against the nest first.

    Parameters
    ----------
    sheet : NestedSheet
        With what is laid on it.
    name : str
        What both file names begin with.
    stop : str, optional
        Added to what each file says of itself: that it is not to be cut.

    Raises
    ------
    NotFitForCutting
        The cut file does not say what the nest says: a fault of this program.
    """
    about = _about(sheet)
    said = f"{about}: contours to cut, 1:1 in mm{stop}"
    data = nest_cut_dxf(sheet, said)
    refuse_unfit_nest(data, sheet)
    yield Written(f"{name}-cut.dxf", data, said, _facts(sheet))
    said = f"{about}: part numbers, not for cutting{stop}"
    yield Written(f"{name}-marks.dxf", nest_marks_dxf(sheet, said), said)


def _about(sheet: NestedSheet) -> str:
    stock = sheet.stock
    size = f"{stock.width_mm:g} x {stock.length_mm:g} mm"
    return f"Sheet {sheet.number}, {stock.words}, {size}, {counted(len(sheet.laid), 'piece')}"


def _facts(sheet: NestedSheet) -> tuple[tuple[str, Fact], ...]:
    return (
        ("pieces", len(sheet.laid)),
        ("used_length_mm", round(sheet.used_mm2 / sheet.stock.width_mm, 3)),
        ("utilisation_percent", round(100 * sheet.utilisation, 1)),
    )
