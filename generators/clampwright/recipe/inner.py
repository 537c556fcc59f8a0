"""Which table lies inside a field, and under which heading it is written."""

from __future__ import annotations

from clampwright.recipe.blocks import Alone, Blocks, Named
from clampwright.recipe.fields import Field, Table


def inner_table(field: Field) -> Table | None:
    """The table of a field that holds one or several; None for a single value."""
    if isinstance(field.reads, Alone | Blocks | Named):
        return field.reads.of
    return field.reads if isinstance(field.reads, Table) else None


def heading(field: Field, above: str = "") -> str:
    """How the table inside a field is headed, below the heading `above`.

    >>> from clampwright.recipe.kinds import kind
    >>> [heading(f) for f in kind("accessory plate").own]
    ['[fastener]', '[clamps]', '[plate]', '[[carries]]']
    """
    name = f"{above}.{field.key}" if above else field.key
    if isinstance(field.reads, Blocks):
        return f"[[{name}]]"
    return f"[{name}.NAME]" if isinstance(field.reads, Named) else f"[{name}]"
