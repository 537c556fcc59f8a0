"""What is not packed: faults of all recipes at once, two of one name, a failing check; nothing is written."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from files.pack.test_target import pack as old_pack

from clampwright.checks.finding import Finding
from clampwright.layout.cannot import CannotLayOut
from clampwright.pack import Failing, PackFaults, SameName, WillNotPack, pack_recipes, told_once
from clampwright.recipe.faults import RecipeFaults

RECIPES = Path(__file__).parents[2] / "recipes"
GOOD, TOO_NARROW = RECIPES / "oil-hose-stand-off.toml", RECIPES / "coil-plate-too-narrow.toml"

ONE_LINE = """kind = "accessory plate"
name = "nowhere"
clamps.on = ["a", "b"]
structure.tubes.a = { start = [0, 0, 0], end = [100, 0, 0], od = 19.05 }
structure.tubes.b = { start = [200, 0, 0], end = [300, 0, 0], od = 19.05 }
carries = [{ name = "relay", mass = "0.1 kg", holes = [[-15, 0], [15, 0]] }]
"""
"""Two tubes on one line: no plate lies on them."""


def test_faults_of_all_recipes_at_once(tmp_path: Path) -> None:
    nowhere = tmp_path / "nowhere.toml"
    nowhere.write_text(ONE_LINE)
    mistaken = RECIPES / "wrong" / "mistaken.toml"
    with pytest.raises(PackFaults) as caught:
        pack_recipes([mistaken, GOOD, nowhere], tmp_path / "shop.zip")
    first, second = caught.value.troubles
    assert (first.file, second.file) == (mistaken, nowhere)
    assert isinstance(first.why, RecipeFaults)
    assert len(first.why.faults) > 1
    assert isinstance(second.why, CannotLayOut)
    for trouble in caught.value.troubles:
        assert trouble.text() in str(caught.value)
    assert "nowhere.toml" in second.text()
    assert [path.name for path in tmp_path.iterdir()] == ["nowhere.toml"]


def test_two_recipes_of_one_name(tmp_path: Path) -> None:
    other = tmp_path / "again.toml"
    text = GOOD.read_text(encoding="utf-8").replace('"oil-hose-stand-off"', '"Oil-Hose-Stand-Off"')
    other.write_text(text, encoding="utf-8")
    shutil.copy(RECIPES / "engine-mount.toml", tmp_path)
    with pytest.raises(SameName, match="name of its own") as caught:
        pack_recipes([GOOD, other], tmp_path / "shop.zip")
    assert set(caught.value.files) == {GOOD, other}
    assert not (tmp_path / "shop.zip").exists()


def test_no_recipe_at_all(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="no recipe"):
        pack_recipes([], tmp_path / "shop.zip")


def test_a_failing_check_leaves_the_old_pack(tmp_path: Path) -> None:
    to = tmp_path / "shop.zip"
    to.write_bytes(old_pack("old"))
    with pytest.raises(WillNotPack) as caught:
        pack_recipes([GOOD, TOO_NARROW], to)
    (failing,) = caught.value.failing
    assert failing.recipe == "coil-plate-too-narrow"
    assert failing.file == TOO_NARROW
    assert failing.findings
    for finding in failing.findings:
        assert finding.verdict == "fail"
        assert finding.change
        assert finding.change in str(caught.value)
    assert to.read_bytes() == old_pack("old")
    assert list(tmp_path.iterdir()) == [to]


def test_two_recipes_that_run_into_each_other_are_not_packed(tmp_path: Path) -> None:
    """The same hose under two names at one place: every check of each alone is the same as before."""
    other = tmp_path / "second.toml"
    text = GOOD.read_text(encoding="utf-8")
    text = text.replace('"oil-hose-stand-off"', '"second-hose"').replace('"oil hose"', '"breather hose"')
    other.write_text(text, encoding="utf-8")
    shutil.copy(RECIPES / "engine-mount.toml", tmp_path)
    with pytest.raises(WillNotPack) as caught:
        pack_recipes([GOOD, other], tmp_path / "shop.zip")
    assert [each.recipe for each in caught.value.failing] == ["oil-hose-stand-off", "second-hose"]
    for failing in caught.value.failing:
        assert {finding.code for finding in failing.findings} == {"BAY-1", "BAY-2"}


@pytest.mark.parametrize(
    ("place", "error"),
    [("missing/too/shop.zip", FileNotFoundError), ("a-file/shop.zip", OSError), ("shop", OSError)],
)
def test_a_place_that_does_not_serve_is_told_before_any_work(
    tmp_path: Path, place: str, error: type[OSError]
) -> None:
    (tmp_path / "a-file").write_text("mine")
    said: list[str] = []
    with pytest.raises(error):
        pack_recipes([GOOD], tmp_path / place, step=said.append)
    assert said == []
    assert [path.name for path in tmp_path.iterdir()] == ["a-file"]


def test_names_that_differ_in_capitals_are_both_said() -> None:
    said = str(SameName(("hose", "Hose"), (GOOD, TOO_NARROW)))
    assert "'hose' and 'Hose' differ in capitals alone" in said
    assert "all are called 'hose'" in str(SameName(("hose",), (GOOD, TOO_NARROW)))


def test_of_many_findings_the_first_are_told_and_each_once() -> None:
    """25 of its own, 3 of both: 20 told and 8 more of the first, of the second 1 of its own."""

    def found(where: str) -> Finding:
        return Finding("EDGE-1", "edge", where, "fail", 1.0, 2.0, "mm", "Near.", "Widen.", ())

    both = tuple(found(f"coil: A{n} / hose: A{n}") for n in range(3))
    one = Failing("coil", None, (*(found(f"A{n}") for n in range(25)), *both))
    other = Failing("hose", None, (found("B1"), *both))
    first, second = told_once([one, other])
    assert (len(first.findings), first.more, first.above) == (20, 8, 0)
    assert ([f.where for f in second.findings], second.more, second.above) == (["B1"], 0, 3)
    text = str(WillNotPack((one, other)))
    assert text.count("Do: Widen.") == 21
    assert "and 8 more" in text
    assert "and 3 said above" in text


def test_a_name_too_long_for_any_file_is_told_before_any_work(tmp_path: Path) -> None:
    """POSIX NAME_MAX is 255 bytes on the usual file systems."""
    said: list[str] = []
    with pytest.raises(OSError, match="too long"):
        pack_recipes([GOOD], tmp_path / f"{'x' * 300}.zip", step=said.append)
    assert said == []
