"""JSON files: every key is described, numbers come back, and nothing that is not JSON gets in."""

from __future__ import annotations

import csv
import json
import math
from collections.abc import Iterator
from dataclasses import replace
from importlib import resources
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from solids.hand_layout import FRAME, HEIGHT, THICKNESS, WIDTH, hand_layout

from clampwright.checks.cutting import contours_apart, smallest_hole
from clampwright.checks.finding import Finding
from clampwright.files.findings_json import findings_json
from clampwright.files.json_text import json_bytes, number
from clampwright.files.layout_json import layout_json
from clampwright.files.manifest import LIBRARIES, manifest
from clampwright.files.written import Written
from clampwright.layout.known_to import KnownTo
from clampwright.structure.uncertainty import Uncertainty

BARE = hand_layout()
KNOWN = tuple(
    KnownTo(c.label, n + 1.5, n + 0.25, n + 0.75, n > 0, "its reach" if n else "")
    for n, c in enumerate(BARE.clamps)
)
LAYOUT = replace(BARE, known_to=KNOWN)
BAD = Finding(
    "EDGE-1", "edge distance", "A1", "fail", 1.2, 1.5, "e/D", "Too near.", "Move it.", ("edge-1-5d",)
)
UNSURE = Finding(
    "CLAMP-5", "default", "B1", "unknown", None, None, "", "Not measured.", "Measure.", ("assumed",)
)
FINDINGS = (*smallest_hole(LAYOUT), *contours_apart(LAYOUT), BAD, UNSURE)
FILES = (
    Written("b.stl", b"b", "mesh", (("volume_mm3", 1.23456789), ("triangles", 3), ("watertight", "yes"))),
    Written("a.step", b"abc", "solid"),
)

PARTS = {
    "clamps[].stack": "stack", "components[].stacks[]": "stack", "packing[]": "layer", "layers[]": "layer",
    "chosen": "bolt", "below": "bolt", "above": "bolt",
}  # fmt: skip
"""Parts of a file that are described by themselves."""

LOADED: dict[str, Any] = {
    "layout": json.loads(layout_json(LAYOUT).data),
    "findings": json.loads(findings_json(LAYOUT.recipe, FINDINGS).data),
    "manifest": json.loads(manifest(LAYOUT.recipe, FINDINGS, FILES, ("holes A1 and A2 touch",)).data),
}


def keys(value: Any, table: str, path: str = "") -> Iterator[tuple[str, str]]:
    """(table, key) of everything in a file, with [] for the items of a list."""
    part = next((name for ending, name in PARTS.items() if path.endswith(ending)), None)
    if part is not None and path:
        yield table, path
        table, path = part, ""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from keys(inner, table, f"{path}.{key}" if path else key)
    elif isinstance(value, list) and any(isinstance(item, dict) for item in value):
        for item in value:
            yield from keys(item, table, f"{path}[]")
    elif path and value != []:
        yield table, path


def documented() -> set[tuple[str, str]]:
    """(table, key) of every row of keys.csv."""
    text = resources.files("clampwright.files").joinpath("keys.csv").read_text("utf-8")
    return {(row["file"], row["key"]) for row in csv.DictReader(text.splitlines()) if row["about"]}


def test_every_key_is_described_and_every_description_is_of_a_key() -> None:
    found = {key for table, value in LOADED.items() for key in keys(value, table)}
    free = {("manifest", "versions.*"): "versions.", ("manifest", "files[].facts.*"): "files[].facts."}
    plain = {
        k for k in found if not any(k[0] == t and k[1].startswith(start) for (t, _), start in free.items())
    }
    assert plain == documented() - set(free)


def test_numbers_carry_their_unit_in_the_key() -> None:
    bare = {
        "count",
        "quantity",
        "dash",
        "turn",
        "format_version",
        "bytes",
        "threads_in_stack",
        "threads_showing",
    }
    bare |= {"u", "v", "n", "axis", "bolt_axis", "value", "limit", *LOADED["manifest"]["count"]}
    units = ("_mm", "_mm2", "_mm3", "_deg", "_degc", "_kg", "_n_m")

    def walk(value: Any, key: str) -> None:
        if isinstance(value, dict):
            for inner_key, inner in value.items():
                walk(inner, inner_key)
        elif isinstance(value, list):
            for item in value:
                walk(item, key)
        elif isinstance(value, int | float) and not isinstance(value, bool):
            assert key.endswith(units) or key in bare, key

    for table in ("layout", "findings"):
        walk(LOADED[table], "")


def test_layout_comes_back() -> None:
    layout = LOADED["layout"]
    assert layout["frame"]["origin_mm"] == [400.0, -120.0, 250.0]
    assert layout["frame"]["n"] == pytest.approx(FRAME.n, abs=1e-9)
    assert (layout["plate"]["width_mm"], layout["plate"]["height_mm"]) == (WIDTH, HEIGHT)
    holes = {hole["label"]: hole for hole in layout["holes"]}
    for hole in LAYOUT.holes:
        assert holes[hole.label]["at_mm"] == pytest.approx(hole.at, abs=1e-6)
        assert holes[hole.label]["diameter_mm"] == pytest.approx(hole.diameter_mm, abs=1e-6)
    cut = sum(math.pi / 4 * h["diameter_mm"] ** 2 for h in layout["holes"])
    volume = (layout["plate"]["outline_area_mm2"] - cut) * THICKNESS
    assert layout["plate"]["volume_mm3"] == pytest.approx(volume, rel=1e-7)
    assert layout["components"][1]["turn_deg"] == 90.0
    assert layout["clamps"][2]["packing"][0]["thickness_mm"] == 12.7


