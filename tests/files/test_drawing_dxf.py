"""Drawings as DXF, read back with ezdxf's reader, auditor and drawing add-on, against the page.

Group codes: DXF reference for AutoCAD 2010, DIMENSION and DIMSTYLE (62, 70 and 144 as documented there).
"""

from __future__ import annotations

import io
import math
from collections import Counter
from typing import Any

import ezdxf
import pytest
from ezdxf import bbox
from ezdxf.addons.drawing import Frontend, RenderContext
from ezdxf.addons.drawing.recorder import Recorder
from files.drawn_demo import DIMENSIONS, HIGH, ITEMS, ODD, SHEET, WIDE

from clampwright.files.drawing_dxf import APART_MM, drawing_dxf, page_lefts
from clampwright.quantities import Vec2
from clampwright.sheets.drawing import ArcPath, Circle, Item, Path, Text
from clampwright.sheets.lettering import corners, printable, width

DATA = drawing_dxf(SHEET, "a demonstration")
LEFTS = (0.0, WIDE + APART_MM)


def read(data: bytes) -> Any:
    """The document."""
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


DOCUMENT = read(DATA)


def stroke_points(entity: Any) -> list[tuple[float, float]]:
    """Corners of a line or chain."""
    if entity.dxftype() == "LINE":
        return [tuple(entity.dxf.start)[:2], tuple(entity.dxf.end)[:2]]
    return [tuple(point) for point in entity.get_points("xy")]


def test_it_is_a_clean_r2010_file_in_millimetres() -> None:
    audit = read(DATA).audit()
    assert audit.errors == []
    assert audit.fixes == []
    assert DOCUMENT.dxfversion == "AC1024"
    assert DOCUMENT.units == ezdxf.units.MM
    assert DOCUMENT.header["$MEASUREMENT"] == 1
    assert tuple(DOCUMENT.header["$EXTMAX"])[:2] == (2 * WIDE + APART_MM, HIGH)


def test_the_same_sheet_gives_the_same_bytes() -> None:
    assert drawing_dxf(SHEET, "a demonstration") == DATA


def test_pages_stand_side_by_side() -> None:
    assert page_lefts(SHEET.pages) == LEFTS
    box = bbox.extents(DOCUMENT.modelspace())
    assert box.extmin.x == pytest.approx(10.0, abs=0.01)
    assert box.extmax.x == pytest.approx(LEFTS[1] + 200.0, abs=0.01)
    assert box.extmin.y >= 0.0
    assert box.extmax.y <= HIGH


def expected_counts(items: tuple[Item, ...]) -> Counter[str]:
    """Entities that items must become, counted apart from the writer."""
    found: Counter[str] = Counter()
    for item in items:
        fill = getattr(item, "fill", None)
        if isinstance(item, Text):
            found["TEXT"] += 1
            continue
        if isinstance(item, Path):
            few = len(item.points) in (3, 4)
            found["SOLID" if few else "HATCH"] += fill is not None
            found["LINE" if len(item.points) == 2 else "LWPOLYLINE"] += item.pen is not None
            continue
        found["HATCH"] += fill is not None
        found["ARC" if isinstance(item, ArcPath) else "CIRCLE"] += item.pen is not None
    return +found


def test_as_many_entities_as_items() -> None:
    items = tuple(item for page in SHEET.pages for item in page.items)
    count = Counter(entity.dxftype() for entity in DOCUMENT.modelspace())
    assert count.pop("DIMENSION") == sum(len(page.dimensions) for page in SHEET.pages)
    assert count == expected_counts(items)


def test_every_line_circle_and_arc_lies_where_the_page_has_it() -> None:
    space = list(DOCUMENT.modelspace())
    lines = [stroke_points(e) for e in space if e.dxftype() in ("LINE", "LWPOLYLINE")]
    rounds = [(*tuple(e.dxf.center)[:2], e.dxf.radius) for e in space if e.dxftype() in ("CIRCLE", "ARC")]
    wanted_lines, wanted_rounds = [], []
    for page, left in zip(SHEET.pages, LEFTS, strict=True):
        for item in page.items:
            if isinstance(item, Path) and item.pen is not None:
                wanted_lines.append([(x + left, y) for x, y in item.points])
            elif isinstance(item, Circle | ArcPath):
                wanted_rounds.append((item.centre[0] + left, item.centre[1], item.radius))
    assert len(lines) == len(wanted_lines)
    for line, wanted in zip(lines, wanted_lines, strict=True):
        assert [pytest.approx(point, abs=1e-6) for point in wanted] == line
    assert [pytest.approx(each, abs=1e-6) for each in wanted_rounds] == rounds
    (arc,) = DOCUMENT.modelspace().query("ARC")
    assert (arc.dxf.start_angle, arc.dxf.end_angle) == pytest.approx((350.0, 40.0))


@pytest.mark.parametrize("number", range(len(DIMENSIONS)))
def test_a_dimension_measures_what_the_page_says(number: int) -> None:
    """`get_measurement` is ezdxf's own, from the definition points alone; DIMLFAC scales lengths."""
    wanted = DIMENSIONS[number]
    found = DOCUMENT.modelspace().query("DIMENSION")[number]
    measured = float(found.get_measurement())
    if wanted.kind == "angle":
        assert math.radians(measured) == pytest.approx(wanted.value, abs=1e-9)
    else:
        assert measured * found.get_dim_style().dxf.dimlfac == pytest.approx(wanted.value, abs=1e-6)
    assert found.dxf.actual_measurement == pytest.approx(wanted.value)


