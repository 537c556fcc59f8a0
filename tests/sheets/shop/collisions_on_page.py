"""What touches what on a page: found by a geometry library, knowing nothing of how things were placed.

Texts are taken as the boxes that their letters fill; lines, arcs and circles as they are drawn. A text that
lies nearer to another text, a line or an arrow head than a hair is a collision; so is a dimension line
through another dimension line, a leader through an extension line, an extension line drawn over another, and
whatever leaves the sheet's frame.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from shapely import STRtree
from shapely.geometry import LineString, Point, Polygon, box
from shapely.geometry.base import BaseGeometry

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import ArcPath, Circle, Dimension, Item, Page, Path, Text
from clampwright.sheets.lettering import corners

AIR = 0.2
"""Least room between a text and anything else, mm."""
_SAME = 1e-6


@dataclass(frozen=True)
class Collision:
    """Two things that touch, in words."""

    what: str
    first: str
    second: str


def collisions(page: Page, air: float = AIR) -> list[Collision]:
    """Everything on a page that touches what it may not."""
    return [
        *texts_on_texts(page, air),
        *texts_on_lines(page, air),
        *dimension_lines_crossing(page),
        *leaders_on_extension_lines(page),
        *extension_lines_twice(page),
        *heads_on_heads(page),
        *out_of_the_frame(page),
    ]


def texts_on_texts(page: Page, air: float = AIR) -> list[Collision]:
    """Pairs of texts nearer than `air`."""
    texts = _texts(page)
    shapes = [Polygon(corners(text)) for text in texts]
    tree = STRtree(shapes)
    found = []
    for n, shape in enumerate(shapes):
        for m in tree.query(shape.buffer(air)):
            if n < m and shape.distance(shapes[m]) < air - _SAME:
                found.append(Collision("text on text", texts[n].text, texts[m].text))
    return found


def texts_on_lines(page: Page, air: float = AIR) -> list[Collision]:
    """Texts nearer than `air` to a line, arc, circle or filled shape; a filled band may hold texts."""
    texts = _texts(page)
    shapes = [_letters(text, page) for text in texts]
    tree = STRtree(shapes)
    found = []
    for item in page.drawn():
        for line in _lines(item):
            for n in tree.query(line.buffer(air)):
                if line.distance(shapes[n]) < air - _SAME and not _behind(item, shapes[n]):
                    found.append(Collision("text on line", texts[n].text, _said(item)))
    return found


def dimension_lines_crossing(page: Page) -> list[Collision]:
    """Dimension lines and leaders, told by the arrow head at an end, that meet those of another dimension."""
    lines = [(dimension, line) for dimension in page.dimensions for line in dimension_lines(dimension)]
    return [
        Collision("dimension line on dimension line", one.text, two.text)
        for (one, first), (two, second) in combinations(lines, 2)
        if one is not two and first.distance(second) < _SAME
    ]


def leaders_on_extension_lines(page: Page) -> list[Collision]:
    """Leaders of diameters and radii through the extension lines of lengths and angles."""
    leaders = [
        (each, line)
        for each in page.dimensions
        if each.kind in ("diameter", "radius")
        for line in dimension_lines(each)
    ]
    return [
        Collision("leader on extension line", one.text, two.text)
        for one, leader in leaders
        for two in page.dimensions
        if two is not one
        for line in extension_lines(two)
        if leader.distance(line) < _SAME
    ]


def extension_lines_twice(page: Page) -> list[Collision]:
    """Extension lines of two dimensions that lie over each other for more than a point."""
    lines = [(n, each, line) for n, each in enumerate(page.dimensions) for line in extension_lines(each)]
    return [
        Collision("extension line on extension line", one.text, two.text)
        for (n, one, first), (m, two, second) in combinations(lines, 2)
        if n != m and first.intersection(second.buffer(_SAME)).length > 1e-3
    ]


def extension_lines(dimension: Dimension) -> Iterator[LineString]:
    """Straight strokes of a length or an angle that run to no arrow head."""
    tips = [head.points[0] for head in heads(dimension.strokes)]
    if dimension.kind in ("diameter", "radius"):
        return
    for stroke in dimension.strokes:
        if isinstance(stroke, Path) and stroke.fill is None and not _ends_in(stroke, tips):
            yield LineString(stroke.points)


def heads_on_heads(page: Page) -> list[Collision]:
    """Arrow heads that cover part of another's."""
    found = [(each, Polygon(head.points)) for each in page.dimensions for head in heads(each.strokes)]
    return [
        Collision("arrow head on arrow head", one.text, two.text)
        for (one, first), (two, second) in combinations(found, 2)
        if first.intersection(second).area > _SAME
    ]


