"""A layout and its findings as text for people."""

from __future__ import annotations

import math
import shutil
import sys
import textwrap

import click

from clampwright.checks import NOT_JUDGED
from clampwright.checks.all_checks import grouped
from clampwright.checks.finding import VERDICTS, Finding
from clampwright.layout.placed import ClampPlace, PlateLayout, StackItem
from clampwright.make import Checked
from clampwright.quantities import show_length, show_mass
from clampwright.sheets.figures import coordinate
from clampwright.trade.sources import source
from clampwright_cli.table import table

WIDEST, NARROWEST = 100, 60
COLOURS = {"fail": "red", "unknown": "magenta", "caution": "yellow", "pass": "green"}


def report(checked: Checked, every: bool) -> str:
    """The whole report: what it is, the clamps, the holes, the findings, what was assumed."""
    layout = checked.layout
    parts = [
        _head(layout),
        _clamps(layout),
        _holes(layout),
        _findings(checked.findings, every),
        _assumed(layout),
        _verdict(checked),
    ]
    return "\n\n".join(part for part in parts if part)


def counts(findings: tuple[Finding, ...]) -> str:
    """'2 fail, 1 caution, 31 pass', worst first."""
    totals = {verdict: sum(f.verdict == verdict for f in findings) for verdict in VERDICTS}
    return ", ".join(f"{number} {verdict}" for verdict, number in totals.items() if number)


def _head(layout: PlateLayout) -> str:
    recipe = layout.recipe
    low_u, low_v, high_u, high_v = layout.outline.box()
    size = " x ".join(show_length(value, recipe.units) for value in (high_u - low_u, high_v - low_v))
    mass_unit = "lb" if recipe.units == "in" else "kg"
    u, v, z = (show_length(value, recipe.units) for value in layout.centre_of_gravity)
    lines = [
        f"{click.style(recipe.name, bold=True)}: {recipe.kind}, recipe {recipe.digest}",
        *([f"  {recipe.about}"] if recipe.about else []),
        f"  plate {size}, {layout.material.name} {show_length(layout.thickness_mm, recipe.units)}, "
        f"{show_mass(layout.plate_mass_kg, mass_unit)}; "
        f"with what it carries {show_mass(layout.total_mass_kg, mass_unit)}",
        f"  centre of gravity {u} and {v} from the datum edges, {z} above the face on the clamps",
    ]
    return "\n".join(lines)


def _clamps(layout: PlateLayout) -> str:
    heads = ["clamp", "tube", "station", "side", "part", "between foot and plate", "tilt", "bolt"]
    return "Clamps\n" + table(heads, [_clamp_row(clamp, layout.recipe.units) for clamp in layout.clamps])


def _clamp_row(clamp: ClampPlace, units: str) -> list[str]:
    packing = ", ".join(_packed(item, units) for item in clamp.packing)
    chosen = clamp.stack.chosen
    return [
        clamp.label,
        clamp.tube,
        show_length(clamp.station_mm, units),
        clamp.side,
        clamp.clamp.part,
        packing or "nothing",
        f"{math.degrees(clamp.tilt_rad):.1f} deg",
        chosen.length.part if chosen else "not known",
    ]


def _packed(item: StackItem, units: str) -> str:
    count = f"{item.count} x " if item.count > 1 else ""
    made = item.name in ("bushing", "shim")
    return count + (f"{item.name} {show_length(item.thickness_mm, units)}" if made else item.part)


def _holes(layout: PlateLayout) -> str:
    units = layout.recipe.units
    rows = [
        [
            hole.label,
            coordinate(hole.at[0], units),
            coordinate(hole.at[1], units),
            show_length(hole.diameter_mm, units),
            hole.pilot,
            hole.drill,
            " ".join(word for word in (hole.purpose, hole.owner if hole.owner != hole.label else "") if word),
        ]
        for hole in layout.holes
    ]
    return "Holes, from the left and bottom datum edges, component side up\n" + table(
        ["hole", f"across {units}", f"up {units}", "diameter", "pilot", "final", "for"], rows
    )


def _findings(findings: tuple[Finding, ...], every: bool) -> str:
    lines = [f"Findings: {counts(findings)}"]
    for verdict in VERDICTS:
        if verdict == "pass" and not every:
            continue
        lines += [_finding(each) for each in grouped(findings) if each.verdict == verdict]
    passed = sorted(
        {f.code for f in findings if f.verdict == "pass"} - {f.code for f in findings if f.verdict != "pass"}
    )
    if passed and not every:
        lines.append(_wrap("  passed in full: ", ", ".join(passed) + " (--all lists them)"))
    return "\n".join(lines)


def _finding(finding: Finding) -> str:
    mark = click.style(finding.verdict.upper().ljust(8), fg=COLOURS[finding.verdict], bold=True)
    lines = [_wrap(f"  {mark}{finding.code.ljust(11)}", f"{finding.where}: {finding.says}", 21)]
    if finding.change:
        lines.append(_wrap(" " * 21, "do: " + finding.change, 21))
    if finding.verdict != "pass":
        lines.append(_wrap(" " * 21, "based on: " + "; ".join(_cite(key) for key in finding.sources), 21))
    return "\n".join(lines)


def _cite(key: str) -> str:
    cited = source(key)
    return f"{cited.title} [{cited.status}]"


def _wrap(first: str, text: str, indent: int = 4) -> str:
    body = textwrap.fill(text, _width() - indent, break_long_words=False, break_on_hyphens=False)
    return first + body.replace("\n", "\n" + " " * indent)


def _width() -> int:
    """Columns of the terminal, within reason; the widest in a pipe."""
    if not sys.stdout.isatty():
        return WIDEST
    return max(NARROWEST, min(WIDEST, shutil.get_terminal_size().columns))


def _assumed(layout: PlateLayout) -> str:
    taken = (*layout.recipe.assumed, *layout.assumed)
    if not taken:
        return ""
    return "Assumed, because the recipe does not say\n" + "\n".join(
        _wrap(f"  {key}: ", value) for key, value in taken
    )


def _verdict(checked: Checked) -> str:
    words = {
        "fail": "DO NOT DRILL: a check fails.",
        "unknown": "No check fails, but some rest on values nobody measured: measure them before you drill.",
        "caution": "No check fails; read the cautions.",
        "pass": "Every check passes.",
    }
    text = click.style(words[checked.verdict], fg=COLOURS[checked.verdict], bold=True)
    last = "The kit maker's instructions and the regulations come first."
    return "\n".join((text, textwrap.fill(NOT_JUDGED, _width()), last))
