"""A layout and its findings as text for people."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Callable
from typing import Any

import click

from clampwright.checks import NOT_JUDGED
from clampwright.checks.all_checks import grouped
from clampwright.checks.finding import VERDICTS, Finding
from clampwright.layout.kinds import Layout
from clampwright.layout.placed import PlateLayout
from clampwright.make import Checked
from clampwright.trade.sources import source
from clampwright_cli import bushing_report, plate_report, stand_off_report
from clampwright_cli.paragraph import paragraph, width

HEADS: dict[str, Callable[[Any], list[str]]] = {
    "accessory plate": plate_report.head,
    "component bushings": bushing_report.head,
    "stand-off": stand_off_report.head,
}
"""What stands under the title, by kind."""
BODIES: dict[str, Callable[[Any], list[str]]] = {
    "accessory plate": plate_report.body,
    "component bushings": bushing_report.body,
    "stand-off": stand_off_report.body,
}
"""The tables of each kind, in order."""
COLOURS = {"fail": "red", "unknown": "magenta", "caution": "yellow", "pass": "green"}


def report(checked: Checked, detail: str) -> str:
    """The whole report: what it is, its kind's own tables, the findings, what was assumed.

    `detail` is "usual"; "all" for passes too; "brief" for a line a finding, and nothing of what was assumed.
    """
    layout = checked.layout
    parts = [
        _title(layout),
        *BODIES[layout.recipe.kind](layout),
        findings_text(checked.findings, detail),
        "" if detail == "brief" else _assumed(layout),
        _verdict(checked),
    ]
    return "\n\n".join(part for part in parts if part)


def counts(findings: tuple[Finding, ...]) -> str:
    """'2 fail, 1 caution, 31 pass', worst first."""
    totals = {verdict: sum(f.verdict == verdict for f in findings) for verdict in VERDICTS}
    return ", ".join(f"{number} {verdict}" for verdict, number in totals.items() if number)


def _title(layout: Layout) -> str:
    recipe = layout.recipe
    lines = [f"{click.style(recipe.name, bold=True)}: {recipe.kind}, recipe {recipe.digest}"]
    lines += [f"  {recipe.about}"] if recipe.about else []
    return "\n".join([*lines, *(f"  {line}" for line in HEADS[recipe.kind](layout))])


def findings_text(findings: tuple[Finding, ...], detail: str) -> str:
    """The findings, worst first; `detail` as `report` takes it."""
    lines = [f"Findings: {counts(findings)}"]
    for verdict in VERDICTS:
        if verdict == "pass" and detail != "all":
            continue
        lines += [_finding(each, detail) for each in grouped(findings) if each.verdict == verdict]
    passed = sorted(
        {f.code for f in findings if f.verdict == "pass"} - {f.code for f in findings if f.verdict != "pass"}
    )
    if passed and detail == "usual":
        lines.append(paragraph("  passed in full: ", ", ".join(passed) + " (--all lists them)"))
    return "\n".join(lines)


def _finding(finding: Finding, detail: str) -> str:
    mark = click.style(finding.verdict.upper().ljust(8), fg=COLOURS[finding.verdict], bold=True)
    lines = [paragraph(f"  {mark}{finding.code.ljust(11)}", f"{finding.where}: {finding.says}", 21)]
    if detail == "brief":
        return paragraph(f"  {mark}{finding.code.ljust(11)}", f"{finding.where}: {_first(finding.says)}", 21)
    if finding.change:
        lines.append(paragraph(" " * 21, "do: " + finding.change, 21))
    if finding.verdict != "pass":
        lines.append(paragraph(" " * 21, "based on: " + "; ".join(_cite(key) for key in finding.sources), 21))
    return "\n".join(lines)


def _first(says: str) -> str:
    """The first sentence of a finding."""
    return re.split(r"(?<=\.)\s", says, maxsplit=1)[0]


def _cite(key: str) -> str:
    cited = source(key)
    return f"{cited.title} [{cited.status}]"


def _assumed(layout: Layout) -> str:
    taken = (*layout.recipe.assumed, *layout.assumed)
    if not taken:
        return ""
    return "Assumed, because the recipe does not say\n" + "\n".join(
        paragraph(f"  {key}: ", value) for key, value in taken
    )


def _verdict(checked: Checked) -> str:
    drilled = isinstance(checked.layout, PlateLayout)
    never, work = ("DO NOT DRILL", "drill") if drilled else ("DO NOT MAKE OR FIT IT", "make anything")
    words = {
        "fail": f"{never}: a check fails.",
        "unknown": "No check fails, but some rest on values nobody measured: measure them before you "
        f"{work}.",
        "caution": "No check fails; read the cautions.",
        "pass": "Every check passes.",
    }
    text = click.style(words[checked.verdict], fg=COLOURS[checked.verdict], bold=True)
    last = "The kit maker's instructions and the regulations come first."
    return "\n".join((text, textwrap.fill(NOT_JUDGED, width()), last))
