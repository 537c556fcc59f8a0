"""How sure surveyed tubes are, as a structure file has it: a factor of the covariance of their ends."""

from __future__ import annotations

import re
from dataclasses import dataclass

from clampwright.recipe.blocks import Alone
from clampwright.recipe.faults import did_you_mean
from clampwright.recipe.fields import LEFT_OUT, Field, LeftOut, Table, Values
from clampwright.recipe.measures import Schema
from clampwright.recipe.readers import Flag, Text, counted
from clampwright.recipe.written import Entry, Wrong, quoted
from clampwright.structure.uncertainty import Uncertainty

ROWS = 6
"""Start x, y, z, end x, y, z."""

_ROW = re.compile(r"\s*(-?\d{1,7}(\s+-?\d{1,7})*)?\s*", re.ASCII)
_AGAIN = "solve the survey again, which writes this part"

Ends = dict[str, tuple[tuple[int, ...], ...]]


@dataclass(frozen=True, slots=True)
class WholeNumbers:
    """For each tube six texts of whole numbers; name to six rows."""

    kind: str = "rows of whole numbers"

    def expected(self, units: str) -> str:
        return f"for each tube {ROWS} texts of whole numbers"

    def read(self, entry: Entry) -> Ends:
        if not isinstance(entry.value, dict):
            raise entry.wrong(self.expected(entry.units), _AGAIN)
        ends: Ends = {}
        wrong: Wrong | None = None
        for name, rows in entry.value.items():
            good = isinstance(rows, list) and len(rows) == ROWS and all(_is_row(row) for row in rows)
            if not good:
                wrong = entry.inside(name).wrong(f"{ROWS} texts of whole numbers", _AGAIN)
                continue
            ends[name] = tuple(tuple(int(number) for number in row.split()) for row in rows)
        if wrong:
            raise wrong
        return ends

    def show(self, value: object, units: str) -> str:
        return "none"

    def schema(self) -> Schema:
        row: Schema = {"type": "string", "pattern": r"^\s*(-?\d{1,7}(\s+-?\d{1,7})*)?\s*$"}
        rows: Schema = {"type": "array", "items": row, "minItems": ROWS, "maxItems": ROWS}
        return {"type": "object", "additionalProperties": rows}


def _is_row(row: object) -> bool:
    return isinstance(row, str) and _ROW.fullmatch(row) is not None


@dataclass(frozen=True, slots=True)
class Scale:
    """What 1 stands for: a plain number of millimetres."""

    kind: str = "number"

    def expected(self, units: str) -> str:
        return "millimetres that 1 stands for, a number above 0 and up to 1"

    def read(self, entry: Entry) -> float:
        value = entry.value
        if isinstance(value, bool) or not isinstance(value, int | float) or not 0 < value <= 1:
            raise entry.wrong(self.expected(entry.units), _AGAIN)
        return float(value)

    def show(self, value: object, units: str) -> str:
        return f"{value:g}"

    def schema(self) -> Schema:
        return {"type": "number", "exclusiveMinimum": 0, "maximum": 1}


_KNOWN = Table(
    (
        Field("from", Text("where it comes from"), "The survey that it comes from.", example='"tape survey"'),
        Field(
            "given",
            Flag(),
            "Whether somebody gave the plus or minus of the measurements.",
            LeftOut(True, "true"),
            "true",
        ),
        Field("one_mm", Scale(), "Millimetres that a 1 below stands for.", example="0.0001"),
        Field(
            "causes",
            counted(Text("a cause"), "survey-causes", "causes", "one name for each column"),
            "What each cause is, one a column.",
            LeftOut((), "not told"),
            '["A-E", "B-E", "A-F"]',
        ),
        Field(
            "ends",
            WholeNumbers(),
            "For each tube start x, y, z and end x, y, z: what one standard deviation of each cause does.",
            example='{ upper = ["510", "0 510", "", "0 0 510", "", ""] }',
        ),
    ),
    "How sure the tubes are: written by the survey that they come from, and not to be changed by hand.",
)
MEASURED_FIELD = Field("measured", Alone(_KNOWN), _KNOWN.about, LEFT_OUT)


def uncertainty_of(entry: Entry, values: Values, names: tuple[str, ...]) -> Uncertainty | None:
    """The uncertainty that a structure file carries; None where it has faults, which are noted."""
    if len(values) < len(_KNOWN.fields):
        return None
    ends, inside, one = values["ends"], entry.inside("ends"), values["one_mm"]
    for name in (name for name in ends if name not in names):
        inside.inside(name).wrong(
            "a tube of this file", did_you_mean(name, names), said=quoted(name), at_key=True
        )
    missing = [name for name in names if name not in ends]
    if missing:
        hint = f"{_AGAIN}; or delete [measured], and say how well the tubes are known in each recipe"
        inside.wrong("rows for every tube", hint, said=f"none for {quoted(missing[0])}")
    if missing or len(ends) > len(names):
        return None
    rows = [row for name in names for row in ends[name]]
    causes, called = max(len(row) for row in rows), values["causes"]
    if called and len(called) < causes:
        entry.inside("causes").wrong(f"{causes} causes, as many as there are columns", _AGAIN)
        return None
    causes = max(causes, len(called))
    factor = tuple(tuple(n * one for n in row) + (0.0,) * (causes - len(row)) for row in rows)
    return Uncertainty(names, factor, values["from"], values["given"], called)
