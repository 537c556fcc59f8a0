"""Files of solids for a layout whose parts are bushings."""

from __future__ import annotations

from collections.abc import Callable

from clampwright.checks.finding import Finding
from clampwright.files.findings_json import summary
from clampwright.files.from_solids import FromSolids
from clampwright.layout.joined import Joined

Step = Callable[[str], None]


def joined_solids(layout: Joined, findings: tuple[Finding, ...], step: Step) -> FromSolids:
    """Each bushing and the assembly as STEP and STL, a picture of the assembly, clearances of the solids."""
    step("loading the CAD kernel")
    from clampwright.files.exact import exact_findings
    from clampwright.files.joined_parts import joined_part_files
    from clampwright.files.pictures import pictures
    from clampwright.solids.joined_assembly import joined_assembly

    step("solids")
    bodies = joined_assembly(layout)
    exact = exact_findings(layout, bodies)
    verdict = str(summary((*findings, *exact.findings))["verdict"])
    files = [*joined_part_files(layout, bodies, verdict), *exact.files]
    step("pictures")
    return FromSolids((*files, *pictures(layout, bodies)), exact.findings)
