"""Every key of a recipe in one text, made from the field tables."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.recipe.fields import Field, Needed, Table
from clampwright.recipe.inner import heading, inner_table
from clampwright.recipe.kinds import kind


def reference(name: str, units: str = "mm") -> str:
    """Every key of a kind of recipe, in Markdown: what it means, what may be written, what stands in for it.

    Raises
    ------
    LookupError
        There is no such kind.

    Examples
    --------
    >>> print(reference("accessory plate").split("\\n")[6])
    | `kind` | What the recipe makes. | "accessory plate" | must be written |
    """
    chosen = kind(name)
    lines = [f"# {chosen.name}", "", chosen.about, "", *_table(chosen.table(), units)]
    return "\n".join((*lines, *_inner(chosen.table(), units, ""), ""))


def _table(table: Table, units: str) -> Iterator[str]:
    yield "| key | meaning | written as | where it is left out |"
    yield "|---|---|---|---|"
    for field in table.fields:
        if inner_table(field) is None:
            written = field.reads.expected(units)
            yield f"| `{field.key}` | {field.about} | {written} | {_default(field, units)} |"


def _default(field: Field, units: str) -> str:
    if isinstance(field.default, Needed):
        return "must be written"
    return field.left_out(units) or "nothing"


def _inner(table: Table, units: str, above: str) -> Iterator[str]:
    for field in table.fields:
        inner = inner_table(field)
        if inner is not None:
            title = heading(field, above)
            yield from ("", f"## `{title}`", "", field.about, "", *_table(inner, units))
            yield from _inner(inner, units, title.strip("[]"))
