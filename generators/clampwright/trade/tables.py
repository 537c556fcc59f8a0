"""The loader of the CSV tables. It refuses a table with a column without unit or a row without source.

A column is a text (its name is in `TEXT_COLUMNS`), a source key (`source`, or `<stem>_source` for one group
of the row's values), or a number whose name ends in its unit: `shank_min_in`, `density_lb_in3`. Numbers are
asked for by their stem and come in the project's units: `row.number("shank_min")` is in millimetres.
"""

from __future__ import annotations

import csv
import difflib
import io
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path

from clampwright.trade.columns import Column, read_column
from clampwright.trade.sources import sources

_NUMBER = re.compile(r"-?(?:\d+\.?\d*|\.\d+)", re.ASCII)


class TableError(ValueError):
    """A table that breaks the rules: column without unit, row without source, text where a number belongs."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table: `cells` as written, and where it stands."""

    table: str
    line: int
    columns: dict[str, Column]
    cells: dict[str, str]

    def text(self, column: str) -> str:
        """The text in a text column."""
        return self.cells[column]

    def number(self, stem: str) -> float:
        """The number in a column, in the project's unit; TableError where the cell is empty."""
        value = self.maybe(stem)
        if value is None:
            raise TableError(f"{self.table}.csv line {self.line}: no {stem}")
        return value

    def maybe(self, stem: str) -> float | None:
        """The number in a column, in the project's unit; None where the cell is empty."""
        for name, column in self.columns.items():
            if column.stem == stem and column.kind == "number" and self.cells[name]:
                return float(column.convert(Fraction(self.cells[name])))
        return None

    def whole(self, stem: str) -> int:
        """The number in a column as an integer (dash numbers, counts)."""
        return round(self.number(stem))

    def source(self, stem: str = "") -> str:
        """Key of the source of the row, or of a group of its values where that has its own.

        The group of `shank_min` is `shank`, whose source stands in the column `shank_source`.
        """
        while stem:
            if own := self.cells.get(f"{stem}_source"):
                return own
            stem = stem.rpartition("_")[0]
        return self.cells["source"]


@dataclass(frozen=True, slots=True)
class Table:
    """A table that has passed every check."""

    name: str
    columns: dict[str, Column]
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Rule:
    """A limit or default that is one number: its value in `unit` and the key of its source."""

    key: str
    value: float
    unit: str
    source: str
    about: str


def rule(key: str) -> Rule:
    """A row of rules.csv: `rule("edge-distance-least").value`.

    Raises
    ------
    KeyError
        Where there is none; the message names the nearest.

    Examples
    --------
    >>> rule("edge-distance-least").value
    1.5
    """
    found = rules().get(key)
    if found is None:
        near = difflib.get_close_matches(key, rules(), n=1)
        raise KeyError(f"no rule {key!r}" + (f"; did you mean {near[0]!r}?" if near else ""))
    return found


@cache
def rules() -> dict[str, Rule]:
    """Every rule by its key."""
    found: dict[str, Rule] = {}
    for row in load("rules").rows:
        key = row.text("key")
        if key in found:
            raise TableError(f"rules.csv line {row.line}: {key} stands there twice")
        found[key] = Rule(key, float(row.cells["value"]), row.text("unit"), row.source(), row.text("about"))
    return found


@cache
def load(name: str) -> Table:
    """The table `tables/<name>.csv`.

    Raises
    ------
    TableError
        For a table that breaks the rules, with file and line.

    Examples
    --------
    >>> load("bolts_an").rows[0].number("nominal")
    4.826
    """
    path = Path(__file__).with_name("tables") / f"{name}.csv"
    return read_table(name, path.read_text("utf-8"))


def table_names() -> tuple[str, ...]:
    """Names of every table, in alphabetical order.

    Examples
    --------
    >>> "rules" in table_names()
    True
    """
    folder = Path(__file__).with_name("tables")
    return tuple(sorted(p.name[:-4] for p in folder.iterdir() if p.name.endswith(".csv")))


def read_table(name: str, text: str) -> Table:
    """A table from the text of its file, checked.

    Raises
    ------
    TableError
        For a column without unit, a row without a known source, a number that is none, a row too long or
        too short.

    Examples
    --------
    >>> read_table("pins", "name,length_in,source\\nlong,1.5,assumed").rows[0].number("length")
    38.1
    """
    lines = list(_lines(name, text))
    if not lines:
        raise TableError(f"{name}.csv: empty")
    columns = _columns(name, lines[0][1])
    rows = tuple(_row(name, number, cells, columns) for number, cells in lines[1:])
    return Table(name, columns, rows)


def _lines(name: str, text: str) -> list[tuple[int, list[str]]]:
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    try:
        return [(reader.line_num, [cell.strip() for cell in cells]) for cells in reader if any(cells)]
    except csv.Error as error:
        raise TableError(f"{name}.csv line {reader.line_num}: {error}") from error


def _columns(name: str, header: list[str]) -> dict[str, Column]:
    if "source" not in header:
        raise TableError(f"{name}.csv line 1: no column source")
    if len(set(header)) != len(header):
        raise TableError(f"{name}.csv line 1: a column stands there twice")
    columns = {}
    for title in header:
        column = read_column(title, "unit" in header)
        if column is None:
            raise TableError(f"{name}.csv line 1: column {title!r} has no unit and is no text column")
        columns[title] = column
    return columns


def _row(name: str, line: int, cells: list[str], columns: dict[str, Column]) -> Row:
    where = f"{name}.csv line {line}"
    if len(cells) != len(columns):
        raise TableError(f"{where}: {len(cells)} cells under {len(columns)} columns")
    row = Row(name, line, columns, dict(zip(columns, cells, strict=True)))
    for title, cell in row.cells.items():
        _check_cell(where, title, cell, columns[title])
    return row


def _check_cell(where: str, title: str, cell: str, column: Column) -> None:
    if not cell and title in ("value", "unit", "key", "name", "part"):
        raise TableError(f"{where}: {title} is empty")
    if column.kind == "source" and cell not in sources() and (cell or title == "source"):
        raise TableError(f"{where}: {title} {cell!r} is not in sources.toml")
    if column.kind == "number" and cell and not _NUMBER.fullmatch(cell):
        raise TableError(f"{where}: {title} holds {cell!r}, not a number")
