"""Border of a drawing sheet: frame, trimming marks, centring marks, grid reference."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Box, Item, Path, Pen, Text, box_path
from clampwright.sheets.ink import BLACK
from clampwright.sheets.lettering import CAPITAL, DESCENDER
from clampwright.sheets.shop.sizes import DrawingSheet, Zone
from clampwright.trade.tables import rule


def border_items(sheet: DrawingSheet) -> tuple[Item, ...]:
    """Frame and marks of a sheet, all within the trimmed sheet.

    Trimming marks and centring marks stand on sheets of ISO 5457 alone. The centring marks end at the
    frame (their form is free), so that nothing in the drawing space meets them.

    Examples
    --------
    >>> from clampwright.sheets.shop.sizes import drawing_sheet
    >>> border_items(drawing_sheet("A4"))[0].points
    ((20.0, 10.0), (200.0, 10.0), (200.0, 287.0), (20.0, 287.0))
    """
    items: list[Item] = [box_path(sheet.space, Pen(rule("sheet-frame-line").value))]
    if sheet.columns:
        items += _grid(sheet)
    if sheet.standard == "iso":
        items += [*_centring(sheet), *_trimming(sheet)]
    return tuple(items)


def strip(sheet: DrawingSheet) -> Box:
    """Outer line of the grid reference: the frame, and the strip that holds letters and numbers."""
    wide = rule("sheet-grid-border").value
    x0, y0, x1, y1 = sheet.space
    return x0 - wide, y0 - wide, x1 + wide, y1 + wide


def _grid(sheet: DrawingSheet) -> Iterator[Item]:
    pen = Pen(sheet.narrow_mm)
    outer, inner = strip(sheet), sheet.space
    if sheet.standard == "iso":
        yield _outer(sheet, pen)
    for level, edge, both in ((outer[3], inner[3], True), (outer[1], inner[1], _lettered_below(sheet))):
        if both:
            yield from _along(sheet.columns, level, edge, pen, upright=False)
    for level, edge, both in ((outer[2], inner[2], True), (outer[0], inner[0], _lettered_below(sheet))):
        if both:
            yield from _along(sheet.rows, level, edge, pen, upright=True)


def _outer(sheet: DrawingSheet, pen: Pen) -> Path:
    """Outer line of the strip, where there is one."""
    outer, inner = strip(sheet), sheet.space
    if _lettered_below(sheet):
        return box_path(outer, pen)
    left, bottom = inner[0], inner[1]
    chain = ((left, inner[3]), (left, outer[3]), (outer[2], outer[3]), (outer[2], bottom), (inner[2], bottom))
    return Path(chain, pen)


def _lettered_below(sheet: DrawingSheet) -> bool:
    """Whether the fields are named at the left and the bottom too; on A4 they are not."""
    return sheet.name != "A4"


def _along(zones: tuple[Zone, ...], level: float, edge: float, pen: Pen, upright: bool) -> Iterator[Item]:
    """The fields of one edge: lines between them, and each one's name in its middle."""
    size = rule("sheet-grid-letter").value / CAPITAL

    def place(along: float, across: float) -> Vec2:
        return (across, along) if upright else (along, across)

    for zone in zones:
        if zone is not zones[-1]:
            yield Path((place(zone.end, edge), place(zone.end, level)), pen)
        x, y = place((zone.start + zone.end) / 2, (level + edge) / 2)
        low = y - size * CAPITAL / 2 if upright else min(level, edge) + size * DESCENDER
        yield Text((x, low), zone.name, size, "middle", colour=BLACK)


def _centring(sheet: DrawingSheet) -> Iterator[Item]:
    """Marks on the sheet's two axes of symmetry, from the grid's outer line to the frame."""
    pen = Pen(rule("sheet-frame-line").value)
    (a, b, c, d), (x0, y0, x1, y1) = strip(sheet), sheet.space
    x, y = sheet.width_mm / 2, sheet.height_mm / 2
    for start, end in (((x, b), (x, y0)), ((x, y1), (x, d)), ((a, y), (x0, y)), ((x1, y), (c, y))):
        yield Path((start, end), pen)


def _trimming(sheet: DrawingSheet) -> Iterator[Item]:
    """A filled angle at every corner."""
    long, wide = rule("sheet-trim-mark-long").value, rule("sheet-trim-mark-wide").value
    corner = ((0.0, 0.0), (long, 0.0), (long, wide), (wide, wide), (wide, long), (0.0, long))
    for right in (False, True):
        for top in (False, True):
            points = [
                (sheet.width_mm - x if right else x, sheet.height_mm - y if top else y) for x, y in corner
            ]
            yield Path(tuple(points), None, closed=True, fill=BLACK)
