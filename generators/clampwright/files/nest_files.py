"""What is written of a nest: for each stock sheet a file to cut and one to read, and a list of places."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.files.nest_csv import nest_csv
from clampwright.files.nest_dxf import nest_cut_dxf, nest_marks_dxf
from clampwright.files.nest_preflight import refuse_unfit_nest
from clampwright.files.written import Fact, Written
from clampwright.nesting.nested import Nest, NestedSheet
from clampwright.structure.wording import counted


def nest_files(nest: Nest, name: str) -> Iterator[Written]:
    """A DXF to cut and one with part numbers for each sheet, and a CSV of all places.

    Every cut file is read back and held against the nest before it is handed on.

    Parameters
    ----------
    nest : Nest
        The sheets.
    name : str
        What file names begin with.

    Raises
    ------
    NotFitForCutting
        A cut file does not say what the nest says: a fault of this program.
    """
    for sheet in nest.sheets:
        stem = f"{name}-nest-{sheet.number}"
        about = _about(sheet)
        data = nest_cut_dxf(sheet, f"{about}: contours to cut")
        refuse_unfit_nest(data, sheet)
        yield Written(f"{stem}-cut.dxf", data, f"{about}: contours to cut", _facts(sheet))
        marks = nest_marks_dxf(sheet, f"{about}: part numbers, not to be cut")
        yield Written(f"{stem}-marks.dxf", marks, f"{about}: part numbers, not to be cut")
    if nest.sheets or nest.left_out:
        yield nest_csv(nest, name)


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
