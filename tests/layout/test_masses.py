"""Weight and centre of gravity: hand sums with densities in kg/m³."""

from __future__ import annotations

from math import pi

import pytest

from clampwright.layout.masses import plate_area, weigh
from clampwright.layout.outlines import rounded_rectangle
from clampwright.layout.placed import Hole, PlacedComponent


def hole(at: tuple[float, float], diameter: float) -> Hole:
    return Hole("A1", "clamp", "A1", at, diameter, "AN3", "#11", "#40")


def carried(at: tuple[float, float], mass: float, height: float) -> PlacedComponent:
    return PlacedComponent("part", at, 0.0, mass, height, (), None, (), ())


def test_a_hole_off_the_middle_moves_the_centroid_away() -> None:
    """200 x 100 less a hole of 40 at (150, 50): u = (2e6 - 400 pi 150)/(2e4 - 400 pi)."""
    area, (u, v) = plate_area(rounded_rectangle((0.0, 0.0, 200.0, 100.0), 0.0), [hole((150.0, 50.0), 40.0)])
    assert area == pytest.approx(20000 - 400 * pi, rel=1e-12)
    assert u == pytest.approx((2e6 - 400 * pi * 150) / (20000 - 400 * pi), rel=1e-12)
    assert v == pytest.approx(50.0)


def test_plate_and_components_together() -> None:
    """200 x 100 x 2 mm of 2700 kg/m³ is 0.108 kg at z = 1; the parts' own z count from 2."""
    outline = rounded_rectangle((0.0, 0.0, 200.0, 100.0), 0.0)
    parts = [carried((100.0, 50.0), 0.6, 25.0), carried((180.0, 20.0), 0.1, 10.0)]
    plate, total, (x, y, z) = weigh(outline, [], 2.0, 2700.0, parts)
    assert plate == pytest.approx(0.108, rel=1e-12)
    assert total == pytest.approx(0.808, rel=1e-12)
    assert x == pytest.approx((0.708 * 100 + 0.1 * 180) / 0.808)
    assert y == pytest.approx((0.708 * 50 + 0.1 * 20) / 0.808)
    assert z == pytest.approx((0.108 * 1 + 0.6 * 27 + 0.1 * 12) / 0.808)
