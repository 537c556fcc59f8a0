"""Outside diameter of a bundle of wires."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from clampwright.trade.tables import Row, load, rule


@dataclass(frozen=True, slots=True)
class BundleCircle:
    """The circle round a bundle: its diameter, how it was found, in words, and the source's key."""

    diameter_mm: float
    how: str
    source: str


def wire_od_mm(gauge: int) -> float:
    """Outside diameter over the insulation of a common unshielded aircraft wire, mm.

    Raises
    ------
    LookupError
        The table knows no such gauge.

    Examples
    --------
    >>> round(wire_od_mm(22) / 25.4, 3)
    0.052
    """
    for row in load("wires").rows:
        if row.whole("gauge") == gauge:
            return row.number("od")
    known = ", ".join(str(row.whole("gauge")) for row in load("wires").rows)
    raise LookupError(f"no wire of gauge {gauge}: the gauges are {known}")


def bundle_circle(wires: Sequence[tuple[int, float]]) -> BundleCircle:
    """The circle that holds a bundle of (count, diameter in mm).

    Equal wires, as many as the table of packings knows: their diameter times the least ratio there is.
    More, or of unlike sizes: D = √(Σ d² / fill), but never less than the circle round the two or three
    largest. Wires tied by hand lie looser than in theory: measure the bundle once it is tied.

    Raises
    ------
    ValueError
        There are no wires.

    Examples
    --------
    >>> bundle_circle([(7, 1.5)]).diameter_mm, bundle_circle([(7, 1.5)]).how
    (4.5, 'circle that holds 7 equal wires: 3.000 d')
    >>> round(bundle_circle([(4, 1.5), (2, 3.0)]).diameter_mm, 2)
    6.45
    """
    sizes = sorted((size for count, size in wires for _ in range(count)), reverse=True)
    if not sizes:
        raise ValueError("a bundle of no wires")
    if sizes[0] > sizes[-1]:
        return _mixed(sizes)
    found = _packings().get(len(sizes))
    if found is None:
        return _by_area(sizes, "bundle-fill-many")
    many = "1 wire" if len(sizes) == 1 else f"{len(sizes)} equal wires"
    how = f"circle that holds {many}: {found.number('circle_over_each'):.3f} d"
    return BundleCircle(found.number("circle_over_each") * sizes[0], how, found.source())


def circle_round_three(first: float, second: float, third: float) -> float:
    """Diameter of the least circle that holds three circles of these diameters, the largest first.

    The two largest side by side, where the third goes into the gap beside them: 1/d₃ ≥ 1/d₁ + 1/d₂ −
    1/(d₁ + d₂). Else the outer circle that touches all three (Descartes):
    1/D = 2 √(1/d₁d₂ + 1/d₂d₃ + 1/d₃d₁) − 1/d₁ − 1/d₂ − 1/d₃.

    Examples
    --------
    >>> round(circle_round_three(1.0, 1.0, 1.0), 4), circle_round_three(2.0, 1.0, 0.5)
    (2.1547, 3.0)
    """
    a, b, c = 1 / first, 1 / second, 1 / third
    both = first + second
    if c >= a + b - 1 / both:
        return both
    return 1 / (2 * math.sqrt(a * b + b * c + c * a) - a - b - c)


def _mixed(sizes: Sequence[float]) -> BundleCircle:
    """Wires of unlike sizes, the largest first: exact for two and three."""
    source = "bundle-by-area"
    if len(sizes) == 2:
        return BundleCircle(sum(sizes), "two wires side by side", source)
    largest = circle_round_three(sizes[0], sizes[1], sizes[2])
    by_area = _by_area(sizes, "bundle-fill-mixed")
    if len(sizes) > 3 and by_area.diameter_mm > largest:
        return by_area
    return BundleCircle(largest, "circle round the three largest wires", source)


def _by_area(sizes: Sequence[float], key: str) -> BundleCircle:
    fill = rule(key)
    diameter = math.sqrt(sum(size**2 for size in sizes) / fill.value)
    how = f"circle whose area {len(sizes)} wires fill to {100 * fill.value:.0f} %"
    return BundleCircle(diameter, how, fill.source)


@cache
def _packings() -> dict[int, Row]:
    """The row for each number of equal circles."""
    return {row.whole("count"): row for row in load("circle_packings").rows}
