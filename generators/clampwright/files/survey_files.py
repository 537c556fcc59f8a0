"""Files about measured structures: forms to fill in, the report of a solved survey, tubes found in a file."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path

from clampwright.files.safe_names import plain_name
from clampwright.files.svg import svg
from clampwright.files.written import Written
from clampwright.quantities import Vec3
from clampwright.sheets.drawing import Sheet
from clampwright.sheets.paper import NAMES
from clampwright.sheets.structure_views import numbered_views
from clampwright.sheets.survey_form import survey_form
from clampwright.structure.found import Found
from clampwright.structure.survey.model import Survey
from clampwright.structure.survey.solved import Next, SolvedSurvey


def form_files(
    survey: Survey | None, wanted: Sequence[Next], places: Mapping[str, Vec3] | None = None
) -> tuple[Written, ...]:
    """The form to fill in on each paper: `survey-form-a4.pdf`, or with the survey's name before it.

    Where something was measured already it is solved: for the sketch, and for whether more is needed.
    """
    word = "survey-form" if survey is None else f"{plain_name(survey.name)}-form"
    solved = _solved(survey)
    rigid = solved is not None and bool(solved.points) and not solved.loose
    if places is None and solved is not None and solved.structure is not None:
        places = {point.name: point.at for point in solved.points}
    return tuple(_on_each_paper(word, lambda paper: survey_form(survey, wanted, paper, places, rigid=rigid)))


def _solved(survey: Survey | None) -> SolvedSurvey | None:
    """What a survey's measurements come to; None where there are none."""
    from clampwright.structure.survey.solve import solve

    return None if survey is None or not survey.measurements else solve(survey)


def solved_files(solved: SolvedSurvey) -> tuple[Written, ...]:
    """The report of a survey on each paper, and the structure from three sides as a picture."""
    from clampwright.sheets.survey_report import solved_sheet, solved_views

    name = plain_name(solved.survey.name)
    picture = solved_views(solved)
    return (
        *_on_each_paper(f"{name}-report", lambda paper: solved_sheet(solved, paper)),
        Written(f"{name}-views.svg", svg(picture).encode(), "Picture from three sides, with names"),
    )


def found_files(found: Found, units: str = "mm") -> tuple[Written, ...]:
    """The tubes found in a file, by number: table and pictures on each paper, and as a picture."""
    from clampwright.sheets.structure_found import found_sheet

    name = plain_name(Path(found.source).stem)
    picture = numbered_views(found, units)
    return (
        *_on_each_paper(f"{name}-found", lambda paper: found_sheet(found, paper, units)),
        Written(f"{name}-found.svg", svg(picture).encode(), "Picture from three sides, by number"),
    )


def _on_each_paper(word: str, draw: Callable[[str], Sheet]) -> Iterator[Written]:
    from clampwright.files.pdf import pdf

    for paper in NAMES:
        sheet = draw(paper)
        yield Written(f"{word}-{paper}.pdf", pdf(sheet), sheet.title, (("pages", len(sheet.pages)),))
