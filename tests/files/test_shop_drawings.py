"""Drawings of the example recipes as files: DXF read back with ezdxf, PDF with pypdf, numbers compared."""

from __future__ import annotations

import io
import math
from dataclasses import replace
from functools import cache
from pathlib import Path as FilePath
from typing import Any

import ezdxf
import pytest
from ezdxf.addons.drawing import Frontend, RenderContext
from ezdxf.addons.drawing.recorder import Recorder
from pypdf import PdfReader

from clampwright.files.drawing_dxf import page_lefts
from clampwright.files.shop_drawings import (
    DrawingDiffers,
    drawing_for_cad,
    drawing_pdf,
    flat_sheet,
    shop_sheets,
    turned_sheet,
)
from clampwright.files.written import Written
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.layout.shop.turned import turned
from clampwright.make import Checked, check_recipe
from clampwright.sheets.drawing import Sheet
from clampwright.sheets.shop.turning_sheet import TurningHead

RECIPES = FilePath(__file__).parents[2] / "recipes"
PLATES = ("coil-plate", "coil-plate-too-narrow", "two-tube-minimum")
BUSHINGS = ("separator-bushings", "regulator-too-wide", "oil-hose-stand-off")


@cache
def checked(name: str) -> Checked:
    """An example, laid out and checked."""
    return check_recipe(RECIPES / f"{name}.toml")


@cache
def written(name: str) -> dict[str, Written]:
    """Its drawings by file name."""
    found = checked(name)
    files = (
        write(stem, sheet)
        for stem, sheet in shop_sheets(found.layout, found.findings)
        for write in (drawing_pdf, drawing_for_cad)
    )
    return {file.name: file for file in files}


def sheets(name: str) -> dict[str, Sheet]:
    """The sheets that the files were made from, by file name without its ending."""
    found = checked(name)
    return dict(shop_sheets(found.layout, found.findings))


def document(file: Written) -> Any:
    """The DXF document."""
    return ezdxf.read(io.StringIO(file.data.decode("utf-8")))


def test_a_plate_with_bushings_has_a_drawing_and_a_turning_sheet() -> None:
    stems = ("coil-plate-plate-drawing", "coil-plate-turning")
    assert list(written("coil-plate")) == [f"{stem}.{end}" for stem in stems for end in ("pdf", "dxf")]


def test_a_line_of_bushings_has_a_turning_sheet_and_nothing_to_turn_gives_none() -> None:
    assert list(written("oil-hose-stand-off")) == [
        "oil-hose-stand-off-turning.pdf",
        "oil-hose-stand-off-turning.dxf",
    ]
    assert list(written("plain-pair")) == []


@pytest.mark.parametrize("name", [*PLATES, *BUSHINGS])
def test_dimensions_in_the_dxf_measure_what_the_sheet_says(name: str) -> None:
    """`get_measurement` times DIMLFAC against the true size; the text override against the printed text."""
    files = written(name)
    for stem, sheet in sheets(name).items():
        read = document(files[f"{stem}.dxf"])
        audit = read.audit()
        assert (audit.errors, audit.fixes) == ([], [])
        wanted = [each for page in sheet.pages for each in page.dimensions]
        found = list(read.modelspace().query("DIMENSION"))
        assert len(found) == len(wanted) > 0
        for one, other in zip(wanted, found, strict=True):
            measured = float(other.get_measurement())
            true = math.degrees(one.value) if one.kind == "angle" else one.value
            factor = 1.0 if one.kind == "angle" else other.get_dim_style().dxf.dimlfac
            assert measured * factor == pytest.approx(true, abs=1e-6)
            assert other.dxf.text == one.text


