"""Figures of measurements for people: lengths in the survey's units, angles in degrees."""

from __future__ import annotations

import math

from clampwright.quantities import show_length
from clampwright.structure.survey.model import Between, Measurement, Plumb, Slope


def in_unit(measurement: Measurement, value: float, units: str) -> str:
    """A value of a measurement's kind, with its unit.

    >>> in_unit(Slope("t", 0.1, 0.01), math.radians(5.0), "in"), in_unit(Plumb("a", "b", 1.0), 25.4, "in")
    ('5.00°', '1.000 in')
    """
    if isinstance(measurement, Slope | Between):
        return f"{math.degrees(value) + 0.0:.2f}°"
    return show_length(value, units)


def measured(measurement: Measurement) -> float | None:
    """What was read, mm or rad; None for a plumb line, which has no reading.

    >>> measured(Slope("t", 0.1, 0.01)), measured(Plumb("a", "b", 1.0))
    (0.1, None)
    """
    if isinstance(measurement, Plumb):
        return None
    return measurement.value_rad if isinstance(measurement, Slope | Between) else measurement.value_mm
