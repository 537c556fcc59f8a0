"""How far inside an outline many points lie at once."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from clampwright.layout.outline import Arc, Outline
from clampwright.layout.plan_distance import point_to_segment

Array = npt.NDArray[np.float64]


def inside_by(outline: Outline, points: Array) -> Array:
    """Distance of each point (k, 2) to the outline: positive inside, negative outside.

    >>> from clampwright.layout.outlines import rounded_rectangle
    >>> plate = rounded_rectangle((0.0, 0.0, 20.0, 10.0), 2.0)
    >>> inside_by(plate, np.array([[10.0, 5.0], [10.0, 1.0], [25.0, 5.0]])).round(9).tolist()
    [5.0, 1.0, -5.0]
    """
    distance = np.full(len(points), np.inf)
    winding = np.zeros(len(points))
    for piece in outline.pieces:
        start, end = np.array(piece.start), np.array(piece.end)
        side = _side(start, end, points)
        winding += (start[1] <= points[:, 1]) & (points[:, 1] < end[1]) & (side > 0)
        winding -= (end[1] <= points[:, 1]) & (points[:, 1] < start[1]) & (side < 0)
        if isinstance(piece, Arc):
            away = np.hypot(points[:, 0] - piece.centre[0], points[:, 1] - piece.centre[1])
            beyond = side <= 0 if piece.ccw else side >= 0
            winding += (1 if piece.ccw else -1) * (beyond & (away <= piece.radius_mm))
            apart = _to_arc(piece, points, away)
        else:
            apart = point_to_segment(points, start, end)
        distance = np.minimum(distance, apart)
    return np.where(winding > 0, distance, -distance)


def _to_arc(arc: Arc, points: Array, away: Array) -> Array:
    angle = np.arctan2(points[:, 1] - arc.centre[1], points[:, 0] - arc.centre[0])
    turn = (angle - arc.start_angle if arc.ccw else arc.start_angle - angle) % (2 * np.pi)
    to_ends = np.minimum(
        np.hypot(points[:, 0] - arc.start[0], points[:, 1] - arc.start[1]),
        np.hypot(points[:, 0] - arc.end[0], points[:, 1] - arc.end[1]),
    )
    passed = (turn <= arc.sweep) & (away > 0)
    return np.where(passed, np.abs(away - arc.radius_mm), to_ends)


def _side(a: Array, b: Array, points: Array) -> Array:
    side: Array = (b[0] - a[0]) * (points[:, 1] - a[1]) - (b[1] - a[1]) * (points[:, 0] - a[0])
    return side
