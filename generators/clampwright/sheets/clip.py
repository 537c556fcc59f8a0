"""Lines and arcs cut off at a box: what of a drawing falls on one page."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import ArcPath, Box, Circle, Item, Path, Text
from clampwright.sheets.lettering import corners

_SLACK = 1e-9


def clipped(items: Iterable[Item], box: Box) -> tuple[Item, ...]:
    """The parts of lines, circles and arcs inside a box; texts and filled shapes only where whole."""
    kept: list[Item] = []
    for item in items:
        if isinstance(item, Text):
            kept += [item] if all(inside(corner, box) for corner in corners(item)) else []
        elif isinstance(item, Path):
            kept += _clip_path(item, box)
        elif isinstance(item, Circle):
            kept += _clip_circle(item, box)
        else:
            kept += _clip_arc(item, box)
    return tuple(kept)


def inside(point: Vec2, box: Box, slack: float = _SLACK) -> bool:
    """Whether a point lies in a box.

    Examples
    --------
    >>> inside((1.0, 2.0), (0.0, 0.0, 3.0, 3.0)), inside((4.0, 2.0), (0.0, 0.0, 3.0, 3.0))
    (True, False)
    """
    x, y = point
    return box[0] - slack <= x <= box[2] + slack and box[1] - slack <= y <= box[3] + slack


def clip_segment(a: Vec2, b: Vec2, box: Box) -> tuple[Vec2, Vec2] | None:
    """The part of a straight line inside a box (Liang and Barsky 1984).

    Examples
    --------
    >>> clip_segment((-1.0, 1.0), (5.0, 1.0), (0.0, 0.0, 3.0, 3.0))
    ((0.0, 1.0), (3.0, 1.0))
    """
    low, high = 0.0, 1.0
    dx, dy = b[0] - a[0], b[1] - a[1]
    edges = ((-dx, a[0] - box[0]), (dx, box[2] - a[0]), (-dy, a[1] - box[1]), (dy, box[3] - a[1]))
    for step, room in edges:
        if step == 0:
            if room < 0:
                return None
        elif step < 0:
            low = max(low, room / step)
        else:
            high = min(high, room / step)
    if low > high:
        return None
    start = a if low == 0 else (a[0] + low * dx, a[1] + low * dy)
    end = b if high == 1 else (a[0] + high * dx, a[1] + high * dy)
    return start, end


def _clip_path(path: Path, box: Box) -> list[Path]:
    if all(inside(point, box) for point in path.points):
        return [path]
    if path.fill is not None or path.pen is None:
        return []
    points = [*path.points, path.points[0]] if path.closed else list(path.points)
    chains: list[list[Vec2]] = []
    for a, b in pairwise(points):
        piece = clip_segment(a, b, box)
        if piece is None or piece[0] == piece[1]:
            continue
        if chains and chains[-1][-1] == piece[0]:
            chains[-1].append(piece[1])
        else:
            chains.append(list(piece))
    return [replace(path, points=tuple(chain), closed=False) for chain in chains]


def _clip_circle(circle: Circle, box: Box) -> list[Item]:
    (x, y), r = circle.centre, circle.radius
    if inside((x - r, y - r), box) and inside((x + r, y + r), box):
        return [circle]
    if circle.fill is not None or circle.pen is None:
        return []
    whole = ArcPath(circle.centre, r, 0.0, 360.0, circle.pen)
    first = min(_crossings(whole, box), default=0.0)
    return list(_clip_arc(replace(whole, start_deg=first, end_deg=first + 360.0), box))


def _clip_arc(arc: ArcPath, box: Box) -> list[ArcPath]:
    extent = (arc.end_deg - arc.start_deg) % 360 or 360.0
    cuts = sorted({0.0, extent, *(c for c in _crossings(arc, box) if 0 < c < extent)})
    kept: list[tuple[float, float]] = []
    for low, high in pairwise(cuts):
        if high - low < 1e-9 or not inside(_on(arc, (low + high) / 2), box):
            continue
        if kept and kept[-1][1] == low:
            kept[-1] = (kept[-1][0], high)
        else:
            kept.append((low, high))
    return [replace(arc, start_deg=arc.start_deg + low, end_deg=arc.start_deg + high) for low, high in kept]


def _on(arc: ArcPath, past_start_deg: float) -> Vec2:
    angle = math.radians(arc.start_deg + past_start_deg)
    return arc.centre[0] + arc.radius * math.cos(angle), arc.centre[1] + arc.radius * math.sin(angle)


def _crossings(arc: ArcPath, box: Box) -> list[float]:
    """Angles past the start where the full circle meets the lines of the box's sides."""
    found: list[float] = []
    for axis in (0, 1):
        for side in (box[axis], box[axis + 2]):
            ratio = (side - arc.centre[axis]) / arc.radius
            if abs(ratio) >= 1:
                continue
            base = math.degrees(math.acos(ratio) if axis == 0 else math.asin(ratio))
            pair = (base, -base) if axis == 0 else (base, 180 - base)
            found += [(angle - arc.start_deg) % 360 for angle in pair]
    return found
