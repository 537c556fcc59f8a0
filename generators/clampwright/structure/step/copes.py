"""How deep the ends of a tube are coped."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from clampwright.structure.step.axes import OnLine
from clampwright.structure.uncertainty import Array

_TURN = 2 * np.pi
_LOOKED_AT = 360


def cope_depths(faces: Sequence[OnLine]) -> tuple[float, float]:
    """How far the lowest and the highest skin at any angle lie from the lowest and highest of all, mm.

    The skin of one line is looked at along lines parallel to the axis, one every degree.
    """
    lows, highs = np.full(_LOOKED_AT, np.inf), np.full(_LOOKED_AT, -np.inf)
    for face in faces:
        for a, za, b, zb in face.pieces:
            which, heights = _crossed(a, za, b, zb)
            np.minimum.at(lows, which, heights)
            np.maximum.at(highs, which, heights)
    seen = np.isfinite(highs)
    low, high = min(face.low_mm for face in faces), max(face.high_mm for face in faces)
    return float(np.max(lows[seen]) - low), float(high - np.min(highs[seen]))


def _crossed(a: float, za: float, b: float, zb: float) -> tuple[npt.NDArray[np.intp], Array]:
    """Numbers of the lines that a straight piece of outline crosses, and the heights where it does."""
    if a == b:
        return np.array([], dtype=np.intp), np.array([])
    step = _TURN / _LOOKED_AT
    first, last = np.ceil(min(a, b) / step - 0.5), np.floor(max(a, b) / step - 0.5)
    lines = np.arange(first, last + 1)
    heights = za + ((lines + 0.5) * step - a) / (b - a) * (zb - za)
    return np.mod(lines, _LOOKED_AT).astype(np.intp), heights
