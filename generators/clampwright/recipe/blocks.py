"""Readers of tables that come several times: [[blocks]] in a row, and tables each with a name of its own."""

from __future__ import annotations

import re
from dataclasses import dataclass

from clampwright.recipe.fields import Table, Values
from clampwright.recipe.limits import limits
from clampwright.recipe.measures import Schema
from clampwright.recipe.readers import read_each
from clampwright.recipe.written import Entry, Wrong, printable, quoted

LONGEST_NAME = 40
_SIGN = re.compile(r"[^\w .-]")
NAME = re.compile(rf"[^\W_][\w .-]{{0,{LONGEST_NAME - 1}}}")
"""What a tube, a point or another thing of the writer's may be called."""


def better_name(name: str) -> str:
    """What to change in a name that is none.

    >>> better_name("a/b"), better_name("-a"), better_name("a" * 80)
    ('without the "/"', 'begin it with a letter or digit', 'it has 80 characters: shorten it')
    """
    if match := _SIGN.search(name):
        return f"without the {_as_said(match[0])}"
    if len(name) > LONGEST_NAME:
        return f"it has {len(name)} characters: shorten it"
    return "begin it with a letter or digit"


def _as_said(sign: str) -> str:
    if sign == '"':
        return "quotation mark"
    return quoted(sign) if sign.isprintable() else f"character {printable(sign)}"


@dataclass(frozen=True, slots=True)
class Blocks:
    """[[blocks]] of one kind; as a tuple of what was read from each."""

    of: Table
    count: str
    """Name of the limits of their number."""
    heading: str
    hint: str = ""
    """What to look for where there are too few or too many."""
    kind: str = "blocks"

    def expected(self, units: str) -> str:
        span = limits(self.count)
        if span.least < 1:
            return f"at most {span.most:g} blocks [[{self.heading}]]"
        return f"{span.least:g} to {span.most:g} blocks [[{self.heading}]]"

    def read(self, entry: Entry) -> tuple[object, ...]:
        value = entry.value
        if isinstance(value, dict):
            hint = f"write [[{self.heading}]] with two brackets, once for each"
            raise entry.wrong(self.expected(entry.units), hint)
        if not isinstance(value, list) or not limits(self.count).hold(len(value)):
            raise entry.wrong(self.expected(entry.units), self.hint)
        values, wrong = read_each(self.of, entry, range(len(value)))
        if wrong:
            raise wrong
        return tuple(values)

    def show(self, value: object, units: str) -> str:
        return "none"

    def schema(self) -> Schema:
        span = limits(self.count)
        schema: Schema = {"type": "array", "items": self.of.schema()}
        return schema | {"minItems": int(span.least), "maxItems": int(span.most)}


@dataclass(frozen=True, slots=True)
class Named:
    """Tables under names of the writer's choice; name to what was read from its table."""

    of: Table
    count: str
    what: str
    """One of them: "tube"."""
    example: str = ""
    """A name for the starter recipe, where one is to be shown as a comment."""
    all_that_can: bool = False
    """Whether those without a fault are read on where another, which is noted, has one."""
    kind: str = "named tables"

    def expected(self, units: str) -> str:
        span = limits(self.count)
        return f"{span.least:g} to {span.most:g} {self.what}s, each a table with a name of its own"

    def read(self, entry: Entry) -> dict[str, Values]:
        value = entry.value
        if not isinstance(value, dict) or not limits(self.count).hold(len(value)):
            said = f"{len(value)} of them" if isinstance(value, dict) and value else None
            raise entry.wrong(self.expected(entry.units), said=said)
        wrong = self._judge_names(entry, list(value))
        named: dict[str, Values] = {}
        for name in value:
            try:
                named[name] = self.of.read(entry.inside(name))
            except Wrong as fault:
                wrong = fault
        if wrong and not self.all_that_can:
            raise wrong
        return named

    def _judge_names(self, entry: Entry, names: list[str]) -> Wrong | None:
        wrong: Wrong | None = None
        seen: dict[str, str] = {}
        for name in names:
            here = entry.inside(name)
            if not NAME.fullmatch(name):
                expected = f"a {self.what}'s name of at most 40 letters, digits, spaces, . - and _"
                said = quoted(name) if name else "an empty name"
                wrong = here.wrong(expected, better_name(name), said=said, at_key=True)
            alias = seen.setdefault(alike(name), name)
            if alias != name:
                hint = f"it is too like {quoted(alias)}: a slip would take one for the other"
                wrong = here.wrong(
                    f"names that no one can confuse for each {self.what}",
                    hint,
                    said=quoted(name),
                    at_key=True,
                )
        return wrong

    def show(self, value: object, units: str) -> str:
        return "none"

    def schema(self) -> Schema:
        span = limits(self.count)
        schema: Schema = {"type": "object", "additionalProperties": self.of.schema()}
        return schema | {"minProperties": int(span.least), "maxProperties": int(span.most)}


@dataclass(frozen=True, slots=True)
class Alone:
    """A table that stands for something by being there; None where it is left out as a whole."""

    of: Table
    kind: str = "table"

    def expected(self, units: str) -> str:
        return self.of.expected(units)

    def read(self, entry: Entry) -> Values:
        return self.of.read(entry)

    def show(self, value: object, units: str) -> str:
        return "none"

    def schema(self) -> Schema:
        return self.of.schema()


def alike(name: str) -> str:
    """A name without what the eye passes over: case, spaces, dashes, underscores and points.

    >>> alike("Upper-left") == alike("upper left")
    True
    """
    return re.sub(r"[\s._-]", "", name.casefold())
