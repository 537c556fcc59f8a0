"""Which things of a page touch each other that must not, by an independent geometry library (shapely)."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from shapely import LineString, Point, Polygon, STRtree, box
from shapely.geometry.base import BaseGeometry
from sheets.page_geometry import quad

from clampwright.sheets.drawing import ArcPath, Item, Page, Path, Text
from clampwright.sheets.ink import ACCENT

AIR = 0.2
"""Least room between a text and anything else, mm; letters without descenders have more."""


def ink_of(item: Item) -> BaseGeometry | None:
    """What an item's pen covers; a filled shape whole. Bands that letters stand on are left out."""
    if isinstance(item, Text):
        return None
    if isinstance(item, Path) and item.fill == ACCENT:
        return None
    if isinstance(item, Path):
        points = (*item.points, item.points[0]) if item.closed else item.points
        line: BaseGeometry = Polygon(item.points) if item.fill else LineString(points)
    else:
        line = Point(item.centre).buffer(item.radius, quad_segs=64)
        line = line.exterior if item.pen is not None and not getattr(item, "fill", None) else line
        if isinstance(item, ArcPath):
            raise AssertionError("no arcs are expected on a turning sheet")
    return line.buffer(item.pen.width_mm / 2 if item.pen else 0.0)


def touches(page: Page, space: tuple[float, float, float, float]) -> Iterator[str]:
    """Texts of the drawing space that overlap each other, or that a line runs into."""
    texts = [item for item in page.drawn() if isinstance(item, Text) and item.text.strip()]
    texts = [text for text in texts if box(*space).covers(Point(text.at))]
    shapes = [Polygon(quad(text)) for text in texts]
    for (one, a), (other, b) in combinations(zip(texts, shapes, strict=True), 2):
        if a.intersection(b).area > 1e-9:
            yield f"{one.text!r} over {other.text!r}"
    inks = [(item, ink) for item in page.drawn() if (ink := ink_of(item)) is not None]
    tree = STRtree([ink for _, ink in inks])
    for text, shape in zip(texts, shapes, strict=True):
        for k in tree.query(shape.buffer(AIR)):
            if shape.buffer(AIR).intersection(inks[k][1]).area > 1e-9:
                yield f"{text.text!r} at {text.at} meets {inks[k][0]}"


def outside(page: Page, margin: tuple[float, float, float, float]) -> Iterator[str]:
    """Texts that leave the drawing space, grid letters aside."""
    space = box(*margin)
    for item in page.drawn():
        if isinstance(item, Text) and len(item.text) > 1 and not space.covers(Polygon(quad(item))):
            yield item.text


def overlapping_lines(page: Page) -> Iterator[str]:
    """Dimensions that touch each other; lengths and outside diameters that touch anything at all.

    A bore's leader has to cross the outside of the part, so that it is held against dimensions only.
    """
    own = [
        [ink for stroke in each.strokes if (ink := ink_of(stroke)) is not None] for each in page.dimensions
    ]
    for (n, a), (m, b) in combinations(enumerate(own), 2):
        if any(one.intersects(other) for one in a for other in b):
            yield f"dimensions {n} and {m} of {page.title}"
    around = [ink for item in page.items if (ink := ink_of(item)) is not None]
    tree = STRtree(around)
    for each, strokes in zip(page.dimensions, own, strict=True):
        if each.kind != "diameter":
            for stroke in strokes:
                for k in tree.query(stroke, predicate="intersects"):
                    yield f"{each.text} of {page.title} meets {around[k].wkt[:80]}"
