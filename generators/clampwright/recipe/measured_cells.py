"""Comma-separated cells (RFC 4180), each with its line and column; semicolons and tabs, too."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from clampwright.recipe.faults import Fault
from clampwright.recipe.written import printable


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell's text without the blanks round it, and where it starts, from 1."""

    text: str
    line: int
    column: int


Row = tuple[Cell, ...]


@dataclass(slots=True)
class _Text:
    """A text with a place in it."""

    text: str
    at: int = 0
    line: int = 1
    start: int = 0
    """Where the line starts."""

    @property
    def here(self) -> str:
        """The character here, "" at the end."""
        return self.text[self.at : self.at + 1]

    @property
    def column(self) -> int:
        """Of the character here, from 1."""
        return self.at - self.start + 1

    def step(self) -> str:
        """The character here, and on to the next."""
        sign = self.here
        self.at += 1
        if sign == "\n":
            self.line, self.start = self.line + 1, self.at
        return sign


def rows(text: str, separator: str, file: str, faults: list[Fault]) -> list[Row]:
    """Every row that is neither blank nor a comment (first sign #, quoted or not); faults are noted.

    Examples
    --------
    >>> [[cell.text for cell in row] for row in rows("# a\\nwhat,x\\r\\n'A 1', 2 \\n", ",", "m.csv", [])]
    [['what', 'x'], ["'A 1'", '2']]
    """
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    place, found = _Text(text), []
    while place.here:
        if place.here == "#":
            while place.here and place.step() != "\n":
                pass
            continue
        row = tuple(_row(place, separator, file, faults))
        if any(cell.text for cell in row) and not row[0].text.startswith("#"):
            found.append(row)
    return found


def separator_of(text: str) -> str:
    """The sign between cells: that of comma, semicolon and tab which its first row holds most of.

    >>> separator_of("# form, blank\\nwhat;x;y\\n")
    ';'
    """
    lines = (line for line in text.splitlines() if line.strip() and not line.startswith(("#", '"#')))
    first = next(lines, "")
    return max((",", ";", "\t"), key=first.count)


def _row(place: _Text, separator: str, file: str, faults: list[Fault]) -> Iterator[Cell]:
    while True:
        yield _cell(place, separator, file, faults)
        if place.step() != separator:
            return


def _cell(place: _Text, separator: str, file: str, faults: list[Fault]) -> Cell:
    while place.here in (" ", "\t") and place.here and place.here != separator:
        place.step()
    line, column = place.line, place.column
    if place.here == '"':
        return Cell(_quoted(place, separator, file, faults).strip(), line, column)
    return Cell(_to_its_end(place, separator).strip(), line, column)


def _to_its_end(place: _Text, separator: str) -> str:
    signs = []
    while place.here and place.here not in (separator, "\n"):
        signs.append(place.step())
    return "".join(signs)


def _quoted(place: _Text, separator: str, file: str, faults: list[Fault]) -> str:
    """The text between quotes; two quotes in it are one."""
    line, column = place.line, place.column
    place.step()
    signs: list[str] = []
    while place.here:
        sign = place.step()
        if sign != '"':
            signs.append(sign)
        elif place.here == '"':
            signs.append(place.step())
        else:
            after = (place.line, place.column)
            rest = _to_its_end(place, separator).strip()
            if rest:
                said = f'"{printable(rest[:40])}"'
                hint = "two quotes in a cell are one"
                faults.append(Fault(file, *after, "", "the end of the cell after its quotes", said, hint))
            return "".join(signs)
    faults.append(
        Fault(file, line, column, "", "quotes that close", "the end of the file", 'close it with "')
    )
    return "".join(signs)
