"""Exact clearances as CSV (RFC 4180, UTF-8), the least first."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from clampwright.files.hardware_csv import as_text
from clampwright.files.written import Written
from clampwright.layout.clearance_found import Clearance
from clampwright.layout.joined import Joined
from clampwright.trade.tables import rule

COLUMNS = (
    "one",
    "other",
    "kind",
    "clearance_of_solids_mm",
    "plus_minus_95_mm",
    "common_volume_mm3",
    "clearance_of_simple_bodies_mm",
    "asked_mm",
)


def clearances_csv(layout: Joined, found: Sequence[Clearance]) -> Written:
    """What the solids leave between any two things that come near each other, and the check's simple bodies.

    The ± (95 %) is that of the solids' distance, from how the tubes were measured; none where they touch.

    Parameters
    ----------
    layout : Joined
        What was measured.
    found : Sequence[Clearance]
        From `clearances`.
    """
    text = io.StringIO(newline="")
    lines = csv.writer(text)
    lines.writerow(COLUMNS)
    lines.writerows(_row(each) for each in found)
    near = rule("solids-near").value
    about = (
        f"Clearances of the solids; pairs that are not listed are at least {near:g} mm apart, or one stack"
    )
    name = f"{layout.recipe.name}-clearances.csv"
    return Written(name, text.getvalue().encode("utf-8"), about, (("pairs", len(found)),))


def _row(each: Clearance) -> tuple[str, ...]:
    return (
        as_text(each.one),
        as_text(each.other),
        each.kind,
        _mm(each.exact_mm),
        _mm(None if each.known is None else each.known.plus_minus_mm),
        f"{each.common_mm3:.1f}",
        _mm(each.simple_mm),
        _mm(each.asked_mm),
    )


def _mm(value: float | None) -> str:
    return "" if value is None else f"{value:.3f}"
