"""3MF read back by lib3mf in strict mode; volumes against closed forms within the chord error."""

from __future__ import annotations

import io
import math
import os
import re
import subprocess
import sys
import zipfile
from dataclasses import replace
from pathlib import Path
from typing import Any

import lib3mf
import numpy as np
import pytest
import trimesh
from files.shop_examples import EXAMPLES, example
from solids.hand_layout import hand_layout

from clampwright.files import mesh_of
from clampwright.files.fit_check import fit_check_files, to_print
from clampwright.files.stl import NotWatertight
from clampwright.files.three_mf import ToPrint, side_by_side, three_mf
from clampwright.files.written import Written
from clampwright.layout.bushing_parts import chamfer_made
from clampwright.layout.cut_long import as_marked
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.solids.assembly import assembly
from clampwright.solids.measure import volume_mm3

CHORDS = (0.2, 0.05, 0.01)
HASHES = """
from files.test_three_mf import made
print("\\n".join(f"{file.name} {file.sha256}" for file in made("coil-plate")))
"""


def made(name: str) -> list[Written]:
    """The fit check files of an example."""
    return list(fit_check_files(*example(name)))


def strictly(data: bytes) -> Any:
    """The model as lib3mf reads it; nothing may be warned of."""
    wrapper = lib3mf.get_wrapper()
    model = wrapper.CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromBuffer(data)
    assert reader.GetWarningCount() == 0
    assert model.GetUnit() == lib3mf.ModelUnit.MilliMeter
    return model


def each(iterator: Any, current: str) -> list[Any]:
    """What an iterator of lib3mf runs over."""
    found = []
    while iterator.MoveNext():
        found.append(getattr(iterator, current)())
    return found


def meshes(model: Any) -> dict[str, tuple[np.ndarray, np.ndarray, Any]]:
    """Corners and triangles of every object by its name."""
    found = {}
    for mesh in each(model.GetMeshObjects(), "GetCurrentMeshObject"):
        assert mesh.IsManifoldAndOriented()
        corners = np.array([list(point.Coordinates) for point in mesh.GetVertices()], dtype=float)
        triangles = np.array([list(t.Indices) for t in mesh.GetTriangleIndices()], dtype=int)
        found[mesh.GetName()] = (corners, triangles, mesh)
    return found


def volume(corners: np.ndarray, triangles: np.ndarray) -> float:
    a, b, c = (corners[triangles[:, k]] for k in range(3))
    return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6)


def closed_forms(name: str) -> dict[str, tuple[float, float]]:
    """Volume, and area of the round walls, of every part of an example."""
    layout, _ = example(name)
    found = {}
    for part in flat_parts(layout):
        t = part.thickness_mm
        area = part.outline.area_mm2() - math.fsum(math.pi / 4 * h.diameter_mm**2 for h in part.holes)
        arcs = math.fsum(p.length_mm for p in part.outline.pieces if hasattr(p, "centre"))
        found[part.number] = (area * t, t * (math.pi * sum(h.diameter_mm for h in part.holes) + arcs))
    for bushing in as_marked(layout):
        big, small, c = bushing.od_mm / 2, bushing.id_mm / 2, chamfer_made(bushing)
        length = bushing.length_mm
        worth = math.pi * ((big**2 - small**2) * length - 2 * c**2 * (big + small))
        walls = 2 * math.pi * (big + small) * (length - 2 * c)
        cones = 2 * math.pi * c * math.sqrt(2) * ((2 * big - c) + (2 * small + c))
        found[f"{name}-bushing-{bushing.mark}"] = (worth, walls + cones)
    return found


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_example_in_lib3mf(name: str) -> None:
    files = made(name)
    wanted = closed_forms(name)
    if not wanted:
        assert files == []
        return
    layout, _ = example(name)
    chord = layout.recipe.shop.chord_error_mm
    (file,) = (f for f in files if f.name.endswith(".3mf"))
    found = meshes(strictly(file.data))
    assert set(found) == set(wanted)
    for part, (corners, triangles, _mesh) in found.items():
        true, walls = wanted[part]
        assert abs(volume(corners, triangles) - true) <= chord * walls
        assert corners.min(axis=0) == pytest.approx([0, 0, 0], abs=1e-6)
    facts = dict(file.facts)
    assert facts["chord_error_mm"] == chord
    copies = {f"{name}-bushing-{b.mark}": b.quantity for b in as_marked(layout)}
    total = sum(volume(c, t) * copies.get(part, 1) for part, (c, t, _) in found.items())
    assert facts["volume_mm3"] == pytest.approx(total, rel=1e-6)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_stl_holds_its_part_within_the_chord_error(name: str) -> None:
    wanted = closed_forms(name)
    files = {f.name.removesuffix("-fit-check.stl"): f for f in made(name) if f.name.endswith(".stl")}
    assert set(files) == set(wanted)
    for part, file in files.items():
        mesh = trimesh.load_mesh(io.BytesIO(file.data), file_type="stl")
        true, walls = wanted[part]
        assert mesh.is_watertight
        assert abs(mesh.volume - true) <= dict(file.facts)["chord_error_mm"] * walls
        assert b"chord error 0.05 mm" in file.data[:80]


