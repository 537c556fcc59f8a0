"""STEP of every example's made parts, by both protocols, in two other builds of the kernel and as a document.

Volumes and areas are closed forms: plane geometry of plates, Pappus and the cone's mantle for bushings.
"""

from __future__ import annotations

import hashlib
import math
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from files.shop_examples import EXAMPLES, example
from files.step_readers import in_document, in_gmsh, in_netgen

from clampwright.files.exchange import flat_exchange, made_bodies, made_parts_exchange, turned_exchange
from clampwright.files.part21 import read_part21, refuse_bad_part21
from clampwright.files.written import Written
from clampwright.layout.outline import Outline
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.layout.shop.told import FlatPart, TurnedGroup
from clampwright.layout.shop.turned import turned
from clampwright.solids.body import COLOURS

HASHES = """
from files.test_exchange_files import hashes
print("\\n".join(hashes("two-tube-minimum")))
"""
SCHEMAS = {
    "ap242": "AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF { 1 0 10303 442 1 1 4 }",
    "ap214": "AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }",
}


def files_of(name: str) -> Iterator[Written]:
    """Every STEP of an example."""
    layout, bodies = example(name)
    yield from exchange_files(layout, bodies)


def exchange_files(layout: Any, bodies: Any, verdict: str = "pass") -> Iterator[Written]:
    """STEP of each part of a layout as its drawing tells it, then of the made parts where they sit."""
    for part in flat_parts(layout):
        yield from flat_exchange(part, bodies, verdict)
    for group in turned([layout]):
        yield from turned_exchange(group, f"{layout.recipe.name}-{group.number}", verdict)
    yield from made_parts_exchange(layout, bodies, verdict)


def hashes(name: str) -> list[str]:
    """Name and hash of each."""
    return [f"{file.name} {hashlib.sha256(file.data).hexdigest()}" for file in files_of(name)]


@pytest.fixture(scope="module")
def read(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, Any]]:
    """Every file by name: its path, and what the two other builds read in it."""
    folder = tmp_path_factory.mktemp("step")
    paths = []
    for name in EXAMPLES:
        for file in files_of(name):
            paths.append(folder / file.name)
            paths[-1].write_bytes(file.data)
    gmsh, netgen = in_gmsh(paths), in_netgen(paths)
    return {
        path.name: {"path": path, "gmsh": a, "netgen": b}
        for path, a, b in zip(paths, gmsh, netgen, strict=True)
    }


def outline_length(outline: Outline) -> float:
    return math.fsum(piece.length_mm for piece in outline.pieces)


def closed_form(part: FlatPart | TurnedGroup) -> tuple[float, float]:
    """Volume and area."""
    if isinstance(part, FlatPart):
        t, holes = part.thickness_mm, [hole.diameter_mm for hole in part.holes]
        face = part.outline.area_mm2() - math.fsum(math.pi / 4 * d * d for d in holes)
        rim = outline_length(part.outline) + math.pi * math.fsum(holes)
        return face * t, 2 * face + rim * t
    big, small, c, length = part.od_mm / 2, part.bore_mm / 2, part.chamfer_mm, part.length_mm
    volume = math.pi * ((big**2 - small**2) * length - 2 * c**2 * (big + small))
    mantles = 2 * math.pi * (big + small) * (length - 2 * c)
    ends = 2 * math.pi * ((big - c) ** 2 - (small + c) ** 2)
    cones = 2 * math.pi * c * math.sqrt(2) * ((2 * big - c) + (2 * small + c))
    return volume, mantles + ends + cones


def parts_of(name: str) -> dict[str, FlatPart | TurnedGroup]:
    layout, _ = example(name)
    flat = {part.number: part for part in flat_parts(layout)}
    return flat | {f"{name}-{group.number}": group for group in turned([layout])}


def test_there_are_plates_and_bushings_among_the_examples() -> None:
    kinds = {type(part) for name in EXAMPLES for part in parts_of(name).values()}
    assert kinds == {FlatPart, TurnedGroup}
    assert len(EXAMPLES) >= 7


@pytest.mark.parametrize("schema", SCHEMAS)
@pytest.mark.parametrize("name", EXAMPLES)
def test_volume_area_and_box_of_each_part(name: str, schema: str, read: dict[str, dict[str, Any]]) -> None:
    for stem, part in parts_of(name).items():
        found = read[f"{stem}-{schema}.step"]
        volume, area = closed_form(part)
        (solid,) = found["gmsh"]["solids"]
        assert solid["volume"] == pytest.approx(volume, rel=1e-9)
        assert found["gmsh"]["area"] == pytest.approx(area, rel=1e-9)
        assert found["netgen"]["volumes"] == [pytest.approx(volume, rel=1e-9)]
        assert found["netgen"]["area"] == pytest.approx(area, rel=1e-9)
        if isinstance(part, FlatPart):
            left, bottom, right, top = part.outline.box()
            box = [left, bottom, 0.0, right, top, part.thickness_mm]
        else:
            r = part.od_mm / 2
            box = [-r, -r, 0.0, r, r, part.length_mm]
        assert solid["box"] == pytest.approx(box, abs=1e-6)
        assert found["netgen"]["box"] == pytest.approx(box, abs=1e-6)


