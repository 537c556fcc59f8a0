"""A single length typed in the other unit: the triangles that it is a side of show it without solving."""

from __future__ import annotations

from clampwright.quantities import show_length
from clampwright.quantities.kinds import INCH
from clampwright.recipe.fields import Values
from clampwright.recipe.survey_rows import Row
from clampwright.trade.tables import rule

_OTHER = {"mm": ("in", "inches", float(INCH)), "in": ("mm", "millimetres", 1 / float(INCH))}

_Sides = dict[frozenset[str], float]


def note_unit_slips(values: Values, tubes: dict[str, Values]) -> None:
    """Note bare distances that close none of their triangles as they stand, and all in the other unit.

    A triangle closes where no side is longer than the other two together, give or take: a share of the
    longest side, and a tube's diameter for those that were measured over walls.
    """
    rows = [row for row in values.get("distances") or () if row.whole]
    sides: _Sides = {frozenset(row.cells[:2]): row.cells[2] for row in rows}
    thickest = max((tube["od"] for tube in tubes.values() if "od" in tube), default=0.0)
    for row in rows:
        _note(row, sides, thickest)


def _note(row: Row, sides: _Sides, slack: float) -> None:
    written, value = row.entry.inside(2), row.cells[2]
    if not _bare(written.value):
        return
    other, name, factor = _OTHER[written.units]
    triangles = _triangles(row, sides)
    least = rule("survey-triangles-least").value
    as_read = any(_closes(value, pair, slack) for pair in triangles)
    if len(triangles) < least or as_read or not all(_closes(value * factor, p, slack) for p in triangles):
        return
    said = str(written.value).strip()
    low, high = max(abs(a - b) for a, b in triangles), min(a + b for a, b in triangles)
    expected = f"a length from {show_length(low, written.units)} to {show_length(high, written.units)}"
    written.wrong(f"{expected}, by the distances round it", f'is it in {name}? then write "{said} {other}"')


def _bare(value: object) -> bool:
    """Whether a length is written without a unit."""
    return not isinstance(value, str) or not any(sign.isalpha() or sign in "\"'”″’′" for sign in value)


def _triangles(row: Row, sides: _Sides) -> list[tuple[float, float]]:
    """The other two sides of each triangle that a distance is a side of."""
    a, b = row.cells[:2]
    third = {name for pair in sides for name in pair} - {a, b}
    pairs = ((sides.get(frozenset((a, c))), sides.get(frozenset((b, c)))) for c in sorted(third))
    return [(one, other) for one, other in pairs if one is not None and other is not None]


def _closes(side: float, others: tuple[float, float], slack: float) -> bool:
    give = slack + rule("survey-triangle-give").value * max(side, *others)
    return abs(others[0] - others[1]) - give <= side <= sum(others) + give