@pytest.mark.parametrize("chord", CHORDS)
def test_the_chord_error_is_kept_and_used(chord: float) -> None:
    """Corners lie on the true walls, middles of flats within the error; a finer one takes more triangles."""
    (part, *_) = flat_parts(hand_layout())
    plate = to_print(hand_layout(), assembly(hand_layout()))[0]
    written = three_mf([plate], "plate", "a plate", chord)
    ((corners, triangles, _),) = meshes(strictly(written.data)).values()
    sides = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    middles = (corners[sides[:, 0]] + corners[sides[:, 1]]) / 2
    for hole in part.holes:
        radius = hole.diameter_mm / 2
        off = np.hypot(*(corners[:, :2] - hole.at).T)
        on = np.abs(off - radius) < 1e-4
        assert on.sum() >= 12
        rim = on[sides].all(axis=1)
        inward = radius - np.hypot(*(middles[rim][:, :2] - hole.at).T)
        assert inward.max() <= chord + 1e-4
    finer = three_mf([plate], "plate", "a plate", chord / 4)
    assert finer.triangles > written.triangles
    assert abs(finer.volumes_mm3[0][1] - volume_mm3(plate.body.shape)) < abs(
        written.volumes_mm3[0][1] - volume_mm3(plate.body.shape)
    )


def test_names_colours_copies_and_words() -> None:
    layout, bodies = example("coil-plate")
    (file,) = (f for f in fit_check_files(layout, bodies, "fail") if f.name.endswith(".3mf"))
    model = strictly(file.data)
    found = meshes(model)
    items = each(model.GetBuildItems(), "GetCurrent")
    pieces = [item.GetObjectResource().GetName() for item in items]
    copies = {f"coil-plate-bushing-{b.mark}": b.quantity for b in as_marked(layout)} | {"coil-plate-plate": 1}
    assert {name: pieces.count(name) for name in set(pieces)} == copies
    (group,) = each(model.GetBaseMaterialGroups(), "GetCurrentBaseMaterialGroup")
    colours = {group.GetName(k): group.GetDisplayColor(k) for k in group.GetAllPropertyIDs()}
    said = {name: (c.Red, c.Green, c.Blue) for name, c in colours.items()}
    assert said == {
        "plate, plastic for a fit check": (0x8F, 0xB3, 0xD9),
        "bushing, plastic for a fit check": (0xD9, 0xA4, 0x41),
    }
    assert found["coil-plate-plate"][2].GetPartNumber() == "coil-plate-plate"
    told = model.GetMetaDataGroup()
    words = {told.GetMetaData(k).GetName(): told.GetMetaData(k).GetValue() for k in range(3)}
    assert words["Title"] == "coil-plate, fit check"
    assert "DO NOT MAKE" in words["Description"]
    assert "Chord error 0.05 mm" in words["Description"]
    assert re.search(r"coil-plate-plate 492\d\d\.\d\d mm3", words["Description"])


def test_pieces_lie_flat_beside_each_other() -> None:
    layout, bodies = example("coil-plate")
    (file,) = (f for f in fit_check_files(layout, bodies) if f.name.endswith(".3mf"))
    model = strictly(file.data)
    solids = {name: trimesh.Trimesh(c, t, process=False) for name, (c, t, _) in meshes(model).items()}
    assert all(solid.is_watertight and solid.volume > 0 for solid in solids.values())
    boxes = []
    for item in each(model.GetBuildItems(), "GetCurrent"):
        fields = np.array([list(row) for row in item.GetObjectTransform().Fields])
        assert fields[:3] == pytest.approx(np.eye(3))
        boxes.append(solids[item.GetObjectResource().GetName()].bounds + fields[3])
    assert len(boxes) == 1 + sum(part.quantity for part in as_marked(layout))
    assert all(low[2] == pytest.approx(0, abs=1e-6) and min(low) > -1e-6 for low, _ in boxes)
    for k, (low, high) in enumerate(boxes):
        for low2, high2 in boxes[:k]:
            gaps = np.maximum(low[:2] - high2[:2], low2[:2] - high[:2])
            assert gaps.max() >= 5 - 1e-6


def test_rows_are_no_wider_than_a_bed_unless_a_part_is() -> None:
    places = side_by_side([(90.0, 30.0)] * 5 + [(300.0, 20.0), (10.0, 10.0)])
    assert places == [(0, 0), (95, 0), (0, 35), (95, 35), (0, 70), (0, 105), (0, 130)]


def test_the_package_is_plain_and_without_dates() -> None:
    (file,) = (f for f in made("coil-plate") if f.name.endswith(".3mf"))
    with zipfile.ZipFile(io.BytesIO(file.data)) as package:
        assert package.testzip() is None
        assert package.namelist() == ["[Content_Types].xml", "_rels/.rels", "3D/3dmodel.model"]
        assert {info.date_time for info in package.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert not re.search(rb"20\d\d-\d\d-\d\d", package.read("3D/3dmodel.model").split(b"<resources>")[0])


def test_any_name_survives() -> None:
    plate = to_print(hand_layout(), assembly(hand_layout()))[0]
    name = "Ölkühler <\"'&> \x07"
    body = replace(plate.body, name=name, product=name)
    found = meshes(strictly(three_mf([ToPrint(body)], name, name, 0.1).data))
    assert list(found) == [name.replace("\x07", " ")]


def test_a_gap_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = mesh_of.corners_of
    monkeypatch.setattr(mesh_of, "corners_of", lambda data: whole(data)[1:])
    plate = to_print(hand_layout(), assembly(hand_layout()))[0]
    with pytest.raises(NotWatertight):
        three_mf([plate], "plate", "a plate", 0.1)


@pytest.mark.parametrize("seed", ["1", "77"])
def test_every_process_writes_the_same_bytes(seed: str) -> None:
    run = subprocess.run(
        [sys.executable, "-c", HASHES],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parent.parent,
        env={**os.environ, "PYTHONHASHSEED": seed},
    )
    assert run.stdout.split("\n")[:-1] == [f"{file.name} {file.sha256}" for file in made("coil-plate")]
