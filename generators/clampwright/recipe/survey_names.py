"""Readers of the names in a survey: of points, of tubes, of one or several of them."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.recipe.blocks import LONGEST_NAME, NAME, better_name
from clampwright.recipe.measures import Schema
from clampwright.recipe.readers import read_each
from clampwright.recipe.written import Entry


@dataclass(frozen=True, slots=True)
class Name:
    """A name of the writer's choice, of a point or a tube."""

    what: str
    """One of them: "point"."""
    kind: str = "name"

    def expected(self, units: str) -> str:
        return f"a {self.what}'s name in quotes"

    def read(self, entry: Entry) -> str:
        value = entry.value
        if not isinstance(value, str):
            hint = f'put it in quotes: "{value}"' if isinstance(value, int) and abs(value) < 1e6 else ""
            raise entry.wrong(self.expected(entry.units), hint)
        name = value.strip()
        if not NAME.fullmatch(name):
            said = "an empty text" if not name else None
            hint = better_name(name) if name else ""
            allowed = (
                f"{self.expected(entry.units)}: at most {LONGEST_NAME} letters, digits, spaces, . - and _"
            )
            raise entry.wrong(allowed, hint, said=said)
        return name

    def show(self, value: object, units: str) -> str:
        return str(value)

    def schema(self) -> Schema:
        return {"type": "string", "pattern": r"\S"}


@dataclass(frozen=True, slots=True)
class OneOrSeveral:
    """One name, or a list of names; as a tuple."""

    each: Name
    kind: str = "name or list of names"

    def expected(self, units: str) -> str:
        return f"{self.each.expected(units)}, or a list of them"

    def read(self, entry: Entry) -> tuple[str, ...]:
        if not isinstance(entry.value, list):
            return (self.each.read(entry),)
        if not entry.value:
            raise entry.wrong(self.expected(entry.units))
        names, wrong = read_each(self.each, entry, range(len(entry.value)))
        if wrong:
            raise wrong
        return tuple(dict.fromkeys(str(name) for name in names))

    def show(self, value: object, units: str) -> str:
        assert isinstance(value, tuple)
        return ", ".join(value)

    def schema(self) -> Schema:
        one = self.each.schema()
        return {"anyOf": [one, {"type": "array", "items": one, "minItems": 1}]}


POINT = Name("point")
TUBE = Name("tube")
