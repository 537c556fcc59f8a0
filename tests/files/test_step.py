"""STEP files read back by gmsh's own build of the kernel, and their text by eye's rules (ISO 10303-21)."""

from __future__ import annotations

import math
import re
from collections import Counter
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from files.gmsh_reader import solids_in_step
from solids.hand_layout import (
    BUSHING,
    CLAMP_HOLES,
    CORNER,
    FRAME,
    HEIGHT,
    LOOP,
    THICKNESS,
    WIDTH,
    hand_layout,
    to_world,
)

from clampwright.files.step import as_part21, step_assembly, step_part
from clampwright.layout.bushing_parts import bushing_volume_mm3
from clampwright.solids.assembly import assembly, part
from clampwright.solids.body import COLOURS, Body
from clampwright.solids.bushing import bushing_body
from clampwright.solids.measure import volume_mm3
from clampwright.solids.place import Place
from clampwright.solids.shapes import ring

LAYOUT = hand_layout()
PLATE = step_part(part(LAYOUT), "coil-plate.step", "Plate")
BODIES = assembly(LAYOUT)
WHOLE = step_assembly(BODIES, "coil-plate assembly", "coil-plate-assembly.step", "Assembly")


def read_back(data: bytes, folder: Path) -> list[dict[str, Any]]:
    """The solids that the other reader finds."""
    path = folder / "written.step"
    path.write_bytes(data)
    return solids_in_step(path)


@pytest.fixture(scope="module")
def plate_read(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """The plate, as the other reader sees it."""
    (only,) = read_back(PLATE, tmp_path_factory.mktemp("plate"))
    return only


@pytest.fixture(scope="module")
def whole_read(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, Any]]:
    """The assembly's bodies by name, as the other reader sees them."""
    found = read_back(WHOLE, tmp_path_factory.mktemp("whole"))
    return {solid["name"].split("/")[-2]: solid for solid in found}


def test_plate_volume_is_the_closed_form(plate_read: dict[str, Any]) -> None:
    holes = math.fsum(math.pi / 4 * hole.diameter_mm**2 for hole in LAYOUT.holes)
    area = WIDTH * HEIGHT - (4 - math.pi) * CORNER**2 - holes
    assert plate_read["volume"] == pytest.approx(area * THICKNESS, rel=1e-9)


def test_plate_lies_in_its_own_frame(plate_read: dict[str, Any]) -> None:
    assert plate_read["box"] == pytest.approx((0, 0, 0, WIDTH, HEIGHT, THICKNESS), abs=1e-6)


def test_every_hole_is_one_cylinder_with_a_circle_on_each_face(plate_read: dict[str, Any]) -> None:
    assert plate_read["cylinders"] == len(LAYOUT.holes) + 4
    assert plate_read["faces"] == 2 + 4 + 4 + len(LAYOUT.holes)
    whole = [c for c in plate_read["circles"] if c["whole"]]
    assert len(whole) == 2 * len(LAYOUT.holes)
    for hole in LAYOUT.holes:
        for z in (0.0, THICKNESS):
            near = min(whole, key=lambda c: math.dist(c["centre"], (*hole.at, z)))
            assert math.dist(near["centre"], (*hole.at, z)) < 1e-6
            assert near["radius"] == pytest.approx(hole.diameter_mm / 2, abs=1e-6)


def test_corners_are_true_arcs(plate_read: dict[str, Any]) -> None:
    arcs = [c for c in plate_read["circles"] if not c["whole"]]
    assert len(arcs) == 8
    assert all(c["radius"] == pytest.approx(CORNER, abs=1e-6) for c in arcs)


def test_name_and_colour_of_the_plate(plate_read: dict[str, Any]) -> None:
    assert plate_read["name"] == "Shapes/plate coil-plate"
    assert "#" + bytes(plate_read["colour"]).hex() == COLOURS["plate"]


def test_bushing_is_an_annulus_of_its_length(tmp_path: Path) -> None:
    (made,) = LAYOUT.bushings
    (found,) = read_back(step_part(bushing_body(made), "b.step", "Bushing"), tmp_path)
    chamfers = bushing_volume_mm3(0.0, made.od_mm, made.id_mm, made.chamfer_mm)
    whole = math.pi / 4 * (made.od_mm**2 - made.id_mm**2) * BUSHING
    assert found["volume"] == pytest.approx(whole + chamfers, rel=1e-9)
    assert found["cylinders"] == 2
    assert found["box"][5] - found["box"][2] == pytest.approx(BUSHING, abs=1e-6)


