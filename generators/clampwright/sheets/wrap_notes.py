"""What tube wraps say beside the strips: a caption for each, how to print, to lay and to check them."""

from __future__ import annotations

import math
from itertools import pairwise

from clampwright.checks.finding import Finding
from clampwright.layout.joined import Joined, Loop
from clampwright.quantities import show_length
from clampwright.sheets.both_units import both
from clampwright.sheets.figures import distance
from clampwright.sheets.flow import Block, gap, heading, paragraph, ticked, warning
from clampwright.sheets.hole_table import kept
from clampwright.sheets.how_sure import from_blocks
from clampwright.sheets.ink import SMALL
from clampwright.sheets.plus_minus import START_THERE, behind_station
from clampwright.sheets.print_check import PrintCheck, tolerance_mm
from clampwright.sheets.stations import from_the_mark
from clampwright.sheets.table import Heading, table
from clampwright.sheets.template_notes import cautions, finding_notes, verified_words
from clampwright.sheets.verdict import NOT_VERIFIED, by_code, failing
from clampwright.sheets.where_on_tube import COUNTED, face_clock, feet_clock, place_words
from clampwright.sheets.wrap_strip import Piece, Strip
from clampwright.trade.tables import rule


def caption(piece: Piece, layout: Joined, room: float) -> list[Block]:
    """Under a piece: tube, size, where the edge is laid, and where the marks are in figures."""
    strip, units = piece.strip, layout.recipe.units
    blocks = paragraph(f"{strip.tube.name}: {piece.name}", room, bold=True, after=0.4)
    size = f"OD {both(strip.tube.od_mm, units)} over the paint; round it {both(strip.length_mm, units)}."
    lines = [size]
    if piece.number == 1:
        lines += [_edge(strip, units), *_own_mark(strip)]
        lines += [_marks(loop, strip, layout) for loop in strip.loops]
        lines += _apart(strip, units)
    else:
        lines.append(f"Joins piece {piece.number - 1} at {_clock_at(strip, piece.start)}.")
    for line in lines:
        blocks += paragraph(line, room, SMALL, after=0.2)
    return blocks


def _edge(strip: Strip, units: str) -> str:
    tube = strip.tube
    rest = tube.length_mm - strip.edge_mm
    edge = "Upper" if strip.by_upper else "Lower"
    if strip.edge_mm < 0:
        past, start = both(0.0 - strip.edge_mm, units), place_words(tube.start, units)
        return f"{edge} edge {past} before the start at {start}: cut off what stands past it."
    if tube.mark_mm is not None:
        return f"{edge} edge {from_the_mark(tube, strip.edge_mm, units)}."
    return (
        f"{edge} edge {both(strip.edge_mm, units)} from the start at {place_words(tube.start, units)}, "
        f"{both(rest, units)} from the end."
    )


def _own_mark(strip: Strip) -> list[str]:
    """What the line of the tube's mark is for."""
    if strip.mark_up_mm is None:
        return []
    return ["The line of dots is the tube's mark: lay it on the mark, and the edge lies where it should."]


def _marks(loop: Loop, strip: Strip, layout: Joined) -> str:
    units = layout.recipe.units
    station = from_the_mark(strip.tube, loop.station_mm, units) or f"at {both(loop.station_mm, units)}"
    unsure = behind_station(loop.label, layout)
    found = (("feet", feet_clock(loop)), ("face", face_clock(loop)))
    said = [
        f"{what} {each.hours}, {show_length(each.deg / 360 * strip.length_mm, units)}" for what, each in found
    ]
    return f"{loop.label} {station}{unsure}: {'; '.join(said)} clockwise from 12:00."


def _apart(strip: Strip, units: str) -> list[str]:
    first, last = strip.loops[0], strip.loops[-1]
    if len(strip.loops) < 2:
        return []
    return [
        f"{first.label} to {last.label}: {both(last.station_mm - first.station_mm, units)} along the tube."
    ]


def _clock_at(strip: Strip, across: float) -> str:
    deg = (strip.seam_deg + across / strip.length_mm * 360) % 360
    return f"{deg:.0f}°"


def note_blocks(
    layout: Joined, made: tuple[Strip, ...], findings: tuple[Finding, ...], check: PrintCheck, room: float
) -> list[Block]:
    """How to print and lay the strips, distances between them, what has none, findings, cautions."""
    return [
        *_print(check, room),
        *_steps(layout, made, room),
        *_sure(layout, made, room),
        *_between(layout, made, room),
        *_without(layout, room),
        *_findings(findings, room),
        *cautions(room, "install"),
    ]


def _findings(findings: tuple[Finding, ...], room: float) -> list[Block]:
    """What fails, in full; the rest by name: what to do stands on the installation sheet."""
    blocks = finding_notes(failing(findings), room)
    rest = [f for f in findings if f.verdict in ("unknown", "caution")]
    if not rest:
        return blocks
    text = f"{by_code(rest)}. What to do about them stands on the installation sheet."
    return [*blocks, *heading("Not known, and cautions", room), *paragraph(text, room, SMALL), gap(3.0)]


