"""A solved survey as text for people."""

from __future__ import annotations

import math

import click

from clampwright.quantities import show_length
from clampwright.quantities.kinds import INCH
from clampwright.structure.survey.model import Between, Slope
from clampwright.structure.survey.solved import Judged, SolvedSurvey
from clampwright.structure.tubes import Structure
from clampwright_cli.paragraph import paragraph
from clampwright_cli.table import table

_SHOWN = 8
"""Measurements listed, worst first, where not all are asked for."""


def report(solved: SolvedSurvey, detail: str) -> str:
    """Points, tubes, what is wrong, the measurements held against each other, what to measure next."""
    brief = detail == "brief"
    parts = [
        _head(solved),
        _questions(solved),
        "" if brief else _points(solved),
        _tubes(solved),
        "" if brief else _measurements(solved, detail == "all"),
        _next(solved),
        _verdict(solved),
    ]
    return "\n\n".join(part for part in parts if part)


def _head(solved: SolvedSurvey) -> str:
    survey = solved.survey
    lines = [f"{click.style(survey.name, bold=True)}: tape survey {survey.digest}"]
    lines += [f"  {survey.about}"] if survey.about else []
    counted = (
        f"{len(survey.tubes)} tubes, {len(survey.points)} points, {len(survey.measurements)} measurements"
    )
    lines.append(f"  {counted}, {solved.redundancy} more than needed")
    if solved.redundancy and not solved.freedoms:
        most = f"up to {solved.scale_most:.2f} is chance"
        lines.append(f"  they agree to {solved.scale:.2f} times their stated ± ({most})")
    if solved.worst_mm is not None:
        lines.append(f"  the worst end of a tube is known to ± {show_length(solved.worst_mm, survey.units)}")
    return "\n".join(lines)


def _questions(solved: SolvedSurvey) -> str:
    """What stands in the way, or has to be answered."""
    lines = [paragraph("  ! ", each) for each in solved.says]
    lines += [paragraph("  note: ", each) for each in solved.cautions]
    lines += [paragraph("  ? ", each.ask) for each in solved.mirrors if not each.resolved]
    return "\n".join(lines)


def _points(solved: SolvedSurvey) -> str:
    units = solved.survey.units
    if not solved.points or solved.freedoms:
        return ""
    heads = ["point", "x", "y", "z", "± x", "± y", "± z"]
    rows = [
        [each.name, *(_plain(value, units) for value in (*each.at, *each.plus_minus_mm))]
        for each in solved.points
    ]
    return f"Points ({units}; ± at 95 %)\n" + table(heads, rows)


def _plain(mm: float, units: str) -> str:
    """As many decimals in every row of a column."""
    value = mm / float(INCH) if units == "in" else mm
    return f"{value + 0.0:.{3 if units == 'in' else 2}f}"


def _tubes(solved: SolvedSurvey) -> str:
    structure: Structure | None = solved.structure
    if structure is None:
        return ""
    units = solved.survey.units
    heads = ["tube", "from", "to", "OD", "length", "rises", "mark at"]
    rows = []
    for tube, asked in zip(structure.tubes, solved.survey.tubes, strict=True):
        rises = math.degrees(math.asin(max(-1.0, min(1.0, tube.direction[2]))))
        mark = "-" if tube.mark_mm is None else show_length(tube.mark_mm, units)
        length = show_length(tube.length_mm, units)
        od = show_length(tube.od_mm, units)
        rows.append([tube.name, asked.start, asked.end, od, length, f"{rises:.1f} deg", mark])
    return "Tubes\n" + table(heads, rows)


def _measurements(solved: SolvedSurvey, every: bool) -> str:
    if not solved.judged or solved.freedoms:
        return ""
    ordered = sorted(solved.judged, key=lambda each: -(each.score or 0.0))
    listed = ordered if every else ordered[:_SHOWN]
    heads = ["measurement", "read", "computed", "off by", "score", "a slip shows from"]
    body = table(heads, [_judged(each, solved.survey.units) for each in listed])
    rest = len(ordered) - len(listed)
    more = f"\n  {rest} more (--all lists them)" if rest else ""
    about = "score: how far off in its own standard deviations; above 3.3 it is worth another look"
    return f"Measurements held against all others, worst first\n  ({about})\n{body}{more}"


def _judged(each: Judged, units: str) -> list[str]:
    def shown(value: float | None) -> str:
        if value is None:
            return "-"
        if isinstance(each.measurement, Slope | Between):
            return f"{math.degrees(value):.2f} deg"
        return show_length(value, units)

    score = "-" if each.score is None else f"{each.score:.1f}"
    read = each.computed + each.residual
    return [each.name, shown(read), shown(each.computed), shown(each.residual), score, shown(each.hides)]


def _next(solved: SolvedSurvey) -> str:
    lines = [
        paragraph(f"  {number}. ", f"{each.what}: {each.does}")
        for number, each in enumerate(solved.take_next, 1)
    ]
    return "\n".join(("Worth measuring next", *lines)) if lines else ""


def _verdict(solved: SolvedSurvey) -> str:
    if solved.structure is None:
        return click.style("NOT TO BE BUILT ON: see the marks ! and ? above.", fg="red", bold=True)
    if not solved.redundancy:
        text = "It can be used, but nothing checks it: take some measurements more than needed."
        return click.style(text, fg="yellow", bold=True)
    return click.style("It can be used: recipes carry its ± through to every hole and bushing.", fg="green")
