"""Rows of a survey to typed measurements in millimetres and radians."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.recipe.fields import Values
from clampwright.recipe.survey_over import over_of, tubes_said
from clampwright.recipe.survey_points import Points, known, tube_known
from clampwright.recipe.survey_rows import Row
from clampwright.recipe.survey_words import CALIPERS, TAPE
from clampwright.structure.survey.model import (
    CENTRE,
    Along,
    Between,
    Distance,
    Measurement,
    Plumb,
    Slope,
)

ERROR_OF = {
    "heights": "height",
    "levels": "height",
    "plumb": "plumb",
    "offsets": "offset",
    "slopes": "slope",
    "angles": "angle",
}
"""For each list the ± under [measuring] that holds where a row has none of its own; distances have two."""


def measured(
    values: Values, errors: Values, points: Points, tubes: dict[str, Values]
) -> tuple[Measurement, ...]:
    """Every measurement that has no fault, in the order of the lists; notes what is wrong."""
    found: list[Measurement] = []
    for row in values.get("distances") or ():
        if _points_known(row, points):
            found += _distance(row, errors, points, tubes)
        else:
            tubes_said(row, points, tubes)
    for key in ("heights", "levels", "plumb", "offsets"):
        for row in values.get(key) or ():
            if _points_known(row, points):
                found.append(_between_points(key, row, _error(row, errors, ERROR_OF[key])))
    for row in values.get("slopes") or ():
        if _tubes_known(row, 1, tubes, points):
            tube, rise = row.cells
            found.append(Slope(tube, rise, _error(row, errors, "slope"), row.line))
    for row in values.get("angles") or ():
        if _tubes_known(row, 2, tubes, points):
            one, other, angle = row.cells
            found.append(Between(one, other, angle, _error(row, errors, "angle"), row.line))
    return tuple(found)


def sorts_used(values: Values) -> Iterator[str]:
    """The ± under [measuring] that some measurement rests on."""
    yield TAPE
    if any(row.words.with_what == CALIPERS for row in values.get("distances") or ()):
        yield CALIPERS
    yield from (ERROR_OF[key] for key in ERROR_OF if values.get(key))


def _distance(row: Row, errors: Values, points: Points, tubes: dict[str, Values]) -> Iterator[Distance]:
    a, b, value = row.cells
    how = row.words.how or CENTRE
    over = over_of(row, how, points, tubes)
    if over is not None:
        yield Distance(a, b, value, _error(row, errors, row.words.with_what or TAPE), how, over, row.line)


def _between_points(key: str, row: Row, error: float) -> Measurement:
    a, b, *rest = row.cells
    if key == "plumb":
        return Plumb(a, b, error, row.line)
    if key == "offsets":
        return Along(a, b, rest[0], rest[1], error, row.line)
    return Along(a, b, "z", rest[0] if rest else 0.0, error, row.line, plumb=True)


def _error(row: Row, errors: Values, sort: str) -> float:
    """The row's own ±, else that of its sort; one with a fault is noted already."""
    own = row.words.error
    return float(errors.get(sort, 1.0)) if own is None else own


def _points_known(row: Row, points: Points) -> bool:
    """Whether a row is whole and both of its points are known; what is not so is noted or kept."""
    a, b = row.cells[:2]
    named = [(at, name) for at, name in enumerate((a, b)) if name is not None]
    both = [known(row.entry.inside(at), name, points) for at, name in named]
    if a == b is not None:
        row.entry.inside(1).wrong("another point", "nothing is measured from a point to itself")
    return row.whole and all(both) and a != b


def _tubes_known(row: Row, many: int, tubes: dict[str, Values], points: Points) -> bool:
    """Whether a row is whole and its tubes are known; what is not so is noted or kept."""
    names = row.cells[:many]
    named = [(at, name) for at, name in enumerate(names) if name is not None]
    every = [tube_known(row.entry.inside(at), name, tubes, points) for at, name in named]
    twice = many == 2 and names[0] == names[1] is not None
    if twice:
        row.entry.inside(1).wrong("another tube", "a tube makes no angle with itself")
    return row.whole and all(every) and not twice
