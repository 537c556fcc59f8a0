"""Redraws the pictures of the README with the project itself: `python tests/readme/pictures.py`."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

from clampwright.files.shop_drawings import shop_sheets
from clampwright.files.svg import svg
from clampwright.make import build_recipe, check_recipe
from clampwright.measure import solve_survey, write_solved
from clampwright.sheets.clamp_picture import clamp_picture
from clampwright.trade.clamps import loop_clamp

TOP = Path(__file__).parents[2]
PICTURES = TOP / "recipes" / "pictures"
FROM_BUILD = {
    "coil-plate": ("part", "assembly", "drill-template"),
    "separator-bushings": ("assembly",),
    "oil-hose-stand-off": ("assembly",),
}
"""Pictures that a build of each recipe makes."""
SHOWN_DRAWINGS = ("coil-plate-plate-drawing", "separator-bushings-turning")


def pictures() -> dict[str, bytes]:
    """Every picture's name and bytes."""
    made = {}
    with tempfile.TemporaryDirectory() as out:
        for recipe, words in FROM_BUILD.items():
            built = build_recipe(TOP / "recipes" / f"{recipe}.toml", Path(out))
            names = [f"{recipe}-{word}.svg" for word in words]
            made |= {name: (built.folder / name).read_bytes() for name in names}
        for recipe in FROM_BUILD:
            made |= _drawings(recipe)
        solved = solve_survey(TOP / "recipes" / "mount-survey.toml")
        views = write_solved(solved, Path(out)).folder / "mount-survey-views.svg"
        made["mount-survey-views.svg"] = views.read_bytes()
    page = clamp_picture(loop_clamp(19.05, "CH"), "AN3", "in")
    return made | {"measure-a-clamp.svg": svg(page).encode()}


def _drawings(recipe: str) -> dict[str, bytes]:
    """The first page of those of the recipe's drawings that the README shows."""
    checked = check_recipe(TOP / "recipes" / f"{recipe}.toml")
    sheets = dict(shop_sheets(checked.layout, checked.findings))
    names = [name for name in SHOWN_DRAWINGS if name in sheets]
    return {f"{name}.svg": svg(sheets[name].pages[0]).encode() for name in names}


def main() -> None:
    """Replace the folder of pictures."""
    made = pictures()
    shutil.rmtree(PICTURES, ignore_errors=True)
    PICTURES.mkdir(parents=True)
    for name, data in made.items():
        (PICTURES / name).write_bytes(data)


if __name__ == "__main__":
    main()
