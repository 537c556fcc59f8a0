"""The form that is filled in by hand in the garage: blank, or made for a survey's own tubes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from clampwright.quantities import Vec3
from clampwright.sheets.both_units import both
from clampwright.sheets.drawing import Sheet, moved
from clampwright.sheets.flow import Block, gap, heading, paragraph
from clampwright.sheets.in_parts import Part, column_width
from clampwright.sheets.ink import SMALL
from clampwright.sheets.paper import Paper, paper
from clampwright.sheets.structure_eyes import HANDED
from clampwright.sheets.survey_boxes import Column, choices, empty, form_table, lines_to_fill, sketch_paper
from clampwright.sheets.survey_datum import datum_words
from clampwright.sheets.survey_how_to import how_to_blocks
from clampwright.sheets.survey_pages import SurveyHead, page_room, survey_pages
from clampwright.sheets.survey_sketch import survey_sketch
from clampwright.sheets.survey_which_side import by_eye, height_notes, side_blocks
from clampwright.structure.survey.model import Survey, SurveyPoint
from clampwright.structure.survey.solved import Next

MEASURE, HOW = "MEASURING FORM", "HOW TO MEASURE slanted tubes, alone"
_SKETCH = 96.0
_HEIGHTS = "Heights, plumb lines, offsets, slopes, angles"

TUBES = (
    Column("tube", 2.2),
    Column("from ring", 1.1),
    Column("to ring", 1.1),
    Column("OD over paint, first", 1.5, "length"),
    Column("a quarter turn on", 1.5, "length"),
)
MADE_TUBES = (*TUBES[:3], Column("OD in the file", 1.5), *TUBES[3:])
POINTS = (
    Column("letter", 0.8),
    Column("ring on which tube, or what it is", 2.2),
    Column("how to find it again: how far from what", 2.4),
    Column("by eye: x, y, z (rough)", 1.5),
)
DISTANCES = (
    Column("from", 0.75),
    Column("to", 0.75),
    Column("across, outside or inside", 1.25),
    Column("reading 1", 1.5, "length"),
    Column("reading 2, from the other end", 1.5, "length"),
    Column("difference", 1.1, "length"),
    Column("mean, less where the tape was held", 1.5, "length"),
)
WANTED = (
    Column("", 0.35, "tick"),
    Column("no.", 0.4),
    Column("measure", 2.0),
    Column("reading 1", 1.35, "length"),
    Column("reading 2, from the other end", 1.35, "length"),
    Column("difference", 1.0, "length"),
    Column("mean, less where the tape was held", 1.35, "length"),
    Column("what it is for", 2.1),
)
HEIGHTS = (
    Column("height, plumb line, offset (which axis), slope or angle", 1.7),
    Column("from, or tube", 1.1),
    Column("to, or other tube", 1.1),
    Column("rise or offset, + or -", 1.4, "length"),
    Column("slope or angle, first", 1.0, "degrees"),
    Column("end for end", 1.0, "degrees"),
)


def survey_form(
    survey: Survey | None,
    wanted: Sequence[Next],
    paper_name: str,
    places: Mapping[str, Vec3] | None = None,
    *,
    rigid: bool = False,
) -> Sheet:
    """The form on a paper ("letter" or "a4"), with how to measure behind it.

    Parameters
    ----------
    survey : Survey | None
        Whose tubes and points it is made for; None: blank.
    wanted : Sequence[Next]
        What to measure, in order.
    paper_name : str
        "letter" or "a4".
    places : Mapping[str, Vec3] | None
        Where points are, mm, where that is known better than by eye.
    rigid : bool
        Whether what was measured so far holds the figure, so that with nothing wanted it may be said.

    Examples
    --------
    >>> [page.title for page in survey_form(None, (), "a4").pages][0]
    'MEASURING FORM, page 1'
    """
    page = paper(paper_name)
    head = _head(survey)
    column = column_width(page, 2)
    if survey is None:
        filled = _blank(page, head)
    else:
        asked = _asked(survey, wanted, page_room(page, head)[0], rigid)
        filled = _made_for(survey, asked, page, head, places)
    pages = survey_pages(page, head, (*filled, Part(HOW, how_to_blocks(column, survey), 2)))
    name = "survey" if survey is None else survey.name
    return Sheet(name, f"{name}: measuring form", pages, False)


def _head(survey: Survey | None) -> SurveyHead:
    if survey is None:
        about = "Fill in by hand, then type into a survey file: clampwright survey new FILE"
        return SurveyHead(
            "Tubes from tape measurements", about, (("form", "blank"), ("units", "tick one, keep to it"))
        )
    facts = (
        ("survey", survey.name),
        ("tubes", str(len(survey.tubes))),
        ("units", survey.units),
    )
    return SurveyHead(survey.name, survey.about, facts)


def _top(room: float, units: str) -> list[Block]:
    first = lines_to_fill([("aircraft and structure", 2.0), ("measured by", 1.2), ("date", 0.8)], room)
    if units:
        second = lines_to_fill([("tape held at", 1.0), ("tape good to ±", 1.0), ("levelled by", 1.3)], room)
        return [first, second]
    ticks = choices("units", ("in", "mm"))
    rest = lines_to_fill([("tape held at", 1.0), ("tape good to ±", 1.0), ("levelled by", 1.3)], room - 34.0)
    return [first, Block(rest.height, (*ticks, *moved(rest.items, (34.0, 0.0))))]


def _blank(page: Paper, head: SurveyHead) -> tuple[Part, ...]:
    room, high = page_room(page, head)
    first: list[Block] = [
        *_top(room, ""),
        *heading("Sketch: tubes, rings with their letters, datum marks, which way x, y and z go", room),
        sketch_paper(room, 78.0),
        *_datum(room),
        gap(2.0),
    ]
    first += form_table(POINTS, empty(_rows(high - sum(block.height for block in first)), POINTS), room)
    tubes = [
        *heading("Tubes", room),
        *form_table(TUBES, empty(10, TUBES), room),
        gap(3.0),
        *side_blocks(None, room),
        gap(3.0),
        *heading(_HEIGHTS, room),
        *height_notes(room),
    ]
    rest = high - sum(block.height for block in tubes) - 4.0
    tubes += form_table(HEIGHTS, empty(_rows(rest), HEIGHTS), room)
    distances = [
        *heading("Distances", room),
        *form_table(DISTANCES, empty(_rows(high - 6.0), DISTANCES), room),
    ]
    return (Part(MEASURE, first, 1), Part(MEASURE, tubes, 1), Part(MEASURE, distances, 1))


def _rows(high: float) -> int:
    """Rows of a table to fill in that go into some height, its head left out."""
    return max(3, int((high - 9.0) / 8.0))


def _datum(room: float) -> list[Block]:
    line = lines_to_fill(
        [("datum: origin", 1.0), ("y axis through", 1.0), ("turned by (or level)", 1.0)], room
    )
    return [line, *paragraph(HANDED, room, SMALL)]


def _made_for(
    survey: Survey,
    wanted: list[Block],
    page: Paper,
    head: SurveyHead,
    places: Mapping[str, Vec3] | None,
) -> tuple[Part, ...]:
    room, _ = page_room(page, head)
    sketch = survey_sketch(survey, (0.0, -_SKETCH, room, 0.0), places)
    blocks = [*_top(room, survey.units), Block(_SKETCH, sketch.drawn.items)]
    blocks += paragraph(_said_of_sketch(sketch.scheme, sketch.drawn.left), room, SMALL)
    blocks += [*_datum_said(survey, room), gap(2.0)]
    blocks += [*heading("Tubes", room), *form_table(MADE_TUBES, _tubes(survey), room, survey.units), gap(3.0)]
    blocks += [
        *heading("Points", room),
        *form_table(POINTS, [_point(survey, p) for p in survey.points], room),
    ]
    blocks += [gap(3.0), *side_blocks(survey, room)]
    measured = [*wanted, *heading("Others that you took", room), *_others(survey, room)]
    return (Part(MEASURE, [*blocks, gap(4.0), *measured], 1),)


def _said_of_sketch(scheme: bool, left: Sequence[str]) -> str:
    said = "Seen at a slant, from +x, -y and above, points where they are by eye or measured."
    if scheme:
        said = "A scheme: which points the tubes and measurements join, not where they are: nobody said."
    return f"{said} No room for: {', '.join(left)}." if left else said


def _datum_said(survey: Survey, room: float) -> list[Block]:
    return [*paragraph(f"Datum: {datum_words(survey.datum)}", room, SMALL), *paragraph(HANDED, room, SMALL)]


def _asked(survey: Survey, wanted: Sequence[Next], room: float, rigid: bool) -> list[Block]:
    """What to measure; that nothing more is needed only where that is known, else nothing."""
    head = heading("What to measure, in this order", room)
    if wanted:
        rows = [
            ["", str(number), each.what, "", "", "", "", each.does or "-"]
            for number, each in enumerate(wanted, 1)
        ]
        return [*head, *form_table(WANTED, rows, room, survey.units), gap(3.0)]
    if not rigid:
        return []
    return [*head, *paragraph("Nothing more is needed; a spare or two never hurt.", room, SMALL), gap(3.0)]


def _others(survey: Survey, room: float) -> list[Block]:
    return [
        *form_table(DISTANCES, empty(6, DISTANCES), room, survey.units),
        gap(3.0),
        *heading(_HEIGHTS, room),
        *height_notes(room),
        *form_table(HEIGHTS, empty(4, HEIGHTS), room, survey.units),
    ]


def _tubes(survey: Survey) -> list[list[str]]:
    return [[t.name, t.start, t.end, both(t.od_mm, survey.units), "", ""] for t in survey.tubes]


def _point(survey: Survey, point: SurveyPoint) -> list[str]:
    on = point.axis_of or tuple(t.name for t in survey.tubes if point.name in (t.start, t.end))
    rough = by_eye(point.rough, survey.units)
    if point.skin_of is not None:
        return [point.name, f"on the skin of {point.skin_of}", "", rough]
    return [point.name, " and ".join(dict.fromkeys(on)) or "on no tube", "", rough]
