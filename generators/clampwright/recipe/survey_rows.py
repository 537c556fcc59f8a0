"""Reader of the lists of a survey: one measurement a row, between what, how much, and how it was taken."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from clampwright.recipe.limits import limits
from clampwright.recipe.measures import Angle, Increment, Measure, Schema
from clampwright.recipe.readers import Reader
from clampwright.recipe.survey_words import WITH_ERROR, Words, read_words
from clampwright.recipe.written import Entry, Wrong

LENGTH_ERROR = Increment("survey-error", "plus or minus, as a positive number")
ANGLE_ERROR = Angle("survey-angle-error", "plus or minus in degrees, as a positive number")


@dataclass(frozen=True, slots=True)
class Pair:
    """A list of two values of unlike sorts; as a tuple."""

    cells: tuple[Reader, Reader]
    what: str
    """What the two are: "an axis and a point"."""
    example: str
    kind: str = "pair"

    def expected(self, units: str) -> str:
        return f"{self.what}, such as {self.example}"

    def read(self, entry: Entry) -> tuple[Any, ...]:
        if not isinstance(entry.value, list) or len(entry.value) != len(self.cells):
            raise entry.wrong(self.expected(entry.units))
        cells, wrong = _cells(self.cells, entry)
        if wrong:
            raise wrong
        return cells

    def show(self, value: object, units: str) -> str:
        return str(value)

    def schema(self) -> Schema:
        size = len(self.cells)
        first = [cell.schema() for cell in self.cells]
        return {"type": "array", "prefixItems": first, "minItems": size, "maxItems": size}


@dataclass(frozen=True, slots=True)
class Row:
    """One measurement as it is written, and where: `cells` in the order of the list."""

    entry: Entry
    cells: tuple[Any, ...]
    """None for one with a fault, which is noted."""
    words: Words
    whole: bool = True
    """Whether all of it could be read."""

    @property
    def line(self) -> int:
        """Line that it stands in."""
        return self.entry.line


@dataclass(frozen=True, slots=True)
class Rows:
    """A list of rows of one sort; faults in a row are noted."""

    cells: tuple[Reader, ...]
    what: str
    """The rows in the plural, with what each is: "distances [from, to, length]"."""
    example: str
    """A row as it may be written."""
    error: Measure | None = LENGTH_ERROR
    """What a ± of its own is read with; None where a row takes none."""
    over_tubes: bool = False
    """Whether a row may say how it was taken: over which walls of which tubes, with what."""
    kind: str = "list of measurements"

    def expected(self, units: str) -> str:
        return f"a list of {self.what}, such as [{self.example}]"

    def read(self, entry: Entry) -> tuple[Row, ...]:
        value = entry.value
        if not isinstance(value, list):
            raise entry.wrong(self.expected(entry.units))
        most = limits("survey-rows").most
        if len(value) > most:
            raise entry.wrong(f"at most {most:g} {self.what}", said=f"{len(value)} of them", at_key=True)
        if value and not isinstance(value[0], list):
            hint = f"each measurement in brackets of its own: [{self.example}]"
            raise entry.wrong(self.expected(entry.units), hint)
        rows = []
        for number in range(len(value)):
            try:
                rows.append(self._row(entry.inside(number)))
            except Wrong:
                continue
        return tuple(rows)

    def _row(self, written: Entry) -> Row:
        entry = self._parted(written)
        value, wanted = entry.value, len(self.cells)
        if not isinstance(value, list) or len(value) < wanted:
            raise entry.wrong(f"one of the {self.what}", f"such as {self.example}")
        if len(value) > wanted and self.error is None:
            raise entry.inside(wanted).wrong(f"the end of one of the {self.what}", f"such as {self.example}")
        cells, wrong = _cells(self.cells, entry)
        words, right = read_words(entry, range(wanted, len(value)), self.error, self.over_tubes)
        return Row(entry, cells, words, right and wrong is None)

    def _parted(self, entry: Entry) -> Entry:
        """The row with a ± that stands in the text of its value as a word of its own."""
        value, last = entry.value, len(self.cells) - 1
        text = value[last] if isinstance(value, list) and len(value) > last else None
        match = WITH_ERROR.fullmatch(text) if isinstance(text, str) and self.error else None
        if match is None or not isinstance(value, list):
            return entry
        parts = [*value[:last], match[1], *value[last + 1 :], f"± {match[2]}"]
        return Entry(entry.written, entry.path, parts)

    def show(self, value: object, units: str) -> str:
        return "none"

    def schema(self) -> Schema:
        first = [cell.schema() for cell in self.cells]
        if self.error is not None:
            first[-1] = {"anyOf": [first[-1], {"type": "string", "pattern": r"±|\+\s*/?\s*-"}]}
        rest: object = False if self.error is None else {"type": "string"}
        row: Schema = {"type": "array", "prefixItems": first, "minItems": len(first), "items": rest}
        return {"type": "array", "items": row, "maxItems": int(limits("survey-rows").most)}


def _cells(readers: tuple[Reader, ...], entry: Entry) -> tuple[tuple[Any, ...], Wrong | None]:
    """The values at the front of a row, None for one with a fault, and the last fault if there was one."""
    cells: list[Any] = []
    wrong: Wrong | None = None
    for place, reader in enumerate(readers):
        try:
            cells.append(reader.read(entry.inside(place)))
        except Wrong as fault:
            cells.append(None)
            wrong = fault
    return tuple(cells), wrong
