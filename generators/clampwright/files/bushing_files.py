"""What a build writes, beside solids, for a component on bushings."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from clampwright.checks.finding import Finding
from clampwright.files.findings_json import findings_json
from clampwright.files.hardware_csv import hardware_csv
from clampwright.files.joined_json import bushing_json
from clampwright.files.making import making_files
from clampwright.files.written import Written
from clampwright.layout.bushing_placed import BushingLayout


def records(
    layout: BushingLayout, findings: tuple[Finding, ...], step: Callable[[str], None]
) -> Iterator[Written]:
    """Sheets, lists and data; where nothing fits, the recipe of a plate that would carry the component."""
    step("sheets")
    yield from making_files(layout, layout.cuts, findings)
    yield hardware_csv(layout)
    for remedy in layout.remedies:
        if remedy.plate_recipe:
            about = "Recipe of an accessory plate that would carry the component"
            yield Written(f"{layout.recipe.name}-plate.toml", remedy.plate_recipe.encode(), about)
    yield bushing_json(layout)
    yield findings_json(layout.recipe, findings)
