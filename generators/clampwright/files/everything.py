"""Everything that a build writes for one layout, in one folder, as a whole or not at all.

Where the geometry gives no part, sheets and records are written all the same, so that people see why; what
a machine would cut or print from is left out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from clampwright.checks.cutting import PRACTICE, crossing
from clampwright.checks.finding import Finding
from clampwright.files.findings_json import findings_json, summary
from clampwright.files.folder import folder
from clampwright.files.hardware_csv import hardware_csv
from clampwright.files.layout_json import layout_json
from clampwright.files.manifest import manifest
from clampwright.files.svg import svg
from clampwright.files.written import Written
from clampwright.layout.placed import PlateLayout
from clampwright.sheets.drawing import Sheet
from clampwright.sheets.drill_sheet import drill_sheet
from clampwright.sheets.template import template
from clampwright.solids.no_part import NoPart

CONTOURS = "CUT-3"
"""Code of the check that fails where holes meet each other or the edge."""

Findings = tuple[Finding, ...]
Step = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Solids:
    """Files made from solids, or the reasons why there are none."""

    files: tuple[Written, ...]
    no_part_because: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Everything:
    """What was written: folder, files, the findings as the files have them, and why no part is there."""

    folder: Path
    files: tuple[str, ...]
    findings: Findings
    no_part_because: tuple[str, ...]


def write_everything(layout: PlateLayout, findings: Findings, out: Path, step: Step) -> Everything:
    """Write every file of a layout to `out`/<recipe name>.

    Where no part can be made there is no STEP, STL, DXF or picture of a solid: the sheets say not to drill,
    and the manifest says why under `no_part_because`.

    Raises
    ------
    OSError
        Where the folder cannot be written or is not ours; what stood there before is untouched.
    """
    name = layout.recipe.name
    with folder(out, name) as draft:
        solids = _solids(layout, findings, step)
        findings = _with_no_part(findings, solids.no_part_because)
        for file in (*solids.files, *_records(layout, findings, step)):
            draft.write(file)
        draft.write(manifest(layout.recipe, findings, draft.files, solids.no_part_because))
    names = tuple(file.name for file in draft.files)
    return Everything(out / name, names, findings, solids.no_part_because)


def _solids(layout: PlateLayout, findings: Findings, step: Step) -> Solids:
    reasons = crossing(layout)
    if reasons:
        return Solids((), reasons)
    try:
        return Solids(tuple(_solid_files(layout, findings, step)))
    except NoPart as refused:
        return Solids((), (str(refused),))


def _solid_files(layout: PlateLayout, findings: Findings, step: Step) -> Iterator[Written]:
    step("loading the CAD kernel")
    from clampwright.files.parts import part_files
    from clampwright.files.pictures import pictures
    from clampwright.solids.assembly import assembly

    step("solids")
    bodies = assembly(layout)
    yield from part_files(layout, bodies, str(summary(findings)["verdict"]))
    step("pictures")
    yield from pictures(layout, bodies)


def _with_no_part(findings: Findings, reasons: tuple[str, ...]) -> Findings:
    """The findings; with one more where no part can be made and no check says so: sheets then say it."""
    if not reasons or any(f.code == CONTOURS and f.verdict == "fail" for f in findings):
        return findings
    says = f"No part can be made of this: {'; '.join(reasons)}."
    change = "Change outline, corners or holes there, and build again."
    none = Finding("PART-1", "a part can be made", "plate", "fail", None, None, "", says, change, (PRACTICE,))
    return (none, *findings)


def _records(layout: PlateLayout, findings: Findings, step: Step) -> Iterator[Written]:
    """Sheets, lists and data: written for every layout."""
    step("sheets")
    templates = _sheets(template, layout, findings)
    yield from sheet_files(layout, "drill-template", templates)
    yield from sheet_files(layout, "drill-sheet", _sheets(drill_sheet, layout, findings))
    picture = svg(templates[0].pages[0]).encode()
    about = "Picture of the template, not to scale"
    yield Written(f"{layout.recipe.name}-drill-template.svg", picture, about)
    yield hardware_csv(layout)
    yield layout_json(layout)
    yield findings_json(layout.recipe, findings)


def _sheets(
    draw: Callable[[PlateLayout, Findings, str], Sheet], layout: PlateLayout, findings: Findings
) -> list[Sheet]:
    """One sheet a paper."""
    return [draw(layout, findings, paper) for paper in layout.recipe.template.papers]


def sheet_files(layout: PlateLayout, word: str, sheets: Sequence[Sheet]) -> Iterator[Written]:
    """A PDF for each of the recipe's papers, `sheets` in the same order."""
    from clampwright.files.pdf import pdf

    for paper, sheet in zip(layout.recipe.template.papers, sheets, strict=True):
        file = f"{layout.recipe.name}-{word}-{paper}.pdf"
        yield Written(file, pdf(sheet), sheet.title, (("pages", len(sheet.pages)),))
