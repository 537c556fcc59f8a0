"""Part files of a component on bushings and of stand-offs: names, facts, read back by gmsh and trimesh."""

from __future__ import annotations

import io
import math
from functools import cache
from pathlib import Path

import pytest
import trimesh
from files.gmsh_reader import solids_in_step
from solids.joined.hand_component import hand_component
from solids.joined.pairs import stand_off

from clampwright.files.joined_parts import joined_part_files
from clampwright.files.safe_names import safe_name
from clampwright.files.written import Written
from clampwright.layout.bushing_parts import bushing_volume_mm3
from clampwright.layout.cut_long import as_first_made
from clampwright.layout.joined import Joined
from clampwright.solids.body import COLOURS
from clampwright.solids.joined_assembly import joined_assembly

LAYOUTS: dict[str, Joined] = {
    "component": hand_component(),
    "skew": stand_off("skew"),
    "panel": stand_off("panel"),
}


@cache
def files(name: str, verdict: str = "pass") -> dict[str, Written]:
    """Part files of a layout by name."""
    layout = LAYOUTS[name]
    return {file.name: file for file in joined_part_files(layout, joined_assembly(layout), verdict)}


@pytest.mark.parametrize("name", LAYOUTS)
def test_one_step_and_one_stl_a_mark_and_the_assembly_last(name: str) -> None:
    marks = [part.mark for part in as_first_made(LAYOUTS[name])]
    wanted = [f"by-hand-bushing-{mark}.{ext}" for mark in marks for ext in ("step", "stl")]
    assert list(files(name)) == [*wanted, "by-hand-assembly.step"]
    assert all(safe_name(file) == file for file in files(name))


@pytest.mark.parametrize("name", LAYOUTS)
def test_volumes_of_step_and_stl_are_the_closed_form(name: str, tmp_path: Path) -> None:
    """STEP by gmsh within 1e-6; STL by trimesh within what its chords of 0.01 mm cut off.

    A piece that is left long is as long as a shop first makes it.
    """
    for part in as_first_made(LAYOUTS[name]):
        wanted = bushing_volume_mm3(part.length_mm, part.od_mm, part.id_mm, part.chamfer_mm)
        path = tmp_path / f"{part.mark}.step"
        path.write_bytes(files(name)[f"by-hand-bushing-{part.mark}.step"].data)
        (solid,) = solids_in_step(path)
        assert solid["volume"] == pytest.approx(wanted, rel=1e-6)
        assert "#" + bytes(solid["colour"]).hex() == COLOURS["bushing"]
        assert solid["name"] == f"Shapes/bushing {part.mark}, {part.material}"
        mesh = trimesh.load_mesh(
            io.BytesIO(files(name)[f"by-hand-bushing-{part.mark}.stl"].data), file_type="stl"
        )
        assert mesh.is_watertight
        off = 0.01 * math.pi * (part.od_mm + part.id_mm) * part.length_mm
        assert abs(mesh.volume - wanted) <= off
        assert mesh.extents == pytest.approx((part.od_mm, part.od_mm, part.length_mm), abs=0.02)


@pytest.mark.parametrize("name", LAYOUTS)
def test_the_assembly_read_back_has_every_body_in_its_colour(name: str, tmp_path: Path) -> None:
    path = tmp_path / "assembly.step"
    path.write_bytes(files(name)["by-hand-assembly.step"].data)
    read = {solid["name"].split("/")[-2]: solid for solid in solids_in_step(path)}
    bodies = {body.name: body for body in joined_assembly(LAYOUTS[name])}
    assert set(read) == set(bodies)
    for body in bodies.values():
        assert "#" + bytes(read[body.name]["colour"]).hex() == body.colour
        assert read[body.name]["volume"] == pytest.approx(body.shape.Volume(), rel=1e-6)


def test_about_says_size_material_count_and_where() -> None:
    about = files("component")["by-hand-bushing-S2.step"].about
    assert about == "Bushing S2, 11.1125 x 5.0165 x 14 mm, 6061-T6, 2 off, for A1 A2"
    assert b"11.1125 x 5.0165 x 14 mm" in files("component")["by-hand-bushing-S2.step"].data


def test_a_failing_verdict_stands_inside_every_file() -> None:
    for file in files("component", "fail").values():
        assert "DO NOT MAKE" in file.about
        assert file.name.endswith(".stl") or b"DO NOT MAKE" in file.data


def test_the_same_bytes_again() -> None:
    layout = LAYOUTS["component"]
    again = {f.name: f.data for f in joined_part_files(layout, joined_assembly(layout))}
    assert again == {name: file.data for name, file in files("component").items()}
