"""Clearances measured on the solids: the findings, and the list of them as a file. Loads the CAD kernel."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from clampwright.files.from_solids import FromSolids
from clampwright.layout.joined import Joined

if TYPE_CHECKING:
    from clampwright.solids.body import Body


def exact_findings(layout: Joined, bodies: Sequence[Body]) -> FromSolids:
    """What the solids' own distances say, beside what the checks' simple bodies said."""
    from clampwright.checks.exact import solids_clear
    from clampwright.files.clearances_csv import clearances_csv
    from clampwright.solids.clearances import clearances

    measured = clearances(layout, bodies)
    return FromSolids((clearances_csv(layout, measured),), solids_clear(measured, layout))
