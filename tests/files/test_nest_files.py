"""Files of a nest, read back with ezdxf and shapely: what is cut is what was laid, and nothing else."""

from __future__ import annotations

import csv
import io
import math
from dataclasses import replace
from importlib import resources
from itertools import combinations

import ezdxf
import pytest
import shapely
from nesting.cut_parts import angle, disc, hull, part, rounded
from recipe.recipe_files import RECIPES

from clampwright.files.dxf import CUT, MARK, REFERENCE
from clampwright.files.nest_dxf import nest_cut_dxf
from clampwright.files.nest_files import nested_sheet_files
from clampwright.files.nest_preflight import faults_of_sheet, refuse_unfit_nest
from clampwright.files.nest_rows import COLUMNS, nest_rows
from clampwright.files.preflight import NotFitForCutting
from clampwright.layout.lay_out import lay_out
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.layout.shop.told import ToldHole
from clampwright.nesting.nest import nest
from clampwright.recipe.read import read
from clampwright.trade.holes import drill

HOLES = (
    ToldHole("A1", (15.0, 15.0), 4.9, "AN3", "clamp", "#10", "#30", transferred=True),
    ToldHole("L1", (60.0, 14.0), 12.0, "", "lightening", "step drill", ""),
)
PARTS = [
    part("angle", angle(120, 90, 30, 4), 2, holes=HOLES),
    part("disc", disc(22.5), 2),
    part("band", hull(((0.0, 0.0), 12.0), ((90.0, 10.0), 15.0), ((40.0, 60.0), 10.0))),
]


@pytest.fixture(scope="module")
def found():
    return nest(PARTS)


@pytest.fixture(scope="module")
def files(found):
    return files_of(found, "bay")


def files_of(found, name):
    """Both files of every sheet, by their names."""
    return {
        written.name: written
        for sheet in found.sheets
        for written in nested_sheet_files(sheet, f"{name}-nest-{sheet.number}")
    }


def entities(data):
    return list(ezdxf.read(io.StringIO(data.decode())).modelspace())


def area_of(entity):
    """What an entity encloses, by ezdxf's own flattening of circles and arcs, pieced together by shapely."""
    if entity.dxftype() == "CIRCLE":
        return shapely.Polygon([(p.x, p.y) for p in entity.flattening(1e-5)])
    pieces = []
    for each in entity.virtual_entities():
        points = each.flattening(1e-5) if each.dxftype() == "ARC" else (each.dxf.start, each.dxf.end)
        pieces.append(shapely.LineString([(p.x, p.y) for p in points]))
    (whole,) = shapely.polygonize([shapely.set_precision(shapely.union_all(pieces, 1e-7), 1e-7)]).geoms
    return whole


def test_a_cut_file_and_a_file_of_marks_a_sheet(files):
    assert list(files) == ["bay-nest-1-cut.dxf", "bay-nest-1-marks.dxf"]


def test_nothing_but_closed_contours_and_circles_on_the_cut_layer(files):
    document = ezdxf.read(io.StringIO(files["bay-nest-1-cut.dxf"].data.decode()))
    kinds = [(e.dxftype(), e.dxf.layer) for e in document.modelspace()]
    assert sorted(set(kinds)) == [("CIRCLE", CUT), ("LWPOLYLINE", CUT)]
    assert kinds.count(("LWPOLYLINE", CUT)) == 3
    assert kinds.count(("CIRCLE", CUT)) == 2 * len(HOLES) + 2
    assert all(e.closed for e in document.modelspace().query("LWPOLYLINE"))
    assert document.units == ezdxf.units.MM


def test_areas_read_back_are_those_of_the_parts(files):
    read_back = sorted(area_of(e).area for e in entities(files["bay-nest-1-cut.dxf"].data))
    outer = [p.outline.area_mm2() for p in PARTS for _ in range(p.quantity)]
    pilot = drill("#30").diameter_mm
    holes = [math.pi * d * d / 4 for d in (pilot, pilot, 12.0, 12.0)]
    assert read_back == pytest.approx(sorted([*outer, *holes]), rel=1e-5)


def test_contours_read_back_keep_the_kerf_and_the_margin(files, found):
    stock = found.sheets[0].stock
    shapes = [area_of(e) for e in entities(files["bay-nest-1-cut.dxf"].data)]
    outer = [each for each in shapes if each.area > 1000]
    assert len(outer) == 5
    for one, other in combinations(outer, 2):
        assert one.distance(other) >= stock.kerf_mm - 1e-3
    inner = shapely.box(0, 0, stock.width_mm, stock.length_mm).buffer(-stock.margin_mm + 1e-3)
    assert all(inner.covers(each) for each in outer)


def test_holes_to_be_transferred_are_pilots_and_the_others_at_final_size(files):
    circles = [e for e in entities(files["bay-nest-1-cut.dxf"].data) if e.dxftype() == "CIRCLE"]
    sizes = sorted(round(2 * e.dxf.radius, 4) for e in circles)
    assert sizes == sorted([round(drill("#30").diameter_mm, 4)] * 2 + [12.0] * 2 + [45.0] * 2)


