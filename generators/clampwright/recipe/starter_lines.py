"""A field table as the lines of a recipe: what is written, and every other key as a comment."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from clampwright.recipe.blocks import Alone, Blocks, Named
from clampwright.recipe.fields import Field, Table
from clampwright.recipe.inner import inner_table

Written = Mapping[str, object]
"""TOML texts by key; a mapping for a table, a sequence of mappings for blocks."""


@dataclass(frozen=True, slots=True)
class Shown:
    """What stands as a comment in place of a field's own example; "" for nothing at all."""

    text: str


_COMMENT_AT = 44
_WIDTH = 100


def table_lines(table: Table, written: Written, units: str, above: str = "") -> Iterator[str]:
    """The lines of a table: its own values first, then the tables inside it under their headings."""
    for field in table.fields:
        if inner_table(field) is None:
            yield from _value_lines(field, written.get(field.key), units)
    for field in table.fields:
        if inner_table(field) is not None:
            yield from _inner_lines(field, written.get(field.key), units, above)


def _value_lines(field: Field, value: object, units: str) -> Iterator[str]:
    """A value and what it means: beside it where there is room, above it where there is none."""
    if isinstance(value, Shown) and not value.text:
        return
    shown = value.text if isinstance(value, Shown) else field.in_units(units)
    value = None if isinstance(value, Shown) else value
    line = f"{field.key} = {value}" if value is not None else f"# {field.key} = {shown}"
    left_out = field.left_out(units)
    about = f"# {field.about}" + (f" Left out: {left_out}." if left_out and value is None else "")
    if len(line) < _COMMENT_AT and _COMMENT_AT + len(about) <= _WIDTH + 20:
        yield f"{line:<{_COMMENT_AT}}{about}"
        return
    yield f"# {about.removeprefix('# ')}" if value is not None else f"#   {about.removeprefix('# ')}"
    yield line


def _inner_lines(field: Field, value: object, units: str, above: str) -> Iterator[str]:
    inner = inner_table(field)
    assert inner is not None
    name = f"{above}.{field.key}" if above else field.key
    for number, (title, content) in enumerate(_headings(field, name, value)):
        live = content is not None
        yield ""
        told = number > 0 and isinstance(field.reads, Named)
        if field.about and not told and (not above or _said_below(field, live)):
            yield f"# {field.about}"
        yield title if live else f"# {title}"
        lines = table_lines(inner, content or {}, units, name)
        yield from lines if live else (_commented(line) for line in lines)


def _said_below(field: Field, live: bool) -> bool:
    """Whether a table inside another is told about: once, so not for each of several that are written."""
    return isinstance(field.reads, Table | Alone) or (isinstance(field.reads, Named) and not live)


def _headings(field: Field, name: str, value: object) -> Iterator[tuple[str, Written | None]]:
    """Each heading of a field's tables with what stands below it; None where it is only shown."""
    if isinstance(field.reads, Named):
        if isinstance(value, Mapping):
            yield from ((f"[{name}.{one}]", content) for one, content in value.items())
        elif field.reads.example:
            yield f"[{name}.{field.reads.example}]", None
    elif isinstance(field.reads, Blocks):
        blocks = value if isinstance(value, Sequence) else (None,)
        yield from ((f"[[{name}]]", content) for content in blocks)
    elif isinstance(field.reads, Alone):
        yield f"[{name}]", value if isinstance(value, Mapping) else None
    else:
        yield f"[{name}]", value if isinstance(value, Mapping) else {}


def _commented(line: str) -> str:
    return line if line.startswith("#") or not line else f"# {line}"
