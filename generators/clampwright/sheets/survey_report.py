"""The report of a solved survey: what is wrong, points and tubes with their ±, worst measurements first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from clampwright.quantities import show_length
from clampwright.sheets.both_units import both
from clampwright.sheets.drawing import Item, Page, Pen, Sheet, box_path, moved
from clampwright.sheets.figures import distance
from clampwright.sheets.flow import Block, gap, heading, paragraph, ticked, warning
from clampwright.sheets.in_parts import Part
from clampwright.sheets.ink import ACCENT, SMALL
from clampwright.sheets.paper import paper
from clampwright.sheets.structure_shapes import Rod, Spot, ends, merged, placed, rods
from clampwright.sheets.structure_views import Views, key_blocks, legend, views, views_page
from clampwright.sheets.survey_datum import datum_words
from clampwright.sheets.survey_figures import in_unit
from clampwright.sheets.survey_judged import measurement_blocks
from clampwright.sheets.survey_pages import SurveyHead, page_room, survey_pages
from clampwright.sheets.table import Heading, table
from clampwright.sheets.verdict import CAUTIONS
from clampwright.structure.survey.solved import Blunder, SolvedSurvey

WHAT, STOP = "SURVEY: tubes as measured", "DO NOT USE YET"
_PICTURE = (250.0, 210.0)
_MIRROR = "Which of two mirror images? No measurement tells them apart:"
_TO_ANSWER = "Two mirror images fit: answer what is asked below."


def solved_sheet(solved: SolvedSurvey, paper_name: str) -> Sheet:
    """The report on a paper ("letter" or "a4")."""
    page = paper(paper_name)
    head = _head(solved)
    room, high = page_room(page, head)
    blocks = [
        *_wrong(solved, room),
        *_pictures(solved, room, high),
        *_tubes(solved, room),
        *_points(solved, room),
        *measurement_blocks(solved, room),
        *_following(solved, room),
        *_assumed(solved, room),
        *_cautions(room),
    ]
    name = solved.survey.name
    title = f"{name}: survey"
    return Sheet(
        f"{name} {solved.survey.digest}".strip(),
        title,
        survey_pages(page, head, (Part(WHAT, blocks, 1),)),
        False,
    )


def solved_views(solved: SolvedSurvey) -> Page:
    """The survey's tubes and points from three sides, as a page of their own."""
    survey = solved.survey
    return views_page(_views(solved, _PICTURE), survey.units, survey.about or survey.name)


def _head(solved: SolvedSurvey) -> SurveyHead:
    survey = solved.survey
    spare = f"{solved.redundancy} more than needed" if solved.redundancy > 0 else "none to spare"
    facts = (
        ("survey", survey.digest or survey.name),
        ("measured", f"{len(solved.judged)} measurements, {spare}"),
        ("worst ±", "not known yet" if solved.worst_mm is None else both(solved.worst_mm, survey.units)),
    )
    stop = "" if solved.structure is not None else STOP
    return SurveyHead(survey.name, survey.about, facts, stop, _why(solved))


def _asked(solved: SolvedSurvey) -> tuple[str, ...]:
    """Questions about mirror images that nobody answered, each once."""
    return tuple(dict.fromkeys(mirror.ask for mirror in solved.mirrors if not mirror.resolved))


def _why(solved: SolvedSurvey) -> str:
    """Why it is not to be used yet, in short: a question stands in its box below, and nowhere else."""
    asked = _asked(solved)
    said = [text for text in solved.says if text not in asked]
    if asked:
        said.append(_TO_ANSWER)
    return " ".join(said)


def _wrong(solved: SolvedSurvey, room: float) -> list[Block]:
    """What a person has to know first: sentences, blunders and questions about mirror images in boxes."""
    boxed = {*(blunder.says for blunder in solved.blunders), *_asked(solved)}
    first, *rest = [text for text in solved.says if text not in boxed] or [""]
    blocks = warning(first, room) if first else []
    blocks += [block for text in rest for block in paragraph(text, room, SMALL, after=0.6)]
    for blunder in solved.blunders:
        blocks += _boxed(_blunder_lines(blunder, solved.survey.units, room - 6.0), room)
    for ask in _asked(solved):
        lines = [*paragraph(_MIRROR, room - 6.0, bold=True, colour=ACCENT), *paragraph(ask, room - 6.0)]
        blocks += _boxed(lines, room)
    for text in solved.cautions:
        blocks += paragraph(text, room, bold=True)
    return [*blocks, gap(2.0)] if blocks else []


def _blunder_lines(blunder: Blunder, units: str, room: float) -> list[Block]:
    """What was measured, and what it should probably be."""
    m = blunder.measurement
    figures = (
        f"{blunder.name}: measured {in_unit(m, blunder.measured, units)}, "
        f"probably {in_unit(m, blunder.probably, units)} ± {in_unit(m, blunder.plus_minus, units)}"
    )
    lines = [*paragraph(figures, room, bold=True, colour=ACCENT), *paragraph(blunder.says, room)]
    unsaid = [name for name in blunder.as_likely if name not in blunder.says]
    return [*lines, *paragraph(f"As likely: {', '.join(unsaid)}.", room)] if unsaid else lines