def test_hole_of_each_clamp_follows_from_the_file_alone() -> None:
    """centre + turn * reach * (bolt_axis x axis), moved into the part's frame, is the hole."""
    frame = LOADED["layout"]["frame"]
    for clamp in LOADED["layout"]["clamps"]:
        m, a = clamp["bolt_axis"], clamp["axis"]
        aside = (m[1] * a[2] - m[2] * a[1], m[2] * a[0] - m[0] * a[2], m[0] * a[1] - m[1] * a[0])
        foot = [
            c + clamp["turn"] * clamp["reach_mm"] * s for c, s in zip(clamp["centre_mm"], aside, strict=True)
        ]
        off = [f - o for f, o in zip(foot, frame["origin_mm"], strict=True)]
        place = [sum(x * y for x, y in zip(off, frame[axis], strict=True)) for axis in ("u", "v")]
        assert place == pytest.approx(clamp["at_exact_mm"], abs=1e-5)


def test_how_sure_each_clamp_is_comes_back() -> None:
    layout = LOADED["layout"]
    found = {each["clamp"]: each for each in layout["known_to"]}
    assert set(found) == {clamp["label"] for clamp in layout["clamps"]}
    for each in KNOWN:
        said = found[each.clamp]
        assert said["station_plus_minus_mm"] == each.station_mm
        assert said["across_plus_minus_mm"] == each.across_mm
        assert said["gap_plus_minus_mm"] == each.gap_mm
        assert (said["given"], said["most_from"]) == (each.given, each.most_from)
    measuring = LAYOUT.recipe.measuring
    assert layout["known_from"] == {"survey": None, "error_mm": measuring.error_mm, "given": measuring.given}


def test_a_survey_is_named_instead_of_the_recipe_s_error() -> None:
    sure = Uncertainty((), (), "tape survey oddlark-mount, 31 measurements")
    structure = replace(LAYOUT.recipe.structure, uncertainty=sure)
    layout = replace(LAYOUT, recipe=replace(LAYOUT.recipe, structure=structure))
    said = json.loads(layout_json(layout).data)["known_from"]
    assert said == {"survey": sure.said, "error_mm": None, "given": True}


def test_stations_stand_from_the_start_and_from_the_mark() -> None:
    structure = LAYOUT.recipe.structure
    first, *rest = structure.tubes
    structure = replace(structure, tubes=(replace(first, mark_mm=33.0), *rest))
    layout = replace(LAYOUT, recipe=replace(LAYOUT.recipe, structure=structure))
    data = json.loads(layout_json(layout).data)
    assert [tube["mark_mm"] for tube in data["tubes"]] == [33.0, *(None for _ in rest)]
    marked = [clamp for clamp in data["clamps"] if clamp["tube"] == first.name]
    assert marked
    for clamp in data["clamps"]:
        off = clamp["station_from_mark_mm"]
        assert (off is None) == (clamp not in marked)
        assert off is None or off == pytest.approx(clamp["station_mm"] - 33.0)


def test_findings_come_with_the_sources_they_rest_on() -> None:
    found = LOADED["findings"]
    assert found["verdict"] == "fail"
    assert found["count"] == {"fail": 1, "unknown": 1, "caution": 0, "pass": 2}
    assert [f["code"] for f in found["findings"]] == ["CUT-1", "CUT-3", "EDGE-1", "CLAMP-5"]
    listed = {source["key"]: source["status"] for source in found["sources"]}
    assert listed["edge-1-5d"] == "memory"
    assert set(listed) == {key for f in FINDINGS for key in f.sources}


def test_unknown_is_never_dressed_up_as_a_pass() -> None:
    assert json.loads(findings_json(LAYOUT.recipe, (UNSURE,)).data)["verdict"] == "unknown"


def test_manifest_lists_every_file_with_its_hash_and_no_time() -> None:
    found = LOADED["manifest"]
    assert [(f["name"], f["bytes"]) for f in found["files"]] == [("a.step", 3), ("b.stl", 1)]
    # FIPS 180-2 appendix B.1, SHA-256 of "abc" (from memory).
    abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert found["files"][0]["sha256"] == abc
    assert found["files"][1]["facts"] == {"volume_mm3": 1.234568, "triangles": 3, "watertight": "yes"}
    assert found["made_by"] == "clampwright"
    assert set(found["versions"]) == {"clampwright", *LIBRARIES, "zlib"}
    assert "not installed" not in found["versions"].values()
    assert "time" not in json.dumps(found).lower().replace("times", "")


def test_order_of_writing_does_not_matter() -> None:
    assert (
        manifest(LAYOUT.recipe, FINDINGS, FILES).data == manifest(LAYOUT.recipe, FINDINGS, FILES[::-1]).data
    )


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_json_has_no_number_for_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="no place"):
        number(value)
    with pytest.raises(ValueError, match="JSON"):
        json_bytes({"value": value})


@given(st.floats(-1e6, 1e6))
def test_numbers_come_back_within_half_a_millionth(value: float) -> None:
    shown = number(value)
    assert shown is not None
    assert abs(shown - value) <= 0.5e-6 + 1e-9
    assert json.loads(json_bytes({"v": shown}))["v"] == shown
    assert b"-0.0" not in json_bytes({"v": number(-abs(value) * 1e-20)})


@given(st.integers(1, 2000))
def test_every_sixty_fourth_of_an_inch_is_exact(count: int) -> None:
    assert number(count * 25.4 / 64) == round(count * 396875) / 1e6
