"""Which of many candidate boxes and leaders touch what stands there: numpy, all candidates at once."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from clampwright.sheets.drawing import Box

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]
Four = tuple[float, float, float, float]
Rows = Sequence[Four] | Array


def within(boxes: Array, window: Box) -> Flags:
    """Boxes (n, 4) that lie wholly in the window."""
    low = (boxes[:, 0] >= window[0]) & (boxes[:, 1] >= window[1])
    high = (boxes[:, 2] <= window[2]) & (boxes[:, 3] <= window[3])
    return np.asarray(low & high)


def boxes_hit(boxes: Array, others: Rows, air: float) -> Flags:
    """Boxes (n, 4) nearer than `air` to one of the other boxes.

    Examples
    --------
    >>> boxes_hit(np.array([[0.0, 0.0, 1.0, 1.0]]), [(1.2, 0.0, 2.0, 1.0)], 0.5).tolist()
    [True]
    """
    if not len(others):
        return np.zeros(len(boxes), dtype=bool)
    b, o = boxes[:, None, :], np.asarray(others)[None, :, :]
    apart = (
        (b[..., 0] >= o[..., 2] + air)
        | (b[..., 2] <= o[..., 0] - air)
        | (b[..., 1] >= o[..., 3] + air)
        | (b[..., 3] <= o[..., 1] - air)
    )
    return np.asarray((~apart).any(axis=1))


def circles_hit(boxes: Array, circles: Sequence[tuple[float, float, float]], air: float) -> Flags:
    """Boxes (n, 4) nearer than `air` to one of the circles (x, y, radius)."""
    if not len(circles):
        return np.zeros(len(boxes), dtype=bool)
    c = np.asarray(circles)
    x = np.clip(c[None, :, 0], boxes[:, None, 0], boxes[:, None, 2]) - c[None, :, 0]
    y = np.clip(c[None, :, 1], boxes[:, None, 1], boxes[:, None, 3]) - c[None, :, 1]
    return np.asarray((np.hypot(x, y) < c[None, :, 2] + air).any(axis=1))


def _segment_in_box(segments: Array, boxes: Array, air: float) -> Flags:
    """Whether segments (..., 4) pass through boxes (..., 4) grown by `air`; slabs."""
    across, along = (_slab(segments, boxes, axis, air) for axis in (0, 1))
    enter, leave = np.maximum(across[0], along[0]), np.minimum(across[1], along[1])
    return np.asarray((enter < leave) & (leave > 0) & (enter < 1))


def _slab(segments: Array, boxes: Array, axis: int, air: float) -> tuple[Array, Array]:
    """Where segments enter and leave what the boxes span along an axis: 0 at the start, 1 at the end."""
    start, step = segments[..., axis], segments[..., axis + 2] - segments[..., axis]
    step = np.where(np.abs(step) < 1e-12, 1e-12, step)
    first = (boxes[..., axis] - air - start) / step
    second = (boxes[..., axis + 2] + air - start) / step
    return np.minimum(first, second), np.maximum(first, second)


def segments_hit_boxes(boxes: Array, segments: Rows, air: float) -> Flags:
    """Boxes (n, 4) that one of the segments (x0, y0, x1, y1) passes through."""
    if not len(segments):
        return np.zeros(len(boxes), dtype=bool)
    return np.asarray(_segment_in_box(np.asarray(segments)[None, :, :], boxes[:, None, :], air).any(axis=1))


def leaders_hit_boxes(leaders: Array, boxes: Rows, air: float) -> Flags:
    """Leaders (n, 4) that pass through one of the boxes."""
    if not len(boxes):
        return np.zeros(len(leaders), dtype=bool)
    return np.asarray(_segment_in_box(leaders[:, None, :], np.asarray(boxes)[None, :, :], air).any(axis=1))


def leaders_hit_circles(leaders: Array, circles: Sequence[tuple[float, float, float]], air: float) -> Flags:
    """Leaders (n, 4) nearer than `air` to one of the circles."""
    if not len(circles):
        return np.zeros(len(leaders), dtype=bool)
    c = np.asarray(circles)[None, :, :]
    start, step = leaders[:, None, :2], (leaders[:, 2:] - leaders[:, :2])[:, None, :]
    length = np.maximum((step**2).sum(axis=-1), 1e-12)
    along = np.clip(((c[..., :2] - start) * step).sum(axis=-1) / length, 0.0, 1.0)
    foot = start + along[..., None] * step
    distance = np.hypot(*(c[..., :2] - foot).transpose(2, 0, 1))
    return np.asarray((distance < c[..., 2] + air).any(axis=1))


def leaders_cross(leaders: Array, others: Sequence[Four]) -> Flags:
    """Leaders (n, 4) that cross one of the others."""
    if not len(others):
        return np.zeros(len(leaders), dtype=bool)
    a, b = leaders[:, None, :], np.asarray(others)[None, :, :]

    def side(p: Array, q: Array, r: Array) -> Array:
        return np.asarray(
            (q[..., 0] - p[..., 0]) * (r[..., 1] - p[..., 1])
            - (q[..., 1] - p[..., 1]) * (r[..., 0] - p[..., 0])
        )

    a0, a1, b0, b1 = a[..., :2], a[..., 2:], b[..., :2], b[..., 2:]
    astride_b = side(b0, b1, a0) * side(b0, b1, a1) <= 0
    astride_a = side(a0, a1, b0) * side(a0, a1, b1) <= 0
    return np.asarray((astride_b & astride_a).any(axis=1))


def weight_crossed(
    boxes: Array, lines: Sequence[tuple[float, float, float, float, float]], air: float
) -> Array:
    """Sum of the weights (last of five numbers) of the lines that pass through each box (n, 4)."""
    if not len(lines):
        return np.zeros(len(boxes))
    table = np.asarray(lines)
    hit = _segment_in_box(table[None, :, :4], boxes[:, None, :], air)
    return np.asarray((hit * table[None, :, 4]).sum(axis=1))
