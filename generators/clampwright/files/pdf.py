"""A sheet to PDF: vectors and the standard fonts, true to scale, the same bytes for the same sheet."""

from __future__ import annotations

import io
import math
import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from itertools import groupby
from typing import Any

from reportlab import rl_config
from reportlab.lib.colors import HexColor
from reportlab.pdfgen.canvas import Canvas

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import ArcPath, Circle, Colour, Item, Page, Path, Pen, Sheet, Text
from clampwright.sheets.lettering import printable, width

_POINTS = 72 / 25.4
_DATE = "SOURCE_DATE_EPOCH"
_STEP = math.pi / 4
"""Longest arc drawn by one Bézier piece: 4e-6 of the radius off at most."""

_SHIFTS = {"left": 0.0, "middle": 0.5, "right": 1.0}
"""Share of a text's width by which it stands to the left of its point, by anchor."""

_colour = cache(HexColor)


@dataclass(slots=True)
class _Ink:
    """What a page is being drawn with: told to the file only where it changes."""

    canvas: Canvas
    colour: Colour = ""
    pen: Pen | None = None

    def fill_with(self, colour: Colour) -> None:
        """Fill what follows, shapes and letters, with this colour."""
        if colour != self.colour:
            self.canvas.setFillColor(_colour(colour))
            self.colour = colour

    def take(self, pen: Pen) -> None:
        """Draw the lines that follow with this pen."""
        if pen != self.pen:
            self.canvas.setStrokeColor(_colour(pen.colour))
            self.canvas.setLineWidth(pen.width_mm)
            self.canvas.setDash(list(pen.dash_mm))
            self.pen = pen


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
    with _binary(), _no_date():
        _draw_sheet(buffer, sheet)
    return buffer.getvalue()


def _draw_sheet(buffer: io.BytesIO, sheet: Sheet) -> None:
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


@contextmanager
def _binary() -> Iterator[None]:
    """Pages as bytes: spelled out in letters, as the library does it, they take a quarter more room."""
    before = rl_config.useA85
    rl_config.useA85 = 0
    try:
        yield
    finally:
        rl_config.useA85 = before


@contextmanager
def _no_date() -> Iterator[None]:
    """The library would take the date of SOURCE_DATE_EPOCH into the file, and break on one it cannot read."""
    before = os.environ.pop(_DATE, None)
    try:
        yield
    finally:
        if before is not None:
            os.environ[_DATE] = before


def _draw_page(canvas: Canvas, page: Page) -> None:
    canvas.setPageSize((page.width_mm * _POINTS, page.height_mm * _POINTS))
    canvas.scale(_POINTS, _POINTS)
    if page.stretch != (1.0, 1.0):
        across, along = page.stretch
        canvas.translate(page.width_mm / 2 * (1 - across), page.height_mm / 2 * (1 - along))
        canvas.scale(across, along)
    canvas.setLineCap(0)
    canvas.setLineJoin(1)
    ink = _Ink(canvas)
    for colour, items in groupby(page.drawn(), _letters):
        if colour is None:
            for item in items:
                _draw(canvas, item, ink)
        else:
            ink.fill_with(colour)
            _write(canvas, (item for item in items if isinstance(item, Text)))
    canvas.showPage()


def _letters(item: Item) -> Colour | None:
    """Colour of a text; None for anything else."""
    return item.colour if isinstance(item, Text) else None


def _draw(canvas: Canvas, item: Item, ink: _Ink) -> None:
    assert not isinstance(item, Text)
    if isinstance(item, Path):
        route = _Route(_chain(item))
    elif isinstance(item, Circle):
        route = _Route(f"{_arc(item.centre, item.radius, 0.0, 2 * math.pi)} h")
    else:
        route = _Route(_arc(item.centre, item.radius, *_sweep(item)))
    fill = None if isinstance(item, ArcPath) else item.fill
    if item.pen is not None:
        ink.take(item.pen)
    if fill is not None:
        ink.fill_with(fill)
    canvas.drawPath(route, stroke=int(item.pen is not None), fill=int(fill is not None))


@dataclass(slots=True)
class _Route:
    """A path in the file's own words (ISO 32000-1, 8.5.2), to a tenth of a micrometre.

    The library's own path spells every number so slowly that it took a sixth of a build's sheets.
    """

    code: str

    def getCode(self) -> str:  # noqa: N802
        """What the canvas asks a path for."""
        return self.code


def _chain(item: Path) -> str:
    """A move, then lines."""
    lines = " l ".join([f"{x:.4f} {y:.4f}" for x, y in item.points])
    code = lines.replace(" l ", " m ", 1) + " l" if len(item.points) > 1 else f"{lines} m"
    return f"{code} h" if item.closed else code


def _sweep(item: ArcPath) -> tuple[float, float]:
    """Start angle and counter-clockwise extent, rad."""
    extent = (item.end_deg - item.start_deg) % 360
    return math.radians(item.start_deg), math.radians(extent or 360.0)


def _arc(centre: Vec2, radius: float, start: float, extent: float) -> str:
    """Bézier pieces with handles of 4/3 tan(step/4) radii."""
    count = math.ceil(extent / _STEP - 1e-9)
    step = extent / count
    handle = 4 / 3 * math.tan(step / 4) * radius
    x0, y0 = centre
    words = [f"{x0 + radius * math.cos(start):.4f} {y0 + radius * math.sin(start):.4f} m"]
    for piece in range(count):
        a, b = start + piece * step, start + (piece + 1) * step
        ax, ay = x0 + radius * math.cos(a), y0 + radius * math.sin(a)
        bx, by = x0 + radius * math.cos(b), y0 + radius * math.sin(b)
        near = f"{ax - handle * math.sin(a):.4f} {ay + handle * math.cos(a):.4f}"
        far = f"{bx + handle * math.sin(b):.4f} {by - handle * math.cos(b):.4f}"
        words.append(f"{near} {far} {bx:.4f} {by:.4f} c")
    return " ".join(words)


def _write(canvas: Canvas, texts: Iterable[Text]) -> None:
    """A run of texts of one colour as one text object."""
    run, font = canvas.beginText(), ("", 0.0)
    for item in texts:
        text, wanted = printable(item.text), ("Helvetica-Bold" if item.bold else "Helvetica", item.size_mm)
        if wanted != font:
            run.setFont(*wanted)
            font = wanted
        back = _SHIFTS[item.anchor] * width(text, item.size_mm, item.bold)
        _go_to(run, item.at, item.angle_deg, back)
        run.textOut(text)
    canvas.drawText(run)


def _go_to(run: Any, at: Vec2, angle_deg: float, back: float) -> None:
    """Begin a text at a point, turned, and drawn back along its line."""
    if not angle_deg:
        run.setTextOrigin(at[0] - back, at[1])
        return
    c, s = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    run.setTextTransform(c, s, -s, c, at[0] - back * c, at[1] - back * s)
