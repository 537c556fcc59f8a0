"""A STEP file that was spoilt is refused: every check of the read-back is shown to fail."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from solids.hand_layout import hand_layout

from clampwright.files import solid_files
from clampwright.files.part21 import NotPart21, read_part21
from clampwright.files.parts import part_files
from clampwright.files.solid_files import assembly_file
from clampwright.files.step import step_assembly, step_part
from clampwright.files.step_material import MadeOf
from clampwright.files.step_read_back import (
    NotAsMade,
    differences,
    expected_assembly,
    expected_part,
    refuse_other,
)
from clampwright.files.step_said import said_in
from clampwright.solids.assembly import assembly, part
from clampwright.solids.body import Body
from clampwright.solids.no_part import NoPart
from clampwright.solids.place import Place
from clampwright.solids.shapes import cut, polygon, prism, ring

SHEET = MadeOf("6061-T6", "sheet, T6", 2712.6)
BODY = part(hand_layout())
HOLES = len(hand_layout().holes)
PLATE = step_part(BODY, "plate.step", "Plate", "AP242", SHEET, "0123")
EXPECTED = expected_part(BODY, "AP242", SHEET, "0123")
TEXT_ONLY = expected_part(BODY, "AP242", SHEET, "0123", measure=False)
BODIES = assembly(hand_layout())
WHOLE = step_assembly(BODIES, "whole", "whole.step", "Whole")

Spoil = Callable[[str], str]


def first(pattern: str, new: str) -> Spoil:
    """Replace the first match; there must be one."""

    def spoil(text: str) -> str:
        spoilt, times = re.subn(pattern, new, text, count=1)
        assert times == 1
        return spoilt

    return spoil


def larger_hole(text: str) -> str:
    """The cylinder of a hole and both its rims, 0.01 mm larger: a file that agrees with itself."""
    surface = re.search(r"CYLINDRICAL_SURFACE\('',#\d+,(2\.4257)\)", text)
    assert surface
    near = text.index(surface.group())
    start = text.rindex("ADVANCED_FACE", 0, near)
    stop = text.index("ADVANCED_FACE", near)
    return text[:start] + text[start:stop].replace(",2.4257)", ",2.4307)") + text[stop:]


def without_a_hole(text: str) -> str:
    """One hole's face out of the shell, and its rims out of both flat faces."""
    faces = re.search(r"CLOSED_SHELL\('',\(([^)]*)\)\)", text)
    assert faces
    numbers = faces[1].split(",")
    hole = next(n for n in numbers if _surface(text, n) == "CYLINDRICAL_SURFACE" and _rims(text, n))
    rims = _rims(text, hole)
    text = text.replace(faces[1], ",".join(n for n in numbers if n != hole))
    for bound in re.findall(r"(#\d+) = FACE_BOUND\('',(#\d+),", text):
        loop = re.search(rf"(?m)^{bound[1]} = EDGE_LOOP\('',\((#\d+)\)\)", text)
        edge = loop and re.search(rf"(?m)^{loop[1]} = ORIENTED_EDGE\('',\*,\*,(#\d+),", text)
        if edge and edge[1] in rims:
            text = re.sub(rf"(ADVANCED_FACE\('',\([^)]*),{bound[0]}(?=[,)])", r"\1", text)
    return text


def _surface(text: str, face: str) -> str:
    found = re.search(rf"(?m)^{face} = ADVANCED_FACE\('',\([^)]*\),(#\d+),", text)
    assert found
    kind = re.search(rf"(?m)^{found[1]} = (\w+)", text)
    assert kind
    return kind[1]


def _rims(text: str, face: str) -> list[str]:
    bound = re.search(rf"(?m)^{face} = ADVANCED_FACE\('',\((#\d+)\)", text)
    loop = bound and re.search(rf"(?m)^{bound[1]} = FACE_BOUND\('',(#\d+),", text)
    edges = loop and re.search(rf"(?m)^{loop[1]} = EDGE_LOOP\('',\(([^)]*)\)", text)
    assert edges
    curves = [
        found[1]
        for edge in edges[1].split(",")
        if (found := re.search(rf"(?m)^{edge} = ORIENTED_EDGE\('',\*,\*,(#\d+),", text))
    ]
    return [c for c in curves if re.search(rf"(?m)^{c} = EDGE_CURVE\('',(#\d+),\1,", text)]


def test_a_good_file_is_as_made() -> None:
    assert differences(PLATE, EXPECTED) == ()
    assert differences(PLATE, TEXT_ONLY) == ()
    refuse_other(PLATE, EXPECTED, "plate.step")
    assert EXPECTED.measured is not None
    assert len(EXPECTED.measured.holes) == HOLES
    assert EXPECTED.measured.blind == 0


