"""A part that cannot be drawn, or a nest that does not hold, costs itself alone: the rest is packed."""

from __future__ import annotations

import csv
import io
import json
import re
import shutil
import zipfile
from pathlib import Path

import pytest
from pack.packs import RECIPES, Unpacked, unpacked

from clampwright.pack import WillNotPack, pack_recipes
from clampwright.sheets.shop.dimensioning.lanes import NoRoom
from clampwright.solids.no_part import NoPart
from clampwright_cli.packing import pack as pack_command

PLATE, BUSHINGS, HOSE = (
    RECIPES / f"{name}.toml" for name in ("coil-plate", "separator-bushings", "oil-hose-stand-off")
)
MADE = ("drawings", "step", "fit-check", "cutting")


def flat(pack: Unpacked, path: str) -> str:
    """A text with its line breaks taken out."""
    return re.sub(r"[\s*]+", " ", pack.text(path))


def made_for(pack: Unpacked, words: str) -> list[str]:
    """Files to make parts from that are called after something."""
    return [path for path in pack.files if path.split("/")[0] in MADE and words in path]


def sheets_to_buy(pack: Unpacked) -> list[tuple[str, str]]:
    """Note, without what it says of the shop, and number, of each line for sheet on the order list."""
    lines = csv.DictReader(io.StringIO(pack.text("lists/order-list.csv"), newline=""))
    return [(row["note"].split(";")[0], row["to_order"]) for row in lines if row["kind"] == "sheet stock"]


def fault(*_: object) -> tuple[str, ...]:
    """What the proof of a nest would say."""
    return ("sheet 1: a copy 1 and b copy 1 overlap",)


def test_a_nest_that_does_not_hold_is_left_out_and_said(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr("clampwright.nesting.nest.faults_of_nest", fault)
    to = tmp_path / "shop.zip"
    done = pack_command([PLATE], to, False)
    assert done.status == 0, done.text
    assert "not nested on sheets, a fault of the program" in done.text
    pack = unpacked(to)
    assert made_for(pack, "nested") == []
    assert made_for(pack, "coil-plate-plate-cut.dxf") == ["cutting/coil-plate-plate-cut.dxf"]
    said = flat(pack, "READ-ME-FIRST.txt")
    assert "none is nested here" in said
    assert "a copy 1 and b copy 1 overlap" in said
    assert "same nested on sheets" not in said
    assert "DO NOT MAKE" not in said
    ((line, off),) = sheets_to_buy(pack)
    assert (line, off) == ("a blank for each coil-plate-plate, which is not nested", "1")
    manifest = json.loads(pack.files["manifest.json"])
    assert "overlap" in manifest["not_nested"]
    assert manifest["pack"]["do_not_make"] is False


def no_room(*_: object) -> None:
    """What the drawing of a plate with more holes than any sheet takes raises."""
    raise NoRoom("it fits on none of the sheets")


def test_a_plate_that_no_sheet_has_room_for_fails_and_the_others_are_packed(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr("clampwright.sheets.shop.flat_drawing.flat_drawing", no_room)
    to = tmp_path / "shop.zip"
    with pytest.raises(WillNotPack, match="fits on none of the sheets") as caught:
        pack_recipes([PLATE, HOSE], to)
    assert [each.recipe for each in caught.value.failing] == ["coil-plate"]
    assert not to.exists()
    packed = pack_recipes([PLATE, HOSE], to, anyway=True)
    ((recipe, why),) = packed.no_part_because
    assert recipe == "coil-plate"
    assert "cannot be drawn" in why
    pack = unpacked(to)
    assert made_for(pack, "coil-plate") == []
    assert made_for(pack, "oil-hose-stand-off")
    assert made_for(pack, "turning-sheet.pdf")
    assert "coil-plate: No part of it can be made, because coil-plate-plate cannot be drawn" in flat(
        pack, "READ-ME-FIRST.txt"
    )


def refused(*_: object) -> None:
    """What is raised where a file does not say what its solid is."""
    raise NoPart("it does not read back")


def test_bushings_of_two_recipes_that_cannot_be_written_take_neither_plate_nor_lists_along(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """All bushings are refused: the recipes that have any give no part, and the pack says so and stands."""
    monkeypatch.setattr("clampwright.files.pack.models.turned_exchange", refused)
    packed = pack_recipes([PLATE, BUSHINGS], tmp_path / "shop.zip", anyway=True)
    assert dict(packed.no_part_because) == dict.fromkeys(
        ("coil-plate", "separator-bushings"), "it does not read back"
    )
    assert {path.split("/")[0] for path in packed.files} == {
        *("READ-ME-FIRST.txt", "lists", "inspection", "findings", "manifest.json")
    }
    with zipfile.ZipFile(io.BytesIO((tmp_path / "shop.zip").read_bytes())) as archive:
        assert archive.testzip() is None


def test_a_plate_larger_than_its_sheet_is_told_and_a_blank_is_on_the_order_list(tmp_path: Path) -> None:
    """Two sets of a plate of 5.25 x 6.42 in, on a sheet of 4 x 5 in: drawing and pattern are there."""
    shutil.copy(RECIPES / "engine-mount.toml", tmp_path)
    text = PLATE.read_text(encoding="utf-8")
    recipe = tmp_path / PLATE.name
    recipe.write_text(f'{text}\n[shop]\nstock_sheet = ["4 in", "5 in"]\nquantity = 2\n', encoding="utf-8")
    packed = pack_recipes([recipe], tmp_path / "shop.zip")
    assert packed.no_part_because == ()
    assert packed.not_nested == ""
    pack = unpacked(tmp_path / "shop.zip")
    assert "Not nested: coil-plate-plate, larger than its sheet of 4 x 5 in" in flat(
        pack, "READ-ME-FIRST.txt"
    )
    assert sheets_to_buy(pack) == [("a blank for each coil-plate-plate, which is not nested", "2")]
    assert {"drawings/coil-plate-plate.pdf", "cutting/coil-plate-plate-cut.dxf"} <= set(pack.files)
