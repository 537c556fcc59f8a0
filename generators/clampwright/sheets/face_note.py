"""The note that stays on the part when the paper is cut out: which face is up, and whether to drill."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from clampwright.sheets import collisions
from clampwright.sheets.drawing import Item
from clampwright.sheets.labels import Line, Placed, Room, size
from clampwright.sheets.part_view import View
from clampwright.sheets.placement import polygon

_LEAST = 2.1
"""Smallest letters of the note, mm."""

_FORMS = ((True, 1.0), (True, 0.8), (False, 0.8), (False, 0.6), (False, 0.45))
"""Whole or in brief, and at what scale: the first that fits."""

_STEP = 4.0
_EDGE_AIR, _HOLE_AIR = 1.5, 3.0
_ENOUGH_AIR = 12.0


def face_note(lines: Sequence[Line], brief: Sequence[Line], view: View, room: Room) -> tuple[Item, ...]:
    """The note in the freest place inside the outline, as large as it fits, else in brief, else nothing.

    The place taken is added to `room`.
    """
    ring = np.asarray(polygon(view.layout.outline, view.placement))
    for whole, scale in _FORMS:
        form = lines if whole else brief
        scaled = tuple(replace(line, size_mm=max(_LEAST, line.size_mm * scale)) for line in form)
        placed = _freest(scaled, view, room, ring)
        if placed is not None:
            room.boxes.append(placed.box)
            return placed.items()
    return ()


def _freest(lines: tuple[Line, ...], view: View, room: Room, ring: NDArray[np.float64]) -> Placed | None:
    wide, high = size(lines)
    centres = _centres(view)
    if not len(centres):
        return None
    half = np.asarray((wide / 2, high / 2))
    boxes = np.concatenate([centres - half, centres + half], axis=1)
    edges = np.concatenate([ring, np.roll(ring, -1, axis=0)], axis=1)
    free = collisions.within(boxes, view.window) & _inside(centres, ring)
    free &= ~collisions.segments_hit_boxes(boxes, [tuple(edge) for edge in edges.tolist()], _EDGE_AIR)
    free &= ~collisions.circles_hit(boxes, room.circles, _HOLE_AIR)
    free &= ~collisions.boxes_hit(boxes, room.boxes, _EDGE_AIR)
    if not free.any():
        return None
    boxes, centres = boxes[free], centres[free]
    x0, y0, x1, y1 = view.box
    off = np.hypot(centres[:, 0] - (x0 + x1) / 2, centres[:, 1] - (y0 + y1) / 2)
    score = np.minimum(_air(boxes, room.circles), _ENOUGH_AIR) - 0.05 * off
    score -= 0.3 * collisions.weight_crossed(boxes, room.lines, 0.0)
    n = int(np.argmax(np.round(score, 6)))
    return Placed(
        (float(boxes[n, 0]), float(boxes[n, 1]), float(boxes[n, 2]), float(boxes[n, 3])), lines, None
    )


def _centres(view: View) -> NDArray[np.float64]:
    """A grid over what the window shows of the outline's box."""
    low = np.maximum(view.box[:2], view.window[:2])
    high = np.minimum(view.box[2:], view.window[2:])
    x, y = (np.arange(a + _STEP / 2, b, _STEP) for a, b in zip(low, high, strict=True))
    return np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)


def _inside(points: NDArray[np.float64], ring: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Points (n, 2) inside a closed ring (m, 2): crossings of a ray to the right."""
    a, b = ring[None, :, :], np.roll(ring, -1, axis=0)[None, :, :]
    x, y = points[:, None, 0], points[:, None, 1]
    astride = (a[..., 1] > y) != (b[..., 1] > y)
    rise = np.where(astride, b[..., 1] - a[..., 1], 1.0)
    meets = a[..., 0] + (y - a[..., 1]) / rise * (b[..., 0] - a[..., 0])
    return np.asarray((astride & (x < meets)).sum(axis=1) % 2 == 1)


def _air(boxes: NDArray[np.float64], circles: Sequence[tuple[float, float, float]]) -> NDArray[np.float64]:
    """Least distance of each box (n, 4) to the circles."""
    if not circles:
        return np.full(len(boxes), np.inf)
    c = np.asarray(circles)[None, :, :]
    x = np.clip(c[..., 0], boxes[:, None, 0], boxes[:, None, 2]) - c[..., 0]
    y = np.clip(c[..., 1], boxes[:, None, 1], boxes[:, None, 3]) - c[..., 1]
    return np.asarray((np.hypot(x, y) - c[..., 2]).min(axis=1))
