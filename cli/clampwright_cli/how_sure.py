"""How sure a layout's figures are, for a terminal: every clamp's ±, and which bushings are cut long."""

from __future__ import annotations

import textwrap

from clampwright.layout.cut_long import as_marked, left_long
from clampwright.layout.joined import Joined
from clampwright.quantities import show_length
from clampwright.sheets.plus_minus import cells, from_sentences
from clampwright.sheets.stations import marks_said
from clampwright_cli.table import table

_WIDE = 98
_START = "A station is where to start: the clamp slides along its tube until its bolt goes in."


def how_sure(layout: Joined) -> str:
    """A line on where every ± comes from, the clamps with theirs, and what to do; "" where none is known."""
    marks = [_filled(marks_said(layout), "  ")] if marks_said(layout) else []
    if not layout.known_to:
        return "\n".join(marks)
    units = layout.recipe.units
    heads = ["clamps", f"station ± {units}", f"bolt, across ± {units}", f"gap ± {units}"]
    rows = [[", ".join(labels), *shown] for shown, labels in _alike(layout).items()]
    said = [_filled(_START, "  "), *marks, *(_filled(line, "  ") for line in _cut_long(layout))]
    come_from = [_filled(each, "  ") for each in from_sentences(layout)]
    return "\n".join(["How sure these figures are", *come_from, table(heads, rows), *said])


def _filled(text: str, indent: str) -> str:
    return textwrap.fill(
        text,
        _WIDE,
        initial_indent=indent,
        subsequent_indent=indent,
        break_long_words=False,
        break_on_hyphens=False,
    )


def _alike(layout: Joined) -> dict[tuple[str, ...], list[str]]:
    """Cells of station, bolt and gap, with the clamps that have them."""
    found: dict[tuple[str, ...], list[str]] = {}
    for each in layout.known_to:
        found.setdefault(cells(each, layout.recipe.units), []).append(each.clamp)
    return found


def _cut_long(layout: Joined) -> list[str]:
    units = layout.recipe.units
    made = [(part, left_long(part, layout.known_to, units)) for part in as_marked(layout)]
    return [
        f"{part.mark}: cut {show_length(each.longer_mm, units)} longer for {', '.join(each.long)}, "
        "trim to the gap found."
        for part, each in made
        if each.long
    ]
