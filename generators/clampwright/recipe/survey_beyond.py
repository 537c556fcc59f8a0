"""How far a tube runs on beyond the two rings that a survey gives it: one length, or one for each."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.recipe.measures import Length, Schema
from clampwright.recipe.readers import read_each
from clampwright.recipe.written import Entry

_EACH = Length("survey-beyond", "from the ring along the tube, 0 where the tube ends there")


@dataclass(frozen=True, slots=True)
class Beyond:
    """A length, or a list of two: beyond `from`, and beyond `to`; as a tuple of two, mm."""

    each: Length = _EACH
    kind: str = "length or two lengths"

    def expected(self, units: str) -> str:
        return f"{self.each.expected(units)}, or a list of two: beyond from and beyond to"

    def read(self, entry: Entry) -> tuple[float, float]:
        if not isinstance(entry.value, list):
            both = self.each.read(entry)
            return both, both
        if len(entry.value) != 2:
            raise entry.wrong(self.expected(entry.units), 'such as beyond = ["2 in", "1-1/2 in"]')
        lengths, wrong = read_each(self.each, entry, range(2))
        if wrong:
            raise wrong
        first, last = lengths
        assert isinstance(first, float)
        assert isinstance(last, float)
        return first, last

    def show(self, value: object, units: str) -> str:
        assert isinstance(value, tuple)
        return " and ".join(self.each.show(length, units) for length in value)

    def schema(self) -> Schema:
        one = self.each.schema()
        pair: Schema = {"type": "array", "items": one, "minItems": 2, "maxItems": 2}
        return {"anyOf": [one, pair]}
