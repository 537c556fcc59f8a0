"""The sheet of tubes found in a file: pictures by number and the table to choose from."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from clampwright.quantities import show_length
from clampwright.sheets.drawing import Sheet
from clampwright.sheets.figures import distance
from clampwright.sheets.flow import Block, gap, heading, paragraph
from clampwright.sheets.in_parts import Part
from clampwright.sheets.ink import SMALL
from clampwright.sheets.paper import paper
from clampwright.sheets.structure_eyes import OWN_AXES
from clampwright.sheets.structure_views import legend, number_views
from clampwright.sheets.survey_pages import SurveyHead, page_room, survey_pages
from clampwright.sheets.table import Heading, table
from clampwright.sheets.verdict import CAUTIONS
from clampwright.structure.found import Found, FoundTube

WHAT = "TUBES FOUND, by number"
_SURE = (
    Heading("ends ± across, along", "right"),
    Heading("direction ±", "right"),
    Heading("off by", "right"),
)
_EXACT = "No ±: these are the file's own figures. How well the aircraft agrees with them, it does not say."


def found_sheet(found: Found, paper_name: str, units: str = "mm") -> Sheet:
    """The tubes of a file on a paper ("letter" or "a4"), lengths in "mm" or "in"."""
    page = paper(paper_name)
    head = _head(found, units)
    room, high = page_room(page, head)
    blocks = [
        *_pictures(found, units, room, high),
        *_table(found, units, room),
        *_doubts(found, room),
        *_not_taken(found, room),
        *_cautions(found, room),
    ]
    return Sheet(
        found.source,
        f"{found.source}: tubes found",
        survey_pages(page, head, (Part(WHAT, blocks, 1),)),
        False,
    )


def _head(found: Found, units: str) -> SurveyHead:
    size = " x ".join(distance(each, units) for each in found.size_mm)
    facts = (
        ("file's unit", f"{found.unit}: {found.unit_how}"),
        ("all within", f"{size} {units}"),
        ("found", f"{len(found.tubes)} tubes in {found.looked_at:,} points or faces".replace(",", " ")),
    )
    return SurveyHead(
        found.source, "Choose by picture and table, then: clampwright survey find FILE --take NUMBERS", facts
    )


def _pictures(found: Found, units: str, room: float, high: float) -> list[Block]:
    if not found.tubes:
        return paragraph("No round tube was found.", room, bold=True)
    made = number_views(found, (room, min(high * 0.6, 160.0)))
    return [made.block, gap(1.5), *legend(made, units, room, OWN_AXES), gap(3.0)]


def _table(found: Found, units: str, room: float) -> list[Block]:
    if not found.tubes:
        return []
    sure = _measured(found.tubes)
    headings = (
        Heading("no.", "right", bold=True),
        Heading("name", wraps=True),
        Heading(f"length {units}", "right"),
        Heading(f"OD used {units}", "right"),
        Heading("OD as found", "right"),
        Heading("stock", wraps=True),
        Heading("bore", "right"),
        *(_SURE if sure else ()),
        Heading("skin: round, seen", "right"),
    )
    rows = [tuple(_cells(each, units, sure)) for each in found.tubes]
    exact = [] if sure else paragraph(_EXACT, room, SMALL)
    return [*heading("Tubes, the longest first", room), *exact, *table(headings, rows, room, SMALL), gap(3.0)]


def _measured(tubes: Sequence[FoundTube]) -> bool:
    """Whether anything was measured, as in a scan; a drawing's figures are exact."""
    return any(
        max(t.ends_plus_minus_mm, *t.along_plus_minus_mm, t.angle_plus_minus_rad, t.residual_mm) > 0
        for t in tubes
    )


def _cells(each: FoundTube, units: str, sure: bool) -> Iterator[str]:
    tube = each.tube
    yield str(each.number)
    yield tube.name
    yield distance(tube.length_mm, units)
    yield distance(tube.od_mm, units)
    known = f" ± {distance(each.od_plus_minus_mm, units)}" if each.od_plus_minus_mm > 0 else ""
    yield f"{distance(each.od_found_mm, units)}{known}"
    yield each.stock or "-"
    yield "-" if each.bore_mm is None else distance(each.bore_mm, units)
    if sure:
        yield from _sure_cells(each, units)
    yield f"{min(math.degrees(each.coverage_rad), 360.0):.0f}°, {100.0 * each.skin_share:.0f} %"


def _sure_cells(each: FoundTube, units: str) -> Iterator[str]:
    sure_ends = (each.ends_plus_minus_mm, max(each.along_plus_minus_mm))
    yield ", ".join(distance(value, units) for value in sure_ends) if max(sure_ends) > 0 else "exact"
    yield f"{math.degrees(each.angle_plus_minus_rad):.2f}°" if each.angle_plus_minus_rad > 0 else "exact"
    yield distance(each.residual_mm, units) if each.residual_mm > 0 else "exact"


def _doubts(found: Found, room: float) -> list[Block]:
    doubtful = [each for each in found.tubes if each.doubts]
    blocks = heading("Look at these before you use them", room) if doubtful or found.doubts else []
    for text in found.doubts:
        blocks += paragraph(text, room, SMALL, bold=True)
    for each in doubtful:
        blocks += paragraph(f"{each.number}, {each.tube.name}: {' '.join(each.doubts)}", room, SMALL)
    return [*blocks, gap(2.0)] if blocks else []


def _not_taken(found: Found, room: float) -> list[Block]:
    if not found.not_taken:
        return []
    rows = [(each.what, each.why) for each in found.not_taken]
    headings = (Heading("round, but not taken", wraps=True), Heading("why", wraps=True))
    return [*heading("Not taken for tubes", room), *table(headings, rows, room, SMALL), gap(3.0)]


def _cautions(found: Found, room: float) -> list[Block]:
    said = (
        "A drawing or a scan is not your aircraft: measure two lengths and two diameters on it, and hold "
        "them against the table.",
        f"Unit of the file: {found.unit} ({found.unit_how}). One length shows whether that is right: "
        f"{_first_length(found)}.",
        *CAUTIONS,
    )
    blocks = heading("Before you build on it", room)
    for text in said:
        blocks += paragraph(text, room, SMALL)
    return blocks


def _first_length(found: Found) -> str:
    if not found.tubes:
        return "the file has no tube to measure"
    tube = found.tubes[0].tube
    return (
        f"{tube.name} would be {show_length(tube.length_mm, 'mm')} ({show_length(tube.length_mm, 'in')}) long"
    )