def test_every_body_of_the_assembly_is_there_with_name_colour_and_volume(
    whole_read: dict[str, dict[str, Any]],
) -> None:
    assert set(whole_read) == {body.name for body in BODIES}
    for body in BODIES:
        found = whole_read[body.name]
        assert "#" + bytes(found["colour"]).hex() == body.colour
        assert found["volume"] == pytest.approx(volume_mm3(body.shape), rel=1e-6)
        assert found["name"].split("/")[-1] == body.product
        assert found["name"].split("/")[1] == "coil-plate assembly"


@pytest.mark.parametrize("label", CLAMP_HOLES)
def test_foot_hole_lies_on_the_plate_hole_s_axis_in_the_world(
    whole_read: dict[str, dict[str, Any]], label: str
) -> None:
    rims = [c for c in whole_read[f"clamp {label} band"]["circles"] if c["whole"]]
    foot = [c for c in rims if math.isclose(c["radius"], LOOP.foot_hole_mm / 2, abs_tol=1e-6)]
    assert len(foot) == 2
    at = to_world((*CLAMP_HOLES[label], 0.0))
    for rim in foot:
        off = np.cross(np.subtract(rim["centre"], at), FRAME.n)
        assert float(np.linalg.norm(off)) < 1e-6


def test_plate_in_the_assembly_stands_in_the_world(whole_read: dict[str, dict[str, Any]]) -> None:
    rims = [c["centre"] for c in whole_read["plate coil-plate"]["circles"] if c["whole"]]
    for hole in LAYOUT.holes:
        assert min(math.dist(c, to_world((*hole.at, 0.0))) for c in rims) < 1e-6


def test_equal_bodies_share_one_product() -> None:
    products = re.findall(r" = PRODUCT\('([^']*)'", WHOLE.decode("ascii"))
    assert Counter(products) == Counter({"coil-plate assembly", *(body.product for body in BODIES)})


def test_header_names_no_author_and_no_time() -> None:
    head = PLATE.decode("ascii").split("ENDSEC;")[0]
    assert "FILE_NAME('coil-plate.step','',(''),('')," in head
    assert "FILE_DESCRIPTION(('Plate'),'2;1');" in head
    assert "AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }" in head
    assert not re.search(r"\d{4}-\d\d-\d\d|T\d\d:\d\d", head)


def test_unit_is_the_millimetre() -> None:
    assert b"SI_UNIT(.MILLI.,.METRE.)" in PLATE
    assert b"CONVERSION_BASED_UNIT" not in PLATE


def test_the_same_bytes_again_and_after_other_files() -> None:
    assert step_assembly(BODIES, "other", "x", "y") != WHOLE
    again = step_assembly(
        assembly(hand_layout()), "coil-plate assembly", "coil-plate-assembly.step", "Assembly"
    )
    assert again == WHOLE
    assert step_part(part(hand_layout()), "coil-plate.step", "Plate") == PLATE


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("plain", "plain"),
        ("it's", "it''s"),
        ("a\\b", "a\\\\b"),
        ("Ölkühler", "\\X2\\00D6\\X0\\lk\\X2\\00FC\\X0\\hler"),
        ("\N{GEAR}\N{WRENCH}", "\\X4\\000026990001F527\\X0\\"),
        ("tab\there", "tab\\X2\\0009\\X0\\here"),
    ],
)
def test_strings_as_iso_10303_21_clause_6_4_3_writes_them(text: str, written: str) -> None:
    """Quotes and backslashes doubled; X2: four, X4: eight hexadecimal digits a character (from memory)."""
    assert as_part21(text) == written


@pytest.mark.parametrize("name", ["Ölkühler 'links'", "x" * 300, "a\\b @00001@ ; ENDSEC;", "relay;\n#1 = X"])
def test_any_name_survives_and_breaks_nothing(name: str, tmp_path: Path) -> None:
    body = Body(name, f"made of {name}", "component", ring(10.0, 4.0, 2.0), Place())
    data = step_assembly([body], name, name, name)
    data.decode("ascii")
    (found,) = read_back(data, tmp_path)
    assert found["volume"] == pytest.approx(math.pi / 4 * 84 * 2, rel=1e-9)
    product = as_part21(f"made of {name}")
    assert f"= PRODUCT('{product}','{product}'" in data.decode("ascii")
    assert f"NEXT_ASSEMBLY_USAGE_OCCURRENCE('1','{as_part21(name)}'" in data.decode("ascii")
    assert data.count(b" = PRODUCT(") == 2
