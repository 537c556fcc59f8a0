"""What a build writes for an accessory plate."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from clampwright.checks.cutting import crossing
from clampwright.checks.finding import Finding
from clampwright.files.findings_json import findings_json, summary
from clampwright.files.from_solids import FromSolids
from clampwright.files.hardware_csv import hardware_csv
from clampwright.files.layout_json import layout_json
from clampwright.files.making import making_files
from clampwright.files.sheet_files import draw_each, sheet_files
from clampwright.files.svg import svg
from clampwright.files.written import Written
from clampwright.layout.placed import PlateLayout
from clampwright.layout.plate_bushings import plate_cuts
from clampwright.sheets.drill_sheet import drill_sheet
from clampwright.sheets.template import template

Findings = tuple[Finding, ...]
Step = Callable[[str], None]


def no_part(layout: PlateLayout) -> tuple[str, ...]:
    """Contours that cross: then nothing can be cut."""
    return crossing(layout)


def solids(layout: PlateLayout, findings: Findings, step: Step) -> FromSolids:
    """The plate, its bushings, the assembly and the flat pattern; pictures of part and assembly."""
    step("loading the CAD kernel")
    from clampwright.files.exact import exact_findings
    from clampwright.files.parts import part_files
    from clampwright.files.pictures import pictures
    from clampwright.solids.assembly import assembly

    step("solids")
    bodies = assembly(layout)
    exact = exact_findings(layout, bodies)
    verdict = str(summary((*findings, *exact.findings))["verdict"])
    files = [*part_files(layout, bodies, verdict), *exact.files]
    step("pictures")
    return FromSolids((*files, *pictures(layout, bodies)), exact.findings)


def records(layout: PlateLayout, findings: Findings, step: Step) -> Iterator[Written]:
    """Sheets, lists and data."""
    step("sheets")
    templates = draw_each(template, layout, findings)
    yield from sheet_files(layout.recipe, "drill-template", templates)
    yield from sheet_files(layout.recipe, "drill-sheet", draw_each(drill_sheet, layout, findings))
    picture = svg(templates[0].pages[0]).encode()
    about = "Picture of the template, not to scale"
    yield Written(f"{layout.recipe.name}-drill-template.svg", picture, about)
    yield from making_files(layout, plate_cuts(layout), findings)
    yield hardware_csv(layout)
    yield layout_json(layout)
    yield findings_json(layout.recipe, findings)
