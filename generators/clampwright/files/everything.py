"""Everything that a build writes for one layout, in one folder, as a whole or not at all."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from clampwright.checks.finding import Finding
from clampwright.files.findings_json import findings_json, summary
from clampwright.files.folder import folder
from clampwright.files.hardware_csv import hardware_csv
from clampwright.files.layout_json import layout_json
from clampwright.files.manifest import manifest
from clampwright.files.written import Written
from clampwright.layout.placed import PlateLayout

Findings = tuple[Finding, ...]


def write_everything(
    layout: PlateLayout, findings: Findings, out: Path, step: Callable[[str], None]
) -> tuple[Path, tuple[str, ...]]:
    """Write every file of a layout to `out`/<recipe name>; returns the folder and the file names.

    Raises
    ------
    OSError
        Where the folder cannot be written or is not ours; what stood there before is untouched.
    """
    name = layout.recipe.name
    with folder(out, name) as draft:
        step("loading the CAD kernel")
        for file in _files(layout, findings, step):
            draft.write(file)
        draft.write(manifest(layout.recipe, findings, draft.files))
    return out / name, tuple(file.name for file in draft.files)


def _files(layout: PlateLayout, findings: Findings, step: Callable[[str], None]) -> Iterator[Written]:
    from clampwright.files.parts import part_files
    from clampwright.files.pictures import pictures

    step("solids")
    yield from part_files(layout, str(summary(findings)["verdict"]))
    step("sheets")
    yield from sheet_files(layout, findings)
    step("pictures")
    yield from pictures(layout, findings)
    yield hardware_csv(layout)
    yield layout_json(layout)
    yield findings_json(layout.recipe, findings)


def sheet_files(layout: PlateLayout, findings: Findings) -> Iterator[Written]:
    """The drilling template and the drill sheet, one PDF a paper."""
    from clampwright.files.pdf import pdf
    from clampwright.sheets.drill_sheet import drill_sheet
    from clampwright.sheets.template import template

    kinds = (("drill-template", template), ("drill-sheet", drill_sheet))
    for word, draw in kinds:
        for paper in layout.recipe.template.papers:
            sheet = draw(layout, findings, paper)
            file = f"{layout.recipe.name}-{word}-{paper}.pdf"
            yield Written(file, pdf(sheet), sheet.title, (("pages", len(sheet.pages)),))
