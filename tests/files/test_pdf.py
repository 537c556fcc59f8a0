"""The PDF writer, read back with pypdf: page size, viewer preference, texts, equal bytes."""

from __future__ import annotations

import hashlib
import io
import os
import subprocess
import sys

import pytest
from files.raster import rasters
from pypdf import PdfReader
from sheets.sheet_plates import FAILING, FINE, plate

from clampwright.files.pdf import pdf
from clampwright.sheets.drawing import ArcPath, Circle, Page, Path, Pen, Sheet, Text
from clampwright.sheets.drill_sheet import drill_sheet
from clampwright.sheets.template import template

POINT = 72 / 25.4
SIZES = {"letter": (612.0, 792.0), "a4": (210 * POINT, 297 * POINT)}


def read(sheet: Sheet) -> PdfReader:
    """The sheet's file as another program reads it."""
    return PdfReader(io.BytesIO(pdf(sheet)), strict=True)


@pytest.mark.parametrize("name", SIZES)
@pytest.mark.parametrize("width", [150.0, 500.0])
def test_every_page_has_the_size_of_the_paper(name: str, width: float) -> None:
    """Letter is 8.5 x 11 in, A4 is 210 x 297 mm (ISO 216)."""
    reader = read(template(plate(width, 100.0), FINE, name))
    for page in reader.pages:
        box = page.mediabox
        assert (float(box.width), float(box.height)) == pytest.approx(SIZES[name], abs=0.01)


def test_a_template_asks_to_be_printed_without_scaling() -> None:
    """ISO 32000-1 table 150: PrintScaling None."""
    reader = read(template(plate(), FINE, "a4"))
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"


def test_a_drill_sheet_does_not() -> None:
    assert "/ViewerPreferences" not in read(drill_sheet(plate(), FINE, "a4")).trailer["/Root"]


def test_the_file_names_the_part_and_no_other_program() -> None:
    data = pdf(template(plate(), FINE, "a4"))
    meta = PdfReader(io.BytesIO(data)).metadata
    assert meta is not None
    assert meta.title == "coil-plate: drilling template 1:1"
    assert meta.producer == "clampwright"
    assert meta.creator == "clampwright"


@pytest.mark.parametrize(("findings", "stops"), [(FINE, False), (FAILING, True)])
def test_do_not_drill_can_be_read_in_the_file_exactly_when_a_check_fails(
    findings: tuple, stops: bool
) -> None:
    for sheet in (template(plate(), findings, "letter"), drill_sheet(plate(), findings, "letter")):
        assert all(("DO NOT DRILL" in page.extract_text()) is stops for page in read(sheet).pages)


@pytest.mark.parametrize("name", SIZES)
def test_equal_layouts_give_equal_bytes(name: str) -> None:
    for make in (template, drill_sheet):
        assert pdf(make(plate(), FAILING, name)) == pdf(make(plate(), FAILING, name))


def test_only_standard_fonts_and_no_picture() -> None:
    for page in read(template(plate(), FINE, "a4")).pages:
        fonts = {font["/BaseFont"] for font in page["/Resources"]["/Font"].values()}
        assert fonts <= {"/Helvetica", "/Helvetica-Bold"}
        assert not page.images


def test_primitives_land_where_they_say() -> None:
    """A line, a circle and an arc on a page of their own, found again in the pixels."""
    items = (
        Path(((20.0, 40.0), (80.0, 40.0)), Pen(0.3)),
        Circle((50.0, 70.0), 12.0, Pen(0.2)),
        ArcPath((150.0, 70.0), 20.0, 350.0, 100.0, Pen(0.2)),
        Path(((20.0, 10.0), (70.0, 10.0), (70.0, 20.0), (20.0, 20.0)), None, True, "#000000"),
    )
    (raster,) = rasters(pdf(Sheet("x", "x", (Page("x", 210.0, 100.0, items),), True)))
    assert raster.circle((50.2, 69.8), 12.0) == (
        pytest.approx((50.0, 70.0), abs=0.01),
        pytest.approx(12.0, abs=0.01),
    )
    assert raster.edge((10.0, 15.0), (1.0, 0.0), 70.0) == pytest.approx((10.0, 60.0), abs=0.03)
    assert raster.edge((50.0, 35.0), (0.0, 1.0), 10.0) == pytest.approx((4.85, 5.15), abs=0.03)
    assert sum(raster.edge((160.0, 70.0), (1.0, 0.0), 15.0)) / 2 == pytest.approx(10.0, abs=0.02)
    assert raster.grey[raster.grey.shape[0] // 2, int(130.0 / raster.mm[0])] == 255


def test_a_stretched_page_is_stretched_about_its_middle() -> None:
    page = Page("x", 200.0, 100.0, (Circle((100.0, 50.0), 5.0), Circle((180.0, 90.0), 5.0)), (1.01, 0.99))
    (raster,) = rasters(pdf(Sheet("x", "x", (page,), True)))
    assert raster.circle((100.0, 50.0), 5.0)[0] == pytest.approx((100.0, 50.0), abs=0.01)
    assert raster.circle((180.8, 89.6), 5.0)[0] == pytest.approx((180.8, 89.6), abs=0.01)


def test_texts_in_any_letters_are_written() -> None:
    page = Page("x", 200.0, 100.0, (Text((10.0, 10.0), "Ø 4.9 ± 0.1 (µm) Ж漢 <&>", 5.0),))
    assert read(Sheet("x", "x", (page,), False)).pages[0].extract_text().strip() == "Ø 4.9 ± 0.1 (µm) ?? <&>"


@pytest.mark.parametrize("date", ["1", "abc", "99999999999999999", ""])
def test_no_date_of_the_surroundings_reaches_a_file(date: str) -> None:
    """SOURCE_DATE_EPOCH (reproducible-builds.org) in a process of its own: the same bytes always."""
    script = (
        "import hashlib, os; from clampwright.files.pdf import pdf; "
        "from clampwright.sheets.drawing import Page, Sheet; "
        "print(hashlib.sha256(pdf(Sheet('a', 'b', (Page('p', 9.0, 9.0, ()),), False))).hexdigest(), "
        "os.environ.get('SOURCE_DATE_EPOCH'))"
    )
    plain = hashlib.sha256(pdf(Sheet("a", "b", (Page("p", 9.0, 9.0, ()),), False))).hexdigest()
    run = subprocess.run(
        [sys.executable, "-c", script],
        check=True,
        capture_output=True,
        text=True,
        env={**os.environ, "SOURCE_DATE_EPOCH": date},
    )
    assert run.stdout.rstrip("\n") == f"{plain} {date}"