def test_a_dimension_says_what_the_page_prints() -> None:
    said = [each.dxf.text for each in DOCUMENT.modelspace().query("DIMENSION")]
    assert said[0] == "160 ± 0.5"
    assert said[2] == "50 < > \\\\\\{a\\}"
    assert said[3] == "Ø 40"


def test_a_dimension_is_drawn_with_the_strokes_of_the_page() -> None:
    for wanted, found in zip(DIMENSIONS, DOCUMENT.modelspace().query("DIMENSION"), strict=False):
        block = DOCUMENT.blocks.get(found.dxf.geometry)
        assert Counter(e.dxftype() for e in block) == expected_counts(wanted.strokes)
        assert {e.dxf.layer for e in block} == {"DIMENSION"}


def test_the_dimension_line_runs_through_its_definition_point() -> None:
    """Group 10 of a linear dimension lies on the dimension line; of an angle on its arc."""
    across, up, slanted, *_, angle = DOCUMENT.modelspace().query("DIMENSION")[: len(DIMENSIONS)]
    assert tuple(across.dxf.defpoint)[:2] == pytest.approx((120.0, 80.0))
    assert tuple(up.dxf.defpoint)[:2] == pytest.approx((25.0, 60.0))
    assert tuple(slanted.dxf.defpoint)[:2] == pytest.approx((164.0, 57.0))
    assert math.dist(tuple(angle.dxf.defpoint)[:2], (40.0, 20.0)) == pytest.approx(18.0)


def test_layers_say_what_a_line_means() -> None:
    by_layer = Counter(entity.dxf.layer for entity in DOCUMENT.modelspace() if entity.dxf.layer)
    assert set(by_layer) == {
        *("OUTLINE", "THIN", "HIDDEN", "CENTRE", "BORDER", "FILL", "TEXT", "DIMENSION"),
    }
    (centre,) = (e for e in DOCUMENT.modelspace() if e.dxf.layer == "CENTRE")
    assert tuple(centre.dxf.start)[:2] == (65.0, 40.0)


def test_dashes_are_line_types_with_the_lengths_of_the_pen() -> None:
    """The pattern that the format stores: whole length, then dashes, gaps negative (group 49)."""
    (centre,) = (e for e in DOCUMENT.modelspace() if e.dxf.layer == "CENTRE")
    pattern = DOCUMENT.linetypes.get(centre.dxf.linetype).pattern_tags
    assert [tag.value for tag in pattern.tags if tag.code == 40] == [7.8]
    assert [tag.value for tag in pattern.tags if tag.code == 49] == [5.0, -1.0, 0.8, -1.0]
    widths = {e.dxf.layer: e.dxf.lineweight for e in DOCUMENT.modelspace() if e.dxf.hasattr("lineweight")}
    assert (widths["OUTLINE"], widths["BORDER"], widths["HIDDEN"]) == (50, 70, 25)


def test_texts_fill_no_more_room_than_printed_ones() -> None:
    """Fitted between two points as far apart as the printed text is wide, as high as its capitals."""
    texts = list(DOCUMENT.modelspace().query("TEXT"))
    wanted = [item for page in SHEET.pages for item in page.items if isinstance(item, Text)]
    assert len(texts) == len(wanted)
    for text, item in zip(texts, wanted, strict=True):
        assert text.get_align_enum().name == "FIT"
        start, end = text.dxf.insert, text.dxf.align_point
        assert (end - start).magnitude == pytest.approx(width(item.text.strip(), item.size_mm, item.bold))
        assert text.plain_text() == printable(item.text).strip()
        assert text.dxf.height == pytest.approx(0.718 * item.size_mm)


def test_letters_that_the_fonts_lack_are_spelled_as_on_the_printed_sheet() -> None:
    said = [text.plain_text() for text in DOCUMENT.modelspace().query("TEXT")]
    assert said[0] == printable(ODD) == "DO NOT MAKE 50%% ^ ? o"


def test_a_viewer_draws_nothing_outside_the_page_and_texts_in_their_boxes() -> None:
    """Rendered by ezdxf's drawing add-on with whatever font the machine has."""
    recorder = Recorder()
    Frontend(RenderContext(DOCUMENT), recorder).draw_layout(DOCUMENT.modelspace())
    box = recorder.player().bbox()
    low, high = box.extmin, box.extmax
    assert low.x >= 0.0
    assert low.y >= 0.0
    assert high.x <= 2 * WIDE + APART_MM
    assert high.y <= HIGH
    for entity, item in zip(
        DOCUMENT.modelspace().query("TEXT"), (i for i in ITEMS if isinstance(i, Text)), strict=False
    ):
        seen = Recorder()
        Frontend(RenderContext(DOCUMENT), seen).draw_entities([entity])
        found = seen.player().bbox()
        assert_within((found.extmin.x, found.extmin.y), (found.extmax.x, found.extmax.y), corners(item))


def assert_within(low: Vec2, high: Vec2, around: tuple[Vec2, ...], slack: float = 0.35) -> None:
    """The box of what a viewer drew lies in the box of the printed text; letters' bearings aside."""
    assert low[0] >= min(x for x, _ in around) - slack
    assert high[0] <= max(x for x, _ in around) + slack
    assert low[1] >= min(y for _, y in around) - slack
    assert high[1] <= max(y for _, y in around) + slack
