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

_ROOM = (
    "template-margin",
    "template-overlap",
    "template-strip",
    "template-head",
    "template-head-failing",
    "template-pad-whole",
    "template-pad-tiled",
)


def window(paper: str, *, failing: bool) -> tuple[float, float]:
    """Width and height of what is left for the drawing on an upright page, mm.

    The paper less its border, the bars on the left and at the bottom, and the title block at the top, which
    is higher where a check fails.

    >>> [round(side, 1) for side in window("letter", failing=False)]
    [188.4, 229.0]
    """
    wide, high = (rule(f"paper-{paper}-{side}").value for side in ("width", "height"))
    border, strip = 2 * rule("template-margin").value, rule("template-strip").value
    head = rule("template-head").value + (rule("template-head-failing").value if failing else 0.0)
    return wide - border - strip, high - border - strip - head


def pages_needed(long_mm: float, short_mm: float, paper: str, *, failing: bool = False) -> int:
    """Fewest pages that hold a rectangle at 1:1, the drawing upright or sideways.

    On one page with a little room round it; else on several that share a strip, with more room for names:
    across a window W with overlap s, n pages hold ``n (W - s) + s``.

    >>> pages_needed(180.0, 120.0, "letter"), pages_needed(300.0, 120.0, "letter")
    (1, 2)
    """
    wide, high = window(paper, failing=failing)
    long, short = (side + 2 * rule("template-pad-whole").value - SAME_MM for side in (long_mm, short_mm))
    if (long <= wide and short <= high) or (long <= high and short <= wide):
        return 1
    overlap = rule("template-overlap").value
    long, short = (side + 2 * rule("template-pad-tiled").value for side in (long_mm, short_mm))

    def tiles(length: float, room: float) -> int:
        return max(1, ceil((length - overlap - SAME_MM) / (room - overlap)))

    return min(tiles(long, high) * tiles(short, wide), tiles(long, wide) * tiles(short, high))


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
    says = f"{shown(long, layout)} by {shown(short, layout)} at 1:1 take {_pages_of(count, name)}"
    warned = pages_needed(long, short, paper, failing=True)
    if warned != count:
        says += f" ({warned} while a check fails, for the warning takes room)"
    if count <= most.value:
        return found(verdict="pass", says=f"{says}.", change="")
    change = (
        f"Print it on larger paper in a copy shop: more than {most.value:g} joined pages drift; "
        "or lay the holes out from the table of coordinates."
    )
    return found(verdict="caution", says=f"{says}.", change=change)


def _pages_of(count: int, name: str) -> str:
    return f"1 page of {name}" if count == 1 else f"{count} pages of {name} to be joined"


CHECKS = (
    Check(
        "TEMPLATE-1",
        "pages of the template",
        "Pages that the outline takes at 1:1 on each paper, less border, bars, title block, shared strips.",
        page_count,
        rules=("template-pages-most", *_ROOM, "paper-letter-width", "paper-a4-width"),
    ),
)