SPOILT = [
    (first(r"0123'", "0124'"), "its revision is 0124, not 0123"),
    (first(r"AP242_MANAGED\w* \{[^}]*\}", "CONFIG_CONTROL_DESIGN"), "its schema is 'CONFIG_CONTROL_DESIGN'"),
    (first(r"PRODUCT\('plate coil-plate','plate", "PRODUCT('x','plat"), "its products are plat coil-plate"),
    (first(r"SI_UNIT\(\.MILLI\.,\.METRE\.\)", "SI_UNIT(.CENTI.,.METRE.)"),
     "its unit of length is CENTI METRE, not mm"),
    (first(r"LENGTH_UNIT\(\) ", "MASS_UNIT() "), "its unit of length is not said, not mm"),
    (first(r"COLOUR_RGB\('',0\.560784", "COLOUR_RGB('',0.660784"), "its colour is #a8b3d9, not #8fb3d9"),
    (first(r"STYLED_ITEM\('color',\(#\d+\),#15\)", "STYLED_ITEM('color',(),#15)"), "its colour is not said"),
    (first(r"'6061-T6'", "'2024-T3'"), "its material is 2024-T3, not 6061-T6"),
    (first(r"POSITIVE_RATIO_MEASURE\(2712", "POSITIVE_RATIO_MEASURE(2713"), "its density is 2713.6 kg/m3"),
    (first(r"DERIVED_UNIT_ELEMENT\((#\d+),-3", r"DERIVED_UNIT_ELEMENT(\1,-2"), "its density is None kg/m3"),
    (first(r"CYLINDRICAL_SURFACE\('',(#\d+),2\.4257\)", r"CYLINDRICAL_SURFACE('',\1,2.43)"),
     "circle of radius 2.4257 on a cylinder of radius 2.43"),
    (larger_hole, "through hole of 4.8614 mm at"),
    (without_a_hole, "is not in it"),
    (first(r"CARTESIAN_POINT\('',\(150\.,", "CARTESIAN_POINT('',(151.,"), "its corners lie within"),
    (first(r"MANIFOLD_SOLID_BREP\('',", "SHELL_BASED_SURFACE_MODEL('',"), "0 solids, not 1"),
    (first(r"\(#\d+,#\d+,#\d+\)", "(#1,#2,#99999)"), "#99999 is pointed at and is not there"),
    (first(r"ENDSEC;\nEND-ISO", "END-ISO"), "ISO 10303-21"),
]  # fmt: skip


@pytest.mark.parametrize(("spoil", "says"), SPOILT)
def test_what_is_spoilt_is_said_by_the_text_alone(spoil: Spoil, says: str) -> None:
    spoilt = spoil(PLATE.decode())
    found = "; ".join(differences(spoilt.encode(), TEXT_ONLY))
    assert says in found
    with pytest.raises(NotAsMade, match=r"plate\.step does not say what was made"):
        refuse_other(spoilt.encode(), TEXT_ONLY, "plate.step")


MEASURED = [
    (larger_hole, ("its volume is", "its area is", "hole of 4.8514 mm at")),
    (without_a_hole, (f"it has {HOLES - 1} holes, not {HOLES}", "its volume is")),
    (first(r"LINE\('',(#\d+),(#\d+)\)", r"LINE('',\1,\2)"), ()),
    (
        first(r"SI_UNIT\(\.MILLI\.,\.METRE\.\)", "SI_UNIT(.CENTI.,.METRE.)"),
        ("its volume is", "it fills (0, 0, 0)"),
    ),
]


@pytest.mark.parametrize(("spoil", "says"), MEASURED)
def test_what_is_spoilt_is_measured_by_the_kernel(spoil: Spoil, says: tuple[str, ...]) -> None:
    """Told that the text is as it should be, so that only the solids judge."""
    spoilt = spoil(PLATE.decode()).encode()
    found = differences(spoilt, replace(EXPECTED, said=said_in(read_part21(spoilt))))
    assert bool(found) == bool(says)
    assert all(f"read again {each}" in "; ".join(found) or each in "; ".join(found) for each in says)


def test_a_shape_that_is_lost_is_measured() -> None:
    """The pointer from the product to its shape is gone: the text is whole, and nothing is in it."""
    spoilt = first(r"(?m)^#\d+ = SHAPE_DEFINITION_REPRESENTATION\([^;]*;\n", "")(PLATE.decode()).encode()
    said = said_in(read_part21(spoilt))
    assert said.products[0].solids == 0
    assert "0 solids, not 1" in "; ".join(differences(spoilt, TEXT_ONLY))
    assert differences(spoilt, replace(EXPECTED, said=said)) == ("the kernel reads no shape out of the file",)


