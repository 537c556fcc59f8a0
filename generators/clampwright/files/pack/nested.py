"""Flat parts of all recipes nested on sheets: cutting files, a picture and a list of places."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from clampwright.files.csv_text import csv_bytes, stands
from clampwright.files.nest_files import nested_sheet_files
from clampwright.files.nest_rows import COLUMNS, nest_rows
from clampwright.files.pack.bay import worst_of
from clampwright.files.pack.contents import CUTTING, Contents
from clampwright.files.pack.placed_file import PlacedFile, placed
from clampwright.files.pdf import pdf
from clampwright.files.preflight import NotFitForCutting
from clampwright.files.solid_files import warning
from clampwright.files.written import Written
from clampwright.nesting.nested import Nest, NestedSheet
from clampwright.sheets.shop.nest_picture import NestHead, nest_sheet
from clampwright.sheets.verdict import counts, failing, in_short

NAME = "nested-sheets"


@dataclass(frozen=True, slots=True)
class Nested:
    """The nest with its files, or why there is none: then the parts are cut from their own flat patterns."""

    nest: Nest | None = None
    files: tuple[PlacedFile, ...] = ()
    not_nested: str = ""


def nested(contents: Contents, step: Callable[[str], None]) -> Nested:
    """The nest of every flat part, and its files; none where nothing is cut from sheet, or where it fails.

    The nested sheets are an offer: a pack is whole without them, so a fault of this program in the nest or
    in its files costs them alone, and is said.
    """
    if not contents.flat:
        return Nested()
    from clampwright.nesting.nest import NotNested, nest

    try:
        found = nest(contents.flat, step)
        return Nested(found, tuple(placed(CUTTING, _files(contents, found))))
    except (NotNested, NotFitForCutting) as broken:
        return Nested(not_nested=f"the nest does not hold: {broken}")


def _files(contents: Contents, found: Nest) -> Iterator[Written]:
    for sheet in found.sheets:
        stop = warning("fail" if _fails(sheet, contents) else "pass")
        yield from nested_sheet_files(sheet, f"nested-sheet-{sheet.number}", stop)
    yield _picture(contents, found)
    yield _places(contents, found)


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
        stop=in_short(failing(findings)),
    )
    sheet = nest_sheet(found, first.shop, head)
    about = f"Which piece lies where on which sheet, a page a sheet{warning(worst_of(findings))}"
    return Written(f"{NAME}.pdf", pdf(sheet), about, (("pages", len(sheet.pages)),))


def _places(contents: Contents, found: Nest) -> Written:
    """The list of places, with a column that says whether a line may be worked from."""
    rows = list(nest_rows(found))
    numbers = {part.number: contents.fails(part) for part in contents.flat}
    sheets = {f"{sheet.number}": _fails(sheet, contents) for sheet in found.sheets}
    for row in rows:
        whole = any(sheets.values())
        part, sheet = row.get("part", ""), row.get("sheet", "")
        row["check"] = stands(
            numbers.get(part, whole if row["line"] == "stock" else sheets.get(sheet, whole))
        )
    about = "Where each piece lies on its stock sheet"
    return Written(f"{NAME}.csv", csv_bytes((*COLUMNS, "check"), rows), about)
