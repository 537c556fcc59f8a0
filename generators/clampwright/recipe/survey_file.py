"""A tape survey from its file: points, tubes between them, and everything that was measured."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from clampwright.recipe.digest import survey_digest
from clampwright.recipe.faults import Fault, RecipeFaults, did_you_mean
from clampwright.recipe.fields import Values
from clampwright.recipe.homes import homes_of
from clampwright.recipe.kinds import KINDS
from clampwright.recipe.load import NotRead, load, parse
from clampwright.recipe.survey_datum import datum_of, sides_of
from clampwright.recipe.survey_fields import SURVEY
from clampwright.recipe.survey_measured import measured, sorts_used
from clampwright.recipe.survey_points import points_of, tubes_of
from clampwright.recipe.survey_sense import unit_makes_sense
from clampwright.recipe.survey_strays import note_strays
from clampwright.recipe.survey_unit_slips import note_unit_slips
from clampwright.recipe.tubes import SURVEY_KIND, units_of
from clampwright.recipe.written import NOTHING, Entry, Written, printable
from clampwright.structure.survey.model import Datum, Survey


def read_survey(path: Path) -> Survey:
    """Read a tape survey from its file.

    Raises
    ------
    RecipeFaults
        All faults at once, each with its place; never anything else, whatever the file holds.
    """
    try:
        written = load(path, printable(path))
    except NotRead as fault:
        raise RecipeFaults(
            (Fault(printable(path), 1, 1, "", fault.expected, fault.found, fault.hint),)
        ) from None
    return _survey(written)


def read_survey_text(text: str, path: Path | None = None) -> Survey:
    """Read a tape survey from a text, called `path` in messages.

    Raises
    ------
    RecipeFaults
        All faults at once, each with its place; never anything else, whatever the text is.

    Examples
    --------
    >>> survey = read_survey_text('''
    ... kind = "tape survey"
    ... name = "one-tube"
    ... units = "in"
    ... tubes.upper = { from = "A", to = "E", od = "3/4" }
    ... points.B = {}
    ... datum = { origin = "A", along = ["y", "B"], level = true }
    ... measured.distances = [["A", "E", "19-1/2"], ["B", "E", 22, "± 1/8"]]
    ... ''')
    >>> [point.name for point in survey.points], survey.measurements[1].error_mm
    (['A', 'E', 'B'], 3.175)
    """
    return _survey(parse(text, printable(path) if path else "survey"))


def _survey(written: Written) -> Survey:
    written.units = units_of(written.data)
    top = written.top()
    _kind(top)
    written.homes = homes_of(SURVEY)
    values = SURVEY.read(top)
    survey = _typed(top, values)
    if written.faults or survey is None:
        faults = sorted(dict.fromkeys(written.faults), key=lambda fault: (fault.line, fault.column))
        raise RecipeFaults(tuple(faults))
    return survey


def _kind(top: Entry) -> None:
    """Refuse another sort of file at once: every key of it would be a fault."""
    entry = top.inside("kind")
    if entry.value == SURVEY_KIND:
        return
    if isinstance(entry.value, str) and entry.value in KINDS:
        hint = "this is a recipe: clampwright check"
    elif entry.value is NOTHING and _has_tubes(top.written.data):
        hint = 'a file of tubes has nothing to solve: a recipe names it with [structure] file = "..."'
        entry.wrong("a tape survey", hint, said="tubes already")
        raise RecipeFaults(tuple(top.written.faults))
    elif entry.value is NOTHING:
        hint = f'write kind = "{SURVEY_KIND}" at the top'
    else:
        hint = did_you_mean(entry.value, (SURVEY_KIND,)) if isinstance(entry.value, str) else ""
    entry.wrong(f'"{SURVEY_KIND}"', hint)
    raise RecipeFaults(tuple(top.written.faults))


def _has_tubes(data: dict[str, object]) -> bool:
    """Whether a file gives tubes by their ends or spacings, and has no frame to solve them in."""
    tubes = data.get("tubes")
    ends = isinstance(tubes, dict) and any(
        isinstance(each, dict) and "start" in each for each in tubes.values()
    )
    return "datum" not in data and (ends or "two_tubes" in data)


def _typed(top: Entry, values: Values) -> Survey | None:
    """The survey, judged across its keys as far as they could be read; None where too little could."""
    datum, given, errors = (values.get(key, {}) for key in ("datum", "measured", "measuring"))
    judged = {"tubes", "points"} <= values.keys()
    tubes, more = (_named(top.inside(key), values[key]) if judged else {} for key in ("tubes", "points"))
    points = points_of(top, tubes, more, datum)
    frame: Datum | None = datum_of(top.inside("datum"), datum) if "datum" in values else None
    if judged:
        made = tubes_of(top, tubes, points)
        sides = sides_of(top.inside("datum"), datum, points, frame)
        measurements = measured(given, errors, points, tubes)
        note_strays(top, tubes, datum, points)
        if unit_makes_sense(top.inside("measured"), given, tubes):
            note_unit_slips(given, tubes)
    if frame is None or top.written.faults:
        return None
    survey = Survey(
        name=values["name"],
        about=values["about"],
        units=values["units"],
        points=tuple(points.by_name.values()),
        tubes=made,
        measurements=measurements,
        datum=frame,
        sides=sides,
        tape_mm=errors["tape"],
        assumed=_assumed(top.written, given),
    )
    return replace(survey, digest=survey_digest(survey))


def _named(entry: Entry, read: dict[str, Values]) -> dict[str, Values]:
    """What was read of each name, which is nothing for one that holds no table."""
    names = entry.value if isinstance(entry.value, dict) else {}
    return {name: read.get(name, {}) for name in names}


def _assumed(written: Written, given: Values) -> tuple[tuple[str, str], ...]:
    """What was filled in, without the ± of measurements that there are none of."""
    used = {f"measuring.{sort}" for sort in sorts_used(given)}
    return tuple(
        (key, says) for key, says in written.assumed if not key.startswith("measuring.") or key in used
    )
