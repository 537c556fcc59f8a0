"""Where keys belong, for those that are found in the wrong place."""

from __future__ import annotations

from clampwright.recipe.fields import Table
from clampwright.recipe.inner import heading, inner_table


def homes_of(table: Table) -> dict[str, str]:
    """For each key of a file the heading that it belongs under, in words."""
    homes = {field.key: "at the top of the file, before the first [heading]" for field in table.fields}
    for field in table.fields:
        inner = inner_table(field)
        for key in (f.key for f in inner.fields) if inner else ():
            homes.setdefault(key, f"under {heading(field)}")
    return homes
