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
