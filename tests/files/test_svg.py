"""The SVG writer, read back with the standard library's XML parser."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfbase.pdfmetrics import stringWidth
from sheets.sheet_plates import FAILING, plate

from clampwright.files.svg import svg
from clampwright.sheets.drawing import ArcPath, Circle, Page, Path, Pen, Text
from clampwright.sheets.picture import Strokes, picture
from clampwright.sheets.template import template

NS = "{http://www.w3.org/2000/svg}"


def elements(page: Page, tag: str) -> list[ET.Element]:
    """Elements of one kind in the file of a page."""
    return list(ET.fromstring(svg(page)).iter(NS + tag))


def test_size_and_direction() -> None:
    page = Page("dot", 200.0, 100.0, (Circle((30.0, 90.0), 5.0),))
    root = ET.fromstring(svg(page))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("200mm", "100mm", "0 0 200 100")
    (circle,) = elements(page, "circle")
    assert (circle.get("cx"), circle.get("cy"), circle.get("r")) == ("30", "10", "5")


@given(st.text(max_size=40))
def test_any_text_makes_a_file_that_reads(text: str) -> None:
    page = Page(text, 200.0, 100.0, (Text((10.0, 10.0), text, 4.0),))
    ET.fromstring(svg(page))


def test_texts_are_escaped_and_carry_their_length() -> None:
    page = Page("a < b & c", 200.0, 100.0, (Text((10.0, 10.0), '<b> & "x"', 4.0, bold=True),))
    (text,) = elements(page, "text")
    assert text.text == '<b> & "x"'
    assert float(text.get("textLength", "0")) == pytest.approx(
        stringWidth('<b> & "x"', "Helvetica-Bold", 4.0), abs=1e-3
    )
    (title,) = elements(page, "title")
    assert title.text == "a < b & c"


@pytest.mark.parametrize(
    ("start", "end"), [(0.0, 90.0), (350.0, 100.0), (10.0, 200.0), (0.0, 360.0), (90.0, 80.0)]
)
def test_an_arc_runs_counter_clockwise_from_start_to_end(start: float, end: float) -> None:
    (path,) = elements(Page("x", 100.0, 100.0, (ArcPath((50.0, 50.0), 20.0, start, end),)), "path")
    numbers = [float(n) for n in re.findall(r"-?\d+\.?\d*", path.get("d", ""))]
    first, mid, last = (numbers[0:2], numbers[7:9], numbers[14:16])
    extent = (end - start) % 360 or 360.0
    for (x, y), angle in zip((first, mid, last), (start, start + extent / 2, start + extent), strict=True):
        a = math.radians(angle)
        assert (x, y) == pytest.approx((50 + 20 * math.cos(a), 50 - 20 * math.sin(a)), abs=1e-3)
    assert numbers[4:7] == [0.0, 0.0, 0.0]


def test_a_stretched_page_is_a_matrix_about_its_middle() -> None:
    (group,) = elements(Page("x", 200.0, 100.0, (Circle((100.0, 50.0), 5.0),), (1.01, 0.99)), "g")
    a, b, c, d, e, f = (float(n) for n in re.findall(r"-?\d+\.?\d*", group.get("transform", "")))
    assert (a * 100 + c * 50 + e, b * 100 + d * 50 + f) == pytest.approx((100.0, 50.0))
    assert (a, b, c, d) == (1.01, 0.0, 0.0, 0.99)


def test_pens_and_fills() -> None:
    page = Page(
        "x",
        50.0,
        50.0,
        (Path(((1.0, 1.0), (9.0, 1.0), (9.0, 9.0)), Pen(0.3, "#b3261e", (2.0, 1.0)), True, "#ffffff"),),
    )
    (path,) = elements(page, "path")
    assert path.get("d") == "M1 49L9 49L9 41Z"
    assert (path.get("stroke"), path.get("stroke-width"), path.get("stroke-dasharray")) == (
        "#b3261e",
        "0.3",
        "2 1",
    )
    assert path.get("fill") == "#ffffff"


def test_the_template_as_a_picture() -> None:
    page = template(plate(), FAILING, "a4").pages[0]
    first, again = svg(page), svg(page)
    assert first == again
    words = {text.text for text in elements(page, "text")}
    assert {"DO NOT DRILL", "THIS FACE UP", "A1"} <= words
    radii = [float(c.get("r", "0")) for c in elements(page, "circle")]
    assert sorted(radii) == pytest.approx(sorted(h.diameter_mm / 2 for h in plate().holes), abs=1e-3)


def test_a_picture_of_a_view() -> None:
    page = picture("plate", [Strokes((((0.0, 0.0), (40.0, 0.0), (40.0, 20.0)),), Pen(0.3))])
    assert len(elements(page, "path")) == 1