@pytest.mark.parametrize("schema", SCHEMAS)
@pytest.mark.parametrize("name", EXAMPLES)
def test_holes_are_whole_cylinders_without_a_face_too_many(
    name: str, schema: str, read: dict[str, dict[str, Any]]
) -> None:
    for stem, part in parts_of(name).items():
        found = read[f"{stem}-{schema}.step"]
        (solid,) = found["gmsh"]["solids"]
        if isinstance(part, FlatPart):
            wanted = [(*hole.at, hole.diameter_mm) for hole in part.holes]
            faces = 2 + len(part.outline.pieces) + len(part.holes)
        else:
            wanted, faces = [(0.0, 0.0, part.bore_mm)], 8
        assert (solid["faces"], found["netgen"]["faces"]) == (faces, faces)
        rims = [(c["centre"], c["radius"]) for c in solid["circles"] if c["whole"]]
        for x, y, diameter in wanted:
            on = [z for (cx, cy, z), r in rims if math.dist((cx, cy, r), (x, y, diameter / 2)) < 1e-6]
            assert len(on) == 2
            depth = part.thickness_mm if isinstance(part, FlatPart) else part.length_mm - 2 * part.chamfer_mm
            assert max(on) - min(on) == pytest.approx(depth, abs=1e-6)
        if isinstance(part, FlatPart):
            assert len(rims) == 2 * len(part.holes)


@pytest.mark.parametrize("schema", SCHEMAS)
@pytest.mark.parametrize("name", EXAMPLES)
def test_name_colour_material_and_schema_of_each_part(
    name: str, schema: str, read: dict[str, dict[str, Any]]
) -> None:
    for stem, part in parts_of(name).items():
        path = read[f"{stem}-{schema}.step"]["path"]
        products, pieces = in_document(path)
        assert pieces == {}
        (found,) = products.values()
        role = "plate" if isinstance(part, FlatPart) else "bushing"
        material = part.material.name if isinstance(part, FlatPart) else part.material
        assert (found.name, found.colour, found.material) == (stem, COLOURS[role], material)
        if isinstance(part, FlatPart):
            assert found.density_kg_m3 == pytest.approx(part.material.density_kg_m3, rel=1e-6)
        file = read_part21(path.read_bytes())
        refuse_bad_part21(file)
        assert file.header["FILE_SCHEMA"] == ((SCHEMAS[schema],),)
        digests = {part.digest} if isinstance(part, FlatPart) else {b.digest for b in part.belongs}
        (formation,) = (record for _, record in file.of_kind("PRODUCT_DEFINITION_FORMATION"))
        assert formation.arguments[0] == " ".join(digests)


@pytest.mark.parametrize("schema", SCHEMAS)
@pytest.mark.parametrize("name", EXAMPLES)
def test_made_parts_are_an_assembly_of_named_pieces(
    name: str, schema: str, read: dict[str, dict[str, Any]]
) -> None:
    layout, bodies = example(name)
    made = made_bodies(layout, bodies)
    if not made:
        assert f"{name}-made-parts-{schema}.step" not in read
        return
    found = read[f"{name}-made-parts-{schema}.step"]
    products, pieces = in_document(found["path"])
    title = f"{name} made parts"
    assert pieces == {title: [body.name for body in made]}
    assert set(products) == {title} | {solid["name"].split("/")[-1] for solid in found["gmsh"]["solids"]}
    assert all(product.material for product in products.values() if not product.assembly)
    bushings = sum(part.quantity for part in layout.bushings)
    assert len(found["netgen"]["volumes"]) == len(made) == bushings + len(flat_parts(layout))


def test_the_kernel_s_own_choice_of_protocol_gives_the_same_data_section() -> None:
    """Set as the kernel asks for it: after a writer is there; and put back."""
    from OCP.Interface import Interface_Static
    from OCP.STEPControl import STEPControl_Writer

    layout, bodies = example("two-tube-minimum")
    ours = {f.name: f.data for f in exchange_files(layout, bodies) if "plate" in f.name}
    STEPControl_Writer()
    was = Interface_Static.CVal_s("write.step.schema")
    try:
        assert Interface_Static.SetCVal_s("write.step.schema", "AP242DIS")
        theirs = {f.name: f.data for f in exchange_files(layout, bodies) if "plate" in f.name}
    finally:
        Interface_Static.SetCVal_s("write.step.schema", was)
    assert theirs == ours


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
    assert run.stdout.split("\n")[:-1] == hashes("two-tube-minimum")


def test_a_failing_verdict_stands_in_every_file() -> None:
    layout, bodies = example("two-tube-minimum")
    files = list(exchange_files(layout, bodies, "fail"))
    assert len(files) == 8
    assert all(b"DO NOT MAKE" in file.data.split(b"ENDSEC;")[0] for file in files)