def test_marks_stand_in_a_file_without_a_cut_layer(files):
    document = ezdxf.read(io.StringIO(files["bay-nest-1-marks.dxf"].data.decode()))
    layers = {e.dxf.layer for e in document.modelspace()}
    assert layers == {MARK, REFERENCE}
    assert document.layers.get(REFERENCE).dxf.plot == 0
    texts = {e.dxf.text for e in document.modelspace().query("TEXT")}
    assert {"angle 1", "angle 2", "band 1", "disc 1", "disc 2", "rolling direction"} <= texts


def test_the_list_puts_every_datum_where_the_file_has_it(files, found):
    rows = list(nest_rows(found))
    assert {key for row in rows for key in row} <= set(COLUMNS)
    pieces = [row for row in rows if row["line"] == "piece"]
    assert len(pieces) == 5
    starts = [
        tuple(e.get_points("xy")[0])
        for e in entities(files["bay-nest-1-cut.dxf"].data)
        if e.dxftype() != "CIRCLE"
    ]
    (band,) = [row for row in pieces if row["part"] == "band"]
    turn, (u, v) = math.radians(float(band["turn_deg"])), PARTS[2].outline.pieces[0].start
    x = float(band["x_mm"]) + math.cos(turn) * u - math.sin(turn) * v
    y = float(band["y_mm"]) + math.sin(turn) * u + math.cos(turn) * v
    assert min(math.dist((x, y), start) for start in starts) < 1e-5
    (stock,) = [row for row in rows if row["line"] == "stock"]
    assert float(stock["utilisation_percent"]) >= float(stock["boxes_percent"])


def test_every_column_is_described():
    text = resources.files("clampwright.files").joinpath("nest_keys.csv").read_text("utf-8")
    told = list(csv.DictReader(text.splitlines()))
    assert [row["key"] for row in told] == list(COLUMNS)
    assert all(row["about"] for row in told)


def test_the_same_nest_gives_the_same_bytes(found, files):
    once_more = nest(PARTS[::-1])
    assert list(nest_rows(once_more)) == list(nest_rows(found))
    again = {name: written.data for name, written in files_of(once_more, "bay").items()}
    assert again == {name: written.data for name, written in files.items()}


def spoiled(sheet, change):
    """The cut file with something changed in it."""
    document = ezdxf.read(io.StringIO(nest_cut_dxf(sheet).decode()))
    change(document)
    text = io.StringIO()
    document.write(text)
    return text.getvalue().encode()


def first(document, kind):
    return next(iter(document.modelspace().query(kind)))


def moved(document):
    first(document, "LWPOLYLINE").translate(0.01, 0, 0)


def opened(document):
    first(document, "LWPOLYLINE").close(False)


def twice(document):
    document.modelspace().add_entity(first(document, "LWPOLYLINE").copy())


def lost(document):
    document.modelspace().delete_entity(first(document, "CIRCLE"))


def wider(document):
    first(document, "CIRCLE").dxf.radius += 0.01


def text(document):
    document.modelspace().add_text("1", dxfattribs={"layer": CUT})


def inches(document):
    document.units = ezdxf.units.IN


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (moved, "the contour of angle copy 1 is not in the file"),
        (opened, "a contour is open"),
        (twice, "belongs to no part"),
        (lost, "hole A1 of angle copy 1 is not in the file"),
        (wider, "hole A1 of angle copy 1 is not in the file"),
        (text, "a TEXT is neither a circle nor a contour"),
        (inches, "does not say that its unit is the millimetre"),
    ],
)
def test_a_spoiled_file_is_refused(found, change, said):
    data = spoiled(found.sheets[0], change)
    assert any(said in fault for fault in faults_of_sheet(data, found.sheets[0]))
    with pytest.raises(NotFitForCutting):
        refuse_unfit_nest(data, found.sheets[0])


def test_parts_that_lie_too_close_are_refused_whatever_the_nest_says(found):
    """The file agrees with a nest that itself breaks the kerf: distances are measured in the file."""
    sheet = found.sheets[0]
    x, y = sheet.laid[1].at
    near = replace(sheet.laid[1], at=(sheet.laid[0].at[0] + 5.0, sheet.laid[0].at[1] + 5.0))
    wrong = replace(sheet, laid=(sheet.laid[0], near))
    assert (x, y) != near.at
    assert any("apart, not 1 mm" in fault for fault in faults_of_sheet(nest_cut_dxf(wrong), wrong))


def test_what_was_left_out_stands_in_the_list():
    found = nest([part("large", rounded(700, 700, 5))])
    rows = list(nest_rows(found))
    assert [(row["line"], row["part"]) for row in rows] == [("left out", "large")]
    assert "would do" in rows[0]["why"]


def test_the_example_plates_on_one_sheet():
    """Both are of one sheet metal and go on one sheet; every hole of both is in the file."""
    recipes = [read(RECIPES / f"{name}.toml") for name in ("coil-plate", "two-tube-minimum")]
    parts = [part for recipe in recipes for part in flat_parts(lay_out(recipe))]
    found = nest(parts)
    assert len({(p.material.name, p.thickness_mm) for p in parts}) == len(found.sheets) == 1
    cut = files_of(found, "both")["both-nest-1-cut.dxf"]
    circles = [e for e in entities(cut.data) if e.dxftype() == "CIRCLE"]
    assert len(circles) == sum(len(p.holes) * p.quantity for p in parts)
    contours = [area_of(e).area for e in entities(cut.data) if e.dxftype() == "LWPOLYLINE"]
    assert sorted(contours) == pytest.approx(sorted(p.outline.area_mm2() for p in parts), rel=1e-5)
