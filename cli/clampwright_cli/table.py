"""Plain tables for a terminal."""

from __future__ import annotations

from collections.abc import Sequence


def table(heads: Sequence[str], rows: Sequence[Sequence[str]], indent: str = "  ") -> str:
    """Columns as wide as their widest cell, two spaces apart.

    >>> print(table(["size", "mm"], [["#11", "4.85"]], indent=""))
    size  mm
    #11   4.85
    """
    grid = [list(heads), *[list(row) for row in rows]]
    widths = [max(len(row[column]) for row in grid) for column in range(len(heads))]
    lines = ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)) for row in grid]
    return "\n".join((indent + line).rstrip() for line in lines)