def test_another_solid_differs_in_volume_area_box_and_holes() -> None:
    other = replace(BODY, shape=ring(30.0, 5.0, 2.0))
    data = step_part(other, "p", "p", "AP242", SHEET, "0123")
    said = expected_part(other, "AP242", SHEET, "0123").said
    assert differences(data, EXPECTED)
    found = "; ".join(differences(data, replace(EXPECTED, said=said)))
    for says in ("its volume is", "its area is", "it fills (-15, -15, 0) to (15, 15, 2)", "1 holes, not"):
        assert says in found


def test_a_blind_hole_is_none_that_goes_through() -> None:
    block = prism(polygon([(0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0)]), [], 10.0)
    deep, open_ = (
        Body("block", "block", "plate", cut(block, [ring(5.0, 0.0, 20.0, Place((10.0, 10.0, low)))]), Place())
        for low in (4.0, -4.0)
    )
    for body, other in ((deep, open_), (open_, deep)):
        data = step_part(body, "block.step", "Block")
        assert differences(data, expected_part(body)) == ()
        found = "; ".join(differences(data, expected_part(other)))
        assert "blind hole of 5 mm at" in found
        assert "through hole of 5 mm at" in found
        measured = replace(expected_part(other), said=expected_part(body).said)
        assert f"read again it has {int(body is deep)} blind holes" in "; ".join(differences(data, measured))


def test_a_hole_that_is_closed_differs_from_one_that_goes_through() -> None:
    """Alike in place, diameter and depth: only whether a flat face closes it differs."""
    (product,) = TEXT_ONLY.said.products
    hole = next(each for each in product.rounds if each.hollow and each.whole)
    assert hole.through
    others = tuple(each for each in product.rounds if each is not hole)
    blind = replace(product, rounds=(*others, replace(hole, through=False)))
    wrong = replace(TEXT_ONLY, said=replace(TEXT_ONLY.said, products=(blind,)))
    said = differences(PLATE, wrong)
    assert len(said) == 2
    assert "blind hole of" in said[0]
    assert said[0].endswith("is not in it")
    assert "through hole of" in said[1]
    assert said[1].endswith("is in it and was not made")


def rim_shifted(by_mm: float) -> bytes:
    """The centre of one rim of a hole moved off the hole's axis, nothing else; the other rim stays."""
    text = PLATE.decode()
    surface = re.search(r"CYLINDRICAL_SURFACE\('',#\d+,2\.4257\)", text)
    assert surface
    start = text.rindex("ADVANCED_FACE", 0, surface.start())
    stop = text.index("ADVANCED_FACE", surface.start())
    circle = re.search(r"CIRCLE\('',(#\d+),2\.4257\)", text[start:stop])
    assert circle
    placement = re.search(rf"(?m)^{circle[1]} = AXIS2_PLACEMENT_3D\('',(#\d+),", text)
    assert placement
    centre = re.search(rf"(?m)^{placement[1]} = CARTESIAN_POINT\('',\(([^,]*),", text)
    assert centre
    moved = f"{float(centre[1]) + by_mm!r}"
    return (text[: centre.start(1)] + moved + text[centre.end(1) :]).encode()


def test_a_rim_off_its_axis_is_refused() -> None:
    """By 0.01 mm, to a side; as found, and moved by a ten-millionth of a millimetre, it is not."""
    said_in(read_part21(rim_shifted(0.0)))
    said_in(read_part21(rim_shifted(1e-7)))
    with pytest.raises(NotPart21, match=r"0\.010000 mm off its axis"):
        said_in(read_part21(rim_shifted(0.01)))


