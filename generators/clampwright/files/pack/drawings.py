"""Drawings of a pack: one a flat part, and one turning sheet for the bushings of all recipes."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.checks.finding import Finding
from clampwright.files.pack.bay import Bay, worst_of
from clampwright.files.pack.contents import DRAWINGS, Contents, recipes_of
from clampwright.files.pack.no_part_of import making
from clampwright.files.pack.placed_file import PlacedFile, placed
from clampwright.files.pack.turned_parts import Turning
from clampwright.files.shop_drawings import drawing_for_cad, drawing_pdf, flat_sheet, turned_sheet
from clampwright.files.solid_files import warning
from clampwright.files.written import Written
from clampwright.layout.placed import PlateLayout
from clampwright.sheets.drawing import Sheet
from clampwright.sheets.shop.turning_sheet import TurningHead


def drawing_files(contents: Contents) -> Iterator[PlacedFile]:
    """PDF and DXF of every drawing, each held against its solid before it is written.

    Raises
    ------
    NoPartOf
        A drawing finds no room, or a dimension of it is not that of the solid.
    """
    for part in contents.flat:
        job = contents.job(part.recipe)
        if isinstance(job.layout, PlateLayout):
            with making(part.recipe):
                sheet = flat_sheet(job.layout, part, job.findings)
                yield from placed(DRAWINGS, _both(part.number, sheet, job.verdict), part.number)
    for turning in contents.turnings:
        with making(*dict.fromkeys(recipe for group in turning.groups for recipe in recipes_of(group))):
            yield from _turned(turning, contents)


def _turned(turning: Turning, contents: Contents) -> Iterator[PlacedFile]:
    bay = contents.bay
    names = {recipe for group in turning.groups for recipe in recipes_of(group)}
    findings, units = _findings(bay, names), contents.units_of(turning.groups[0])
    head = TurningHead(turning.name, f"bushings and spacers of {bay.name}", bay.digest, units)
    layouts = [job.layout for job in bay.jobs if job.recipe.name in names]
    sheet = turned_sheet(layouts, turning.groups, turning.shop, head, findings)
    yield from placed(DRAWINGS, _both(turning.name, sheet, worst_of(findings)))


def _findings(bay: Bay, names: set[str]) -> tuple[Finding, ...]:
    """Of the recipes that some groups are for, each once."""
    return tuple(dict.fromkeys(f for job in bay.jobs if job.recipe.name in names for f in job.findings))


def _both(name: str, sheet: Sheet, verdict: str) -> tuple[Written, Written]:
    return drawing_pdf(name, sheet, warning(verdict)), drawing_for_cad(name, sheet, warning(verdict))
