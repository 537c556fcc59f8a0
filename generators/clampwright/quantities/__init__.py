"""Quantities as people write them, to numbers and back. Nothing else in the project parses a unit."""

from __future__ import annotations

from clampwright.quantities.reading import angle_rad, length_mm, mass_kg, temperature_c
from clampwright.quantities.refusal import NotAQuantity
from clampwright.quantities.showing import (
    fixed,
    inch_pounds,
    show_angle,
    show_fraction,
    show_length,
    show_mass,
    show_temperature,
    show_torque,
)

Vec2 = tuple[float, float]
"""A point or direction in a plane, mm."""

Vec3 = tuple[float, float, float]
"""A point or direction in space, mm."""

__all__ = [
    "NotAQuantity",
    "Vec2",
    "Vec3",
    "angle_rad",
    "fixed",
    "inch_pounds",
    "length_mm",
    "mass_kg",
    "show_angle",
    "show_fraction",
    "show_length",
    "show_mass",
    "show_temperature",
    "show_torque",
    "temperature_c",
]
