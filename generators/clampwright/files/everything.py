"""Everything that a build writes for one layout, in one folder, as a whole or not at all.

Where the geometry gives no part, sheets and records are written all the same, so that people see why; what
a machine would cut or print from is left out.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from clampwright.checks.cutting import PRACTICE
from clampwright.checks.finding import Finding
from clampwright.files.folder import folder
from clampwright.files.kind_files import KIND_FILES
from clampwright.files.manifest import manifest
from clampwright.files.written import Written
from clampwright.layout.kinds import Layout
from clampwright.solids.no_part import NoPart

CONTOURS = "CUT-3"
"""Code of the check that fails where holes meet each other or the edge."""

OWN_FAULT = (
    "Nothing in the recipe is known to be wrong: the program failed. Please report it with the recipe, and "
    "make nothing from what was written."
)

Findings = tuple[Finding, ...]
Step = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Solids:
    """Files made from solids, or the reasons why there are none."""

    files: tuple[Written, ...]
    no_part_because: tuple[str, ...] = ()
    findings: Findings = ()
    """What only the solids could show."""
    own_fault: bool = False
    """Whether the program is to blame for there being none."""


@dataclass(frozen=True, slots=True)
class Everything:
    """What was written: folder, files, the findings as the files have them, and why no part is there."""

    folder: Path
    files: tuple[str, ...]
    findings: Findings
    no_part_because: tuple[str, ...]


def write_everything(layout: Layout, findings: Findings, out: Path, step: Step) -> Everything:
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
        findings = with_no_part((*findings, *solids.findings), solids.no_part_because, solids.own_fault)
        records = KIND_FILES[layout.recipe.kind].records(layout, findings, step)
        for file in (*solids.files, *records):
            draft.write(file)
        draft.write(manifest(layout.recipe, findings, draft.files, solids.no_part_because))
    names = tuple(file.name for file in draft.files)
    return Everything(out / name, names, findings, solids.no_part_because)


def _solids(layout: Layout, findings: Findings, step: Step) -> Solids:
    kind = KIND_FILES[layout.recipe.kind]
    reasons = kind.no_part(layout)
    if reasons:
        return Solids((), reasons)
    try:
        made = kind.solids(layout, findings, step)
        step("drawings")
        from clampwright.files.shop_drawings import drawing_pdf, shop_sheets

        sheets = shop_sheets(layout, (*findings, *made.findings))
        drawings = (drawing_pdf(name, sheet) for name, sheet in sheets)
        return Solids((*made.files, *drawings), findings=made.findings)
    except NoPart as refused:
        return Solids((), (str(refused),), own_fault=refused.own_fault)


def with_no_part(findings: Findings, reasons: tuple[str, ...], own_fault: bool = False) -> Findings:
    """The findings; with one more where no part can be made and no check says so: sheets then say it."""
    if not reasons or any(f.code == CONTOURS and f.verdict == "fail" for f in findings):
        return findings
    says = f"No part can be made of this: {'; '.join(reasons)}."
    change = OWN_FAULT if own_fault else "Change outline, corners or holes there, and build again."
    none = Finding("PART-1", "a part can be made", "plate", "fail", None, None, "", says, change, (PRACTICE,))
    return (none, *findings)
