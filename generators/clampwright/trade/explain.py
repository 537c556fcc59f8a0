"""Any value of any table with its unit, its source and how far that can be trusted."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from clampwright.quantities.kinds import INCH
from clampwright.trade.bolts import BoltLength, NoSuchBolt, bolt_by_part
from clampwright.trade.clamps import LoopClamp, clamp_codes, loop_clamp
from clampwright.trade.naming import did_you_mean
from clampwright.trade.sources import Source, source, sources
from clampwright.trade.tables import Row, load, table_names

_LABELS = (
    *("key", "name", "part", "bolt", "fastener", "thread", "series", "use", "code", "size"),
    *("cushion", "fluid", "band", "kind", "family", "gauge_list"),
)
"""Text columns that say which row it is; the words of a question are looked for in these and in `also`."""

_CLAMP_PART = re.compile(r"MS21919W?([A-Z]{1,2}?)(\d{1,2})", re.ASCII)


@dataclass(frozen=True, slots=True)
class Value:
    """One value of a row as the table has it: what it is, the value, its unit, the source it rests on."""

    what: str
    value: str
    unit: str
    source: Source


@dataclass(frozen=True, slots=True)
class Explained:
    """A row of a table, a part worked out from one, or a source (then without values)."""

    table: str
    label: str
    values: tuple[Value, ...]
    sources: tuple[Source, ...]


class NothingFound(LookupError):  # noqa: N818
    """No table, row, rule or source answers to these words; the message names the nearest."""


def explain(words: str) -> tuple[Explained, ...]:
    """Everything that answers to all the words: names, parts, drill sizes, rules, tables, columns, sources.

    Parameters
    ----------
    words : str
        Such as "AN3", "AN3-6A", "#11", "hole AN3", "edge-distance-least", "torque 10-32" or "iso-273".

    Returns
    -------
    tuple of Explained
        Rows whose name is one of the words first. A word that names a column narrows the values to it.

    Raises
    ------
    NothingFound
        Where nothing answers; the message names the nearest words that would.

    Examples
    --------
    >>> found = explain("hole AN3")[0]
    >>> found.table, [(each.what, each.value, each.unit) for each in found.values][:2]
    ('hole_windows', [('fastener', 'AN3', ''), ('low', '0.191', 'in')])
    """
    asked = [word.casefold() for word in words.split()]
    if not asked:
        raise NothingFound(
            "no words to look for: try AN3, #11, hole AN3 or a rule such as edge-distance-least"
        )
    found = [*_worked_out(words.strip()), *_named_source(words.strip())]
    rows = [row for row in _all_rows() if _answers(row, asked)]
    rows.sort(key=lambda row: not any(word in _folded(_names(row)) for word in asked))
    found += [told for told in (_explained(row, asked) for row in rows) if told.values]
    found = found or list(_titled_sources(asked))
    if not found:
        raise NothingFound(f"nothing answers to {words.strip()[:60]!r}{_nearest(asked)}")
    return tuple(found)


@cache
def _all_rows() -> tuple[Row, ...]:
    return tuple(row for name in table_names() for row in load(name).rows)


def _names(row: Row) -> list[str]:
    """The names a row goes by, whole."""
    return list(dict.fromkeys(row.cells[column] for column in _LABELS if row.cells.get(column)))


def _tokens(row: Row) -> set[str]:
    """Every word that a row answers to, columns left aside."""
    names = {*_names(row), row.cells.get("also", "")}
    parts = {part for name in names for part in re.split(r"[\s/-]+", name)}
    keys = {row.cells[name] for name, column in row.columns.items() if column.kind == "source"}
    return (names | parts | keys | _table_words(row.table)) - {""}


@cache
def _table_words(name: str) -> set[str]:
    words = {name, *name.split("_")}
    return words | {word.removesuffix("s") for word in words}


def _column_words(row: Row) -> set[str]:
    stems = [column.stem for column in row.columns.values() if column.kind == "number"]
    return {word for stem in stems for word in (stem, *stem.split("_"))}


def _answers(row: Row, asked: list[str]) -> bool:
    words = _folded(_tokens(row) | _column_words(row))
    return all(word in words for word in asked)


def _folded(words: Iterable[str]) -> set[str]:
    return {word.casefold() for word in words}


def _explained(row: Row, asked: list[str]) -> Explained:
    named = _folded(_tokens(row))
    narrow = [word for word in asked if word not in named]
    values = tuple(value for value in _values(row) if not narrow or _is_about(value.what, narrow))
    return _with_sources(row.table, _label(row), values)


def _is_about(what: str, words: list[str]) -> bool:
    return any(word == what.replace(" ", "_") or word in what.split() for word in words)


def _values(row: Row) -> Iterator[Value]:
    for name, column in row.columns.items():
        if column.kind != "source" and name != "unit" and row.cells[name]:
            unit = row.cells["unit"] if name == "value" else column.unit
            yield Value(column.stem.replace("_", " "), row.cells[name], unit, source(row.source(column.stem)))


def _label(row: Row) -> str:
    first, column = next(iter(row.columns.items()))
    return ", ".join(_names(row)[:3]) or f"{row.cells[first]} {column.unit}".strip()


def _with_sources(table: str, label: str, values: tuple[Value, ...]) -> Explained:
    return Explained(table, label, values, tuple(dict.fromkeys(value.source for value in values)))


def _named_source(words: str) -> Iterator[Explained]:
    if words in sources():
        yield Explained("sources", words, (), (source(words),))


def _titled_sources(asked: list[str]) -> Iterator[Explained]:
    for key, found in sources().items():
        if all(word in found.title.casefold() for word in asked):
            yield Explained("sources", key, (), (found,))


def _worked_out(words: str) -> Iterator[Explained]:
    """Parts that stand in no table but follow from one: bolt lengths and clamps."""
    try:
        yield _bolt_part(bolt_by_part(words))
    except NoSuchBolt as error:
        if re.fullmatch(r"AN[3-8]-\d+A?|M\d+x\d+", words, re.ASCII | re.IGNORECASE):
            raise NothingFound(str(error)) from error
    clamp = _CLAMP_PART.fullmatch(words)
    if clamp and clamp[1] in clamp_codes():
        yield _clamp_part(clamp[1], int(clamp[2]))


def _bolt_part(part: BoltLength) -> Explained:
    key = source(part.source)
    lengths = (("grip", part.grip_mm), ("length", part.length_mm))
    scales = (("mm", 1.0), ("in", float(INCH)))
    values = [Value(what, f"{mm / by:.5g}", unit, key) for what, mm in lengths for unit, by in scales]
    mass = Value("mass", f"{part.mass_kg * 1000:.3g}", "g", source("steel-volume"))
    return _with_sources("bolt lengths", part.part, (*values, mass))


def _clamp_part(code: str, dash: int) -> Explained:
    try:
        clamp = loop_clamp(0.0, code, dash=dash)
    except LookupError as error:
        raise NothingFound(str(error)) from error
    return _with_sources("loop clamps", clamp.part, tuple(_clamp_values(clamp)))


def _clamp_values(clamp: LoopClamp) -> Iterator[Value]:
    yield Value("loop", f"{clamp.loop_mm:.5g}", "mm", source(clamp.source))
    yield Value("reach", f"{clamp.reach_mm:.5g}", "mm", source(clamp.source))
    yield Value("seat", f"{clamp.seat_mm:.5g}", "mm", source(clamp.seat_source))
    yield Value("feet", f"{clamp.feet_mm:.5g}", "mm", source(clamp.feet_source))
    limits = source(clamp.temperature_source)
    yield Value("band", clamp.band, "", limits)
    yield Value("cushion", clamp.cushion, "", limits)
    yield Value("max temperature", f"{clamp.max_temperature_c:.0f}", "degC", limits)


def _nearest(asked: list[str]) -> str:
    """The nearest words that would be found, for each word that would not."""
    known = sorted({word for row in _all_rows() for word in _tokens(row) | _column_words(row)})
    unknown = [word for word in asked if word not in _folded(known)]
    if not unknown:
        return "; each word is known, but no row has them all"
    return "".join(did_you_mean(word, known) or f"; {word!r} is nowhere" for word in unknown)
