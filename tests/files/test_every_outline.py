"""Plates of every outline end to end: the drawing is held true, parts are written, and the pack is made."""

from __future__ import annotations

import zipfile
from functools import cache
from math import cos, pi, sin
from pathlib import Path

import pytest

from clampwright.files.shop_drawings import shop_sheets
from clampwright.make import Checked, build_recipe, check_recipe
from clampwright.pack import pack_recipes

RECIPES = Path(__file__).parents[2] / "recipes"


def regular(corners: int, reach_in: float, first: float = 0.0) -> str:
    """A regular polygon as the recipe has it, corners `reach_in` from the middle."""
    points = [(first + 2 * pi * k / corners) for k in range(corners)]
    said = ", ".join(f"[{reach_in * cos(a):.4f}, {reach_in * sin(a):.4f}]" for a in points)
    return f'outline = "polygon"\npoints = [{said}]'


OUTLINES = {
    "hull": 'outline = "rounded hull"',
    "triangle": regular(3, 9.0, pi / 2),
    "hexagon": regular(6, 5.4, 0.2),
    "many-sided": regular(24, 4.8, 0.1),
    "nearly-round": regular(4, 6.364, pi / 4) + "\ncorner_radius = 4.49",
    "sharp": regular(5, 5.8, 0.3) + "\ncorner_radius = 0",
}


def recipe_of(name: str, to: Path) -> Path:
    """The coil plate with another outline."""
    (to / "engine-mount.toml").write_text((RECIPES / "engine-mount.toml").read_text("utf-8"), "utf-8")
    text = (RECIPES / "coil-plate.toml").read_text("utf-8")
    text = text.replace('name = "coil-plate"', f'name = "{name}"')
    text = text.replace('material = "6061-T6"', f'material = "6061-T6"\n{OUTLINES[name]}', 1)
    path = to / f"{name}.toml"
    path.write_text(text, "utf-8")
    return path


@cache
def _checked(path: Path) -> Checked:
    return check_recipe(path)


@pytest.fixture(params=sorted(OUTLINES))
def laid(request: pytest.FixtureRequest, tmp_path: Path) -> Checked:
    return _checked(recipe_of(request.param, tmp_path))


def test_its_drawing_is_that_of_its_solid(laid: Checked) -> None:
    """Its sheets come out: a size that the solid has not would raise `DrawingDiffers`."""
    stems = [stem for stem, _ in shop_sheets(laid.layout, laid.findings)]
    assert stems[0] == f"{laid.layout.recipe.name}-plate-drawing"


@pytest.mark.parametrize("name", ["hull", "many-sided"])
def test_a_build_gives_parts_and_the_verdict_of_the_checks(name: str, tmp_path: Path) -> None:
    path = recipe_of(name, tmp_path)
    built = build_recipe(path, tmp_path / "out")
    assert built.no_part_because == ()
    assert {f"{name}.step", f"{name}-cut.dxf", f"{name}-plate-drawing.pdf"} <= set(built.files)
    assert built.checked.verdict == check_recipe(path).verdict


def test_a_pack_of_them_has_every_drawing(tmp_path: Path) -> None:
    paths = [recipe_of(name, tmp_path) for name in ("hull", "hexagon")]
    pack_recipes(paths, tmp_path / "bay.zip", True)
    with zipfile.ZipFile(tmp_path / "bay.zip") as archive:
        names = {name.partition("/")[2] for name in archive.namelist()}
    for name in ("hull", "hexagon"):
        assert any(each.startswith(f"drawings/{name}-plate") and each.endswith(".pdf") for each in names)
        assert f"cutting/{name}-plate-cut.dxf" in names
