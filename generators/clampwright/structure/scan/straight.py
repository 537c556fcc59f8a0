"""Whether the axis of a fitted tube is straight, and its diameter the same from end to end."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from clampwright.structure.scan.settling import Fitted
from clampwright.trade.tables import rule

_SURE = 4.0
"""Standard deviations beyond which a bow is no play of the noise."""
_ALIKE = 2.0
"""Factor by which noise that is alike from point to point makes a bow less sure than its points say."""


@dataclass(frozen=True, slots=True)
class Bow:
    """How far the axis bows over the tube's length, the standard deviation of that, and how much the diameter
    grows from end to end, all in mm."""

    bow: float
    error: float
    taper: float
    length: float

    @property
    def sure(self) -> bool:
        """Whether the bow is more than noise."""
        return self.bow > _SURE * self.error

    @property
    def radius(self) -> float:
        """Radius of the arc that bows so: length² / (8 bow)."""
        return self.length**2 / (8.0 * max(self.bow, 1e-9))

    def bent(self, od: float) -> bool:
        """Whether it is a bend and no straight tube (rule `scan-bend-least`)."""
        return self.sure and self.radius < rule("scan-bend-least").value * od

    def tapered(self, od: float) -> bool:
        """Whether it is a cone and no tube (rule `scan-taper-most`)."""
        return abs(self.taper) > rule("scan-taper-most").value * od


def bow(fitted: Fitted) -> Bow:
    """How a fitted tube bows and tapers; nothing where its points stand in a few rings only.

    Least squares on off = (a cos φ + b sin φ) t² + c t + (shift, tilt and radius), t the station over the
    length: the axis bows by √(a² + b²) / 4.
    """
    station = fitted.cylinder.stations(fitted.points)
    long = max(float(np.ptp(station)), 1e-9)
    if len(np.unique(np.round(8 * station / long))) < 5:
        return Bow(0.0, 0.0, 0.0, long)
    angle, t = fitted.cylinder.angles(fitted.points), station / long
    cos, sin, one = np.cos(angle), np.sin(angle), np.ones_like(t)
    terms = np.column_stack([t * t * cos, t * t * sin, t, one, cos, sin, t * cos, t * sin])
    root = np.sqrt(fitted.weights * fitted.trust)
    scaled = root[:, None] * terms
    found, *_ = np.linalg.lstsq(scaled, root * fitted.cylinder.off_skin(fitted.points), rcond=None)
    inverse = np.linalg.pinv(scaled.T @ scaled)
    error = fitted.sigma * float(np.sqrt(np.mean(fitted.weights) * max(inverse[0, 0], inverse[1, 1])))
    return Bow(float(np.hypot(found[0], found[1])) / 4.0, _ALIKE * error / 4.0, 2.0 * float(found[2]), long)