def test_a_sliver_is_said() -> None:
    corners = [(0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (10.0005, 10.0), (10.0, 10.0005), (0.0, 10.0)]
    body = Body("sliver", "sliver", "plate", prism(polygon(corners), [], 2.0), Place())
    (found,) = differences(step_part(body, "s", "s"), expected_part(body))
    assert "it has an edge of 0.00071 mm, shorter than 0.001 mm" in found


def test_an_assembly_is_held_against_its_bodies() -> None:
    expected = expected_assembly(BODIES, "whole")
    assert differences(WHOLE, expected) == ()
    text = expected_assembly(BODIES, "whole", measure=False)
    for old, new, says in (
        ("OCCURRENCE('1','plate coil-plate'", "OCCURRENCE('1','plate'", "(plate coil-plate)"),
        ("PRODUCT('whole','whole'", "PRODUCT('whole','half'", "its products are"),
    ):
        assert old in WHOLE.decode()
        found = differences(WHOLE.decode().replace(old, new).encode(), text)
        assert says in "; ".join(found)


def test_a_piece_out_of_its_place_is_measured() -> None:
    body = Body("washer", "washer", "washer", ring(11.0, 5.0, 1.0), Place((10.0, 0.0, 0.0)))
    off = step_assembly([replace(body, place=Place((10.0, 0.0, 0.5)))], "w", "w", "w")
    found = "; ".join(differences(off, expected_assembly([body], "w")))
    assert "read again it fills (4.5, -5.5, 0.5) to (15.5, 5.5, 1.5)" in found
    assert "through hole of 5 mm" in found


@pytest.mark.parametrize("name", ["Ölkühler 'links'", "x" * 300, "a\\b @00001@ ; ENDSEC;", "relay;\n#1 = X"])
def test_any_name_is_read_back(name: str) -> None:
    body = Body(name, f"made of {name}", "component", ring(10.0, 4.0, 2.0), Place())
    material = MadeOf(name, name, None)
    data = step_part(body, name, name, "AP242", material, name)
    assert differences(data, expected_part(body, "AP242", material, name)) == ()
    data = step_assembly([body], name, name, name, "AP242", {body.product: material}, name)
    expected = expected_assembly([body], name, "AP242", {body.product: material}, name)
    assert differences(data, expected) == ()


@given(st.integers(0, len(PLATE) - 1), st.sampled_from("0123456789.#();,'-E$*A"))
@settings(deadline=None, max_examples=150)
def test_one_changed_letter_never_breaks_the_reader(at: int, letter: str) -> None:
    """It says something, or the letter counts for nothing: in a text, or a direction's last digits."""
    spoilt = PLATE[:at] + letter.encode() + PLATE[at + 1 :]
    assert all(isinstance(each, str) for each in differences(spoilt, TEXT_ONLY))


def test_a_radius_changed_by_a_thousandth_is_never_passed() -> None:
    text = PLATE.decode()
    radii = list(re.finditer(r"(?:CIRCLE|CYLINDRICAL_SURFACE)\('',#\d+,([\d.]+)\)", text))
    assert len(radii) == 3 * (HOLES + 4)
    for found in radii:
        wrong = f"{float(found[1]) + 0.001:.6f}"
        spoilt = text[: found.start(1)] + wrong + text[found.end(1) :]
        assert differences(spoilt.encode(), TEXT_ONLY), found.group()


def test_no_part_is_kept_of_which_the_file_differs(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a build hands on has been read back: a writer that puts a wrong file out makes no part."""
    spoil = first(r"CYLINDRICAL_SURFACE\('',(#\d+),2\.4257\)", r"CYLINDRICAL_SURFACE('',\1,2.5)")
    monkeypatch.setattr(solid_files, "step_part", lambda *told: spoil(step_part(*told).decode()).encode())
    with pytest.raises(NoPart, match="does not say what was made"):
        list(part_files(hand_layout(), BODIES))
    assert math.isclose(2.4257, 4.8514 / 2)


PIECES = [
    (first(r"SI_UNIT\(\.MILLI\.,\.METRE\.\)", "SI_UNIT(.CENTI.,.METRE.)"), "other units"),
    (first(r"AUTOMOTIVE_DESIGN[^']*", "CONFIG_CONTROL_DESIGN"), "other schema"),
    (first(r"= PRODUCT\('plate", "= PRODUCT('x','plate x"), "other products"),
    (first(r"(?m)^#\d+ = NEXT_ASSEMBLY_USAGE_OCCURRENCE\([^;]*;\n", ""), "other placed"),
    (first(r"(USAGE_OCCURRENCE\('1',)'[^']*'", r"\1'x'"), "other placed"),
    (first(r"MANIFOLD_SOLID_BREP\(", "BREP_WITH_VOIDS("), "other solids"),
    (first(r"ENDSEC;\nEND-ISO", "END-ISO"), "breaks ISO 10303-21"),
]  # fmt: skip


@pytest.mark.parametrize(("spoil", "says"), PIECES)
def test_an_assembly_with_other_pieces_is_not_written(
    monkeypatch: pytest.MonkeyPatch, spoil: Spoil, says: str
) -> None:
    """By name and number, without its geometry."""
    assert assembly_file("demo", "the plate", BODIES, "pass").data.startswith(b"ISO-10303-21;")
    made = solid_files.step_assembly

    def spoilt(*given: Any) -> bytes:
        return spoil(made(*given).decode()).encode()

    monkeypatch.setattr(solid_files, "step_assembly", spoilt)
    with pytest.raises(NotAsMade, match=says):
        assembly_file("demo", "the plate", BODIES, "pass")
