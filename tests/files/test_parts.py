"""All part files together: names, facts, and the same bytes from every process."""

from __future__ import annotations

import hashlib
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from solids.hand_layout import hand_layout, without_packing

from clampwright.files.findings_json import findings_json
from clampwright.files.hardware_csv import hardware_csv
from clampwright.files.layout_json import layout_json
from clampwright.files.manifest import manifest
from clampwright.files.parts import part_files
from clampwright.files.safe_names import safe_name
from clampwright.files.written import Written
from clampwright.solids.assembly import assembly

HASHES = """
from files.test_parts import everything
for file in everything(): print(file.name, file.sha256)
"""


def everything() -> tuple[Written, ...]:
    """Every file this folder's writers make of the hand layout, the manifest last."""
    layout = hand_layout()
    parts = tuple(part_files(layout, assembly(layout)))
    records = (hardware_csv(layout), layout_json(layout), findings_json(layout.recipe, ()))
    return (*parts, *records, manifest(layout.recipe, (), (*parts, *records)))


FILES = {file.name: file for file in everything()}


def test_names() -> None:
    assert set(FILES) == {
        "coil-plate.step",
        "coil-plate.stl",
        "coil-plate-bushing-S1.step",
        "coil-plate-bushing-S1.stl",
        "coil-plate-assembly.step",
        "coil-plate-cut.dxf",
        "coil-plate-cut-pilots.dxf",
        "coil-plate-marks.dxf",
        "coil-plate-hardware.csv",
        "coil-plate-layout.json",
        "coil-plate-findings.json",
        "manifest.json",
    }
    assert all(safe_name(name) == name for name in FILES)


def test_a_layout_without_packing_has_no_bushing_files() -> None:
    layout = without_packing()
    assert not any("bushing" in file.name for file in part_files(layout, assembly(layout)))


def test_facts_state_volume_and_chord_error() -> None:
    solid, mesh = dict(FILES["coil-plate.step"].facts), dict(FILES["coil-plate.stl"].facts)
    assert mesh["volume_of_solid_mm3"] == solid["volume_mm3"]
    assert mesh["volume_mm3"] == pytest.approx(solid["volume_mm3"], rel=1e-3)
    assert mesh["chord_error_mm"] == 0.01
    assert mesh["triangles"] == (len(FILES["coil-plate.stl"].data) - 84) // 50


def test_a_failing_verdict_stands_inside_every_part_file_that_has_words() -> None:
    layout = hand_layout()
    for file in part_files(layout, assembly(layout), "fail"):
        assert "DO NOT MAKE" in file.about
        if not file.name.endswith(".stl"):
            assert b"DO NOT MAKE" in file.data


@pytest.mark.parametrize("seed", ["1", "77"])
def test_the_same_bytes_from_another_process(seed: str, tmp_path: Path) -> None:
    """With another hash seed, time zone and working folder; the same code from the same places."""
    tests = str(Path(__file__).parents[1])
    searched = os.pathsep.join([tests, *(str(Path(place).resolve()) for place in sys.path)])
    env = {**os.environ, "PYTHONHASHSEED": seed, "TZ": "Pacific/Auckland", "PYTHONPATH": searched}
    run = subprocess.run(
        [sys.executable, "-c", HASHES], capture_output=True, text=True, check=True, env=env, cwd=tmp_path
    )
    found = dict(re.findall(r"^(\S+) ([0-9a-f]{64})$", run.stdout, re.MULTILINE))
    assert found == {name: hashlib.sha256(file.data).hexdigest() for name, file in FILES.items()}
    assert run.stdout.count("\n") == len(FILES), "the kernel or a library printed something"


def test_the_same_bytes_again_in_this_process() -> None:
    assert {file.name: file.data for file in everything()} == {n: f.data for n, f in FILES.items()}
