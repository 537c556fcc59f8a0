"""Tables of a flat part's drawing: hole sizes, hole places, corners of the outline, bends."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from clampwright.layout.shop.told import Bend, FlatPart, ToldHole
from clampwright.sheets.figures import distance
from clampwright.sheets.flow import Block, gap, heading, paragraph
from clampwright.sheets.ink import BODY, SMALL
from clampwright.sheets.shop.dimensioning.wording import plain
from clampwright.sheets.shop.drawn_view import near
from clampwright.sheets.shop.hole_groups import HoleGroup, hole_groups
from clampwright.sheets.shop.hole_places import Where
from clampwright.sheets.shop.outline_told import circle, corners, is_box
from clampwright.sheets.shop.size_words import limit_words
from clampwright.sheets.table import Heading, table

_MANY = 24
"""Rows from which on a table is set in small letters."""
_AFTER = 4.0
Cells = tuple[str, ...]


def flat_tables(part: FlatPart, where: Where, room: float) -> list[Block]:
    """All tables that the part needs, for a column `room` mm wide."""
    blocks: list[Block] = []
    if part.holes:
        blocks += _sizes(part, where, room)
    if part.holes and where == "table":
        blocks += _places(part, room)
    if not is_box(part.outline) and circle(part.outline) is None:
        blocks += _corners(part, room)
    if part.bends:
        blocks += _bends(part, room)
    return blocks


def units_of(part: FlatPart) -> tuple[str, ...]:
    """Units that a table has columns for."""
    return ("in", "mm") if part.units == "in" else ("mm",)


def _sizes(part: FlatPart, where: Where, room: float) -> list[Block]:
    """One row a group; the diameter only where the view does not say it."""
    units = units_of(part) if where == "table" else ()
    mark = Heading("size", bold=True) if where == "table" else Heading("holes", bold=True, wraps=True)
    headings = [
        mark,
        Heading("count", "right"),
        *(Heading(f"Ø {unit}", "right") for unit in units),
        Heading("make"),
        Heading("for", wraps=True),
    ]
    rows = [_size_row(group, where, units) for group in hole_groups(part.holes)]
    total = f"{len(part.holes)} hole{'s' if len(part.holes) > 1 else ''} in all, through."
    return [*heading("Holes", room), *_rows(headings, rows, room), *_kept_last(total, room)]


def _size_row(group: HoleGroup, where: Where, units: Sequence[str]) -> Cells:
    like = group.like
    first = str(group.number) if where == "table" else group.labels
    sizes = (f"{plain(like.diameter_mm, unit)} {limit_words(like.size, unit)}".strip() for unit in units)
    purposes = ", ".join(dict.fromkeys(hole.purpose for hole in group.holes))
    return (first, f"{len(group.holes)}x", *sizes, _make(like), f"{like.fastener} {purposes}".strip())


def _make(hole: ToldHole) -> str:
    """What the shop does: a transferred hole is only piloted."""
    if hole.transferred:
        return f"pilot {hole.pilot} only" if hole.pilot else "centre mark only"
    return f"drill {hole.drill}" if hole.drill else "cut"


def _places(part: FlatPart, room: float) -> list[Block]:
    """Every hole by its label, from the datum edges."""
    units = units_of(part)
    held = any(hole.place is not None for hole in part.holes)
    headings = [
        Heading("hole", bold=True),
        *(Heading(f"{axis} {unit}", "right") for unit in units for axis in "XY"),
        *([Heading(f"± {part.units}", "right")] if held else []),
        Heading("size", "middle"),
    ]
    number = {hole.label: group.number for group in hole_groups(part.holes) for hole in group.holes}
    rows = [
        (
            hole.label,
            *(distance(value, unit) for unit in units for value in hole.at),
            *((_off(hole, part.units),) if held else ()),
            str(number[hole.label]),
        )
        for hole in part.holes
    ]
    return [*heading("Hole places from the datum edges", room), *_rows(headings, rows, room), gap(_AFTER)]


def _off(hole: ToldHole, units: str) -> str:
    return "" if hole.place is None else limit_words(hole.place, units).lstrip("±")


def _corners(part: FlatPart, room: float) -> list[Block]:
    units = units_of(part)
    headings = [
        Heading("corner", bold=True),
        *(Heading(f"{axis} {unit}", "right") for unit in units for axis in "XY"),
        *(Heading(f"R {unit}", "right") for unit in units),
        Heading("is", wraps=True),
    ]
    rows = []
    for corner in corners(part.outline):
        what = "sharp corner" if corner.radius_mm == 0 else "centre of R"
        radii = (plain(corner.radius_mm, unit) if corner.radius_mm else "-" for unit in units)
        at = (distance(value, unit) for unit in units for value in corner.at)
        rows.append((corner.label, *at, *radii, what + (", hollow" if corner.hollow else "")))
    text = "Straight edges run from corner to corner; they touch the radii."
    return [
        *heading("Outline, counter-clockwise", room),
        *_rows(headings, rows, room),
        *_kept_last(text, room),
    ]


def _bends(part: FlatPart, room: float) -> list[Block]:
    units = units_of(part)
    oblique = any(not along_an_axis(bend) for bend in part.bends)
    headings = [
        Heading("bend", bold=True),
        Heading("angle", "right"),
        Heading("direction"),
        *(Heading(f"inside R {unit}", "right") for unit in units),
        *(Heading(f"allowance {unit}", "right") for unit in units),
        *([Heading("line", wraps=True)] if oblique else []),
    ]
    rows = [
        (
            bend.label,
            f"{math.degrees(bend.angle_rad):.1f}".removesuffix(".0") + "°",
            bend.direction,
            *(plain(bend.inside_radius_mm, unit) for unit in units),
            *(plain(bend.allowance_mm, unit) for unit in units),
            *((_line(bend, part.units),) if oblique else ()),
        )
        for bend in part.bends
    ]
    text = (
        "Bend lines are the middles of the bends. Up is towards the eye. The flat pattern's overall sizes "
        "are the developed lengths."
    )
    return [*heading("Bends", room), *_rows(headings, rows, room), *_kept_last(text, room)]


def along_an_axis(bend: Bend) -> bool:
    """Whether a bend line is dimensioned in the view: it runs along X or Y."""
    return any(near(bend.start[k], bend.end[k]) for k in (0, 1))


def _line(bend: Bend, units: str) -> str:
    if along_an_axis(bend):
        return ""
    ends = (", ".join(distance(value, units) for value in point) for point in (bend.start, bend.end))
    return " to ".join(f"({end})" for end in ends)


def _rows(headings: Sequence[Heading], rows: Sequence[Cells], room: float) -> Iterator[Block]:
    yield from table(headings, rows, room, BODY if len(rows) < _MANY else SMALL)


def _kept_last(text: str, room: float) -> list[Block]:
    return [gap(0.8), *paragraph(text, room, SMALL), gap(_AFTER)]
