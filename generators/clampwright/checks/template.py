"""The drilling template: how many pages it takes at 1:1."""

from __future__ import annotations

from functools import partial
from math import ceil

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.sheet import size_of
from clampwright.checks.wording import shown
from clampwright.layout.placed import PlateLayout
from clampwright.trade.tables import rule

_pages = partial(Finding, "TEMPLATE-1", "pages of the template")

NAMES = {"letter": "Letter", "a4": "A4"}


def pages_needed(long_mm: float, short_mm: float, paper: str) -> int:
    """Fewest pages that hold a rectangle at 1:1, neighbours sharing a strip, paper upright or sideways.

    Across a printable width W with overlap s, n pages hold ``n (W - s) + s``.

    >>> pages_needed(180.0, 120.0, "letter"), pages_needed(300.0, 120.0, "letter")
    (1, 2)
    """
    margin, overlap = rule("template-margin").value, rule("template-overlap").value
    wide, high = (rule(f"paper-{paper}-{side}").value - 2 * margin for side in ("width", "height"))

    def tiles(length: float, printable: float) -> int:
        return max(1, ceil((length - overlap - SAME_MM) / (printable - overlap)))

    upright = tiles(long_mm, high) * tiles(short_mm, wide)
    sideways = tiles(long_mm, wide) * tiles(short_mm, high)
    return min(upright, sideways)


def page_count(layout: PlateLayout) -> tuple[Finding, ...]:
    """TEMPLATE-1: the outline at 1:1 takes few enough pages on each paper that the recipe names."""
    return tuple(_counted(paper, layout) for paper in layout.recipe.template.papers)


def _counted(paper: str, layout: PlateLayout) -> Finding:
    most = rule("template-pages-most")
    long, short = size_of(layout)
    count = pages_needed(long, short, paper)
    name = NAMES.get(paper, paper)
    found = partial(
        _pages,
        where=f"template on {name}",
        value=float(count),
        limit=most.value,
        unit="pages",
        sources=(most.source, rule(f"paper-{paper}-width").source),
    )
    sheets = "1 page" if count == 1 else f"{count} pages to be joined"
    says = f"{shown(long, layout)} by {shown(short, layout)} at 1:1 take at least {sheets} of {name}."
    if count <= most.value:
        return found(verdict="pass", says=says, change="")
    change = (
        f"Print it on larger paper in a copy shop: more than {most.value:g} joined pages drift; "
        "or lay the holes out from the table of coordinates."
    )
    return found(verdict="caution", says=says, change=change)


CHECKS = (
    Check(
        "TEMPLATE-1",
        "pages of the template",
        "Pages that the outline takes at 1:1 on each paper, within its border and with shared strips.",
        page_count,
        rules=(
            "template-pages-most",
            "template-margin",
            "template-overlap",
            "paper-letter-width",
            "paper-a4-width",
        ),
    ),
)
