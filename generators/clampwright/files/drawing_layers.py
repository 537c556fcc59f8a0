"""Layers of a drawing's DXF: what a line means, read from the pen that it is drawn with."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from clampwright.quantities import Vec2
from clampwright.recipe.shop import usual_shop
from clampwright.sheets.drawing import Box, Page, Pen
from clampwright.sheets.shop.block import block_box
from clampwright.sheets.shop.sizes import sheets_of

OUTLINE, THIN, HIDDEN, CENTRE, HATCH = "OUTLINE", "THIN", "HIDDEN", "CENTRE", "HATCH"
BORDER, FILL, TEXT, DIMENSION = "BORDER", "FILL", "TEXT", "DIMENSION"
LAYERS = (OUTLINE, THIN, HIDDEN, CENTRE, HATCH, BORDER, FILL, TEXT, DIMENSION)
"""Seen edges; leaders, tables, symbols; hidden edges; centre lines; hatching; frame and block; fills."""

LINEWEIGHTS = (
    *(0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200, 211),
)
"""Hundredths of a millimetre: the only widths the format has (DXF reference, group 370)."""

_BORDER_MM, _OUTLINE_MM = 0.6, 0.3
"""Least width of the frame's lines and of outlines, where the page is no drawing sheet that is known."""
_EVEN_MM = 1e-6
_CHAIN_DASHES = 4


def layer_of(pen: Pen | None, points: Sequence[Vec2] = ()) -> str:
    """The layer of a line; that of filled shapes for a shape without one.

    A thin line at just 45 degrees is hatching: nothing else of a drawing, dimensions aside, is drawn so.

    Examples
    --------
    >>> layer_of(Pen(0.35)), layer_of(Pen(0.18, dash_mm=(3.0, 1.0))), layer_of(None)
    ('OUTLINE', 'HIDDEN', 'FILL')
    >>> layer_of(Pen(0.18), ((0.0, 0.0), (7.0, 7.0))), layer_of(Pen(0.18), ((0.0, 0.0), (7.0, 0.0)))
    ('HATCH', 'THIN')
    """
    if pen is None:
        return FILL
    if pen.dash_mm:
        return CENTRE if len(pen.dash_mm) >= _CHAIN_DASHES else HIDDEN
    if pen.width_mm >= _BORDER_MM:
        return BORDER
    if pen.width_mm >= _OUTLINE_MM:
        return OUTLINE
    return HATCH if _slanted(points) else THIN


def _slanted(points: Sequence[Vec2]) -> bool:
    if len(points) != 2:
        return False
    (x0, y0), (x1, y1) = points
    return abs(abs(x1 - x0) - abs(y1 - y0)) <= _EVEN_MM < abs(x1 - x0)


def margin_of(page: Page) -> Margin | None:
    """What frames a page on one of the drawing sheets; None where the page is no such sheet."""
    for units in ("mm", "in"):
        for sheet in sheets_of(usual_shop(units)):
            if math.dist((sheet.width_mm, sheet.height_mm), (page.width_mm, page.height_mm)) <= _EVEN_MM:
                return Margin(sheet.space, block_box(sheet))
    return None


@dataclass(frozen=True, slots=True)
class Margin:
    """The drawing space inside the frame of a sheet, and the title block in it."""

    space: Box
    block: Box

    def holds(self, points: Sequence[Vec2]) -> bool:
        """Whether a line belongs to frame or title block: it runs on or outside the one or in the other."""
        return all(not _inside(p, self.space) for p in points) or all(_in(p, self.block) for p in points)


def _inside(p: Vec2, box: Box) -> bool:
    return box[0] + _EVEN_MM < p[0] < box[2] - _EVEN_MM and box[1] + _EVEN_MM < p[1] < box[3] - _EVEN_MM


def _in(p: Vec2, box: Box) -> bool:
    return box[0] - _EVEN_MM <= p[0] <= box[2] + _EVEN_MM and box[1] - _EVEN_MM <= p[1] <= box[3] + _EVEN_MM


def lineweight(width_mm: float) -> int:
    """The nearest width that the format has, in hundredths of a millimetre.

    Examples
    --------
    >>> lineweight(0.35), lineweight(0.1), lineweight(0.12)
    (35, 9, 13)
    """
    return min(LINEWEIGHTS, key=lambda each: abs(each - 100 * width_mm))


@dataclass(frozen=True, slots=True)
class LineType:
    """A dash pattern under a name of its own."""

    name: str
    pattern: tuple[float, ...]
    """Whole length, then dashes (positive) and gaps (negative), mm."""


def line_type(dash_mm: tuple[float, ...]) -> LineType | None:
    """The line type of a pen's dashes, mm for mm; None for a solid line.

    Examples
    --------
    >>> line_type((3.0, 1.5))
    LineType(name='DASHES-3-1.5', pattern=(4.5, 3.0, -1.5))
    """
    if not dash_mm:
        return None
    dashes = dash_mm if len(dash_mm) % 2 == 0 else dash_mm * 2
    name = "-".join(["DASHES", *(f"{each:g}" for each in dash_mm)])
    pattern = (sum(dashes), *(each if n % 2 == 0 else -each for n, each in enumerate(dashes)))
    return LineType(name, pattern)
