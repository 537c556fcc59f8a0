"""The inspection page for the next mechanic, on every paper that the recipes print on."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.files.pack.bay import Bay
from clampwright.files.pdf import pdf
from clampwright.files.written import Written
from clampwright.sheets.paper import NAMES
from clampwright.sheets.shop.inspection_page import inspection_page


def inspection_files(bay: Bay) -> Iterator[Written]:
    """A PDF a paper, "letter" and "a4"."""
    for paper in NAMES:
        sheet = inspection_page(bay.name, bay.digest, bay.jobs, bay.units, paper)
        about = "Inspection page for the next mechanic: stations, clocks, torques, what to look at"
        yield Written(f"inspection-{paper}.pdf", pdf(sheet), about, (("pages", len(sheet.pages)),))
