"""The lines of a PDF page as another program reads them, in mm on the paper."""

from __future__ import annotations

import ctypes
from dataclasses import dataclass

import pypdfium2
import pypdfium2.raw as pdfium

from clampwright.quantities import Vec2

POINT_MM = 25.4 / 72


@dataclass(frozen=True)
class Stroke:
    """One path: its corners, and the width of its line."""

    points: tuple[Vec2, ...]
    width_mm: float
    stroked: bool

    @property
    def size(self) -> Vec2:
        """Of the box round it."""
        xs, ys = zip(*self.points, strict=True)
        return max(xs) - min(xs), max(ys) - min(ys)

    @property
    def low(self) -> Vec2:
        """Lower left corner of the box round it."""
        xs, ys = zip(*self.points, strict=True)
        return min(xs), min(ys)


def strokes(data: bytes, page: int) -> list[Stroke]:
    """Every path of a page."""
    document = pypdfium2.PdfDocument(data)
    found = [_stroke(each) for each in document[page].get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH])]
    document.close()
    return found


def _stroke(item: pypdfium2.PdfObject) -> Stroke:
    a, b, c, d, e, f = item.get_matrix().get()
    points = []
    for n in range(pdfium.FPDFPath_CountSegments(item.raw)):
        segment = pdfium.FPDFPath_GetPathSegment(item.raw, n)
        x, y = ctypes.c_float(), ctypes.c_float()
        assert pdfium.FPDFPathSegment_GetPoint(segment, x, y)
        px, py = a * x.value + c * y.value + e, b * x.value + d * y.value + f
        points.append((px * POINT_MM, py * POINT_MM))
    wide, fill, stroke = ctypes.c_float(), ctypes.c_int(), ctypes.c_int()
    assert pdfium.FPDFPageObj_GetStrokeWidth(item.raw, wide)
    assert pdfium.FPDFPath_GetDrawMode(item.raw, fill, stroke)
    scale = (abs(a * d - b * c)) ** 0.5
    return Stroke(tuple(points), wide.value * scale * POINT_MM, bool(stroke.value))
