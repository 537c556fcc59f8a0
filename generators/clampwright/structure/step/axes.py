"""Cylindrical faces put together by axis and radius."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.structure.step.skins import Skin
from clampwright.structure.uncertainty import Array
from clampwright.trade.tables import rule

_TIE = 1e-6


@dataclass(frozen=True, slots=True, eq=False)
class OnLine:
    """A face on a line that it shares with others: heights along that line, angles about it."""

    skin: Skin
    pieces: Array
    low_mm: float
    high_mm: float

    @property
    def wide_rad(self) -> float:
        """Span of its angles: at least as much as it covers at any station."""
        return float(np.ptp(self.pieces[:, (0, 2)]))


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """One endless cylinder and every face on it."""

    point: Array
    along: Array
    """Its greatest component is positive (the first of those within a hair of one another)."""
    radius_mm: float
    faces: tuple[OnLine, ...]

    def at(self, height_mm: float) -> Array:
        """The point of the axis at a height."""
        found: Array = self.point + height_mm * self.along
        return found

    def off(self, points: Array) -> Array:
        """Distance of points from the axis, shape (..., 3) to (...)."""
        out = points - self.point
        found: Array = np.linalg.norm(out - (out @ self.along)[..., None] * self.along, axis=-1)
        return found

    def shares_axis(self, other: Line) -> bool:
        """Whether another line's faces lie about this axis, whatever their radius."""
        ends = np.concatenate([face.skin.ends for face in other.faces])
        return bool(np.all(self.off(ends) <= rule("step-same-within").value))


def lines_of(skins: Sequence[Skin]) -> tuple[Line, ...]:
    """Faces together that have the same axis and radius within rule `step-same-within`, longest face first.

    Both ends of a face's axis have to lie on the axis of the longest face of its line.
    """
    ordered = sorted(skins, key=_rank)
    radii = np.array([skin.cylinder.radius_mm for skin in ordered])
    ends = np.array([skin.ends for skin in ordered]).reshape(-1, 2, 3)
    left = np.ones(len(ordered), dtype=bool)
    lines = []
    for k, skin in enumerate(ordered):
        if left[k]:
            at = np.flatnonzero(left)
            same = at[_same(skin, radii[at], ends[at]) | (at == k)]
            left[same] = False
            lines.append(_line([ordered[i] for i in same]))
    return tuple(lines)


def _rank(skin: Skin) -> tuple[float, ...]:
    """Longest first; faces of one length in an order that the file's own does not decide."""
    where = np.round(np.sort(skin.ends, axis=0), 3).ravel()
    return (-round(skin.high_mm - skin.low_mm, 6), *map(float, where))


def _same(first: Skin, radii: Array, ends: Array) -> npt.NDArray[np.bool_]:
    within, along = rule("step-same-within").value, first.cylinder.along
    out = ends - first.cylinder.point
    off = np.linalg.norm(out - (out @ along)[..., None] * along, axis=-1)
    near = np.all(off <= within, axis=1)
    same: npt.NDArray[np.bool_] = near & (np.abs(radii - first.cylinder.radius_mm) <= within)
    return same


def _line(skins: Sequence[Skin]) -> Line:
    cylinder = skins[0].cylinder
    along = cylinder.along * _sense(cylinder.along)
    across = _square_to(along)
    faces = tuple(_on_line(skin, cylinder.point, along, across) for skin in skins)
    return Line(cylinder.point, along, cylinder.radius_mm, faces)


def _sense(along: Array) -> float:
    size = np.abs(along)
    return float(np.sign(along[int(np.argmax(size >= np.max(size) - _TIE))]))


def _square_to(along: Array) -> Array:
    least = np.zeros(3)
    least[int(np.argmin(np.abs(along)))] = 1.0
    across = np.cross(along, least)
    found: Array = across / np.linalg.norm(across)
    return found


def _on_line(skin: Skin, point: Array, along: Array, across: Array) -> OnLine:
    own = skin.cylinder
    other = np.cross(along, across)
    same_way = float(np.sign(own.along @ along))
    turn = float(np.arctan2(own.across @ other, own.across @ across))
    start = float((own.point - point) @ along)
    angles = turn + own.hand * same_way * skin.pieces[:, (0, 2)]
    heights = start + same_way * skin.pieces[:, (1, 3)]
    low, high = sorted((start + same_way * skin.low_mm, start + same_way * skin.high_mm))
    pieces = np.stack((angles[:, 0], heights[:, 0], angles[:, 1], heights[:, 1]), axis=1)
    return OnLine(skin, pieces, low, high)


def runs_of(line: Line) -> Iterator[tuple[OnLine, ...]]:
    """The faces of a line in runs without a gap, lowest first."""
    run: list[OnLine] = []
    reached = -np.inf
    for face in sorted(line.faces, key=lambda face: (face.low_mm, face.high_mm)):
        if run and face.low_mm > reached + rule("step-same-within").value:
            yield tuple(run)
            run, reached = [], -np.inf
        run.append(face)
        reached = max(reached, face.high_mm)
    if run:
        yield tuple(run)
