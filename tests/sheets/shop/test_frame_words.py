"""What a title block says of the examples' plates."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from clampwright.checks.all_checks import check
from clampwright.layout.lay_out import lay_out
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.quantities import length_mm
from clampwright.recipe.read import read
from clampwright.sheets.shop.block_words import flat_block, units_words
from clampwright.sheets.verdict import failing
from clampwright.trade.general_tolerances import block_words

RECIPES = Path(__file__).parents[3] / "recipes"


@pytest.mark.parametrize("name", ["coil-plate", "coil-plate-too-narrow"])
def test_the_block_says_what_the_part_is(name: str) -> None:
    layout = lay_out(read(RECIPES / f"{name}.toml"))
    (part,) = flat_parts(layout)
    findings = check(layout)
    block = flat_block(part, findings, "1:2", 2, 3)
    assert (block.number, block.revision) == (part.number, layout.recipe.digest)
    assert (block.scale, block.sheet, block.sheets) == ("1:2", 2, 3)
    assert block.material.startswith(part.material.name)
    assert part.specification in block.material
    first = block.stock.removeprefix("sheet ").split(" (")[0]
    assert length_mm(first) == pytest.approx(part.thickness_mm, abs=0.013)
    assert bool(block.stop) == bool(failing(findings))
    assert all(finding.code in block.stop for finding in failing(findings))
    assert block.projection == "third"
    told = block_words(part.shop, part.units)[1:]
    assert [line.replace("\xa0", " ") for line in block.tolerances] == [
        line.replace("  ", "; ") for line in told
    ]


def test_no_fail_no_stop_and_the_other_way_round() -> None:
    stops = {}
    for name in ("coil-plate", "coil-plate-too-narrow"):
        layout = lay_out(read(RECIPES / f"{name}.toml"))
        stops[name] = flat_block(flat_parts(layout)[0], check(layout), "1:1").stop
    assert stops["coil-plate"] == ""
    assert stops["coil-plate-too-narrow"].startswith("EDGE-1 at ")


def test_words_that_a_recipe_leaves_out() -> None:
    (part,) = flat_parts(lay_out(read(RECIPES / "coil-plate.toml")))
    block = flat_block(replace(part, shop=replace(part.shop, finish="", edge_break_mm=0.0)), (), "1:1")
    assert (block.finish, block.edge_break) == ("none asked for", "deburr, no sharp edge")
    assert block.checks == "no checks were run"
    assert ("INCHES" in units_words(part.units)) == (part.units == "in")
