"""How far apart a line's supports may be."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.trade.tables import load, rule


@dataclass(frozen=True, slots=True)
class Spacing:
    """Farthest that two supports of a line may be apart, mm."""

    most_mm: float
    source: str


def support_spacing(what: str, od_mm: float) -> Spacing:
    """Spacing of supports for a "hose", "cable", "bundle" or rigid "tube".

    A tube goes by the row of its size or the next one below; aluminium's, which is the closer one, as the
    metal is not asked for. A tube thinner than the table's first row goes by that row.

    Examples
    --------
    >>> support_spacing("bundle", 12.0).most_mm, round(support_spacing("tube", 9.525).most_mm, 1)
    (609.6, 419.1)
    """
    if what == "tube":
        rows = load("line_supports").rows
        fitting = [row for row in rows if row.number("od") <= od_mm + 1e-6]
        row = fitting[-1] if fitting else rows[0]
        return Spacing(row.number("aluminium"), row.source())
    key = "hose-support-spacing-most" if what == "hose" else "support-spacing-most"
    return Spacing(rule(key).value, rule(key).source)
