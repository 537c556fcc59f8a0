"""Every key of the layout data of a component on bushings and of a stand-off is described, and no other."""

from __future__ import annotations

import csv
import json
from collections.abc import Iterator
from importlib import resources
from pathlib import Path
from typing import Any

from clampwright.files.layout_data import layout_as_data
from clampwright.make import check_recipe

RECIPES = Path(__file__).parents[3] / "recipes"
NAMES = ("separator-bushings", "regulator-too-wide", "oil-hose-stand-off", "plain-pair", "bundle-on-firewall")
ELSEWHERE = ("others[]", "joints[].stack")
"""Parts that are described by themselves."""


def keys(value: Any, path: str = "") -> Iterator[str]:
    """Every key of a document, with [] for the items of a list."""
    if path in ELSEWHERE:
        yield path
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from keys(inner, f"{path}.{key}" if path else key)
    elif isinstance(value, list) and any(isinstance(item, dict) for item in value):
        for item in value:
            yield from keys(item, f"{path}[]")
    elif path:
        yield path


def described(name: str) -> dict[str, str]:
    """The descriptions of a file of keys."""
    text = resources.files("clampwright.files").joinpath(name).read_text("utf-8")
    return {row["key"]: row["about"] for row in csv.DictReader(text.splitlines())}


def test_every_key_is_described_and_every_description_is_of_a_key() -> None:
    found: set[str] = set()
    for name in NAMES:
        data = layout_as_data(check_recipe(RECIPES / f"{name}.toml").layout)
        found |= set(keys(json.loads(json.dumps(data))))
    own, plates = described("joined_keys.csv"), described("keys.csv")
    lists = {"others", "remedies", "bushings", "hardware", "assumed", "cuts.bars", "cuts.needed"}
    assert found - set(plates) - lists == set(own) - set(plates)
    assert all(own.values())
