"""Readers of single values that are no quantities, and of lists: each turns what is written into a value."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from clampwright.quantities import NotAQuantity, length_mm
from clampwright.recipe.faults import did_you_mean, listed
from clampwright.recipe.limits import limits
from clampwright.recipe.measures import Length, Schema
from clampwright.recipe.written import Entry, Wrong
from clampwright.trade.holes import drill, drills

LONGEST_TEXT = 120
"""Characters of a name or remark: it has to fit on a sheet."""


class Reader(Protocol):
    """What a field of a recipe is read with. `kind` names the sort of value for the schema and the docs."""

    @property
    def kind(self) -> str:
        """The sort of value in a word or two."""
        ...

    def read(self, entry: Entry) -> object:
        """The typed value; raises Wrong after noting what is wrong."""
        ...

    def expected(self, units: str) -> str:
        """What would be right, for messages and docs."""
        ...

    def show(self, value: object, units: str) -> str:
        """A value that has been read, for people."""
        ...

    def schema(self) -> Schema:
        """The JSON Schema of what may be written."""
        ...


@dataclass(frozen=True, slots=True)
class Text:
    """A line of printable text."""

    what: str
    may_be_empty: bool = False
    kind: str = "text"

    def expected(self, units: str) -> str:
        return f"{self.what} in quotes, one line of at most {LONGEST_TEXT} characters"

    def read(self, entry: Entry) -> str:
        value = entry.value
        if not isinstance(value, str) or len(value) > LONGEST_TEXT or not value.isprintable():
            raise entry.wrong(self.expected(entry.units))
        if not value.strip() and not self.may_be_empty:
            raise entry.wrong(self.expected(entry.units), said="an empty text")
        return unicodedata.normalize("NFC", value.strip())

    def show(self, value: object, units: str) -> str:
        return str(value)

    def schema(self) -> Schema:
        return {"type": "string", "maxLength": LONGEST_TEXT} | ({} if self.may_be_empty else {"minLength": 1})


@dataclass(frozen=True, slots=True)
class OneOf:
    """One of a few words, or a name that a trade table knows."""

    options: Callable[[], tuple[str, ...]]
    what: str = ""
    kind: str = "choice"

    def expected(self, units: str) -> str:
        words = listed(self.options())
        return f"{self.what}: {words}" if self.what else words

    def read(self, entry: Entry) -> str:
        if isinstance(entry.value, str) and entry.value in self.options():
            return entry.value
        hint = did_you_mean(entry.value, self.options()) if isinstance(entry.value, str) else ""
        raise entry.wrong(self.expected(entry.units), hint)

    def show(self, value: object, units: str) -> str:
        return str(value)

    def schema(self) -> Schema:
        return {"enum": list(self.options())}


def one_of(*words: str) -> OneOf:
    """A choice among fixed words."""
    return OneOf(lambda: words)


@dataclass(frozen=True, slots=True)
class Flag:
    """true or false."""

    kind: str = "true or false"

    def expected(self, units: str) -> str:
        return "true or false"

    def read(self, entry: Entry) -> bool:
        if isinstance(entry.value, bool):
            return entry.value
        raise entry.wrong(
            self.expected(entry.units), "without quotes" if isinstance(entry.value, str) else ""
        )

    def show(self, value: object, units: str) -> str:
        return "true" if value else "false"

    def schema(self) -> Schema:
        return {"type": "boolean"}


@dataclass(frozen=True, slots=True)
class Whole:
    """A whole number within the limits of that name."""

    of: str
    kind: str = "whole number"

    def expected(self, units: str) -> str:
        span = limits(self.of)
        return f"a whole number from {span.least:g} to {span.most:g}"

    def read(self, entry: Entry) -> int:
        value = entry.value
        if isinstance(value, int) and not isinstance(value, bool):
            span = limits(self.of)
            if span.least <= value <= span.most:
                return value
        raise entry.wrong(self.expected(entry.units), "without quotes" if isinstance(value, str) else "")

    def show(self, value: object, units: str) -> str:
        return str(value)

    def schema(self) -> Schema:
        span = limits(self.of)
        return {"type": "integer", "minimum": int(span.least), "maximum": int(span.most)}


@dataclass(frozen=True, slots=True)
class HoleSize:
    """Diameter of a hole: a drill that can be bought, or a length. "#10" is the drill and not the screw."""

    of: str = "hole"
    kind: str = "drill or length"

    def expected(self, units: str) -> str:
        span = Length(self.of).expected(units).removeprefix("a length ")
        return f'a drill such as "#11" or "1/4", or a diameter {span}'

    def read(self, entry: Entry) -> float:
        value = entry.value
        if isinstance(value, str) and (diameter := _drill_diameter(value)) is not None:
            return diameter
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise entry.wrong(self.expected(entry.units))
        if isinstance(value, str) and "#" in value:
            raise entry.wrong(self.expected(entry.units), "there is no such number drill")
        return self._diameter(entry, value)

    def _diameter(self, entry: Entry, value: str | float) -> float:
        try:
            diameter = length_mm(value, entry.units)
        except NotAQuantity as fault:
            sizes = (d.size for d in drills())
            hint = did_you_mean(value, sizes) if isinstance(value, str) else ""
            raise entry.wrong(self.expected(entry.units), hint or fault.hint) from None
        if limits(self.of).hold(diameter):
            return diameter
        number = isinstance(value, int) and _drill_diameter(f"#{value}") is not None
        raise entry.wrong(
            self.expected(entry.units), f'for the number drill write "#{value}"' if number else ""
        )

    def show(self, value: object, units: str) -> str:
        return Length(self.of).show(value, units)

    def schema(self) -> Schema:
        return {"anyOf": [{"type": "number", "exclusiveMinimum": 0}, {"type": "string", "minLength": 1}]}


def _drill_diameter(size: str) -> float | None:
    try:
        return drill(size.strip()).diameter_mm
    except LookupError:
        return None


@dataclass(frozen=True, slots=True)
class Several:
    """A list of values of one sort, of at least and at most so many; as a tuple."""

    each: Reader
    least: int
    most: int
    what: str
    """The entries in the plural, with what each is: "corners [x, y]"."""
    hint: str = ""
    """For a value that is no list, or no list of lists."""
    no_repeats: bool = False

    @property
    def kind(self) -> str:
        """The sort of the entries."""
        return f"list of {self.each.kind}"

    def expected(self, units: str) -> str:
        if self.least == self.most:
            return f"a list of {self.least} {self.what}"
        return f"a list of {self.least} to {self.most} {self.what}"

    def read(self, entry: Entry) -> tuple[object, ...]:
        value = entry.value
        if not isinstance(value, list) or not self.least <= len(value) <= self.most:
            raise entry.wrong(self.expected(entry.units), self.hint)
        values, wrong = read_each(self.each, entry, range(len(value)))
        if wrong:
            raise wrong
        if self.no_repeats:
            self._refuse_repeats(entry, values)
        return tuple(values)

    def _refuse_repeats(self, entry: Entry, values: list[object]) -> None:
        for i, value in enumerate(values):
            if value in values[:i]:
                raise entry.inside(i).wrong(f"each of the {self.what} once", "delete the repeat")

    def show(self, value: object, units: str) -> str:
        assert isinstance(value, tuple)
        return ", ".join(self.each.show(v, units) for v in value) or "none"

    def schema(self) -> Schema:
        schema: Schema = {"type": "array", "items": self.each.schema()}
        schema |= {"minItems": self.least, "maxItems": self.most}
        return schema | ({"uniqueItems": True} if self.no_repeats else {})


def read_each(reader: Reader, entry: Entry, parts: range) -> tuple[list[object], Wrong | None]:
    """The values inside an entry that could be read, and the last fault if there was one."""
    values: list[object] = []
    wrong: Wrong | None = None
    for part in parts:
        try:
            values.append(reader.read(entry.inside(part)))
        except Wrong as fault:
            wrong = fault
    return values, wrong


def point(of: str, size: int, letters: str) -> Several:
    """A point or direction of `size` coordinates such as [x, y]."""
    example = "[" + ", ".join(letters) + "]"
    return Several(
        Length(of), size, size, f"lengths {example}", "one number for each of " + ", ".join(letters)
    )


def counted(each: Reader, of: str, what: str, hint: str = "", no_repeats: bool = False) -> Several:
    """A list whose length has the limits of that name."""
    return Several(each, int(limits(of).least), int(limits(of).most), what, hint, no_repeats)
