"""Sheets and lists for making bushings and fitting clamps: what every kind of layout has."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from clampwright.checks.finding import Finding
from clampwright.files.cut_list import cut_list_csv
from clampwright.files.sheet_files import draw_each, sheet_files
from clampwright.files.written import Written
from clampwright.layout.bushing_parts import CutList
from clampwright.layout.joined import Joined
from clampwright.sheets.cut_sheet import cut_sheet
from clampwright.sheets.drawing import Sheet
from clampwright.sheets.installation_sheet import installation_sheet
from clampwright.sheets.tube_wraps import tube_wraps


def making_files(layout: Joined, cuts: CutList, findings: tuple[Finding, ...]) -> Iterator[Written]:
    """Cut sheet and list where there are bushings, installation sheet, wraps where tubes hold clamps."""
    if layout.bushings:
        cut = partial(_cut, cuts)
        yield from sheet_files(layout.recipe, "bushing-cut-sheet", draw_each(cut, layout, findings))
        yield cut_list_csv(layout, cuts)
    yield from sheet_files(layout.recipe, "installation", draw_each(installation_sheet, layout, findings))
    if any(loop.tube in layout.recipe.structure.names for loop in layout.loops):
        yield from sheet_files(layout.recipe, "tube-wraps", draw_each(tube_wraps, layout, findings))


def _cut(cuts: CutList, layout: Joined, findings: tuple[Finding, ...], paper: str) -> Sheet:
    return cut_sheet(layout, cuts, findings, paper)