def _print(check: PrintCheck, room: float) -> list[Block]:
    text = (
        "Print at 100 %, actual size, no fit to page, and measure the solid 100 mm bars from edge to edge, "
        f"across and along. True is 100 ± {tolerance_mm():.2g} mm both ways. Enter the lengths in the "
        "recipe, whatever they are, and build again:"
    )
    blocks = [*heading("Print to true size", room), *paragraph(text, room)]
    blocks += paragraph("[template] prints = [[across, along]]", room, bold=True)
    if check.stretch != (1.0, 1.0):
        across, along = check.stretch
        blocks += paragraph(
            f"Drawn {across:.5f} times across and {along:.5f} times along, so that it prints true.", room
        )
    if check.verified:
        return [*blocks, *paragraph(verified_words(check) + ".", room, bold=True), gap(3.0)]
    return [*blocks, *warning(NOT_VERIFIED + ".", room), gap(3.0)]


def steps(layout: Joined, made: tuple[Strip, ...]) -> tuple[str, ...]:
    """What to do with the strips, in order."""
    if not made:
        return ()
    units = layout.recipe.units
    thin, off = rule("paper-thickness").value, rule("wrap-meets").value
    short = show_length(math.pi * thin, units)
    return (
        "Measure each tube over its paint at the clamp's place. If it is not the OD on the strip, correct "
        "the recipe and print again.",
        "Cut along the solid outline, leave the tab on. Never scratch, scribe or punch a tube of the mount: "
        "mark it with masking tape.",
        f"Measure the station of the strip's named edge from {_zero(made)} and lay a turn of tape there. "
        "Lay the strip's edge on it: printed side out, arrow to the start, the 12:00 line as the clock says.",
        "The strip's left edge must meet the line where the tab begins. The paper is not counted in its "
        f"length: {show_length(thin, units)} of it leave about {short} open.",
        f"If they miss each other by more than {show_length(off, units)} beyond that, stop and measure the "
        "bars. Bars off: the print is wrong. Bars true, edges apart: the tube is thicker than the recipe "
        "says, by the gap over 3.14; edges over each other: thinner by as much.",
        "Mark both edges of the band on tape beside the strip, and the feet's line. Take the strip off, slip "
        "the clamp on: its band between the marks, its feet at their line, its flat face to the dashed line.",
    )


def _zero(made: tuple[Strip, ...]) -> str:
    """What the stations of some strips count from."""
    marked = {strip.tube.mark_mm is not None for strip in made}
    if len(marked) > 1:
        return "the mark on its tube, or where it has none from the tube's start,"
    return "the mark on its tube" if True in marked else "the tube's start"


def _steps(layout: Joined, made: tuple[Strip, ...], room: float) -> list[Block]:
    said = steps(layout, made)
    if not said:
        return []
    blocks = [*heading("Mark the tubes", room), *kept(paragraph(COUNTED, room, SMALL))]
    for number, text in enumerate(said, 1):
        blocks += ticked(text, room, number=str(number))
    return [*blocks, gap(3.0)]


def _sure(layout: Joined, made: tuple[Strip, ...], room: float) -> list[Block]:
    """Where every ± comes from, and that a station is where to start."""
    if not layout.known_to or not made:
        return []
    said = from_blocks(layout, room, title="How sure the stations are")
    return [*said, *paragraph(START_THERE, room, SMALL), gap(3.0)]


def _between(layout: Joined, made: tuple[Strip, ...], room: float) -> list[Block]:
    """Distances along a tube between clamps on different strips."""
    units = layout.recipe.units
    rows = [
        (f"{a.loops[-1].label} - {b.loops[0].label}", a.tube.name, _gap(a, b, units), "________")
        for a, b in pairwise(made)
        if a.tube.name == b.tube.name
    ]
    if not rows:
        return []
    headings = (
        Heading("clamps", bold=True),
        Heading("tube", wraps=True),
        Heading(f"apart {units}", "right"),
        Heading("measured", "right"),
    )
    text = "Between the middles of the bands, along the tube."
    return [
        *heading("From strip to strip", room),
        *kept(paragraph(text, room, SMALL)),
        *table(headings, rows, room, SMALL),
        gap(3.0),
    ]


def _gap(a: Strip, b: Strip, units: str) -> str:
    return distance(b.loops[0].station_mm - a.loops[-1].station_mm, units)


def _without(layout: Joined, room: float) -> list[Block]:
    carried = {line.name for line in layout.lines}
    left = [loop for loop in layout.loops if loop.tube in carried]
    if not left:
        return []
    units = layout.recipe.units
    said = [f"{loop.label} on {loop.tube}, {both(loop.station_mm, units)} along it" for loop in left]
    text = f"No strip: {'; '.join(said)}. A carried line turns as it is laid; its clamp follows the bolt."
    return [*paragraph(text, room, SMALL), gap(3.0)]
