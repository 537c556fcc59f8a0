"""Over which tubes a tape was laid: taken from where its ends lie, or asked for."""

from __future__ import annotations

from clampwright.quantities import show_length
from clampwright.recipe.faults import did_you_mean, listed
from clampwright.recipe.fields import Values
from clampwright.recipe.survey_points import Points, tube_known
from clampwright.recipe.survey_rows import Row
from clampwright.structure.survey.model import CENTRE, INSIDE, OUTSIDE

Over = tuple[str, str]


def over_of(row: Row, how: str, points: Points, tubes: dict[str, Values]) -> Over | None:
    """The tubes whose walls are measured over at each end, "" for none; None where there is a fault."""
    a, b, value = row.cells
    if not tubes_said(row, points, tubes):
        return None
    if how == CENTRE:
        return _none_wanted(row)
    if not (points.sure(a) and points.sure(b)):
        return None
    one, other = (points.by_name[end].axis_of for end in (a, b))
    along = [tube for tube in one if tube in other]
    on_a, on_b = (tuple(tube for tube in tubes if tube not in along) for tubes in (one, other))
    if not on_a and not on_b:
        hint = f"it runs along {listed(along, 'and')}" if along else f"neither {a} nor {b} is on an axis"
        row.entry.wrong(f'a tube to go over "{how}"', f'{hint}: delete "{how}"', said="none")
        return None
    on = (on_a, on_b)
    over = _said(row, on) if row.words.over is not None else _taken(row, how, on)
    if over is None or not _long_enough(row, how, over, tubes, value):
        return None
    return over


def tubes_said(row: Row, points: Points, tubes: dict[str, Values]) -> bool:
    """Whether the survey has every tube that a row names; those that it has not are kept."""
    at = row.words.over_at or row.entry
    each = [tube_known(at, name, tubes, points) for name in row.words.over or () if name]
    return all(each)


def _none_wanted(row: Row) -> Over | None:
    if row.words.over is None:
        return "", ""
    at = row.words.over_at or row.entry
    at.wrong('"outside" or "inside" beside it', "centre to centre goes over no tube")
    return None


def _taken(row: Row, how: str, on: tuple[tuple[str, ...], tuple[str, ...]]) -> Over | None:
    """The only tube of each end."""
    several = [(name, tubes) for name, tubes in zip(row.cells, on, strict=False) if len(tubes) > 1]
    if not several:
        return _first(on[0]), _first(on[1])
    name, tubes = several[0]
    said = ", ".join(_first(each) or "nothing" for each in on)
    hint = f'{name} is on {listed(tubes, "and")}: say which the tape lay on, such as "over {said}"'
    row.entry.wrong(f'the tubes that "{how}" goes over', hint, said="nothing")
    return None


def _said(row: Row, on: tuple[tuple[str, ...], tuple[str, ...]]) -> Over | None:
    """The tubes that the row names, each held against what its end lies on."""
    names, at = row.words.over or (), row.words.over_at or row.entry
    if len(names) == 1:
        return _one_said(row, names[0], on)
    if len(names) != 2:
        at.wrong('one or two tubes, such as "over upper-left, ring-left"', "one for each end of the tape")
        return None
    for end, name, tubes in zip(row.cells, names, on, strict=False):
        if name and name not in tubes:
            hint = did_you_mean(name, tubes) or "the first is for the first point; write nothing for none"
            at.wrong(f"a tube that {end} is on: {listed(tubes) or 'none'}", hint)
            return None
    return names[0], names[1]


def _one_said(row: Row, name: str, on: tuple[tuple[str, ...], tuple[str, ...]]) -> Over | None:
    """One name serves the end that needs it; the other end has one tube, or the same one, or none."""
    at = row.words.over_at or row.entry
    over = [name if name in tubes else _only(tubes) for tubes in on]
    if name not in over:
        every = tuple(dict.fromkeys((*on[0], *on[1])))
        at.wrong(f"a tube that one of the two points is on: {listed(every)}", did_you_mean(name, every))
        return None
    if None in over:
        end = row.cells[over.index(None)]
        at.wrong('a tube for each end, such as "over upper-left, ring-left"', f"which one at {end}?")
        return None
    return over[0] or "", over[1] or ""


def _long_enough(row: Row, how: str, over: Over, tubes: dict[str, Values], value: float) -> bool:
    """Whether both tubes fit between the jaws; what does not is noted."""
    if how != OUTSIDE:
        return how == INSIDE
    least = sum(tubes[name].get("od", 0.0) / 2 for name in over if name)
    if value > least:
        return True
    shown = show_length(least, row.entry.units)
    row.entry.inside(2).wrong(f"more than {shown}, half of both tubes", "is it the distance inside?")
    return False


def _first(tubes: tuple[str, ...]) -> str:
    return tubes[0] if tubes else ""


def _only(tubes: tuple[str, ...]) -> str | None:
    """The only tube there is, "" for none; None where there are several."""
    return _first(tubes) if len(tubes) < 2 else None
