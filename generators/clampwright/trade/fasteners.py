"""Bolts and screw sizes together: whatever a component may be held with."""

from __future__ import annotations

from clampwright.trade.bolts import NoSuchBolt, bolt_names
from clampwright.trade.naming import did_you_mean
from clampwright.trade.tables import Row, load


def screw_names() -> tuple[str, ...]:
    """Screw sizes that a component may be held with.

    Examples
    --------
    >>> screw_names()
    ('#6', '#8', '#10')
    """
    return tuple(row.text("name") for row in load("screws").rows)


def fastener_names() -> tuple[str, ...]:
    """Bolts and screw sizes: everything that `nominal_mm`, `thread` and `hole_window` answer for.

    Examples
    --------
    >>> fastener_names()[-1]
    '#10'
    """
    return bolt_names() + screw_names()


def nominal_mm(fastener: str) -> float:
    """Nominal diameter of a bolt or screw size.

    Raises
    ------
    NoSuchBolt
        Where the tables know no such fastener; the message names the nearest.

    Examples
    --------
    >>> nominal_mm("#8"), nominal_mm("M5")
    (4.1656, 5.0)
    """
    return _row(fastener).number("nominal")


def thread(fastener: str) -> str:
    """Thread of a bolt or screw size, as the torque table names it.

    Raises
    ------
    NoSuchBolt
        Where the tables know no such fastener; the message names the nearest.

    Examples
    --------
    >>> thread("#8"), thread("AN4")
    ('8-32', '1/4-28')
    """
    return _row(fastener).text("thread")


def _row(fastener: str) -> Row:
    for table in ("bolts_an", "bolts_metric", "screws"):
        for row in load(table).rows:
            if row.text("name") == fastener:
                return row
    raise NoSuchBolt(f"no bolt or screw {fastener!r}{did_you_mean(fastener, fastener_names())}")
