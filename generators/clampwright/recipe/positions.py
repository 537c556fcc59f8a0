"""Where each key and value of a TOML text stands: line and column, for messages.

The scanner walks a text that `tomllib` has already accepted, so it looks for places only and never judges.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, field

KeyPath = tuple[str | int, ...]
"""Keys and array indices (from 0) from the top of the file down to a value."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a text, both counted from 1; a column counts characters."""

    line: int
    column: int


@dataclass(slots=True)
class Place:
    """Where a key and its value stand, and the places inside the value.

    The value of a table that has a header stands at the header; that of an array of tables at the first.
    """

    key: Spot
    value: Spot
    inside: dict[str | int, Place] = field(default_factory=dict)
    listed: bool = False
    """Whether the keys inside are the indices of an array, or of [[blocks]]."""

    def find(self, path: KeyPath) -> Place:
        """The place of a key path, or of the nearest thing around it that is written in the text."""
        place = self
        for part in path:
            if part not in place.inside:
                break
            place = place.inside[part]
        return place


def positions(text: str) -> Place:
    """The places of every key and value of a text that `tomllib` accepts.

    >>> places = positions('units = "in"\\n[[carries]]\\nholes = [[0, 0],\\n  [3, 0]]\\n')
    >>> places.find(("carries", 0, "holes", 1, 0)).value
    Spot(line=4, column=4)
    >>> places.find(("carries", 0, "holes")).key
    Spot(line=3, column=1)
    """
    return _Scanner(text).places()


_BLANK = re.compile(r"(?:[ \t\r\n]+|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_SCALAR = re.compile(r"[^,\]}#\n\r]*")
_CLOSING = {
    '"': re.compile(r'[^"\\]*(?:\\.[^"\\]*)*"', re.DOTALL),
    "'": re.compile(r"[^']*'"),
    '"""': re.compile(r'[^"\\]*(?:(?:\\.|"(?!""))[^"\\]*)*"{3,5}', re.DOTALL),
    "'''": re.compile(r"[^']*(?:'(?!'')[^']*)*'{3,5}"),
}


class _Scanner:
    """One pass over the text. `_at` is the index of the next character to look at."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._at = 0
        self._line = 1
        self._line_start = 0

    def places(self) -> Place:
        top = Place(Spot(1, 1), Spot(1, 1))
        table = top
        self._skip(_BLANK)
        while self._at < len(self._text):
            if self._sees("["):
                table = self._header(top)
            else:
                self._key_and_value(table)
            self._skip(_BLANK)
        return top

    def _header(self, top: Place) -> Place:
        """Read [table] or [[block]]; the place that the keys below it belong to."""
        bracket = self._spot()
        blocks = self._sees("[[")
        self._step(2 if blocks else 1)
        place = self._key(top, bracket)
        if blocks:
            place.listed = True
            number = len(place.inside)
            place.inside[number] = Place(bracket, bracket)
            place = place.inside[number]
        self._step(2 if blocks else 1)
        return place

    def _key_and_value(self, table: Place) -> None:
        place = self._key(table, None)
        self._step(1)
        self._skip(_SPACE)
        self._value(place)

    def _key(self, table: Place, header: Spot | None) -> Place:
        """Read a dotted key; the place of its last part. A block stands for the last one of its kind."""
        place = table
        while True:
            if place.listed:
                place = place.inside[len(place.inside) - 1]
            self._skip(_SPACE)
            spot = self._spot()
            name = self._key_part()
            if name not in place.inside:
                place.inside[name] = Place(spot, header or spot)
            place = place.inside[name]
            self._skip(_SPACE)
            if not self._sees("."):
                return place
            self._step(1)

    def _key_part(self) -> str:
        start = self._at
        if self._text[start] not in "\"'":
            self._skip(_BARE_KEY)
            return self._text[start : self._at]
        self._string(self._text[start])
        written = self._text[start : self._at]
        if "\\" not in written:
            return written[1:-1]
        return str(tomllib.loads(f"k = {written}")["k"])

    def _value(self, place: Place) -> None:
        """Read a value of any depth, with a stack of its own: text may nest as deep as tomllib lets it."""
        open_places = [place]
        self._begin(place)
        if not self._opens(place):
            self._scalar()
            return
        while open_places:
            self._inside(open_places)

    def _inside(self, open_places: list[Place]) -> None:
        """Read the next element of the innermost open array or inline table, or its end."""
        place = open_places[-1]
        self._skip(_BLANK)
        if self._sees("]") or self._sees("}"):
            self._step(1)
            open_places.pop()
            self._skip_comma()
            return
        child = self._child(place)
        self._begin(child)
        if self._opens(child):
            open_places.append(child)
        else:
            self._scalar()
            self._skip_comma()

    def _child(self, place: Place) -> Place:
        if place.listed:
            spot = self._spot()
            return place.inside.setdefault(len(place.inside), Place(spot, spot))
        child = self._key(place, None)
        self._step(1)
        self._skip(_SPACE)
        return child

    def _begin(self, place: Place) -> None:
        place.value = self._spot()

    def _opens(self, place: Place) -> bool:
        """Step into an array or inline table. An open array counts its elements as blocks do."""
        if self._sees("[") or self._sees("{"):
            place.listed = self._sees("[")
            self._step(1)
            return True
        return False

    def _scalar(self) -> None:
        quote = self._text[self._at] if self._at < len(self._text) else ""
        if quote and quote in "\"'":
            self._string(quote * 3 if self._sees(quote * 3) else quote)
        else:
            self._skip(_SCALAR)

    def _string(self, quote: str) -> None:
        self._step(len(quote))
        self._skip(_CLOSING[quote])

    def _skip_comma(self) -> None:
        self._skip(_BLANK)
        if self._sees(","):
            self._step(1)

    def _sees(self, token: str) -> bool:
        return self._text.startswith(token, self._at)

    def _step(self, count: int) -> None:
        self._at += count

    def _skip(self, pattern: re.Pattern[str]) -> None:
        match = pattern.match(self._text, self._at)
        if match is None:
            return
        newlines = self._text.count("\n", self._at, match.end())
        if newlines:
            self._line += newlines
            self._line_start = self._text.rindex("\n", self._at, match.end()) + 1
        self._at = match.end()

    def _spot(self) -> Spot:
        return Spot(self._line, self._at - self._line_start + 1)
