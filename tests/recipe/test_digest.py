"""The digest follows what a recipe asks for, and nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest
from recipe.recipe_files import HERE

from clampwright.recipe.read import read, read_text

FOLDER = HERE / "valid"
LEAST = (FOLDER / "two-tubes-and-a-component.toml").read_text(encoding="utf-8")
SAME = ("dotted-keys-and-one-line", "from-another-editor")


@pytest.mark.parametrize("name", SAME)
def test_notation_and_order_of_keys_make_no_difference(name: str) -> None:
    assert read(FOLDER / f"{name}.toml").digest == read_text(LEAST).digest


@pytest.mark.parametrize(
    "change",
    [
        ("kind =", "# a remark\n\n\nkind ="),
        ("od = 20\n", "od = '2 cm' # over paint\n"),
        ("[[carries]]", "[template]\npapers = ['a4']\nprints = [[99, 99]]\n[[carries]]"),
        ("[[carries]]", "[clamps]\neach = 2\n[[carries]]"),
    ],
    ids=["remarks", "another unit", "template", "a default written out"],
)
def test_what_does_not_matter(change: tuple[str, str]) -> None:
    assert read_text(LEAST.replace(*change, 1)).digest == read_text(LEAST).digest


def test_where_the_file_lies_does_not_matter(tmp_path: Path) -> None:
    (tmp_path / "moved.toml").write_text(LEAST, encoding="utf-8")
    assert read(tmp_path / "moved.toml").digest == read_text(LEAST).digest


def test_the_order_of_tubes_matters_only_where_clamps_on_is_left_out() -> None:
    head, left, rest = LEAST.partition("[structure.tubes.left]")
    left_tube, right, tail = (left + rest).partition("[structure.tubes.right]")
    tube, carries, end = (right + tail).partition("[[carries]]")
    swapped = head + tube + left_tube + carries + end
    on = '[clamps]\non = ["left", "right"]\n'
    assert read_text(swapped + on).digest == read_text(LEAST + on).digest
    assert read_text(swapped).digest != read_text(LEAST).digest


@pytest.mark.parametrize(
    "change",
    [
        ("two-tubes", "two-tubes-2"),
        ("120 g", "121 g"),
        ("end = [500, 20, 0]", "end = [500, 20, 0.1]"),
        ("od = 20", "od = 20.1"),
        ("[[carries]]", "about = 'x'\n[[carries]]"),
        ("[-15, 0]", "[-15.01, 0]"),
        ("[[carries]]", "[measuring]\nerror = 1\n[[carries]]"),
        ("[[carries]]", "[clamps]\nside = 'outboard'\n[[carries]]"),
    ],
)
def test_what_matters(change: tuple[str, str]) -> None:
    old, new = change
    if new.startswith("about"):
        old, new = "kind =", "about = 'x'\nkind ="
    assert read_text(LEAST.replace(old, new, 1)).digest != read_text(LEAST).digest


SURROUNDINGS = """[structure]
engine_moves = 8
[structure.keep_outs.pipe]
from = [0, 0, 300]
to = [100, 0, 300]
od = 20
distance = 50
[structure.keep_outs.box]
from = [0, 0, 400]
to = [100, 90, 500]
[structure.panels.wall]
point = [-50, 0, 0]
normal = [1, 0, 0]
"""
SURROUNDED = LEAST.replace("[[carries]]", SURROUNDINGS + "[[carries]]", 1)


def test_surroundings_that_are_not_there_make_no_difference() -> None:
    """A sheet that was printed before there were keys for them still shows its recipe's number."""
    assert read_text(LEAST).digest == "a0e98f8f424f4fbf"
    empty = LEAST + "[structure.keep_outs]\n[structure.panels]\n"
    assert read_text(empty).digest == read_text(LEAST).digest


def test_the_order_of_surroundings_and_a_default_written_out_make_no_difference() -> None:
    first, after = (SURROUNDINGS.index(f"[structure.{name}]") for name in ("keep_outs.pipe", "keep_outs.box"))
    pipe, panel = SURROUNDINGS[first:after], "[structure.panels.wall]"
    swapped = SURROUNDED.replace(pipe, "").replace(panel, pipe + panel)
    said = SURROUNDED.replace("distance = 50", "distance = 50\nrides_on = 'engine'\nkind = 'other'")
    longer = SURROUNDED.replace("normal = [1, 0, 0]", "normal = [3, 0, 0]\nmaterial = '304'")
    for text in (swapped, said, longer):
        assert text != SURROUNDED
        assert read_text(text).digest == read_text(SURROUNDED).digest


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("engine_moves = 8", "engine_moves = 9"),
        ("engine_moves = 8", "engine_moves = 0"),
        ("engine_moves = 8\n", ""),
        ("distance = 50", "distance = 51"),
        ("od = 20\ndistance", "od = 21\ndistance"),
        ("[100, 90, 500]", "[100, 91, 500]"),
        ("normal = [1, 0, 0]", "normal = [1, 0, 1]"),
        ("normal = [1, 0, 0]", "normal = [1, 0, 0]\nthickness = 1"),
        ("keep_outs.pipe]", "keep_outs.pope]"),
    ],
)
def test_what_matters_of_surroundings(old: str, new: str) -> None:
    assert read_text(SURROUNDED.replace(old, new, 1)).digest != read_text(SURROUNDED).digest


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        ("bushings-least", "[0, 55]]", "[0, 56]]"),
        ("bushings-least", "500 g", "501 g"),
        ("bushings-rough-place", 'within = "2 in"', "within = 50"),
        ("bushings-rough-place", "along = [0, 0, -3]", "along = [0, 1, -3]"),
        ("bushings-rough-place", "turn_within = 45", "turn_within = 44"),
        ("bushings-rough-place", 'lug = "1/8 in"', "lug = 3"),
        ("stand-off-least", "hose = 8", "hose = 10"),
        ("stand-off-least", "beside = 60", "beside = 61"),
        ("stand-off-least", "beside = 60", "beside = 60\nsleeve = 1"),
        ("stand-off-least", "beside = 60", "beside = 60\n[spacer]\nplace = 1"),
        ("stand-off-least", "beside = 60", "beside = 60\n[clamps.line]\nfeet = 3"),
        ("stand-off-least", "beside = 60", "beside = 60\n[bushings]\nmake = 'rod'"),
    ],
)
def test_what_matters_of_the_other_kinds(name: str, old: str, new: str) -> None:
    text = (FOLDER / f"{name}.toml").read_text(encoding="utf-8")
    assert old in text
    assert read_text(text.replace(old, new, 1)).digest != read_text(text).digest


@pytest.mark.parametrize("name", ["bushings-least", "stand-off-least"])
def test_remarks_and_defaults_written_out_make_no_difference_in_the_other_kinds(name: str) -> None:
    text = (FOLDER / f"{name}.toml").read_text(encoding="utf-8")
    said = "# a remark\n\n" + text + "\n[fastener]\nbolt = 'AN3'\n[bushings]\nkerf = '1/16 in'\n"
    assert read_text(said).digest == read_text(text).digest
