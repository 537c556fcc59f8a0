"""The field tables: every key of a recipe declared once, for reading, schema, starter recipe and docs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from clampwright.recipe.faults import did_you_mean, listed
from clampwright.recipe.measures import Length, Schema
from clampwright.recipe.readers import Reader
from clampwright.recipe.written import NOTHING, Entry, Wrong, quoted
from clampwright.trade.sources import source
from clampwright.trade.tables import rule

Values = dict[str, Any]
"""What was read from a table, by key. A key whose value was wrong is not in it."""


@dataclass(frozen=True, slots=True)
class Needed:
    """The key must be written; `hint` says what to do where it is not."""

    hint: str = ""


@dataclass(frozen=True, slots=True)
class LeftOut:
    """The key may be left out: `value` (mostly None) then says so; nothing is assumed by the reader."""

    value: object = None
    says: str = ""
    """What a later stage does then, for the docs."""


@dataclass(frozen=True, slots=True)
class Assumed:
    """The key may be left out: what is written here is then read in its place, and reported as assumed."""

    written: object
    why: str
    status: str = "assumed"


@dataclass(frozen=True, slots=True)
class ByRule:
    """As Assumed, with the value of a rule: one for recipes in mm, one for recipes in inches."""

    metric: str
    inch: str
    why: str

    def here(self, units: str) -> Assumed:
        """The assumption for a recipe with these units."""
        row = rule(self.inch if units == "in" else self.metric)
        status = source(row.source).status
        if row.unit in ("mm", "degC", "deg"):
            return Assumed(f"{row.value:g} {row.unit}", self.why, status)
        return Assumed(int(row.value), self.why, status)


NEEDED = Needed()
LEFT_OUT = LeftOut()


@dataclass(frozen=True, slots=True)
class Field:
    """One key: what it is read with, what stands in for it where it is left out, and what it means."""

    key: str
    reads: Reader
    about: str
    default: Needed | LeftOut | Assumed | ByRule = NEEDED
    example: str = ""
    """A value as written in TOML, for the starter recipe; "mm | in" where they differ."""

    def in_units(self, units: str) -> str:
        """The example for a recipe with these units."""
        metric, _, inch = self.example.partition(" | ")
        return inch or metric if units == "in" else metric

    def read_in(self, table: Entry) -> object:
        """The field's value in a table; raises Wrong after noting what is wrong."""
        entry = table.inside(self.key)
        if entry.value is not NOTHING:
            return self.reads.read(entry)
        if isinstance(self.default, Needed):
            is_table = isinstance(self.reads, Table)
            expected = f"a heading [{self.key}]" if is_table else self.reads.expected(entry.units)
            raise entry.wrong(expected, self.default.hint)
        if isinstance(self.default, LeftOut):
            return self._left_out(entry, self.default)
        return self._assume(entry)

    def assumption(self, units: str) -> Assumed | None:
        """What is assumed where the key is left out."""
        if isinstance(self.default, ByRule):
            return self.default.here(units)
        return self.default if isinstance(self.default, Assumed) else None

    def left_out(self, units: str) -> str:
        """What stands in where the key is left out, for people; "" where it must be written."""
        assumed = self.assumption(units)
        if isinstance(self.default, LeftOut):
            return self.default.says
        if assumed is None:
            return ""
        if isinstance(self.reads, Length) and isinstance(assumed.written, str):
            return self.reads.show(self.reads.number(assumed.written, units), units)
        return str(assumed.written if assumed.written != [] else "none").replace("True", "true")

    def _left_out(self, entry: Entry, default: LeftOut) -> object:
        """A table left out is read as an empty one, for what its own keys assume."""
        if isinstance(self.reads, Table):
            return self.reads.read(Entry(entry.written, entry.path, {}))
        return default.value

    def _assume(self, entry: Entry) -> object:
        assumed = self.assumption(entry.units)
        assert assumed is not None
        value = self.reads.read(Entry(entry.written, entry.path, assumed.written))
        shown = self.reads.show(value, entry.units)
        entry.assume(f"{shown} ({assumed.why}; {assumed.status})")
        return value


@dataclass(frozen=True, slots=True)
class Table:
    """The keys that may stand under one heading. Left out as a whole, it is read as an empty one."""

    fields: tuple[Field, ...]
    about: str = ""
    kind: str = "table"

    def field(self, key: str) -> Field | None:
        """The field with this key."""
        return next((f for f in self.fields if f.key == key), None)

    def expected(self, units: str) -> str:
        return "a table"

    def show(self, value: object, units: str) -> str:
        return "a table"

    def read(self, entry: Entry) -> Values:
        """The values of every key that could be read; faults for the others and for unknown keys."""
        if not isinstance(entry.value, dict):
            raise entry.wrong(*_heading(entry))
        for key in entry.value:
            if self.field(key) is None:
                self._refuse(entry, key)
        values: Values = {}
        for field in self.fields:
            try:
                values[field.key] = field.read_in(entry)
            except Wrong:
                continue
        return values

    def _refuse(self, entry: Entry, key: str) -> None:
        """Note an unknown key: mistyped, or at home in another table."""
        keys = [f.key for f in self.fields]
        hint = did_you_mean(key, keys) or entry.written.home_of(key)
        where = f"under [{_name(entry)}]" if entry.path else "at the top of the file"
        expected = f"a key that is known {where}"
        if not hint:
            expected, hint = f"one of {listed(keys, most=30)} {where}", "delete it, or put # before it"
        entry.inside(key).wrong(expected, hint, said=quoted(key), at_key=True)

    def schema(self) -> Schema:
        needed = [f.key for f in self.fields if isinstance(f.default, Needed)]
        properties = {f.key: f.reads.schema() | _notes(f) for f in self.fields}
        schema: Schema = {"type": "object", "properties": properties, "additionalProperties": False}
        return schema | ({"required": needed} if needed else {})


def _notes(field: Field) -> Schema:
    """What a schema says of a field to a person."""
    notes: Schema = {"description": field.about}
    if isinstance(field.default, Assumed):
        notes["default"] = field.default.written
    return notes


def _name(entry: Entry) -> str:
    return ".".join(str(part) for part in entry.path if isinstance(part, str))


def _heading(entry: Entry) -> tuple[str, str]:
    """What was expected where a table should be, and a hint."""
    name = _name(entry)
    if isinstance(entry.value, list):
        return f"one table [{name}]", "single brackets, and once only"
    return f"a heading [{name}] with its keys below it", ""
