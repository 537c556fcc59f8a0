"""What the drilling template says beside the drawing, as blocks for its columns."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from clampwright.checks.finding import Finding
from clampwright.checks.not_judged import NOT_JUDGED
from clampwright.layout.placed import PlateLayout
from clampwright.quantities import Vec2, show_length
from clampwright.sheets.distances import farthest
from clampwright.sheets.flow import Block, gap, heading, paragraph, warning
from clampwright.sheets.hole_table import distance_table, hole_table, kept
from clampwright.sheets.ink import ACCENT, BLACK, SMALL
from clampwright.sheets.plus_minus import START_THERE, station_cell, where_from
from clampwright.sheets.print_check import PrintCheck, reading_error, tolerance_mm, tolerated_error
from clampwright.sheets.stations import marks_said, station_of
from clampwright.sheets.table import Heading, table
from clampwright.sheets.verdict import CAUTIONS, NOT_VERIFIED


def note_blocks(
    layout: PlateLayout,
    findings: tuple[Finding, ...],
    check: PrintCheck,
    room: float,
    *,
    turned: bool = False,
    unlabelled: Sequence[str] = (),
) -> list[Block]:
    """Everything, in the order of work."""
    return [
        *_unlabelled(unlabelled, room),
        *print_notes(layout, check, room, turned=turned),
        *hole_table(layout, room),
        *distance_table(layout, room),
        *clamp_table(layout, room),
        *finding_notes(findings, room, brief=True),
        *cautions(room),
    ]


def print_words(check: PrintCheck) -> tuple[str, str]:
    """The state of the print in bold, and what to do, for the title block."""
    how = "Print at 100 % (actual size), page scaling off; this file asks for that too."
    if check.verified and check.last is not None:
        return verified_words(
            check
        ), "Holds for that printer, paper and setting: measure the bars of every print."
    if check.last is None:
        return NOT_VERIFIED, f"{how} Then measure both 100 mm bars and enter them in the recipe."
    across, along = check.last
    return NOT_VERIFIED, f"Drawn corrected for a print of {across:g} across, {along:g} along. {how}"


def verified_words(check: PrintCheck) -> str:
    """ "verified by the bars", with the last pair."""
    across, along = check.last or (0.0, 0.0)
    return f"verified by the bars: {across:g} mm across, {along:g} mm along"


def print_notes(layout: PlateLayout, check: PrintCheck, room: float, *, turned: bool = False) -> list[Block]:
    """How to print, how true the print is, and what error is left at the farthest holes."""
    blocks = heading("Print to true size", room)
    tolerance = f"{tolerance_mm():.2g} mm"
    steps = (
        "Print at 100 %, actual size, no fit to page. Lay the paper flat; measure the solid 100 mm bars from "
        f"edge to edge, across and along. True is 100 ± {tolerance} both ways. Enter the lengths in the "
        "recipe, whatever they are, and build again:"
    )
    blocks += paragraph(steps, room)
    blocks += paragraph("[template] prints = [[across, along]]", room, bold=True)
    if not check.verified:
        blocks += paragraph("measured:  across __________ mm    along __________ mm", room, after=2.0)
    blocks += _state(check, room)
    blocks += _error_left(layout, check, room, turned=turned)
    return [*blocks, gap(3.0)]


def _state(check: PrintCheck, room: float) -> list[Block]:
    blocks: list[Block] = []
    for across, along in check.refused:
        blocks += warning(
            f"Not used: {across:g} x {along:g} is no print of these bars; check the numbers.", room
        )
    if check.stretch != (1.0, 1.0):
        across, along = check.stretch
        text = f"Drawn {across:.5f} times across and {along:.5f} times along, so that it prints true."
        blocks += paragraph(text, room)
    if check.verified:
        return [*blocks, *paragraph(verified_words(check) + f" (print {check.prints}).", room, bold=True)]
    return [*blocks, *warning(NOT_VERIFIED + ".", room)]


def _error_left(layout: PlateLayout, check: PrintCheck, room: float, *, turned: bool) -> list[Block]:
    pair = farthest(layout.holes)
    if pair is None:
        return []
    a, b = pair
    du, dv = abs(b.at[0] - a.at[0]), abs(b.at[1] - a.at[1])
    span: Vec2 = (dv, du) if turned else (du, dv)
    units = layout.recipe.units
    names = f"{a.label} and {b.label}, the farthest holes ({_show((du * du + dv * dv) ** 0.5, units)} apart)"
    reading, last = _show(reading_error(span), units), check.last_error(span)
    if check.verified and last is not None:
        text = f"Error left between {names}: {_show(last, units)}, ± {reading} from reading the bars."
    elif last is not None:
        text = f"The last print was off by {_show(last, units)} between {names}; this one is not known yet."
    else:
        most = _show(tolerated_error(span), units)
        text = f"Error left between {names}: not known; bars just within tolerance leave {most}."
    return paragraph(text, room)


def _show(mm: float, units: str) -> str:
    return show_length(mm, units)


def clamp_table(layout: PlateLayout, room: float) -> list[Block]:
    """Which clamp sits where on which tube; tubes run in the direction of the arrows."""
    if not layout.clamps:
        return []
    units = layout.recipe.units
    headings = (
        Heading("clamp", bold=True),
        Heading("tube", wraps=True),
        Heading(f"station {units}", "right"),
        *([Heading(f"± {units}", "right")] if layout.known_to else []),
        Heading("side"),
        Heading("part", wraps=True),
    )
    rows = [
        (
            *(c.label, c.tube, station_of(c, layout)),
            *((station_cell(c.label, layout),) if layout.known_to else ()),
            *(c.side, c.clamp.part),
        )
        for c in layout.clamps
    ]
    text = "The clamps lie under the plate. Stations count along each tube in the direction of its arrows."
    said = (text, marks_said(layout), START_THERE if layout.known_to else "", where_from(layout))
    return [
        *heading("Tubes and clamps", room),
        *(line for each in said if each for line in kept(paragraph(each, room, SMALL))),
        *table(headings, rows, room, SMALL),
        gap(4.0),
    ]


def finding_notes(findings: tuple[Finding, ...], room: float, *, brief: bool = False) -> list[Block]:
    """Findings that are not a pass: fails with what to change, then what nobody measured, then cautions.

    In brief, those that do not fail are only named.
    """
    blocks: list[Block] = []
    titles = (("fail", "These checks fail"), ("unknown", "Not known"), ("caution", "Cautions of the checks"))
    for verdict, title in titles:
        found = merged(finding for finding in findings if finding.verdict == verdict)
        if not found:
            continue
        blocks += heading(title, room, colour=ACCENT if verdict == "fail" else BLACK)
        named = brief and verdict != "fail"
        blocks += (
            _named(found, room) if named else [line for one in found for line in finding_lines(one, room)]
        )
        blocks.append(gap(2.0))
    return blocks


def merged(findings: Iterable[Finding]) -> list[Finding]:
    """Findings that say the same of several places as one, places joined, in the order of the first."""
    groups: dict[tuple[str, str, str], Finding] = {}
    for finding in findings:
        key = (finding.code, finding.says, finding.change)
        known = groups.get(key)
        where = f"{known.where}, {finding.where}" if known is not None else finding.where
        groups[key] = replace(finding, where=where)
    return list(groups.values())


def _named(findings: list[Finding], room: float) -> list[Block]:
    """A line a code: what was checked, and where; the drill sheet says what to do."""
    where: dict[tuple[str, str], list[str]] = {}
    for finding in findings:
        where.setdefault((finding.code, finding.what), []).append(finding.where)
    blocks: list[Block] = []
    for (code, what), places in where.items():
        blocks += paragraph(f"{code} {what}: {', '.join(places)}", room, SMALL, after=0.6)
    return [*blocks, *paragraph("What to do about them stands on the drill sheet.", room, SMALL)]


def finding_lines(finding: Finding, room: float, size_mm: float = SMALL) -> list[Block]:
    """A finding: code and place, what it says, what to change."""
    head = f"{finding.code}  {finding.where}: {finding.what}"
    lines = paragraph(head, room, size_mm, bold=True, after=0.1)
    text = f"{finding.says} {finding.change}".strip()
    return [*kept(lines), *paragraph(text, room, size_mm, after=1.4)]


def _unlabelled(labels: Sequence[str], room: float) -> list[Block]:
    if not labels:
        return []
    return warning(f"No room on the drawing for the labels of {', '.join(labels)}: see the hole table.", room)


def cautions(room: float, work: str = "drill") -> list[Block]:
    """The usual cautions before some work ("drill", "install"), and what no check looks at."""
    blocks = heading(f"Before you {work}", room)
    for text in (*CAUTIONS, NOT_JUDGED):
        blocks += paragraph(text, room, SMALL)
    return blocks
