"""Stock that bushings are made from: round tube, round bar, and the materials it is sold in."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from clampwright.trade.bolts import bolt as bolt_size
from clampwright.trade.naming import did_you_mean
from clampwright.trade.tables import Row, load, rule

_SAME_MM = 1e-6


@dataclass(frozen=True, slots=True)
class StockTube:
    """A round tube that can be bought: `id_mm` is the outside diameter less two walls."""

    od_mm: float
    wall_mm: float
    id_mm: float
    source: str


@dataclass(frozen=True, slots=True)
class StockRod:
    """A round bar that can be bought."""

    diameter_mm: float
    metric: bool
    source: str


@dataclass(frozen=True, slots=True)
class BushingMaterial:
    """What a bushing can be of. `max_temperature_c` is that of a zone it may stand in for years."""

    name: str
    family: str
    """"aluminium", "stainless steel", "alloy steel" or "plastic"."""
    density_kg_m3: float
    max_temperature_c: float
    source: str
    max_temperature_source: str


@dataclass(frozen=True, slots=True)
class BoreWindow:
    """Least and largest bore of a bushing for a bolt."""

    low_mm: float
    high_mm: float
    source: str

    def holds(self, bore_mm: float) -> bool:
        """Whether a bore lies in the window, its ends included."""
        return self.low_mm - _SAME_MM <= bore_mm <= self.high_mm + _SAME_MM


def bore_window(bolt: str) -> BoreWindow:
    """The bores that will do for a bolt: largest shank + clearance up to nominal + play.

    Raises
    ------
    LookupError
        The tables know no bolt of that name.

    Examples
    --------
    >>> window = bore_window("AN3")
    >>> round(window.low_mm, 3), round(window.high_mm, 3), window.holds(0.1975 * 25.4)
    (4.901, 5.326, True)
    """
    size, over = bolt_size(bolt), rule("bushing-bore-over-shank")
    high = size.nominal_mm + rule("bushing-bore-over-nominal").value
    return BoreWindow(size.shank_max_mm + over.value, high, over.source)


@cache
def stock_tubes() -> tuple[StockTube, ...]:
    """Every tube of the table, by outside diameter and then by wall.

    Examples
    --------
    >>> len(stock_tubes()), stock_tubes()[0].id_mm
    (54, 4.9276)
    """
    rows = load("tube_stock").rows
    return tuple(StockTube(r.number("od"), r.number("wall"), r.number("id"), r.source()) for r in rows)


def tubes_for(bolt: str) -> tuple[StockTube, ...]:
    """The tubes whose bore will do for a bolt as they are.

    Examples
    --------
    >>> [(round(t.od_mm / 25.4, 4), round(t.wall_mm / 25.4, 3)) for t in tubes_for("AN4")]
    [(0.3125, 0.028), (0.375, 0.058), (0.5, 0.12)]
    """
    window = bore_window(bolt)
    return tuple(tube for tube in stock_tubes() if window.holds(tube.id_mm))


@cache
def stock_rods() -> tuple[StockRod, ...]:
    """Every round bar of the tables, thinnest first, inch sizes before metric ones of the same diameter.

    Examples
    --------
    >>> [rod.diameter_mm for rod in stock_rods()][:3]
    [6.0, 6.35, 7.9375]
    """
    found = [
        StockRod(row.number("diameter"), name.endswith("metric"), row.source())
        for name in ("rod_stock", "rod_stock_metric")
        for row in load(name).rows
    ]
    return tuple(sorted(found, key=lambda rod: (rod.diameter_mm, rod.metric)))


def rod_for(od_mm: float, metric: bool) -> StockRod:
    """The bar that a bushing is turned from: of its own diameter in either system, else the next one up.

    Raises
    ------
    LookupError
        It is thicker than any bar of the tables.

    Examples
    --------
    >>> rod_for(12.7, metric=True).metric, rod_for(11.0, metric=True).diameter_mm
    (False, 12.0)
    """
    same = [rod for rod in stock_rods() if abs(rod.diameter_mm - od_mm) <= rule("hole-size-tolerance").value]
    least = od_mm + rule("bushing-rod-skin").value
    larger = [rod for rod in stock_rods() if rod.metric == metric and rod.diameter_mm >= least - _SAME_MM]
    found = next(iter([*same, *larger]), None)
    if found is None:
        raise LookupError(f"no bar for a bushing of {od_mm:g} mm outside diameter")
    return found


def bushing_material(name: str) -> BushingMaterial:
    """A material by its name or its other name.

    Raises
    ------
    LookupError
        The table knows none of that name; the message suggests the nearest.

    Examples
    --------
    >>> bushing_material("304").name, bushing_material("acetal").max_temperature_c
    ('304 stainless', 85.0)
    """
    rows = load("stock_materials").rows
    found = next((row for row in rows if name in (row.text("name"), row.text("also"))), None)
    if found is None:
        raise LookupError(
            f"no bushing material {name!r}{did_you_mean(name, [row.text('name') for row in rows])}"
        )
    return _material(found)


def bushing_materials() -> tuple[BushingMaterial, ...]:
    """Every material that a bushing can be of.

    Examples
    --------
    >>> [material.name for material in bushing_materials()]
    ['6061-T6', '2024-T3', '304 stainless', '4130', 'acetal']
    """
    return tuple(_material(row) for row in load("stock_materials").rows)


def _material(row: Row) -> BushingMaterial:
    return BushingMaterial(
        row.text("name"),
        row.text("family"),
        row.number("density"),
        row.number("max_temperature"),
        row.source(),
        row.source("max_temperature"),
    )