def out_of_the_frame(page: Page) -> list[Collision]:
    """Things of the page that leave the frame: the widest rectangle drawn with the widest pen.

    What the border itself has outside its frame is left out: it lies wholly outside.
    """
    frame = frame_of(page)
    inside = frame.buffer(-_SAME)
    found = []
    for item in page.drawn():
        shape = _shape(item)
        if shape is None or _is(shape, frame) or not inside.intersects(shape):
            continue
        if not frame.buffer(_SAME).contains(shape):
            found.append(Collision("out of the frame", _said(item), ""))
    for dimension in page.dimensions:
        for stroke in dimension.strokes:
            shape = _shape(stroke)
            if shape is not None and not frame.buffer(-AIR).contains(shape):
                found.append(Collision("dimension out of the frame", dimension.text, _said(stroke)))
    return found


def frame_of(page: Page) -> Polygon:
    """The drawing space: the closed rectangle that is drawn with the widest pen."""
    rectangles = [
        item
        for item in page.items
        if isinstance(item, Path) and item.closed and len(item.points) == 4 and item.pen is not None
    ]
    widest = max(rectangles, key=lambda item: (item.pen.width_mm, Polygon(item.points).area))  # type: ignore[union-attr]
    return Polygon(widest.points)


def dimension_lines(dimension: Dimension) -> Iterator[LineString]:
    """The lines of a dimension that end in the tip of one of its arrow heads."""
    tips = [head.points[0] for head in heads(dimension.strokes)]
    for stroke in dimension.strokes:
        if isinstance(stroke, ArcPath):
            yield _arc(stroke)
        elif isinstance(stroke, Path) and stroke.fill is None and _ends_in(stroke, tips):
            yield LineString(stroke.points)


def heads(strokes: Sequence[Item]) -> list[Path]:
    """Arrow heads: filled triangles, tip first."""
    return [s for s in strokes if isinstance(s, Path) and s.fill is not None and len(s.points) == 3]


def _ends_in(stroke: Path, tips: Sequence[Vec2]) -> bool:
    return any(_near(end, tip) for tip in tips for end in (stroke.points[0], stroke.points[-1]))


def _near(a: tuple[float, float], b: tuple[float, float]) -> bool:
    return math.dist(a, b) < 1e-6


def _texts(page: Page) -> list[Text]:
    return [item for item in page.drawn() if isinstance(item, Text) and item.text.strip()]


def _letters(text: Text, page: Page) -> Polygon:
    """The box of a text; figures and capitals of the border, outside the frame, end at their foot."""
    whole = Polygon(corners(text))
    tailless = text.text.isalnum() and text.text == text.text.upper()
    if not tailless or frame_of(page).contains(whole.centroid):
        return whole
    x0, _, x1, y1 = whole.bounds
    return box(x0, text.at[1], x1, y1)


def _lines(item: Item) -> Iterator[BaseGeometry]:
    """What of an item a text may not touch."""
    if isinstance(item, Text):
        return
    if isinstance(item, Circle):
        ring = Point(item.centre).buffer(item.radius, 64)
        yield ring if item.fill is not None else ring.exterior
    elif isinstance(item, ArcPath):
        yield _arc(item)
    elif len(item.points) >= 2:
        ring = [*item.points, item.points[0]] if item.closed else item.points
        yield Polygon(item.points) if item.fill is not None and item.closed else LineString(ring)


def _arc(item: ArcPath) -> LineString:
    sweep = (item.end_deg - item.start_deg) % 360 or 360.0
    angles = [math.radians(item.start_deg + sweep * n / 64) for n in range(65)]
    (x, y), r = item.centre, item.radius
    return LineString([(x + r * math.cos(a), y + r * math.sin(a)) for a in angles])


def _behind(item: Item, text: Polygon) -> bool:
    """Whether a filled shape holds the whole text: a band with words on it."""
    shape = _shape(item)
    filled = getattr(item, "fill", None) is not None
    return filled and shape is not None and bool(shape.contains(text))


def _shape(item: Item) -> BaseGeometry | None:
    if isinstance(item, Text):
        return Polygon(corners(item)) if item.text.strip() else None
    return next(_lines(item), None)


def _is(shape: BaseGeometry, frame: Polygon) -> bool:
    a, b = shape.bounds, frame.bounds
    return max(abs(p - q) for p, q in zip(a, b, strict=True)) < _SAME


def _said(item: Item) -> str:
    if isinstance(item, Text):
        return item.text
    bounds = next(_lines(item)).bounds
    return f"{type(item).__name__} {tuple(round(value, 1) for value in bounds)}"


__all__ = ["Collision", "collisions", "dimension_lines", "frame_of", "heads"]
