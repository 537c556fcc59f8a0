"""How much of the way round an axis there is skin, station by station."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from clampwright.structure.step.axes import OnLine
from clampwright.structure.uncertainty import Array

_TURN = 2 * np.pi
_STATIONS = 96


def covered(faces: Sequence[OnLine], low_mm: float, high_mm: float) -> Array:
    """Angle covered by faces of one line at evenly spaced stations amid `low_mm` to `high_mm`, radians."""
    stations = low_mm + (np.arange(_STATIONS) + 0.5) / _STATIONS * (high_mm - low_mm)
    return np.array([covered_at(faces, float(station)) for station in stations])


def covered_at(faces: Sequence[OnLine], station_mm: float) -> float:
    """Angle that faces of one line cover together at a station: what two of them cover counts once."""
    spans: list[tuple[float, float]] = []
    for face in faces:
        if face.low_mm < station_mm < face.high_mm:
            spans += _within_a_turn(_spans(face.pieces, station_mm))
    total, reached = 0.0, 0.0
    for start, end in sorted(spans):
        total += max(0.0, end - max(start, reached))
        reached = max(reached, end)
    return total


def _spans(pieces: Array, station_mm: float) -> Iterator[tuple[float, float]]:
    """Inside a closed outline, between the first and second crossing of a level, the third and fourth, ..."""
    a, za, b, zb = pieces.T
    cut = (za <= station_mm) != (zb <= station_mm)
    share = (station_mm - za[cut]) / (zb[cut] - za[cut])
    at = np.sort(a[cut] + share * (b[cut] - a[cut]))
    for k in range(0, len(at) - 1, 2):
        yield float(at[k]), float(at[k + 1])


def _within_a_turn(spans: Iterator[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """Spans of angle cut where they pass a full turn."""
    for start, end in spans:
        wide = min(end - start, _TURN)
        first = start % _TURN
        yield first, min(first + wide, _TURN)
        if first + wide > _TURN:
            yield 0.0, first + wide - _TURN
