"""Stock outside diameters of round tube, and the one that a found diameter agrees with."""

from __future__ import annotations

from functools import cache

from clampwright.trade.tables import load

_TABLES = ("tube_diameters", "tube_diameters_metric")


def stock_size(od_mm: float, plus_minus_mm: float) -> tuple[str, float] | None:
    """The stock size that lies within ± of a found diameter; None where none does, or more than one.

    Parameters
    ----------
    od_mm, plus_minus_mm : float
        The diameter as found, and its ± (95 %).

    Examples
    --------
    >>> stock_size(19.0, 0.1)
    ('3/4 in', 19.05)
    >>> stock_size(15.9, 0.05), stock_size(15.9, 0.2), stock_size(17.0, 0.1)
    (('5/8 in', 15.875), None, None)
    """
    near = [(name, size) for name, size in stock_sizes() if abs(size - od_mm) <= plus_minus_mm]
    return near[0] if len(near) == 1 else None


@cache
def stock_sizes() -> tuple[tuple[str, float], ...]:
    """Name and outside diameter (mm) of every stock size, thinnest first.

    Examples
    --------
    >>> stock_sizes()[0]
    ('1/4 in', 6.35)
    """
    rows = [row for table in _TABLES for row in load(table).rows]
    return tuple(sorted(((r.text("name"), r.number("diameter")) for r in rows), key=lambda size: size[1]))
