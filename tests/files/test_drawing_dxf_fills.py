"""Filled shapes of a drawing in its DXF: corners in the order that the format asks for."""

from __future__ import annotations

import io

import ezdxf
import pytest
from shapely.geometry import Polygon

from clampwright.files.drawing_dxf import drawing_dxf
from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Page, Path, Sheet

QUADS: list[tuple[tuple[Vec2, ...], float]] = [
    (((10.0, 10.0), (50.0, 10.0), (50.0, 30.0), (10.0, 30.0)), 800.0),
    (((0.0, 0.0), (20.0, 0.0), (14.0, 10.0), (4.0, 10.0)), 150.0),
]


@pytest.mark.parametrize(("points", "area"), QUADS)
def test_a_filled_quadrilateral_is_no_bow_tie(points: tuple[Vec2, ...], area: float) -> None:
    """DXF reference, SOLID: the outline runs first, second, fourth, third corner; areas by hand."""
    page = Page("fill", 210.0, 297.0, (Path(points, None, closed=True, fill="#dddddd"),))
    text = drawing_dxf(Sheet("fill", "Fill", (page,), True), "a fill").decode()
    (solid,) = ezdxf.read(io.StringIO(text)).modelspace().query("SOLID")
    corners = [getattr(solid.dxf, f"vtx{n}") for n in (0, 1, 3, 2)]
    shape = Polygon([(corner.x, corner.y) for corner in corners])
    assert shape.is_valid
    assert shape.area == pytest.approx(area)
    assert shape.equals(Polygon(points))
