"""Panels, keep-outs and an engine that moves: in a recipe, in a shared file, and in both."""

from __future__ import annotations

from pathlib import Path

import pytest
from recipe.recipe_files import HERE, MOUNT

from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.model import Recipe
from clampwright.recipe.read import read, read_text
from clampwright.structure.surroundings import KeepOut, Panel
from clampwright.trade.sources import source
from clampwright.trade.tables import rule

FOLDER = HERE / "valid"
PLATE = (FOLDER / "two-tubes-and-a-component.toml").read_text(encoding="utf-8")
PIPE = "[structure.keep_outs.pipe]\nfrom = [0, 0, 300]\nto = [100, 0, 300]\n"


def plate(more: str) -> Recipe:
    """The shortest plate with more at its end."""
    return read_text(PLATE + "\n" + more)


def test_a_recipe_adds_its_own_to_those_of_the_shared_file() -> None:
    structure = read(FOLDER / "plate-with-surroundings.toml").structure
    assert [keep_out.name for keep_out in structure.keep_outs] == [
        "exhaust",
        "throttle-cable",
        "fuel-hose",
        "box",
    ]
    assert structure.panel("firewall") == Panel("firewall", (-50.0, 0.0, 0.0), (1.0, 0.0, 0.0), 0.381, "304")
    assert structure.engine_moves_mm == pytest.approx(9.525), "the recipe's own 3/8 in, not the file's 8 mm"


def test_every_key_arrives_in_the_projects_units() -> None:
    structure = read(FOLDER / "bushings-every-key.toml").structure
    assert structure.engine_moves_mm == 8.0
    (panel,) = structure.panels
    assert panel == Panel("firewall", (0.0, 0.0, 25.4), (1.0, 0.0, 0.0), 25.4 / 16, "6061-T6")
    exhaust, box = structure.keep_outs
    low, high = (203.2, 0.0, -406.4), (203.2, pytest.approx(304.8), -406.4)
    assert exhaust == KeepOut("exhaust", low, high, 44.45, 60.0, "mount", "hot")
    assert (box.name, box.od_mm, box.distance_mm) == ("battery box", None, 0.0)
    assert box.end == pytest.approx((-101.6, 152.4, -762.0))
    assert (box.rides_on, box.kind) == ("firewall", "other")


@pytest.mark.parametrize(
    ("kind", "inches", "status"),
    [("hot", 2.0, "practice"), ("control", 0.5, "memory"), ("fuel", 2.0, "regulation")],
)
def test_a_distance_left_out_follows_from_the_kind(kind: str, inches: float, status: str) -> None:
    """AC 43.13-1B 11-96: 2 in at least to fuel lines; 11-125: 1/2 in to controls; hot: 2 in, practice."""
    recipe = plate(f'{PIPE}od = 20\nkind = "{kind}"\n')
    (keep_out,) = recipe.structure.keep_outs
    assert keep_out.distance_mm == pytest.approx(inches * 25.4)
    says = dict(recipe.assumed)["structure.keep_outs.pipe.distance"]
    assert says.startswith(f"{inches * 25.4:.2f} mm")
    assert says.endswith(f"; {status})")


def test_anything_else_is_kept_away_from_as_from_a_component() -> None:
    recipe = plate(PIPE + "od = 20\n")
    (keep_out,) = recipe.structure.keep_outs
    row = rule("component-clearance")
    assert keep_out == KeepOut("pipe", (0, 0, 300), (100, 0, 300), 20, row.value, "engine", "other")
    assumed = dict(recipe.assumed)
    assert assumed["structure.keep_outs.pipe.rides_on"] == "engine (the harder case; assumed)"
    assert assumed["structure.keep_outs.pipe.distance"].endswith(f"; {source(row.source).status})")


def test_a_distance_of_nothing_is_no_distance_left_out() -> None:
    recipe = plate(PIPE + "od = 20\ndistance = 0\n")
    assert recipe.structure.keep_outs[0].distance_mm == 0.0
    assert "structure.keep_outs.pipe.distance" not in dict(recipe.assumed)


def test_what_a_shared_file_leaves_out_is_assumed_under_its_name() -> None:
    assumed = dict(read(FOLDER / "stand-off-on-a-panel.toml").assumed)
    assert assumed["bay.toml: panels.firewall.thickness"].startswith(
        "0.38 mm (the thinnest accepted firewall"
    )
    assert assumed["bay.toml: keep_outs.exhaust.distance"].startswith("50.80 mm")


def test_a_structure_without_surroundings_has_none() -> None:
    structure = read_text(PLATE).structure
    assert (structure.panels, structure.keep_outs, structure.engine_moves_mm) == ((), (), None)


def test_the_example_mount_has_a_firewall_an_exhaust_and_a_cable() -> None:
    structure = read(MOUNT.with_name("coil-plate.toml")).structure
    assert structure.panel("firewall").normal == (1.0, 0.0, 0.0)
    assert {keep_out.name: keep_out.kind for keep_out in structure.keep_outs} == {
        "exhaust": "hot",
        "throttle-cable": "control",
    }
    assert structure.engine_moves_mm == pytest.approx(0.3 * 25.4)


def test_faults_of_surroundings_come_with_those_of_the_part() -> None:
    text = PLATE.replace("120 g", "120") + f'\n{PIPE}kind = "warm"\n'
    with pytest.raises(RecipeFaults) as caught:
        read_text(text)
    keys = [fault.key for fault in caught.value.faults]
    assert keys == ["carries[1].mass", "structure.keep_outs.pipe.to", "structure.keep_outs.pipe.kind"]


def test_a_panel_with_faults_is_not_called_unknown_too(tmp_path: Path) -> None:
    text = (FOLDER / "stand-off-on-a-panel.toml").read_text(encoding="utf-8")
    bay = (FOLDER / "shared" / "bay.toml").read_text(encoding="utf-8")
    (tmp_path / "shared").mkdir()
    (tmp_path / "shared" / "bay.toml").write_text(
        bay.replace("normal = [1, 0, 0]", "normal = 1"), encoding="utf-8"
    )
    with pytest.raises(RecipeFaults) as caught:
        read_text(text, tmp_path / "on-a-panel.toml")
    assert [fault.key for fault in caught.value.faults] == ["panels.firewall.normal"]
