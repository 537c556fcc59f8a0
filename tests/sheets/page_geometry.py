"""Geometry of pages for tests, on its own: what sticks out, and which texts lie over which."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from reportlab.pdfbase.pdfmetrics import stringWidth

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import ArcPath, Circle, Item, Page, Path, Text

Quad = tuple[Vec2, Vec2, Vec2, Vec2]
ASCENT, DESCENT = 0.718, 0.207
"""Of the standard font family: its published ascender and descender."""


def quad(text: Text) -> Quad:
    """The box of a text, by reportlab's widths and the font family's ascender and descender."""
    font = "Helvetica-Bold" if text.bold else "Helvetica"
    wide = stringWidth(text.text, font, text.size_mm)
    left = {"left": 0.0, "middle": -wide / 2, "right": -wide}[text.anchor]
    c, s = math.cos(math.radians(text.angle_deg)), math.sin(math.radians(text.angle_deg))
    low, high = -DESCENT * text.size_mm, ASCENT * text.size_mm
    corners = ((left, low), (left + wide, low), (left + wide, high), (left, high))
    a, b, d, e = ((text.at[0] + c * x - s * y, text.at[1] + s * x + c * y) for x, y in corners)
    return a, b, d, e


def extremes(item: Item) -> list[Vec2]:
    """Points that an item reaches farthest with, pens left out."""
    if isinstance(item, Text):
        return list(quad(item))
    if isinstance(item, Path):
        return list(item.points)
    x, y, r = *item.centre, item.radius
    if isinstance(item, Circle):
        return [(x - r, y - r), (x + r, y + r)]
    steps = range(33)
    extent = (item.end_deg - item.start_deg) % 360 or 360.0
    angles = [math.radians(item.start_deg + extent * n / 32) for n in steps]
    return [(x + r * math.cos(a), y + r * math.sin(a)) for a in angles]


def outside(page: Page, margin: float) -> list[Item]:
    """Items that come nearer to the paper's edge than `margin`, as the file draws them."""
    found = []
    for item in page.items:
        for x, y in extremes(item):
            px = page.width_mm / 2 + page.stretch[0] * (x - page.width_mm / 2)
            py = page.height_mm / 2 + page.stretch[1] * (y - page.height_mm / 2)
            low, right, top = margin - 1e-6, page.width_mm - margin + 1e-6, page.height_mm - margin + 1e-6
            if not (low <= px <= right and low <= py <= top):
                found.append(item)
                break
    return found


def texts(page: Page) -> list[Text]:
    """The texts of a page, blanks left out."""
    return [item for item in page.items if isinstance(item, Text) and item.text.strip()]


def overlapping(page: Page) -> list[tuple[str, str]]:
    """Pairs of texts whose boxes overlap by more than a hair."""
    boxes = [(text.text, quad(text)) for text in texts(page)]
    return [(a, b) for (a, p), (b, q) in combinations(boxes, 2) if near(p, q) and overlap(p, q)]


def near(p: Quad, q: Quad) -> bool:
    """Whether the upright boxes round two quads meet: a quick first look."""
    (ax, ay), (bx, by) = zip(*p, strict=True), zip(*q, strict=True)
    return min(ax) < max(bx) and min(bx) < max(ax) and min(ay) < max(by) and min(by) < max(ay)


def overlap(p: Quad, q: Quad, hair: float = 0.02) -> bool:
    """Whether two convex quads overlap: no side of either parts them (separating axes)."""
    for shape in (p, q):
        for (ax, ay), (bx, by) in zip(shape, (*shape[1:], shape[0]), strict=True):
            long = math.hypot(bx - ax, by - ay) or 1.0
            normal = ((by - ay) / long, (ax - bx) / long)
            first = [x * normal[0] + y * normal[1] for x, y in p]
            second = [x * normal[0] + y * normal[1] for x, y in q]
            if max(first) <= min(second) + hair or max(second) <= min(first) + hair:
                return False
    return True


def circle_meets_quad(centre: Vec2, radius: float, shape: Quad) -> bool:
    """Whether a disc reaches into a convex quad given counter-clockwise."""
    inside = all(
        (bx - ax) * (centre[1] - ay) - (by - ay) * (centre[0] - ax) >= 0
        for (ax, ay), (bx, by) in zip(shape, (*shape[1:], shape[0]), strict=True)
    )
    return inside or any(
        to_segment(centre, a, b) < radius for a, b in zip(shape, (*shape[1:], shape[0]), strict=True)
    )


def to_segment(p: Vec2, a: Vec2, b: Vec2) -> float:
    """Distance from a point to a straight line between two others."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    square = dx * dx + dy * dy
    share = 0.0 if square == 0 else max(0.0, min(1.0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square))
    return math.dist(p, (a[0] + share * dx, a[1] + share * dy))


def hole_circles(page: Page) -> Iterator[Circle]:
    """Whole circles of a page: holes, and rings of registration marks."""
    return (item for item in page.items if isinstance(item, Circle) and item.fill is None)


def words(pages: tuple[Page, ...]) -> str:
    """Every text of some pages, line by line."""
    return "\n".join(text.text for page in pages for text in texts(page))


__all__ = ["ArcPath", "hole_circles", "outside", "overlapping", "quad", "texts", "words"]
