"""Flat patterns read back with ezdxf's reader and auditor, against the layout."""

from __future__ import annotations

import io
import math
from dataclasses import replace
from typing import Any

import ezdxf
import pytest
from ezdxf.math import bulge_to_arc
from solids.hand_layout import CORNER, HEIGHT, WIDTH, hand_layout

from clampwright.files.dxf import cut_dxf, marks_dxf
from clampwright.files.parts import flat_files, pilot_diameters
from clampwright.files.preflight import contour_of, faults_of
from clampwright.layout.outline import Arc, Outline
from clampwright.trade.holes import drill

LAYOUT = hand_layout()
CUT = cut_dxf(LAYOUT, "Plate")


def read(data: bytes) -> Any:
    """The document."""
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


def test_it_is_a_clean_r2010_file_in_millimetres() -> None:
    document = read(CUT)
    audit = document.audit()
    assert audit.errors == []
    assert audit.fixes == []
    assert document.dxfversion == "AC1024"
    assert document.units == ezdxf.units.MM
    assert document.header["$MEASUREMENT"] == 1
    assert tuple(document.header["$EXTMAX"])[:2] == (WIDTH, HEIGHT)


def test_nothing_but_contours_on_the_cut_layer_and_no_layer_beside() -> None:
    document = read(CUT)
    kinds = sorted(entity.dxftype() for entity in document.modelspace())
    assert kinds == ["CIRCLE"] * len(LAYOUT.holes) + ["LWPOLYLINE"]
    assert {entity.dxf.layer for entity in document.modelspace()} == {"CUT"}
    assert {layer.dxf.name for layer in document.layers} == {"0", "Defpoints", "CUT"}


def test_holes_are_circles_at_their_places() -> None:
    circles = {tuple(c.dxf.center)[:2]: 2 * c.dxf.radius for c in read(CUT).modelspace().query("CIRCLE")}
    assert len(circles) == len(LAYOUT.holes)
    for hole in LAYOUT.holes:
        assert circles[hole.at] == pytest.approx(hole.diameter_mm, abs=1e-9)


def test_outline_is_one_closed_contour_with_true_arcs() -> None:
    """Centres and radii by the library's own bulge formula; area and box of a rounded rectangle."""
    (contour,) = read(CUT).modelspace().query("LWPOLYLINE")
    assert contour.closed
    points = contour.get_points("xyb")
    arcs = [
        bulge_to_arc(a[:2], b[:2], a[2])
        for a, b in zip(points, [*points[1:], points[0]], strict=True)
        if a[2]
    ]
    centres = sorted((round(c.x, 9), round(c.y, 9)) for c, *_ in arcs)
    assert centres == [(6.0, 6.0), (6.0, 94.0), (144.0, 6.0), (144.0, 94.0)]
    assert all(radius == pytest.approx(CORNER, abs=1e-9) for *_, radius in arcs)
    found = contour_of(contour)
    assert found.area_mm2() == pytest.approx(WIDTH * HEIGHT - (4 - math.pi) * CORNER**2, rel=1e-12)
    assert found.box() == pytest.approx((0, 0, WIDTH, HEIGHT), abs=1e-9)


def test_a_round_plate_is_two_circles_round_one_another() -> None:
    outline = Outline((Arc((50.0, 0.0), (50.0, 0.0), (0.0, 0.0), True),))
    layout = replace(LAYOUT, outline=outline, holes=(replace(LAYOUT.holes[0], at=(10.0, 5.0)),))
    data = cut_dxf(layout)
    assert sorted(c.dxf.radius for c in read(data).modelspace()) == pytest.approx([2.4257, 50.0])
    assert faults_of(data, layout) == ()


def test_marks_stand_in_a_file_without_a_cut_layer() -> None:
    document = read(marks_dxf(LAYOUT, "Plate"))
    assert document.audit().errors == []
    layers = {layer.dxf.name: layer for layer in document.layers}
    assert set(layers) == {"0", "Defpoints", "MARK", "REFERENCE"}
    assert layers["REFERENCE"].dxf.plot == 0
    texts = {text.dxf.text for text in document.modelspace().query("TEXT")}
    assert {hole.label for hole in LAYOUT.holes} <= texts
    assert {entity.dxf.layer for entity in document.modelspace().query("LINE TEXT")} == {"MARK"}
    assert {entity.dxf.layer for entity in document.modelspace().query("CIRCLE LWPOLYLINE")} == {"REFERENCE"}


def test_holes_that_are_transferred_come_as_pilots_in_a_file_of_their_own() -> None:
    pilots = pilot_diameters(LAYOUT)
    assert pilots == {"B1": drill("#40").diameter_mm, "B2": drill("#40").diameter_mm}
    files = {file.name: file for file in flat_files(LAYOUT)}
    assert set(files) == {"coil-plate-cut.dxf", "coil-plate-cut-pilots.dxf", "coil-plate-marks.dxf"}
    circles = read(files["coil-plate-cut-pilots.dxf"].data).modelspace().query("CIRCLE")
    sizes = {tuple(c.dxf.center)[:2]: 2 * c.dxf.radius for c in circles}
    for hole in LAYOUT.holes:
        assert sizes[hole.at] == pytest.approx(pilots.get(hole.label, hole.diameter_mm), abs=1e-9)


def test_no_pilot_file_where_every_hole_is_drilled_now() -> None:
    plan = replace(LAYOUT.fit_up, holes=tuple(replace(h, way="drill now") for h in LAYOUT.fit_up.holes))
    names = [file.name for file in flat_files(replace(LAYOUT, fit_up=plan))]
    assert names == ["coil-plate-cut.dxf", "coil-plate-marks.dxf"]


def test_a_failing_layout_says_so_inside_its_files() -> None:
    for file in flat_files(LAYOUT, "fail"):
        assert b"A CHECK FAILS: DO NOT MAKE" in file.data
    for file in flat_files(LAYOUT, "caution"):
        assert b"DO NOT MAKE" not in file.data


def test_material_and_thickness_travel_with_the_file() -> None:
    properties = dict(read(CUT).header.custom_vars)
    assert properties["material"] == "6061-T6"
    assert properties["thickness"] == "2.286 mm"
    assert properties["recipe digest"] == LAYOUT.recipe.digest


def test_the_library_s_switch_is_put_back() -> None:
    before = ezdxf.options.write_fixed_meta_data_for_testing
    assert cut_dxf(LAYOUT, "Plate") == CUT
    assert ezdxf.options.write_fixed_meta_data_for_testing is before is False


def test_the_file_at_final_size_says_which_holes_the_drawing_has_as_pilots() -> None:
    files = {file.name: file for file in flat_files(LAYOUT)}
    about = files["coil-plate-cut.dxf"].about
    assert "all holes at final size, also B1 B2, which the drawing has as pilots" in about
    assert files["coil-plate-cut-pilots.dxf"].about.endswith("holes B1 B2 as pilots")
