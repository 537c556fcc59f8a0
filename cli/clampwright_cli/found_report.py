"""Tubes found in a file, as text for people."""

from __future__ import annotations

import math

import click

from clampwright.quantities import show_length
from clampwright.structure.found import Found, FoundTube
from clampwright.structure.tubes import Structure
from clampwright_cli.paragraph import paragraph
from clampwright_cli.table import table


def report(found: Found, structure: Structure | None, units: str) -> str:
    """What the file holds, a line a tube, what is doubtful, what was not taken for a tube."""
    parts = [_head(found, units), _tubes(found, units), _doubts(found), _not_taken(found)]
    return "\n\n".join(part for part in (*parts, _last(found, structure)) if part)


def _head(found: Found, units: str) -> str:
    size = " x ".join(show_length(side, units).removesuffix(f" {units}") for side in found.size_mm)
    return "\n".join(
        (
            f"{click.style(found.source, bold=True)}: {_counted(len(found.tubes))}",
            f"  unit {found.unit} ({found.unit_how}); everything in it fits a box {size} {units}",
        )
    )


def _counted(tubes: int) -> str:
    return "1 round tube" if tubes == 1 else f"{tubes or 'no'} round tubes"


def _tubes(found: Found, units: str) -> str:
    if not found.tubes:
        return ""
    heads = ["no.", "name", "from", "to", "length", "diameter", "stock", "skin", "± at ends", "off by"]
    rows = [_row(each, units) for each in found.tubes]
    return f"Tubes, longest first (places in {units})\n" + table(heads, rows)


def _row(each: FoundTube, units: str) -> list[str]:
    def length(mm: float) -> str:
        return show_length(mm, units).removesuffix(f" {units}")

    def place(at: tuple[float, float, float]) -> str:
        return " ".join(length(value) for value in at)

    scanned = bool(each.spread_mm)
    od = length(each.od_found_mm) + (f" ±{length(each.od_plus_minus_mm)}" if scanned else "")
    return [
        str(each.number),
        each.tube.name,
        place(each.tube.start),
        place(each.tube.end),
        length(each.tube.length_mm),
        od,
        each.stock or "-",
        f"{math.degrees(each.coverage_rad):.0f} deg",
        length(each.ends_plus_minus_mm) if scanned else "-",
        length(each.residual_mm) if scanned else "-",
    ]


def _doubts(found: Found) -> str:
    alike: dict[str, list[FoundTube]] = {}
    for each in found.tubes:
        if each.doubts:
            alike.setdefault(" ".join(each.doubts), []).append(each)
    lines = [
        paragraph("  ", f"{', '.join(f'{tube.number} {tube.tube.name}' for tube in tubes)}: {doubts}")
        for doubts, tubes in alike.items()
    ]
    lines += [paragraph("  ! ", doubt) for doubt in found.doubts]
    return "\n".join(("Look at these first", *lines)) if lines else ""


def _not_taken(found: Found) -> str:
    lines = [paragraph("  ", f"{each.what}: {each.why}") for each in found.not_taken]
    return "\n".join(("Round, but not taken for tubes", *lines)) if lines else ""


def _last(found: Found, structure: Structure | None) -> str:
    if not found.tubes:
        return "No straight round tube was found: is it the right file, and its unit right?"
    if structure is None:
        return "Look at the picture, then take tubes: --take 1,2 --name 1=upper-left, or --take all."
    taken = ", ".join(structure.names)
    if structure.uncertainty is None:
        return f"Taken: {taken}.\n" + paragraph(
            "",
            "A drawing is not the metal: the recipe's [measuring] error stands for how far they may differ.",
        )
    return f"Taken: {taken}; {structure.uncertainty.said}."
