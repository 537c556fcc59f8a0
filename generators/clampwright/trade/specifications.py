"""Which specification stock is bought to, by material and form."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.trade.tables import load


@dataclass(frozen=True, slots=True)
class Specification:
    """What to write on a drawing or an order; both "" where the tables have none."""

    words: str
    source: str
    """A key of sources.toml."""


def specification(material: str, form: str) -> Specification:
    """The specification of a material that is bought as "sheet", "tube" or "rod".

    Examples
    --------
    >>> specification("2024-T3", "sheet").words, specification("acetal", "tube").words
    ('AMS-QQ-A-250/4', '')
    """
    for row in load("specifications").rows:
        if row.text("name") == material and row.text("form") == form:
            return Specification(row.text("specification"), row.source())
    return Specification("", "")
