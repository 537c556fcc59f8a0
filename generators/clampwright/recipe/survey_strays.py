"""Names that a survey uses and nothing defines: one fault for each, where the slip most likely is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from clampwright.recipe.faults import did_you_mean, listed, nearest
from clampwright.recipe.fields import Values
from clampwright.recipe.survey_points import Points, datum_points, name_as_key
from clampwright.recipe.written import Entry

_LINES_NAMED = 3
"""Of the lines that hold a name, so many are told; of the rest only how many."""


@dataclass(frozen=True, slots=True)
class _Slot:
    """A place that defines a point: one that nothing uses, or one whose name could not be made out."""

    name: str = ""
    entry: Entry | None = None


def note_strays(top: Entry, tubes: dict[str, Values], datum: Values, points: Points) -> None:
    """Note names that are used and defined nowhere; call it when all that uses names has been read.

    A name that stands only where points are defined, as a tube's end or in the datum, while another is used
    that nothing defines, is the slip of the two, and is told alone.
    """
    strays = dict(points.strays)
    slots = [*_ends(top, tubes, points), *_datum(top, datum, points)]
    named = [slot for slot in slots if slot.name]
    near = {slot.name for slot in named if _told(slot, nearest(slot.name, strays), strays)}
    for slot in (each for each in slots if not each.name):
        _told(slot, _most_used(strays, 1), strays)
    for slot in (each for each in named if each.name not in near):
        _told(slot, _most_used(strays, 2), strays)
    for name, entries in strays.items():
        _note_point(name, entries, points)
    for name, entries in points.stray_tubes.items():
        hint = did_you_mean(name, tubes)
        entries[0].wrong(f"a tube of the survey: {listed(tubes)}", _with(hint, entries))


def _ends(top: Entry, tubes: dict[str, Values], points: Points) -> Iterator[_Slot]:
    """Ends of tubes that nothing else names, and those that a fault keeps from being known."""
    named = Counter(values[key] for values in tubes.values() for key in ("from", "to") if key in values)
    seen: set[frozenset[str]] = set()
    for tube, values in tubes.items():
        names = [values[key] for key in ("from", "to") if key in values]
        yield from (_Slot() for _ in range(2 - len(set(names))))
        pair = frozenset(names)
        if len(pair) == 2 and pair in seen:
            yield from (_Slot(), _Slot())
        seen.add(pair)
        for key in ("from", "to"):
            name = values.get(key, "")
            if named[name] == 1 and not points.told_otherwise(name, "end"):
                yield _Slot(name, top.inside("tubes").inside(tube).inside(key))


def _datum(top: Entry, datum: Values, points: Points) -> Iterator[_Slot]:
    """Points of the datum that nothing else names, and those that a fault keeps from being known."""
    marks = datum_points(top.inside("datum"), datum)
    wanted = 2 if datum.get("level") else 3
    yield from (_Slot() for _ in range(wanted - len(marks)))
    for name, entry in marks.items():
        if not points.told_otherwise(name, "datum"):
            yield _Slot(name, entry)


def _most_used(strays: dict[str, list[Entry]], least: int) -> str | None:
    """The stray name that is used most, at least so often; not one of a mark, which [points] is to tell."""
    names = (name for name, entries in strays.items() if entries[0].path[0] != "tubes")
    most = max(names, key=lambda name: len(strays[name]), default=None)
    return most if most is not None and len(strays[most]) >= least else None


def _told(slot: _Slot, meant: str | None, strays: dict[str, list[Entry]]) -> bool:
    """Take a stray name for what a place means, and note that where it has a name of its own."""
    if meant is None:
        return False
    entries = strays.pop(meant)
    if slot.entry is not None:
        hint = f'did you mean "{meant}"? {_where(entries)}'
        slot.entry.wrong("a point that something is measured to", hint)
    return True


def _note_point(name: str, entries: list[Entry], points: Points) -> None:
    first, key = entries[0], name_as_key(name)
    hint = did_you_mean(name, points.by_name)
    if first.path[0] == "tubes":
        tube = first.path[1]
        told = (
            f'write [points.{key}] with on = "{tube}" for a ring round it, or skin = "{tube}" for a pen mark'
        )
        first.wrong("a point of the survey", _with(hint or told, entries))
        return
    hint = hint or f"a tube's end, or a point under [points.{key}]"
    first.wrong(f"a point of the survey: {listed(points.by_name)}", _with(hint, entries))


def _with(hint: str, entries: list[Entry]) -> str:
    """A hint with the other places of the same name."""
    lines = sorted({entry.line for entry in entries[1:]} - {entries[0].line})
    also = f"the same in {_lines(lines)}" if lines else ""
    return "; ".join(part for part in (hint, also) if part)


def _where(entries: list[Entry]) -> str:
    lines = sorted({entry.line for entry in entries})
    return f"{_lines(lines)} {'names' if len(lines) == 1 else 'name'} that, and nothing says where it is"


def _lines(lines: list[int]) -> str:
    """Lines by their numbers: "line 3", "lines 3 and 4", "lines 3, 4, 5 and 7 more"."""
    shown = [str(line) for line in lines[:_LINES_NAMED]]
    more = len(lines) - len(shown)
    last = f"{more} more" if more else shown.pop() if len(shown) > 1 else ""
    return f"line{'s' if len(lines) > 1 else ''} {', '.join(shown)}{f' and {last}' if last else ''}"
