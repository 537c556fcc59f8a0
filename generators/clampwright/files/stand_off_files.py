"""What a build writes, beside solids, for a stand-off."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from clampwright.checks.finding import Finding
from clampwright.files.findings_json import findings_json
from clampwright.files.hardware_csv import hardware_csv
from clampwright.files.joined_json import stand_off_json
from clampwright.files.making import making_files
from clampwright.files.written import Written
from clampwright.layout.stand_off_placed import StandOffLayout


def records(
    layout: StandOffLayout, findings: tuple[Finding, ...], step: Callable[[str], None]
) -> Iterator[Written]:
    """Sheets, lists and data."""
    step("sheets")
    yield from making_files(layout, layout.cuts, findings)
    yield hardware_csv(layout)
    yield stand_off_json(layout)
    yield findings_json(layout.recipe, findings)
