"""The table [shop]: what stands in for it, and what it changes."""

from __future__ import annotations

from dataclasses import replace

import pytest
from recipe.recipe_files import HERE

from clampwright.recipe.read import read, read_text
from clampwright.recipe.shop import SHOP, usual_shop
from clampwright.trade.tables import rule

LEAST = (HERE / "valid" / "two-tubes-and-a-component.toml").read_text(encoding="utf-8")


def test_every_key_is_read_in_millimetres() -> None:
    shop = read(HERE / "valid" / "shop-every-key.toml").shop
    assert (shop.drawing, shop.projection, shop.tolerances) == ("iso", "first", "m")
    assert shop.finish == "conversion coating, then primer"
    assert shop.edge_break_mm == pytest.approx(0.381)
    assert (shop.quantity, shop.spares_percent, shop.grain) == (3, 25, "across")
    assert shop.chord_error_mm == pytest.approx(0.1)
    assert shop.stock_sheet_mm == pytest.approx((609.6, 1219.2))
    assert (shop.kerf_mm, shop.edge_margin_mm) == pytest.approx((0.79375, 12.7))


def test_the_example_writes_every_key_that_there_is() -> None:
    text = (HERE / "valid" / "shop-every-key.toml").read_text(encoding="utf-8").split("[shop]")[1]
    assert {line.split(" =")[0] for line in text.strip().splitlines()} == {f.key for f in SHOP.fields}


@pytest.mark.parametrize(
    ("units", "drawing", "tolerances"), [("mm", "iso", "m"), ("in", "ansi", "inch")], ids=["mm", "in"]
)
def test_left_out_it_follows_the_units(units: str, drawing: str, tolerances: str) -> None:
    shop = usual_shop(units)
    assert (shop.drawing, shop.tolerances) == (drawing, tolerances)
    assert shop.edge_break_mm == rule("edge-break").value
    assert shop.spares_percent == rule("spares-usual").value
    assert shop.quantity == 1


def test_the_usual_written_out_leaves_the_digest_and_anything_else_changes_it() -> None:
    """The digest is the drawing's revision: what a shop is told belongs to it."""
    plain = read_text(LEAST)
    said = read_text(LEAST + "\n[shop]\nprojection = 'third'\nquantity = 1\n")
    other = read_text(LEAST + "\n[shop]\nquantity = 2\n")
    assert said.digest == plain.digest
    assert other.digest != plain.digest
    assert other.shop == replace(plain.shop, quantity=2)
