"""A whole build into a folder whose name has spaces and letters of several scripts."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

import pytest

from clampwright.make import build_recipe

EXAMPLE = Path(__file__).parents[2] / "recipes" / "two-tube-minimum.toml"


def test_every_file_arrives_as_its_manifest_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    scratch = tmp_path / "zwischen ablage é"
    scratch.mkdir()
    monkeypatch.setattr("tempfile.tempdir", str(scratch))
    built = build_recipe(EXAMPLE, tmp_path / "öut dir ж 漢" / "in it")
    listed = json.loads((built.folder / "manifest.json").read_bytes())["files"]
    assert {file["name"] for file in listed} | {"manifest.json"} == {p.name for p in built.folder.iterdir()}
    for file in listed:
        assert hashlib.sha256((built.folder / file["name"]).read_bytes()).hexdigest() == file["sha256"]
    assert not list(scratch.iterdir())
