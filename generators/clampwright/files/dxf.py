"""DXF flat patterns for a cutting shop: true size, millimetres, closed contours, true arcs and circles.

The cut file holds what is to be cut and nothing else, on one layer. Labels, centres and the datum stand in
a file of their own that has no cut layer, so that no machine cuts them by mistake. R2010; the same layout
gives the same bytes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import Any

from ezdxf.enums import TextEntityAlignment

from clampwright.files.dxf_document import Document, document_bytes, new_document, steady
from clampwright.layout.outline import Arc, Line, Outline
from clampwright.layout.placed import PlateLayout
from clampwright.quantities import Vec2

CUT, MARK, REFERENCE = "CUT", "MARK", "REFERENCE"
"""Layers: contours to cut (cut file only); labels and centres; the contours again, to look at only."""

WHITE, RED, GREY = 7, 1, 8
TEXT_MM, CROSS_MM, DATUM_MM = 3.0, 3.0, 15.0
"""Sizes of labels, centre crosses and datum arrows."""


def cut_dxf(layout: PlateLayout, about: str = "", diameters: Mapping[str, float] | None = None) -> bytes:
    """The contours of the plate on layer CUT: one closed polyline with arcs, and a circle a hole.

    Parameters
    ----------
    layout : PlateLayout
        What is to be cut.
    about : str
        What it is, for the file's properties.
    diameters : Mapping[str, float], optional
        Other diameters by hole label, mm: pilots instead of final sizes.
    """
    with steady():
        document = _document(layout, about)
        document.layers.add(CUT, color=WHITE)
        _contours(document.modelspace(), layout, diameters or {}, CUT)
        return document_bytes(document)


def marks_dxf(layout: PlateLayout, about: str = "") -> bytes:
    """Labels, centre crosses and the datum on layer MARK; the contours, not plotted, on layer REFERENCE."""
    with steady():
        document = _document(layout, about)
        document.layers.add(MARK, color=RED)
        document.layers.add(REFERENCE, color=GREY).dxf.plot = 0
        space = document.modelspace()
        _contours(space, layout, {}, REFERENCE)
        _marks(space, layout)
        _text(space, about, (DATUM_MM, -2 * TEXT_MM))
        return document_bytes(document)


def bulge(arc: Arc) -> float:
    """Bulge of a polyline's arc: tan(sweep/4), negative where it turns clockwise.

    >>> round(bulge(Arc((5.0, 0.0), (-5.0, 0.0), (0.0, 0.0), True)), 12)
    1.0
    """
    return math.tan(arc.sweep / 4) * (1 if arc.ccw else -1)


def _contours(space: Any, layout: PlateLayout, diameters: Mapping[str, float], layer: str) -> None:
    _outline(space, layout.outline, layer)
    for hole in layout.holes:
        diameter = diameters.get(hole.label, hole.diameter_mm)
        space.add_circle(hole.at, diameter / 2, dxfattribs={"layer": layer})


def _outline(space: Any, outline: Outline, layer: str) -> None:
    whole = outline.pieces[0]
    if len(outline.pieces) == 1 and isinstance(whole, Arc):
        space.add_circle(whole.centre, whole.radius_mm, dxfattribs={"layer": layer})
        return
    points = [(*piece.start, _bulge_of(piece)) for piece in outline.pieces]
    space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": layer})


def _bulge_of(piece: Line | Arc) -> float:
    return bulge(piece) if isinstance(piece, Arc) else 0.0


def _marks(space: Any, layout: PlateLayout) -> None:
    on = {"layer": MARK}
    for hole in layout.holes:
        u, v = hole.at
        space.add_line((u - CROSS_MM, v), (u + CROSS_MM, v), dxfattribs=on)
        space.add_line((u, v - CROSS_MM), (u, v + CROSS_MM), dxfattribs=on)
        out = hole.diameter_mm / 2 + TEXT_MM / 2
        _text(space, hole.label, (u + out, v + out))
    for tip, label in (((DATUM_MM, 0.0), "u"), ((0.0, DATUM_MM), "v")):
        space.add_line((0.0, 0.0), tip, dxfattribs=on)
        _text(space, label, tip)
    _text(space, "seen from the far face, the component side", (DATUM_MM, -4 * TEXT_MM))


def _text(space: Any, text: str, at: Vec2) -> None:
    placed = space.add_text(text, height=TEXT_MM, dxfattribs={"layer": MARK})
    placed.set_placement(at, align=TextEntityAlignment.LEFT)


def _document(layout: PlateLayout, about: str) -> Document:
    u0, v0, u1, v1 = layout.outline.box()
    return new_document((u0, v0), (u1, v1), _properties(layout, about))


def _properties(layout: PlateLayout, about: str) -> Iterator[tuple[str, str]]:
    yield "about", about
    yield "part", layout.recipe.name
    yield "material", layout.material.name
    yield "thickness", f"{layout.thickness_mm:g} mm"
    yield "quantity", f"{layout.recipe.shop.quantity}"
    yield "recipe digest", layout.recipe.digest