def _boxed(lines: Sequence[Block], room: float) -> list[Block]:
    """Lines framed in the accent colour."""
    items: list[Item] = []
    y = -2.0
    for line in lines:
        items += moved(line.items, (3.0, y))
        y -= line.height
    y -= 0.8
    return [Block(1.5 - y, (*items, box_path((0.0, y, room, 0.0), Pen(0.5, ACCENT))))]


def _pictures(solved: SolvedSurvey, room: float, high: float) -> list[Block]:
    if not solved.points:
        return []
    made = _views(solved, (room, high * (0.55 if solved.structure is None else 0.86)))
    units = solved.survey.units
    return [made.block, gap(1.5), *legend(made, units, room), *key_blocks(made, room), gap(3.0)]


def _views(solved: SolvedSurvey, room: tuple[float, float]) -> Views:
    spots = [placed(point.name, point.at, point.plus_minus_mm) for point in solved.points]
    if solved.structure is not None:
        return views(rods(solved.structure.tubes), merged(spots, ends(solved.structure)), room)
    return views(_loose_rods(solved), [_bare(spot) for spot in spots], room)


def _bare(spot: Spot) -> Spot:
    return replace(spot, rows_mm=())


def _loose_rods(solved: SolvedSurvey) -> tuple[Rod, ...]:
    """The tubes as the search left them, where no structure came of it."""
    at = {point.name: point.at for point in solved.points}
    return tuple(
        Rod(tube.name, at[tube.start], at[tube.end], tube.od_mm / 2)
        for tube in solved.survey.tubes
        if tube.start in at and tube.end in at
    )


def _tubes(solved: SolvedSurvey, room: float) -> list[Block]:
    survey, structure = solved.survey, solved.structure
    if structure is None:
        return []
    headings = (
        Heading("tube", wraps=True, bold=True),
        Heading("from", wraps=True),
        Heading("to", wraps=True),
        Heading(f"length {survey.units}", "right"),
        Heading(f"OD {survey.units}", "right"),
        Heading("stations from", wraps=True),
    )
    rows = []
    for tube in structure.tubes:
        measured_as = next((each for each in survey.tubes if each.name == tube.name), None)
        a, b = (measured_as.start, measured_as.end) if measured_as is not None else ("", "")
        mark = (measured_as.mark if measured_as is not None else None) or "its start"
        rows.append(
            (
                tube.name,
                a,
                b,
                distance(tube.length_mm, survey.units),
                distance(tube.od_mm, survey.units),
                mark,
            )
        )
    return [*heading("Tubes", room), *table(headings, rows, room, SMALL), gap(3.0)]


def _points(solved: SolvedSurvey, room: float) -> list[Block]:
    if not solved.points:
        return []
    units = solved.survey.units
    loose = set(solved.loose)
    headings = (
        Heading("point", wraps=True, bold=True),
        *(Heading(title, "right") for axis in "xyz" for title in (f"{axis} {units}", "±")),
    )
    rows = []
    for point in solved.points:
        figures = [
            cell
            for value, sure in zip(point.at, point.plus_minus_mm, strict=True)
            for cell in (distance(value, units), "loose" if point.name in loose else distance(sure, units))
        ]
        rows.append((point.name, *figures))
    said = f"± holds 95 times in 100, the frame itself taken as exact: {datum_words(solved.survey.datum)}"
    return [
        *heading("Points", room),
        *table(headings, rows, room, SMALL),
        *paragraph(said, room, SMALL),
        gap(3.0),
    ]


def _following(solved: SolvedSurvey, room: float) -> list[Block]:
    if not solved.take_next:
        return []
    units = solved.survey.units
    blocks = heading("Worth measuring next", room)
    for each in solved.take_next:
        after = (
            "" if each.worst_after_mm is None else f" Worst ± then {show_length(each.worst_after_mm, units)}."
        )
        does = f": {each.does.rstrip('.')}" if each.does else ""
        blocks += ticked(f"{each.what}{does}.{after}", room, SMALL)
    return [*blocks, gap(3.0)]


def _assumed(solved: SolvedSurvey, room: float) -> list[Block]:
    if not solved.survey.assumed:
        return []
    blocks = heading("Assumed: the survey does not say", room)
    for what, value in solved.survey.assumed:
        blocks += paragraph(f"{what}: {value}", room, SMALL, after=0.6)
    return [*blocks, gap(3.0)]


def _cautions(room: float) -> list[Block]:
    said = (
        "The ± is of the measuring: it knows nothing of a tube that is bent, of an aircraft that moved, or "
        "of a slip that no other measurement checks.",
        *CAUTIONS,
    )
    blocks = heading("Before you build on it", room)
    for text in said:
        blocks += paragraph(text, room, SMALL)
    return blocks
