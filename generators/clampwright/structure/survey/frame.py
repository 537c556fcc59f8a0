"""The datum's frame: laying a figure into it, and which way is up before anything is adjusted."""

from __future__ import annotations

import numpy as np

from clampwright.structure.survey.kinds import Array
from clampwright.structure.survey.model import Along, Plumb, Slope, Survey
from clampwright.structure.survey.residuals import finds_up, free_columns, uses_up
from clampwright.structure.survey.units import SPAN, UP

AXES = ("x", "y", "z")


def into_frame(survey: Survey, points: Array, *, keep: bool = False) -> Array:
    """A figure laid into the datum's frame, with the upward vector as its last place, shape (points + 1, 3).

    Parameters
    ----------
    survey
        Gives the datum, and in a level frame what was measured against gravity.
    points
        Any pose of the figure, shape (points, 3).
    keep
        The figure is in the frame already but for what the datum fixes: its upward direction is kept.
    """
    number = {point.name: i for i, point in enumerate(survey.points)}
    datum = survey.datum
    shifted = points - points[number[datum.origin]]
    if datum.level:
        up = np.array((0.0, 0.0, 1.0)) if keep else upward(survey, shifted)
        toward = shifted[number[datum.through]]
        x, z = _unit_square(toward, up), up
        rows = {datum.axis: x, "z": z}
    else:
        x = _unit(shifted[number[datum.through]], 0)
        in_plane = number[datum.in_plane] if datum.in_plane is not None else None
        other = _unit_square(shifted[in_plane] if in_plane is not None else _any_square(x), x)
        rows = {datum.axis: x, datum.plane_axis or _next(datum.axis): other}
    turn = _completed(rows)
    up_now = turn @ upward(survey, shifted) * SPAN if finds_up(survey) else np.array(UP)
    laid = np.vstack([shifted @ turn.T, up_now])
    return fixed(survey, laid)


def fixed(survey: Survey, figure: Array) -> Array:
    """The figure with those coordinates of the datum's points at zero that the datum fixes."""
    flat = np.zeros(figure.size)
    free = free_columns(survey)
    flat[free] = figure.ravel()[free]
    if not finds_up(survey):
        flat[-3:] = UP
    return flat.reshape(figure.shape)


def upward(survey: Survey, points: Array) -> Array:
    """The unit vector that agrees best with the heights, slopes and plumb lines on a figure (linear).

    z where nothing was measured against gravity.
    """
    number = {point.name: i for i, point in enumerate(survey.points)}
    rows, right = [], []
    for m in survey.measurements:
        feels = uses_up(m) or (survey.datum.level and isinstance(m, Along) and m.axis == "z")
        if not feels:
            continue
        if isinstance(m, Along):
            rows.append(points[number[m.b]] - points[number[m.a]])
            right.append(m.value_mm)
        elif isinstance(m, Slope):
            tube = survey.tube(m.tube)
            along = points[number[tube.end]] - points[number[tube.start]]
            rows.append(along)
            right.append(float(np.linalg.norm(along)) * np.sin(m.value_rad))
        elif isinstance(m, Plumb):
            away = points[number[m.b]] - points[number[m.a]]
            rows += [_any_square(away), np.cross(away, _any_square(away))]
            right += [0.0, 0.0]
    if not rows:
        return np.array((0.0, 0.0, 1.0))
    return _most_upright(np.array(rows), np.array(right))


def _most_upright(rows: Array, right: Array) -> Array:
    """Unit vector u with rows · u = right as near as can be; what the rows leave open makes up the length."""
    least, _, rank, _ = np.linalg.lstsq(rows, right, rcond=1e-6)
    short = 1.0 - float(least @ least)
    if rank < 3 and short > 0:
        open_way = np.linalg.svd(rows)[2][-1]
        least = least + np.sqrt(short) * open_way
    return _unit(np.asarray(least, dtype=float), 2)


def _unit(vector: Array, otherwise: int) -> Array:
    length = float(np.linalg.norm(vector))
    return vector / length if length > 1e-9 else np.eye(3)[otherwise]


def _any_square(vector: Array) -> Array:
    return np.cross(vector, np.eye(3)[int(np.argmin(np.abs(vector)))])


def _unit_square(vector: Array, axis: Array) -> Array:
    square = vector - (vector @ axis) * axis
    length = float(np.linalg.norm(square))
    return square / length if length > 1e-9 else _unit(_any_square(axis), 0)


def _next(axis: str) -> str:
    return AXES[(AXES.index(axis) + 1) % 3]


def _completed(rows: dict[str, Array]) -> Array:
    """A rotation from two of its rows by axis."""
    missing = next(axis for axis in AXES if axis not in rows)
    i = AXES.index(missing)
    rows[missing] = np.cross(rows[AXES[(i + 1) % 3]], rows[AXES[(i + 2) % 3]])
    return np.stack([rows[axis] for axis in AXES])
