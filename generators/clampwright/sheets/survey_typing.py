"""How what was measured is typed into a survey file: an example, line by line."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.sheets.flow import Block, gap, heading, paragraph
from clampwright.sheets.hole_table import kept
from clampwright.sheets.ink import BODY
from clampwright.structure.survey.model import Survey

EXAMPLE = """\
kind = "tape survey"
name = "my-mount"
units = "in"

[tubes.upper-left]
from = "A"
to = "B"
od = "3/4 in"

[tubes.upper-right]
from = "C"
to = "D"
od = "3/4 in"

[datum]
origin = "F1"
along = ["y", "F2"]
plane = ["z", "F3"]

[measured]
distances = [
  ["F1", "A", "20-3/32"],
  ["F2", "A", "27-1/2"],
  ["A", "B", "14-7/8"],
  ["A", "C", "21-11/16", "outside"],
]"""


@dataclass(frozen=True, slots=True)
class _Names:
    """Points that the example speaks of: two marks, two rings on a tube, one on another."""

    origin: str = "F1"
    through: str = "F2"
    ring: str = "A"
    along: str = "B"
    across: str = "C"


def typing_blocks(room: float, survey: Survey | None = None) -> list[Block]:
    """A reading followed from the tape to the file: into a short file, or into the survey's own."""
    names = None if survey is None else _own(survey)
    units = "in" if survey is None or names is None else survey.units
    text = EXAMPLE if names is None else measured(names, units)
    lines = [line for each in text.splitlines() for line in _line(each, room)]
    if names is not None:
        lines = [*kept(lines[:-1]), lines[-1]]
    return [
        *heading("An example, from the tape to the file", room),
        *paragraph(_reading(names or _Names(), units), room),
        gap(1.0),
        *lines,
        gap(4.0),
    ]


def measured(names: _Names, units: str) -> str:
    """The lines of an example with some points, in "mm" or "in"."""
    values = ('"20-3/32"', '"27-1/2"', '"14-7/8"', '"21-11/16"') if units == "in" else _MM
    pairs = ((names.origin, names.ring), (names.through, names.ring), (names.ring, names.along))
    rows = [f'  ["{a}", "{b}", {value}],' for (a, b), value in zip(pairs, values[:3], strict=True)]
    outside = f'  ["{names.ring}", "{names.across}", {values[3]}, "outside"],'
    return "\n".join(["[measured]", "distances = [", *rows, *([outside] if names.across else []), "]"])


_MM = ("511", "698", "378", "551")


def _reading(names: _Names, units: str) -> str:
    held, one, other, mean, left = (
        ("1 in", "21-1/16", "21-1/8", "21-3/32", "20-3/32")
        if units == "in"
        else ("100 mm", "610", "612", "611", "511")
    )
    return (
        f"Held at {held} at {names.origin}, read at ring {names.ring}: {one}; from the other end {other}. "
        f"Their mean is {mean}, less {held} is {left}. A reading over or between tubes says so behind its "
        'figure: "outside", "inside".'
    )


def _own(survey: Survey) -> _Names | None:
    """Points of a survey for the example; None where it has no tube."""
    if not survey.tubes:
        return None
    tube = survey.tubes[0]
    others = [t.start for t in survey.tubes[1:] if t.start not in (tube.start, tube.end)]
    datum = survey.datum
    return _Names(datum.origin, datum.through, tube.start, tube.end, others[0] if others else "")


def _line(text: str, room: float) -> list[Block]:
    indent = 4.0 + (len(text) - len(text.lstrip()))
    return paragraph(text.strip(), room, BODY, indent=indent, after=0.0)
