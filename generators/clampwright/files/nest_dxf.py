"""DXF of nested sheets: what is cut from a stock sheet in one file, what is to be read in another.

As with a single flat pattern, the cut file holds contours and holes on layer CUT and nothing else, in
millimetres, with true arcs. Part numbers, the sheet's edges, the rolling direction and the contours to look
at stand in the file of marks, which has no cut layer.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from ezdxf.enums import TextEntityAlignment

from clampwright.files.dxf import CUT, GREY, MARK, RED, REFERENCE, WHITE, bulge
from clampwright.files.dxf_document import Document, document_bytes, new_document, steady
from clampwright.layout.outline import Arc, Outline
from clampwright.nesting.nested import Laid, NestedSheet
from clampwright.nesting.on_sheet import holes_on_sheet, outline_on_sheet
from clampwright.quantities import Vec2
from clampwright.sheets.shop.label_room import roomiest
from clampwright.sheets.shop.nest_drawing import ring_of

_TEXT_MM, _ARROW_MM, _HEAD_MM = 5.0, 60.0, 6.0
"""Sizes of part numbers and of the arrow that shows the rolling direction."""


def nest_cut_dxf(sheet: NestedSheet, about: str = "") -> bytes:
    """Contours and holes of all parts on a sheet, the holes of each part before its contour.

    Holes are at final size, or pilots where they are opened to size in place. The origin is the sheet's
    lower left corner, the rolling direction runs along y.
    """
    with steady():
        document = _document(sheet, about)
        document.layers.add(CUT, color=WHITE)
        _contours(document.modelspace(), sheet, CUT)
        return document_bytes(document)


def nest_marks_dxf(sheet: NestedSheet, about: str = "") -> bytes:
    """Part numbers, the sheet and its rolling direction on layer MARK; contours on REFERENCE, not plotted."""
    with steady():
        document = _document(sheet, about)
        document.layers.add(MARK, color=RED)
        document.layers.add(REFERENCE, color=GREY).dxf.plot = 0
        space = document.modelspace()
        _contours(space, sheet, REFERENCE)
        _edges(space, sheet)
        for laid in sheet.laid:
            _text(space, f"{laid.part.number} {laid.copy}", _most_room(laid))
        _arrow(space, sheet)
        return document_bytes(document)


def add_contour(space: Any, outline: Outline, layer: str) -> None:
    """A closed polyline with true arcs, or a circle where the outline is one whole arc."""
    whole = outline.pieces[0]
    if len(outline.pieces) == 1 and isinstance(whole, Arc):
        space.add_circle(whole.centre, whole.radius_mm, dxfattribs={"layer": layer})
        return
    points = [(*p.start, bulge(p) if isinstance(p, Arc) else 0.0) for p in outline.pieces]
    space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": layer})


def _contours(space: Any, sheet: NestedSheet, layer: str) -> None:
    for laid in sheet.laid:
        _holes(space, laid, layer)
        add_contour(space, outline_on_sheet(laid), layer)


def _holes(space: Any, laid: Laid, layer: str) -> None:
    for at, diameter in holes_on_sheet(laid):
        space.add_circle(at, diameter / 2, dxfattribs={"layer": layer})


def _edges(space: Any, sheet: NestedSheet) -> None:
    wide, long = sheet.stock.width_mm, sheet.stock.length_mm
    corners = ((0.0, 0.0), (wide, 0.0), (wide, long), (0.0, long))
    space.add_lwpolyline(corners, close=True, dxfattribs={"layer": MARK})


def _arrow(space: Any, sheet: NestedSheet) -> None:
    """Beside the sheet, so that no part lies under it."""
    x, y = -3 * _TEXT_MM, sheet.stock.margin_mm
    tip = (x, y + _ARROW_MM)
    heads = [(x + side * _HEAD_MM / 3, tip[1] - _HEAD_MM) for side in (-1, 1)]
    for end in ((x, y), *heads):
        space.add_line(tip, end, dxfattribs={"layer": MARK})
    _text(space, "rolling direction", (x - _TEXT_MM, y + _ARROW_MM / 2), 90.0)
    stock = f"{sheet.stock.words}, {sheet.stock.width_mm:g} x {sheet.stock.length_mm:g} mm"
    _text(space, stock, (sheet.stock.width_mm / 2, -2 * _TEXT_MM))


def _most_room(laid: Laid) -> Vec2:
    holes = [(at, diameter / 2) for at, diameter in holes_on_sheet(laid)]
    return roomiest(ring_of(outline_on_sheet(laid), 1.0), holes)[0]


def _text(space: Any, text: str, at: Vec2, turned_deg: float = 0.0) -> None:
    placed = space.add_text(text, height=_TEXT_MM, rotation=turned_deg, dxfattribs={"layer": MARK})
    placed.set_placement(at, align=TextEntityAlignment.MIDDLE_CENTER)


def _document(sheet: NestedSheet, about: str) -> Document:
    size = (sheet.stock.width_mm, sheet.stock.length_mm)
    return new_document((0.0, 0.0), size, _properties(sheet, about))


def _properties(sheet: NestedSheet, about: str) -> Iterator[tuple[str, str]]:
    stock = sheet.stock
    yield "about", about
    yield "sheet", f"{sheet.number}"
    yield "material", stock.material
    yield "thickness", f"{stock.thickness_mm:g} mm"
    yield "stock", f"{stock.width_mm:g} x {stock.length_mm:g} mm"
    yield "kerf", f"{stock.kerf_mm:g} mm"
    yield "margin", f"{stock.margin_mm:g} mm"
    yield "parts", f"{len(sheet.laid)}"
    digests = {f"{laid.part.recipe} {laid.part.digest}" for laid in sheet.laid}
    yield "recipe digests", ", ".join(sorted(digests))
