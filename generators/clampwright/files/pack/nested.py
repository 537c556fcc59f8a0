"""Flat parts of all recipes nested on sheets: cutting files, a picture and a list of places."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterator
from dataclasses import replace

from clampwright.files.nest_csv import COLUMNS, nest_csv
from clampwright.files.nest_dxf import nest_cut_dxf, nest_marks_dxf
from clampwright.files.nest_preflight import refuse_unfit_nest
from clampwright.files.pack.bay import worst_of
from clampwright.files.pack.contents import CUTTING, Contents
from clampwright.files.pack.csv_text import csv_bytes, stands
from clampwright.files.pack.placed_file import PlacedFile, placed
from clampwright.files.pdf import pdf
from clampwright.files.solid_files import warning
from clampwright.files.written import Written
from clampwright.nesting.nested import Nest, NestedSheet
from clampwright.sheets.shop.nest_picture import NestHead, nest_sheet
from clampwright.sheets.verdict import by_code, counts, failing
from clampwright.structure.wording import counted

NAME = "nested-sheets"


def nest_files(contents: Contents, step: Callable[[str], None]) -> tuple[Nest | None, tuple[PlacedFile, ...]]:
    """The nest of every flat part, and its files; none where nothing is cut from sheet.

    Raises
    ------
    NotFitForCutting
        A cut file that does not say what the nest says: a fault of this program.
    """
    if not contents.flat:
        return None, ()
    from clampwright.nesting.nest import nest

    found = nest(contents.flat, step)
    return found, tuple(placed(CUTTING, _files(contents, found)))


def _files(contents: Contents, found: Nest) -> Iterator[Written]:
    for sheet in found.sheets:
        yield from _sheet(sheet, contents)
    yield _picture(contents, found)
    yield _places(contents, found)


def _sheet(sheet: NestedSheet, contents: Contents) -> Iterator[Written]:
    stop = warning("fail" if _fails(sheet, contents) else "pass")
    stock = sheet.stock
    size = f"{stock.width_mm:g} x {stock.length_mm:g} mm"
    about = f"Sheet {sheet.number}, {stock.words}, {size}, {counted(len(sheet.laid), 'piece')}"
    name = f"nested-sheet-{sheet.number}"
    said = f"{about}: contours to cut, 1:1 in mm{stop}"
    data = nest_cut_dxf(sheet, said)
    refuse_unfit_nest(data, sheet)
    used = ("utilisation_percent", round(100 * sheet.utilisation, 1))
    yield Written(f"{name}-cut.dxf", data, said, (("pieces", len(sheet.laid)), used))
    said = f"{about}: part numbers, not for cutting{stop}"
    yield Written(f"{name}-marks.dxf", nest_marks_dxf(sheet, said), said)


def _fails(sheet: NestedSheet, contents: Contents) -> bool:
    return any(contents.fails(laid.part) for laid in sheet.laid)


def _picture(contents: Contents, found: Nest) -> Written:
    """One page a sheet, to see which piece is which."""
    bay = contents.bay
    names = {part.recipe for part in contents.flat}
    findings = tuple(dict.fromkeys(f for job in bay.jobs if job.recipe.name in names for f in job.findings))
    first = contents.flat[0]
    head = NestHead(
        number=NAME,
        about=f"flat parts of {bay.name}",
        digest=bay.digest,
        units=first.units,
        checks=counts(findings),
        stop=by_code(failing(findings)),
    )
    sheet = nest_sheet(found, first.shop, head)
    about = f"Which piece lies where on which sheet, a page a sheet{warning(worst_of(findings))}"
    return Written(f"{NAME}.pdf", pdf(sheet), about, (("pages", len(sheet.pages)),))


def _places(contents: Contents, found: Nest) -> Written:
    """The list of places, with a column that says whether a line may be worked from."""
    plain = nest_csv(found, NAME)
    rows = list(csv.DictReader(io.StringIO(plain.data.decode("utf-8"), newline="")))
    numbers = {part.number: contents.fails(part) for part in contents.flat}
    sheets = {f"{sheet.number}": _fails(sheet, contents) for sheet in found.sheets}
    for row in rows:
        known = numbers.get(row["part"], sheets.get(row["sheet"], any(sheets.values())))
        row["check"] = stands(known)
    return replace(plain, name=f"{NAME}.csv", data=csv_bytes((*COLUMNS, "check"), rows))
