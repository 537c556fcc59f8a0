"""Tables of a flat part's drawing: hole sizes, hole places, corners of the outline, bends."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from clampwright.layout.drilled_holes import HOLE_SAW, STEP_DRILL
from clampwright.layout.shop.told import Bend, FlatPart, ToldHole
from clampwright.sheets.figures import distance
from clampwright.sheets.flow import LEADING, Block, gap, heading, paragraph
from clampwright.sheets.ink import BODY, SMALL
from clampwright.sheets.lettering import bound
from clampwright.sheets.shop.dimensioning.wording import angle, plain, sized
from clampwright.sheets.shop.drawn_view import near
from clampwright.sheets.shop.hole_groups import HoleGroup, hole_groups
from clampwright.sheets.shop.hole_places import Where
from clampwright.sheets.shop.outline_told import circle, corners, datum_sides, is_box
from clampwright.sheets.shop.size_words import OTHER, limit_words, size_words
from clampwright.sheets.table import Heading, table
from clampwright.trade.general_tolerances import is_most

_MANY = 24
"""Rows from which on a table is set in small letters."""
_LINES = 2.9
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
        Heading("make", wraps=True),
        Heading("for", wraps=True),
    ]
    groups = hole_groups(part.holes)
    rows = [_size_row(group, where, units) for group in groups]
    total = f"{len(part.holes)} hole{'s' if len(part.holes) > 1 else ''} in all, through."
    opened = [line for words in _opened(groups, part.units) for line in paragraph(words, room, SMALL)]
    table_rows = _read(headings, rows, room)
    return [*heading("Holes", room), *table_rows, gap(0.8), *opened, *_kept_last(total, room)]


def _size_row(group: HoleGroup, where: Where, units: Sequence[str]) -> Cells:
    """What the shop makes: of a piloted hole its pilot's diameter."""
    like = group.like
    first = str(group.number) if where == "table" else group.labels
    sizes = (_diameter(like, unit) for unit in units)
    purposes = ", ".join(dict.fromkeys(hole.purpose for hole in group.holes))
    return (first, f"{len(group.holes)}x", *sizes, _make(like), f"{like.fastener} {purposes}".strip())


def _diameter(hole: ToldHole, unit: str) -> str:
    """The diameter that is made. A pilot has no limits of its own: it is drilled out."""
    return size_words(hole.made_mm, unit) if hole.piloted else bound(sized(hole.made_mm, hole.size, unit))


def _opened(groups: Sequence[HoleGroup], own: str) -> Iterator[str]:
    """What becomes of the pilots, right under the table."""
    for group in groups:
        final = group.like.diameter_mm
        metric = f" [{size_words(final, OTHER[own])}]" if own == "in" else ""
        if group.like.piloted:
            yield f"Size {group.number}: opened to {bound(size_words(final, own) + metric)} by the builder."


def _make(hole: ToldHole) -> str:
    """What the shop does: a transferred hole is only piloted."""
    if hole.piloted:
        return f"pilot, drill {hole.pilot}"
    if hole.drill in (STEP_DRILL, HOLE_SAW):
        return f"cut or {hole.drill}"
    return f"drill {hole.drill}" if hole.drill else "cut"


def _places(part: FlatPart, room: float) -> list[Block]:
    """Every hole by its label, from what X and Y count from."""
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
    start = "datum edges" if all(datum_sides(part.outline)) else "lower left of the box"
    return [*heading(f"Hole places from the {start}", room), *_rows(headings, rows, room), gap(_AFTER)]


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
        radii = (_radius(corner.radius_mm, part, unit) for unit in units)
        at = (distance(value, unit) for unit in units for value in corner.at)
        rows.append((corner.label, *at, *radii, what + (", hollow" if corner.hollow else "")))
    text = "Straight edges run from corner to corner; they touch the radii."
    return [
        *heading("Outline, counter-clockwise", room),
        *_rows(headings, rows, room),
        *_kept_last(text, room),
    ]


def _radius(mm: float, part: FlatPart, unit: str) -> str:
    if not mm:
        return "-"
    return plain(mm, unit) + (" max" if is_most(part.shop, mm) else "")


def _bends(part: FlatPart, room: float) -> list[Block]:
    units = units_of(part)
    oblique = any(not along_an_axis(bend) for bend in part.bends)
    headings = [
        Heading("bend", bold=True),
        Heading("bent by", "right"),
        Heading("included", "right"),
        Heading("direction"),
        *(Heading(f"inside R {unit}", "right") for unit in units),
        *(Heading(f"allowance {unit}", "right") for unit in units),
        *([Heading("line", wraps=True)] if oblique else []),
    ]
    rows = [
        (
            bend.label,
            angle(bend.angle_rad).text,
            angle(math.pi - bend.angle_rad).text,
            bend.direction,
            *(plain(bend.inside_radius_mm, unit) for unit in units),
            *(plain(bend.allowance_mm, unit) for unit in units),
            *((_line(bend, part.units),) if oblique else ()),
        )
        for bend in part.bends
    ]
    text = (
        "Bend lines are the middles of the bends. Up is towards the eye. Bent by counts from flat; the "
        "included angle, which the views show, is what is left of 180°. Legs run from the outside mould "
        "line. The flat pattern governs: its overall sizes are the developed lengths, and holes are placed "
        "in it alone."
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


def _read(headings: Sequence[Heading], rows: Sequence[Cells], room: float) -> list[Block]:
    """In small letters too where a cell would take more than two lines."""
    found = list(_rows(headings, rows, room))
    narrow = max(block.height for block in found) > _LINES * BODY * LEADING
    return table(headings, rows, room, SMALL) if narrow else found


def _kept_last(text: str, room: float) -> list[Block]:
    return [gap(0.8), *paragraph(text, room, SMALL), gap(_AFTER)]
