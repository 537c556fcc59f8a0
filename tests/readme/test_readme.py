"""The README tells the truth: every command in it runs and prints what it shows."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from readme.console import TOP, agrees, output, shown, workplace
from readme.pictures import PICTURES, pictures

from clampwright.recipe.read import read_text
from clampwright.recipe.shop import SHOP

README = (TOP / "README.md").read_text(encoding="utf-8")


def test_every_console_block_prints_what_the_readme_shows(tmp_path: Path) -> None:
    blocks = shown(README)
    assert len(blocks) >= 3
    folder = workplace(tmp_path)
    for block in blocks:
        found = output(block.command, folder)
        assert agrees(block.lines, found), f"$ {block.command}\n" + "\n".join(found)


@pytest.mark.parametrize("name", ["coil-plate", "separator-bushings", "oil-hose-stand-off"])
def test_the_recipes_in_the_readme_are_the_recipes_in_the_folder(name: str) -> None:
    assert f"```toml\n{(TOP / 'recipes' / f'{name}.toml').read_text(encoding='utf-8')}```" in README


def test_the_keep_out_in_the_readme_stands_in_the_file_of_tubes() -> None:
    shown = README.split("engine_moves", 1)[1].split("```", 1)[0]
    tubes = (TOP / "recipes" / "engine-mount.toml").read_text(encoding="utf-8")
    assert all(part.strip() in tubes for part in f"engine_moves{shown}".split("\n\n"))


def test_the_shop_table_in_the_readme_is_read_and_has_every_key() -> None:
    (block,) = re.findall(r"^```toml\n(\[shop\]\n.*?)^```$", README, re.MULTILINE | re.DOTALL)
    shop = read_text(
        (TOP / "recipes" / "coil-plate.toml").read_text("utf-8") + block, TOP / "recipes" / "x"
    ).shop
    assert (shop.drawing, shop.projection, shop.quantity, shop.grain) == ("iso", "first", 2, "along")
    assert {line.split(" =")[0] for line in block.splitlines()[1:]} == {field.key for field in SHOP.fields}


def test_every_link_in_the_readme_leads_to_a_file() -> None:
    for target in re.findall(r"\]\(([^)#:]+)\)", README):
        assert (TOP / target).exists(), target


NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:e-?\d+)?")


def test_the_pictures_are_what_the_project_draws_now() -> None:
    """Words and shapes the same, figures within 0.02: another processor may round a last digit otherwise."""
    made = pictures()
    assert {path.name for path in PICTURES.iterdir()} == set(made)
    for name, data in made.items():
        shown, drawn = (PICTURES / name).read_text(encoding="utf-8"), data.decode("utf-8")
        assert NUMBER.sub("#", shown) == NUMBER.sub("#", drawn), name
        pairs = zip(NUMBER.findall(shown), NUMBER.findall(drawn), strict=True)
        assert all(abs(float(one) - float(other)) < 0.02 for one, other in pairs), name
