"""A sheet to PDF: vectors and the standard fonts, true to scale, the same bytes for the same sheet."""

from __future__ import annotations

import io
import math

from reportlab.pdfgen.canvas import Canvas

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import ArcPath, Circle, Item, Page, Path, Pen, Sheet, Text
from clampwright.sheets.lettering import printable, width

_POINTS = 72 / 25.4
_STEP = math.pi / 4
"""Longest arc drawn by one Bézier piece: 4e-6 of the radius off at most."""


def pdf(sheet: Sheet) -> bytes:
    """The PDF file of a sheet.

    A sheet drawn to true scale asks the viewer to print it without scaling (ISO 32000-1, table 150,
    `PrintScaling /None`).

    Examples
    --------
    >>> page = Page("drill", 210.0, 297.0, (Circle((105.0, 148.5), 2.45),))
    >>> pdf(Sheet("demo", "Drill template", (page,), true_scale=True))[:5]
    b'%PDF-'
    """
    buffer = io.BytesIO()
    canvas = Canvas(buffer, invariant=1, pageCompression=1)
    canvas.setTitle(printable(sheet.title))
    canvas.setSubject(printable(sheet.name))
    canvas.setAuthor("clampwright")
    canvas.setCreator("clampwright")
    canvas.setProducer("clampwright")
    if sheet.true_scale:
        canvas.setViewerPreference("PrintScaling", "None")
    for page in sheet.pages:
        _draw_page(canvas, page)
    canvas.save()
    return buffer.getvalue()


def _draw_page(canvas: Canvas, page: Page) -> None:
    canvas.setPageSize((page.width_mm * _POINTS, page.height_mm * _POINTS))
    canvas.scale(_POINTS, _POINTS)
    if page.stretch != (1.0, 1.0):
        across, along = page.stretch
        canvas.translate(page.width_mm / 2 * (1 - across), page.height_mm / 2 * (1 - along))
        canvas.scale(across, along)
    canvas.setLineCap(0)
    canvas.setLineJoin(1)
    for item in page.items:
        _draw(canvas, item)
    canvas.showPage()


def _draw(canvas: Canvas, item: Item) -> None:
    if isinstance(item, Text):
        _draw_text(canvas, item)
        return
    path = canvas.beginPath()
    if isinstance(item, Path):
        _chain(path, item)
    elif isinstance(item, Circle):
        _arc(path, item.centre, item.radius, 0.0, 2 * math.pi)
        path.close()
    else:
        _arc(path, item.centre, item.radius, *_sweep(item))
    fill = None if isinstance(item, ArcPath) else item.fill
    if item.pen is not None:
        _take_pen(canvas, item.pen)
    if fill is not None:
        canvas.setFillColor(fill)
    canvas.drawPath(path, stroke=int(item.pen is not None), fill=int(fill is not None))


def _take_pen(canvas: Canvas, pen: Pen) -> None:
    canvas.setStrokeColor(pen.colour)
    canvas.setLineWidth(pen.width_mm)
    canvas.setDash(list(pen.dash_mm))


def _chain(path: object, item: Path) -> None:
    path.moveTo(*item.points[0])  # type: ignore[attr-defined]
    for point in item.points[1:]:
        path.lineTo(*point)  # type: ignore[attr-defined]
    if item.closed:
        path.close()  # type: ignore[attr-defined]


def _sweep(item: ArcPath) -> tuple[float, float]:
    """Start angle and counter-clockwise extent, rad."""
    extent = (item.end_deg - item.start_deg) % 360
    return math.radians(item.start_deg), math.radians(extent or 360.0)


def _arc(path: object, centre: Vec2, radius: float, start: float, extent: float) -> None:
    """Bézier pieces with handles of 4/3 tan(step/4) radii."""
    count = math.ceil(extent / _STEP - 1e-9)
    step = extent / count
    handle = 4 / 3 * math.tan(step / 4) * radius
    x0, y0 = centre
    path.moveTo(x0 + radius * math.cos(start), y0 + radius * math.sin(start))  # type: ignore[attr-defined]
    for piece in range(count):
        a, b = start + piece * step, start + (piece + 1) * step
        ax, ay = x0 + radius * math.cos(a), y0 + radius * math.sin(a)
        bx, by = x0 + radius * math.cos(b), y0 + radius * math.sin(b)
        path.curveTo(  # type: ignore[attr-defined]
            ax - handle * math.sin(a),
            ay + handle * math.cos(a),
            bx + handle * math.sin(b),
            by - handle * math.cos(b),
            bx,
            by,
        )


def _draw_text(canvas: Canvas, item: Text) -> None:
    text = printable(item.text)
    canvas.saveState()
    canvas.setFillColor(item.colour)
    canvas.setFont("Helvetica-Bold" if item.bold else "Helvetica", item.size_mm)
    canvas.translate(*item.at)
    if item.angle_deg:
        canvas.rotate(item.angle_deg)
    shift = {"left": 0.0, "middle": 0.5, "right": 1.0}[item.anchor]
    canvas.drawString(-shift * width(text, item.size_mm, item.bold), 0, text)
    canvas.restoreState()
