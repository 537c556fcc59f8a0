"""Every key of the layout data of a component on bushings and of a stand-off is described, and no other."""

from __future__ import annotations

import csv
import json
from dataclasses import replace
from importlib import resources
from pathlib import Path

import pytest
from files.document_keys import keys

from clampwright.files.layout_data import layout_as_data
from clampwright.layout.known_to import KnownTo
from clampwright.make import check_recipe

RECIPES = Path(__file__).parents[3] / "recipes"
NAMES = ("separator-bushings", "regulator-too-wide", "oil-hose-stand-off", "plain-pair", "bundle-on-firewall")
ELSEWHERE = ("others[]", "joints[].stack")
"""Parts that are described by themselves."""


def described(name: str) -> dict[str, str]:
    """The descriptions of a file of keys."""
    text = resources.files("clampwright.files").joinpath(name).read_text("utf-8")
    return {row["key"]: row["about"] for row in csv.DictReader(text.splitlines())}


def test_every_key_is_described_and_every_description_is_of_a_key() -> None:
    found: set[str] = set()
    for name in NAMES:
        data = layout_as_data(check_recipe(RECIPES / f"{name}.toml").layout)
        found |= set(keys(json.loads(json.dumps(data)), ELSEWHERE))
    own, plates = described("joined_keys.csv"), described("keys.csv")
    lists = {"others", "remedies", "bushings", "hardware", "known_to", "assumed", "cuts.bars", "cuts.needed"}
    assert found - set(plates) - lists == set(own) - set(plates)
    assert all(own.values())


@pytest.mark.parametrize("name", ["separator-bushings", "oil-hose-stand-off"])
def test_how_sure_each_clamp_is_and_what_is_cut_long(name: str) -> None:
    """Gaps of ± 2 mm and more: every bushing is cut longer than its ±, in the file as on the cut sheet."""
    layout = check_recipe(RECIPES / f"{name}.toml").layout
    known = tuple(KnownTo(c.label, 1.5, 0.25, n + 2.0, True, "a tube") for n, c in enumerate(layout.loops))
    data = layout_as_data(replace(layout, known_to=known))
    found = [(k["clamp"], k["station_plus_minus_mm"], k["gap_plus_minus_mm"]) for k in data["known_to"]]
    assert found == [(k.clamp, k.station_mm, k.gap_mm) for k in known]
    sawn = sorted(cut["length_mm"] for bar in data["cuts"]["bars"] for cut in bar["cuts"])
    longest = []
    for part in data["bushings"]:
        for fill in part["fills"]:
            gaps = [k.gap_mm for k in known if k.clamp in fill["where"].split("+")]
            assert fill["cut_longer_mm"] > max(gaps)
            longest.append(part["length_mm"] + fill["cut_longer_mm"])
    assert longest
    assert len(sawn) == len(longest)
    assert all(cut > length for cut, length in zip(sawn, sorted(longest), strict=True))


def test_stations_from_the_mark_of_a_marked_tube_only() -> None:
    layout = check_recipe(RECIPES / "oil-hose-stand-off.toml").layout
    structure = layout.recipe.structure
    marked = tuple(replace(tube, mark_mm=50.8) for tube in structure.tubes)
    recipe = replace(layout.recipe, structure=replace(structure, tubes=marked))
    data = layout_as_data(replace(layout, recipe=recipe))
    on_tube, on_line = data["clamps"]
    assert on_tube["station_from_mark_mm"] == pytest.approx(on_tube["station_mm"] - 50.8)
    assert on_line["station_from_mark_mm"] is None
    assert data["line"]["mark_mm"] is None
