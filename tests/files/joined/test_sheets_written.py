"""A build writes the sheets that have something on them, and no others."""

from __future__ import annotations

from pathlib import Path

import pytest

from clampwright.make import build_recipe

RECIPES = Path(__file__).parents[3] / "recipes"


@pytest.mark.parametrize(
    ("name", "cut", "wraps"),
    [
        ("oil-hose-stand-off", True, True),
        ("plain-pair", False, True),
        ("bundle-on-firewall", True, False),
    ],
)
def test_sheets_of_a_stand_off(name: str, cut: bool, wraps: bool, tmp_path: Path) -> None:
    """No spacer, nothing to cut; no tube, nothing to wrap."""
    files = build_recipe(RECIPES / f"{name}.toml", tmp_path).files
    assert (f"{name}-bushing-cut-sheet-a4.pdf" in files) == cut
    assert (f"{name}-cut-list.csv" in files) == cut
    assert (f"{name}-tube-wraps-a4.pdf" in files) == wraps
    assert f"{name}-installation-a4.pdf" in files
