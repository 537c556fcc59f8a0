"""How a part and its clamps move when the tubes are not where they were measured: linear, cause by cause."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.quantities import Vec3
from clampwright.structure.uncertainty import Uncertainty

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Settled:
    """What one standard deviation of each cause of error does.

    Columns are those of `uncertainty.factor_mm`, then any causes of the layout's own (a clamp's reach, a
    carried line's place). A twist has six rows: rotation vector (rad), then the displacement of the world's
    origin (mm).
    """

    uncertainty: Uncertainty
    causes: int
    """Columns, the layout's own included."""
    part: Array
    """Twist of the plate, component or carried line, shape (6, causes)."""
    clamps: Mapping[str, Array]
    """Twist of each clamp with its bolt, by label, shape (6, causes)."""


def moved(twist: Array, point: Vec3) -> Array:
    """Displacement of a point of a body that has this twist, shape (3, causes): t + θ × p.

    >>> quarter = np.array([[0.0], [0.0], [1.0], [0.0], [0.0], [0.0]])
    >>> moved(quarter, (2.0, 0.0, 0.0)).ravel().tolist()
    [0.0, 2.0, 0.0]
    """
    x, y, z = point
    turn, shift = twist[:3], twist[3:]
    across = (turn[1] * z - turn[2] * y, turn[2] * x - turn[0] * z, turn[0] * y - turn[1] * x)
    return np.asarray(shift + np.array(across), dtype=float)
