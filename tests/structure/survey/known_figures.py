"""Structures whose coordinates are known, and the readings that a tape with a given error takes of them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from clampwright.structure.survey.model import (
    CENTRE,
    Along,
    Between,
    Datum,
    Distance,
    Measurement,
    Plumb,
    Side,
    Slope,
    Survey,
    SurveyPoint,
    SurveyTube,
)

Vec3 = tuple[float, float, float]
Array = npt.NDArray[np.float64]
TAPE = 1.5
"""± of one tape reading (95 %), mm."""

MOUNT: dict[str, Vec3] = {
    "UL": (0.0, 0.0, 0.0),
    "UR": (0.0, 612.0, 0.0),
    "LL": (14.0, 31.0, -473.0),
    "LR": (9.0, 585.0, -468.0),
    "EUL": (402.0, 131.0, -52.0),
    "EUR": (399.0, 484.0, -49.0),
    "ELL": (371.0, 128.0, -401.0),
    "ELR": (368.0, 487.0, -398.0),
    "RT": (400.5, 307.5, -50.5),
    "RB": (186.5, 84.0, -434.4),
}
"""An invented engine mount: four feet on the firewall, four lugs, a ring mark on each of two tubes."""

MOUNT_TUBES: dict[str, tuple[str, str, float]] = {
    "upper-left": ("UL", "EUL", 19.05),
    "upper-right": ("UR", "EUR", 19.05),
    "lower-left": ("LL", "ELL", 19.05),
    "lower-right": ("LR", "ELR", 19.05),
    "brace-left": ("UL", "ELL", 15.875),
    "brace-right": ("UR", "ELR", 15.875),
    "top": ("EUL", "EUR", 19.05),
    "bottom": ("ELL", "ELR", 19.05),
    "left": ("EUL", "ELL", 15.875),
    "right": ("EUR", "ELR", 15.875),
}

_EVERY_FOOT_AND_LUG = """
UL-EUL UR-EUR LL-ELL LR-ELR UL-ELL UR-ELR EUL-EUR ELL-ELR EUL-ELL EUR-ELR UL-UR LL-LR UL-LL UR-LR
UL-LR UR-LL EUL-ELR EUR-ELL UL-EUR UR-EUL LL-EUL LR-EUR LL-ELR LR-ELL
"""
_RING_MARKS = "UL-RT UR-RT EUL-RT LL-RB UL-RB LR-RB LL-RT EUL-RB ELL-RB ELR-RT"
MOUNT_TAPED = (*_EVERY_FOOT_AND_LUG.split(), *_RING_MARKS.split())
"""34 distances: each tube's length, and diagonals between feet and lugs."""

MOUNT_DATUM = Datum("LL", "y", "LR", plane_axis="z", in_plane="UL")


def on_the_line(points: dict[str, Vec3]) -> dict[str, Vec3]:
    """The mount with its ring marks exactly on their tubes."""
    moved = dict(points)
    for mark, start, end, share in (("RT", "EUL", "EUR", 0.5), ("RB", "LL", "ELL", 0.48)):
        a, b = np.array(points[start]), np.array(points[end])
        x, y, z = (a + share * (b - a)).tolist()
        moved[mark] = (x, y, z)
    return moved


def tubes_of(tubes: Mapping[str, tuple[str, str, float]]) -> tuple[SurveyTube, ...]:
    """Survey tubes from a short table."""
    return tuple(SurveyTube(name, *rest) for name, rest in tubes.items())


def points_of(names: Iterable[str], tubes: Mapping[str, tuple[str, str, float]]) -> tuple[SurveyPoint, ...]:
    """Points, each on the axis of the tubes that end there."""
    return tuple(
        SurveyPoint(name, tuple(t for t, (start, end, _) in tubes.items() if name in (start, end)))
        for name in names
    )


def taped(pairs: Iterable[str], error: float = TAPE) -> tuple[Distance, ...]:
    """Distances still to be read, from "A-B"."""
    return tuple(Distance(*pair.split("-"), 0.0, error) for pair in pairs)


