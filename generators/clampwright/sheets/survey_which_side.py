"""On a survey's form: room to say what lies on which side of what, and what each sort of figure means."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.quantities import Vec3
from clampwright.quantities.directions import dot
from clampwright.quantities.kinds import INCH
from clampwright.sheets.drawing import moved
from clampwright.sheets.flow import Block, heading, paragraph
from clampwright.sheets.ink import SMALL
from clampwright.sheets.survey_boxes import ROW, Column, choices, form_table
from clampwright.structure.survey.model import Side, Survey

WHY = (
    "Tape alone does not tell the figure from its mirror image. Write what you see, for two or three rings: "
    "A, forward of, F1. Words: forward of, aft of, left of, right of, above, below; or +x of, -x of and so "
    "on. In the file: sides. A place by eye, to a hand's width, in the table of points serves as well: rough."
)
HEIGHTS_SAID = (
    "Height: how much higher the second point is than the first, plumb; by water level or laser. In the "
    "file: heights, or levels where both are at one height.",
    "Plumb line: the second point hangs straight under or over the first; no figure. In the file: plumb.",
    "Offset: how much farther along x, y or z the second point lies than the first; by square off a "
    "straightedge. Say which axis. In the file: offsets.",
    "Slope: how much a tube rises from its first ring to its second, + rising, by digital level. In the "
    "file: slopes.",
    "Angle: between two tubes, each looked along from its first ring to its second, 0 to 180°. In the "
    "file: angles.",
)
SIDES = (Column("point", 1.0), Column("lies", 1.6), Column("point", 1.0), Column("seen by", 1.2))


def side_blocks(survey: Survey | None, room: float, rows: int = 3) -> list[Block]:
    """A table for what lies on which side of what, with what the survey says already."""
    said = [] if survey is None else [_said(side) for side in survey.sides]
    ticks = choices("left and right are meant", ("from the seat", "looking aft, before the nose"))
    return [
        *heading("Which side", room),
        *paragraph(WHY, room, SMALL),
        Block(ROW, moved(ticks, (0.0, 0.0)), keep=True),
        *form_table(SIDES, [*said, *[[""] * len(SIDES)] * rows], room),
    ]


def height_notes(room: float) -> list[Block]:
    """A line for each sort of figure that is no distance."""
    return [line for text in HEIGHTS_SAID for line in paragraph(text, room, SMALL, after=0.5)]


def by_eye(at: Vec3 | None, units: str) -> str:
    """A place by eye, as short as it was meant; "" where nobody said.

    >>> by_eye((254.0, -50.8, 0.0), "in"), by_eye((254.0, -50.8, 0.4), "mm"), by_eye(None, "mm")
    ('10.0, -2.0, 0.0 in', '254, -51, 0 mm', '')
    """
    if at is None:
        return ""
    return f"{', '.join(_coordinates(at, units))} {units}"


def _coordinates(at: Vec3, units: str) -> Iterator[str]:
    for mm in at:
        yield f"{mm / float(INCH) + 0.0:.1f}" if units == "in" else f"{round(mm) + 0:d}"


def _said(side: Side) -> list[str]:
    axis = max("xyz", key=lambda a: abs(side.toward["xyz".index(a)]))
    unit: Vec3 = (float(axis == "x"), float(axis == "y"), float(axis == "z"))
    sign = "+" if dot(side.toward, unit) > 0 else "-"
    return [side.point, f"{sign}{axis} of", side.than, "-"]
