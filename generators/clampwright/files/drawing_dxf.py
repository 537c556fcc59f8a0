"""A sheet as DXF: what stands on the paper, in millimetres of the paper, with dimensions that can be asked.

All pages stand side by side in model space: a shop's viewer or quoting page shows model space at once, and
many show nothing else. Lines are on layers by what they mean, circles and arcs are true, and every dimension
is one native entity: its definition points lie on what it measures, its style's linear factor (DIMLFAC) is
the part's millimetres for one of the paper, and its picture is the very strokes of the printed page. R2010;
the same sheet gives the same bytes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any

from ezdxf.enums import TextEntityAlignment

from clampwright.files.drawing_dimensions import add_dimension
from clampwright.files.drawing_layers import (
    BORDER,
    LAYERS,
    TEXT,
    Margin,
    layer_of,
    line_type,
    lineweight,
    margin_of,
)
from clampwright.files.dxf_document import Document, document_bytes, new_document, steady
from clampwright.quantities import Vec2
from clampwright.sheets import letter_widths
from clampwright.sheets.drawing import ArcPath, Circle, Colour, Item, Page, Path, Pen, Sheet, Text
from clampwright.sheets.ink import BLACK, WHITE
from clampwright.sheets.item_reach import reach
from clampwright.sheets.lettering import printable, width

APART_MM = 20.0
"""Between two pages."""
STYLES = {False: ("LETTERS", "arial.ttf"), True: ("LETTERS-BOLD", "arialbd.ttf")}
"""Text style and font file, plain and bold: letters as wide as those of the printed sheet."""

_SHIFTS = {"left": 0.0, "middle": 0.5, "right": 1.0}
_BLACK_OR_WHITE = 7
_SOLID_CORNERS = (3, 4)
_CONTINUE_DASHES = 128


def drawing_dxf(sheet: Sheet, about: str) -> bytes:
    """The DXF file of a sheet.

    Parameters
    ----------
    sheet
        Any sheet; texts are written in the letters that the printed sheet has.
    about
        What it is, for the file's properties.

    Examples
    --------
    >>> page = Page("part", 210.0, 297.0, (Circle((105.0, 148.5), 2.45),))
    >>> drawing_dxf(Sheet("demo", "Part", (page,), True), "a demo").startswith(b"  0\\nSECTION")
    True
    """
    lefts = page_lefts(sheet.pages)
    right = lefts[-1] + sheet.pages[-1].width_mm
    top = max(page.height_mm for page in sheet.pages)
    with steady():
        document = new_document((0.0, 0.0), (right, top), _properties(sheet, about))
        document.set_modelspace_vport(height=1.05 * top, center=(right / 2, top / 2))
        for layer in LAYERS:
            document.layers.add(layer, color=_BLACK_OR_WHITE)
        for name, font in STYLES.values():
            document.styles.add(name, font=font)
        for page, left in zip(sheet.pages, lefts, strict=True):
            _page(document, page, left)
        return document_bytes(document)


def page_lefts(pages: Iterable[Page]) -> tuple[float, ...]:
    """Where the left edge of each page lies in model space, mm; all stand on y = 0."""
    lefts, x = [], 0.0
    for page in pages:
        lefts.append(x)
        x += page.width_mm + APART_MM
    return tuple(lefts)


def _properties(sheet: Sheet, about: str) -> Iterable[tuple[str, str]]:
    yield "about", printable(about)
    yield "title", printable(sheet.title)
    yield "name", printable(sheet.name)
    yield "drawn in", "millimetres of the paper"


def _page(document: Document, page: Page, left: float) -> None:
    ink = Ink(document, left, margin_of(page))
    space = document.modelspace()
    for item in page.items:
        ink.draw(space, item)
    for dimension in page.dimensions:
        add_dimension(document, dimension, left, ink)


class Ink:
    """Draws items of a page that stands `left` mm to the right; makes line types as they are needed."""

    def __init__(self, document: Document, left: float, margin: Margin | None = None) -> None:
        self.document, self.left, self.margin = document, left, margin

    def draw(self, space: Any, item: Item, layer: str = "") -> None:
        """An item as entities of a space; on the layer that its pen means where none is given."""
        if isinstance(item, Text):
            self._text(space, item, layer or TEXT)
            return
        fill = None if isinstance(item, ArcPath) else item.fill
        if fill is not None and fill != WHITE:
            self._fill(space, item, fill, layer or self._layer(item, None))
        if item.pen is not None:
            self._line(space, item, self._attributes(item.pen, layer or self._layer(item, item.pen)))

    def at(self, point: Vec2) -> Vec2:
        """A point of the page in model space."""
        return point[0] + self.left, point[1]

    def _layer(self, item: Item, pen: Pen | None) -> str:
        points = reach(item)
        if pen is not None and self.margin is not None and self.margin.holds(points):
            return BORDER
        return layer_of(pen, points)

    def _line(self, space: Any, item: Item, how: dict[str, Any]) -> None:
        if isinstance(item, Circle):
            space.add_circle(self.at(item.centre), item.radius, dxfattribs=how)
        elif isinstance(item, ArcPath):
            space.add_arc(
                self.at(item.centre), item.radius, item.start_deg % 360, item.end_deg % 360, dxfattribs=how
            )
        elif isinstance(item, Path):
            self._chain(space, item, how)

    def _chain(self, space: Any, item: Path, how: dict[str, Any]) -> None:
        points = [self.at(point) for point in item.points]
        if len(points) == 2:
            space.add_line(*points, dxfattribs=how)
        elif len(points) > 2:
            if "linetype" in how:
                how["flags"] = _CONTINUE_DASHES
            space.add_lwpolyline(points, format="xy", close=item.closed, dxfattribs=how)

    def _fill(self, space: Any, item: Item, fill: Colour, layer: str) -> None:
        how = {"layer": layer, **_colour(fill)}
        if isinstance(item, Path) and len(item.points) in _SOLID_CORNERS:
            space.add_solid(_across([self.at(point) for point in item.points]), dxfattribs=how)
            return
        hatch = space.add_hatch(color=_BLACK_OR_WHITE, dxfattribs=how)
        if isinstance(item, Circle):
            (x, y), r = self.at(item.centre), item.radius
            hatch.paths.add_polyline_path([(x - r, y, 1.0), (x + r, y, 1.0)], is_closed=True)
        elif isinstance(item, Path):
            hatch.paths.add_polyline_path([self.at(point) for point in item.points], is_closed=True)

    def _text(self, space: Any, item: Text, layer: str) -> None:
        """Between two points that lie as far apart as the printed text is wide: no font can run over."""
        said = printable(item.text)
        text = said.strip()
        if not text:
            return
        first = -_SHIFTS[item.anchor] * width(said, item.size_mm, item.bold)
        first += width(said[: len(said) - len(said.lstrip())], item.size_mm, item.bold)
        ends = (first, first + width(text, item.size_mm, item.bold))
        c, s = math.cos(math.radians(item.angle_deg)), math.sin(math.radians(item.angle_deg))
        x, y = self.at(item.at)
        how = {"layer": layer, "style": STYLES[item.bold][0], **_colour(item.colour)}
        high = letter_widths.ASCENT / 1000 * item.size_mm
        placed = space.add_text(plain(text), height=high, rotation=item.angle_deg, dxfattribs=how)
        start, end = ((x + c * along, y + s * along) for along in ends)
        placed.set_placement(start, end, align=TextEntityAlignment.FIT)

    def _attributes(self, pen: Pen, layer: str) -> dict[str, Any]:
        how = {"layer": layer, "lineweight": lineweight(pen.width_mm), **_colour(pen.colour)}
        dashes = line_type(pen.dash_mm)
        if dashes is not None:
            if dashes.name not in self.document.linetypes:
                self.document.linetypes.add(dashes.name, pattern=list(dashes.pattern), description="")
            how["linetype"] = dashes.name
        return how


def plain(text: str) -> str:
    """A text whose signs mean only themselves: the format reads %% and ^ as the start of a code."""
    return text.replace("^", "^ ").replace("%%", "%%%%%%")


def _across(corners: list[Vec2]) -> list[Vec2]:
    """Corners of a filled shape as the format wants them: the last two change places."""
    return [*corners[:2], corners[3], corners[2]] if len(corners) == 4 else corners


def _colour(colour: Colour) -> dict[str, int]:
    """Black is what shows on the viewer's own background; any other colour is itself."""
    return {} if colour == BLACK else {"true_color": int(colour[1:], 16)}