def mount(pairs: Iterable[str] = MOUNT_TAPED, error: float = TAPE) -> Survey:
    """The mount with exact readings, sides said so that it is not mirrored."""
    points = points_of(MOUNT, MOUNT_TUBES)
    marks = {"RT": ("top",), "RB": ("lower-left",)}
    points = tuple(replace(p, axis_of=marks.get(p.name, p.axis_of)) for p in points)
    survey = Survey(
        "oddlark-mount", "", "mm", points, tubes_of(MOUNT_TUBES), taped(pairs, error), MOUNT_DATUM
    )
    forward = (Side("EUL", (1.0, 0.0, 0.0), "UL"),)
    return read(replace(survey, sides=forward), on_the_line(MOUNT))


def read(survey: Survey, truth: Mapping[str, Vec3], lot: np.random.Generator | None = None) -> Survey:
    """The survey with what its measurements read on the true figure, with normal errors by `lot`."""
    return replace(survey, measurements=tuple(_read(survey, m, truth, lot) for m in survey.measurements))


def _read(
    survey: Survey, m: Measurement, truth: Mapping[str, Vec3], lot: np.random.Generator | None
) -> Measurement:
    sigma = (m.error_rad if isinstance(m, Slope | Between) else m.error_mm) / 1.959964
    off = float(lot.normal()) * sigma if lot is not None else 0.0
    if isinstance(m, Distance):
        return replace(m, value_mm=_distance(survey, m, truth) + off)
    if isinstance(m, Along):
        axis = "xyz".index(m.axis)
        return replace(m, value_mm=truth[m.b][axis] - truth[m.a][axis] + off)
    if isinstance(m, Slope):
        d = _direction(survey, m.tube, truth)
        return replace(m, value_rad=math.asin(d[2]) + off)
    if isinstance(m, Between):
        d, e = _direction(survey, m.one, truth), _direction(survey, m.other, truth)
        return replace(m, value_rad=math.acos(float(d @ e)) + off)
    assert isinstance(m, Plumb)
    return m


def _distance(survey: Survey, m: Distance, truth: Mapping[str, Vec3]) -> float:
    """By the picture: the line's unit vector, each tube's direction, the wall's radius over the sine."""
    away = np.array(truth[m.b]) - np.array(truth[m.a])
    length = float(np.linalg.norm(away))
    walls = 0.0
    for name in m.over:
        if name:
            turned = np.linalg.norm(np.cross(away / length, _direction(survey, name, truth)))
            walls += survey.tube(name).od_mm / 2 / float(turned)
    return length + {"outside": walls, "inside": -walls, CENTRE: 0.0}[m.how]


def _direction(survey: Survey, name: str, truth: Mapping[str, Vec3]) -> Array:
    tube = survey.tube(name)
    along = np.array(truth[tube.end]) - np.array(truth[tube.start])
    return np.asarray(along / np.linalg.norm(along), dtype=float)


def in_frame(survey: Survey, truth: Mapping[str, Vec3]) -> dict[str, Vec3]:
    """The true figure in the datum's frame, by Gram and Schmidt; level frames have z plumb already."""
    datum = survey.datum
    origin = np.array(truth[datum.origin])
    first = np.array(truth[datum.through]) - origin
    if datum.level:
        first[2] = 0.0
        second_axis, second = "z", np.array((0.0, 0.0, 1.0))
    else:
        assert datum.plane_axis is not None
        assert datum.in_plane is not None
        second_axis, second = datum.plane_axis, np.array(truth[datum.in_plane]) - origin
    first = first / np.linalg.norm(first)
    second = second - (second @ first) * first
    second = second / np.linalg.norm(second)
    i, j = "xyz".index(datum.axis), "xyz".index(second_axis)
    axes = np.zeros((3, 3))
    axes[i], axes[j] = first, second
    k = 3 - i - j
    axes[k] = np.cross(axes[(k + 1) % 3], axes[(k + 2) % 3])
    laid: dict[str, Vec3] = {}
    for name, at in truth.items():
        x, y, z = (axes @ (np.array(at) - origin)).tolist()
        laid[name] = (x, y, z)
    return laid