@pytest.mark.parametrize("name", [*PLATES, *BUSHINGS])
def test_everything_in_the_dxf_is_drawn_on_its_sheets(name: str) -> None:
    for stem, sheet in sheets(name).items():
        read = document(written(name)[f"{stem}.dxf"])
        recorder = Recorder()
        Frontend(RenderContext(read), recorder).draw_layout(read.modelspace())
        box = recorder.player().bbox()
        right = page_lefts(sheet.pages)[-1] + sheet.pages[-1].width_mm
        assert box.extmin.x >= 0.0
        assert box.extmin.y >= 0.0
        assert box.extmax.x <= right + 1e-6
        assert box.extmax.y <= sheet.pages[0].height_mm + 1e-6
        layers = {entity.dxf.layer for entity in read.modelspace()}
        assert {"OUTLINE", "BORDER", "TEXT", "DIMENSION"} <= layers


def test_only_the_part_lies_on_the_outline_layer() -> None:
    """Its extent is the part's, to scale: border and title block have lines as wide, but another layer."""
    (sheet,) = (s for stem, s in sheets("coil-plate").items() if stem.endswith("-drawing"))
    (part,) = flat_parts(checked("coil-plate").layout)
    read = document(written("coil-plate")["coil-plate-plate-drawing.dxf"])
    boxes = ezdxf.bbox.extents(e for e in read.modelspace() if e.dxf.layer == "OUTLINE")
    x0, y0, x1, y1 = part.outline.box()
    scale = sheet.pages[0].dimensions[0].scale
    assert boxes.size.x == pytest.approx((x1 - x0) * scale, abs=1e-6)
    assert boxes.size.y > (y1 - y0) * scale  # the view from above stands over it
    assert boxes.extmax.x < sheet.pages[0].width_mm


@pytest.mark.parametrize("name", ["coil-plate", "regulator-too-wide"])
def test_pdf_and_dxf_say_the_same_words(name: str) -> None:
    for stem in sheets(name):
        pages = PdfReader(io.BytesIO(written(name)[f"{stem}.pdf"].data)).pages
        printed = sorted("".join(page.extract_text() for page in pages).replace(" ", "").replace("\n", ""))
        read = document(written(name)[f"{stem}.dxf"])
        texts = [text.plain_text() for text in read.modelspace().query("TEXT")]
        for dimension in read.modelspace().query("DIMENSION"):
            texts += [t.plain_text() for t in read.blocks.get(dimension.dxf.geometry).query("TEXT")]
        assert sorted("".join(texts).replace(" ", "")) == printed


def test_the_same_layout_gives_the_same_bytes() -> None:
    found = checked("coil-plate")
    for stem, sheet in shop_sheets(found.layout, found.findings):
        for again in (drawing_pdf(stem, sheet), drawing_for_cad(stem, sheet)):
            assert again.sha256 == written("coil-plate")[again.name].sha256


def test_failing_checks_stand_on_every_drawing() -> None:
    for file in written("regulator-too-wide").values():
        if file.name.endswith(".dxf"):
            said = [text.plain_text() for text in document(file).modelspace().query("TEXT")]
            assert said.count("DO NOT MAKE") == 2


def test_a_drawing_that_differs_from_its_solid_is_refused() -> None:
    """Of a plate that is told a tenth thicker than its solid is."""
    found = checked("coil-plate")
    layout: Any = found.layout
    (part,) = flat_parts(layout)
    flat_sheet(layout, part, found.findings)
    with pytest.raises(DrawingDiffers):
        flat_sheet(layout, replace(part, thickness_mm=1.1 * part.thickness_mm), found.findings)


def test_a_turning_sheet_that_differs_from_its_solids_is_refused() -> None:
    """Of bushings that are told with a bore a tenth of a millimetre wider than their solids have."""
    found = checked("separator-bushings")
    layout: Any = found.layout
    groups = turned([layout])
    head = TurningHead("turning", "", layout.recipe.digest, "in")
    turned_sheet([layout], groups, layout.recipe.shop, head, found.findings)
    wider = [replace(each, bore_mm=each.bore_mm + 0.1) for each in groups]
    with pytest.raises(DrawingDiffers, match="bore"):
        turned_sheet([layout], wider, layout.recipe.shop, head, found.findings)
