"""What bushings are made from: by temperature, by the tube that fits, by what the recipe asks."""

from __future__ import annotations

import pytest

from clampwright.layout.bushing_stock import choose_stock
from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.packing import pack
from clampwright.recipe.bushing_model import BushingStock
from clampwright.trade.bolts import bolt_names
from clampwright.trade.holes import drills
from clampwright.trade.tables import rule

INCH = 25.4


def stock(
    *, material: str | None = None, make: str | None = None, od_mm: float | None = None
) -> BushingStock:
    return BushingStock(material, make, od_mm, 1.5, 305.0)


@pytest.mark.parametrize("name", bolt_names())
def test_left_alone_it_is_what_packing_takes(name: str) -> None:
    chosen = choose_stock(name, stock(), 90.0, "mm")
    (item,) = pack(20.0, name, 90.0, "mm")
    assert (chosen.od_mm, chosen.id_mm) == (pytest.approx(item.od_mm), pytest.approx(item.id_mm))
    assert chosen.make == ("tube" if name.startswith("AN") else "rod")
    assert chosen.material.name in item.part


@pytest.mark.parametrize(
    ("degrees_c", "ahead"),
    [(-60.0, "6061-T6"), (100.0, "6061-T6"), (100.1, "304 stainless"), (600.0, "304 stainless")],
)
def test_material_by_temperature_and_never_plastic(degrees_c: float, ahead: str) -> None:
    assert choose_stock("AN3", stock(), degrees_c, "in").material.name == ahead


def test_what_the_recipe_asks_wins_and_its_limit_is_carried() -> None:
    chosen = choose_stock("AN3", stock(material="acetal"), 150.0, "in")
    assert chosen.material.name == "acetal"
    assert chosen.material.max_temperature_c < 150.0


def test_an_outside_diameter_is_cut_from_tube_where_one_fits() -> None:
    """3/8 x 0.083: bore .209 over a shank of .189; 3/8 x .095 has .185 and does not go over it."""
    chosen = choose_stock("AN3", stock(od_mm=0.375 * INCH), 90.0, "in")
    assert (chosen.make, chosen.says) == ("tube", "tube 3/8 in x 0.083 in wall, 6061-T6")
    assert chosen.id_mm / INCH == pytest.approx(0.209)


def test_an_outside_diameter_without_tube_is_turned_and_bored() -> None:
    chosen = choose_stock("AN3", stock(od_mm=0.5 * INCH), 90.0, "in")
    assert (chosen.make, chosen.says, chosen.stock_wall_mm) == ("rod", "rod 1/2 in, 6061-T6", None)
    assert chosen.drill in [d.size for d in drills(metric=False)]
    assert chosen.window.holds(chosen.id_mm)


def test_rod_on_request_even_where_a_tube_fits() -> None:
    chosen = choose_stock("AN4", stock(make="rod"), 90.0, "in")
    assert chosen.make == "rod"
    assert chosen.od_mm == rule("bushing-od-an4").value
    assert chosen.stock_od_mm >= chosen.od_mm
    assert chosen.id_mm > 0.249 * INCH


def test_a_metric_bolt_takes_an_inch_tube_only_on_request() -> None:
    """M6 in 7/16 x .095: bore 6.29 over 6.0."""
    assert choose_stock("M6", stock(), 90.0, "mm").make == "rod"
    chosen = choose_stock("M6", stock(make="tube"), 90.0, "mm")
    assert chosen.says.startswith("tube 7/16 in x 0.095 in wall")
    assert chosen.id_mm == pytest.approx((0.4375 - 2 * 0.095) * INCH)


@pytest.mark.parametrize(
    ("name", "given", "why", "change"),
    [
        ("M4", stock(make="tube"), "no stock tube", '"rod"'),
        ("AN3", stock(make="tube", od_mm=12.7), "12.70 mm", "11.11 mm"),
        ("AN3", stock(od_mm=5.2), "no face", "or more"),
        ("AN3", stock(od_mm=80.0), "no bar", "smaller"),
        ("AN3", stock(material="cheese"), "cheese", "6061-T6"),
    ],
)
def test_what_cannot_be_made_is_said_with_what_would_do(
    name: str, given: BushingStock, why: str, change: str
) -> None:
    with pytest.raises(CannotLayOut) as refused:
        choose_stock(name, given, 90.0, "mm")
    assert why in refused.value.why
    assert change in refused.value.change


@pytest.mark.parametrize("name", bolt_names())
def test_every_source_is_known(name: str) -> None:
    from clampwright.trade.sources import sources

    for make in (None, "rod"):
        assert set(choose_stock(name, stock(make=make), 150.0, "in").sources) <= set(sources())
