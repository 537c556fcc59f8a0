"""Bearing of washers: AN960-10 is 0.438 in across (washer tables); half a millimetre of room is assumed."""

from __future__ import annotations

import pytest
from checks.example_plate import lug_stack, with_hole
from checks.findings_of import of

from clampwright.checks.bearing import bearing
from clampwright.layout.joint_solids import bearing_radius, corners_radius
from clampwright.layout.placed import PlateLayout

RADIUS = 11.1125 / 2


def test_hexagon_across_corners():
    """3/8 in across flats is 0.433 in across corners (machinists' tables: 1.1547 x flats)."""
    assert 2 * corners_radius(0.375) == pytest.approx(0.375 * 1.1547, rel=1e-4)


def test_the_washer_is_wider_than_the_head(layout: PlateLayout):
    """0.4375 in of washer against 0.433 in of hexagon corners."""
    assert bearing_radius(lug_stack()) == pytest.approx(RADIUS)
    (found,) = bearing(layout)
    assert (found.verdict, found.value) == ("pass", pytest.approx(12.0 - RADIUS))


@pytest.mark.parametrize(("spare", "verdict"), [(0.51, "pass"), (0.3, "caution"), (-0.1, "fail")])
def test_washer_at_the_edge(spare, verdict):
    (found,) = bearing(with_hole("C1", at=(RADIUS + spare, 80.0)))
    assert (found.where, found.verdict) == ("C1", verdict)
    assert found.value == pytest.approx(spare)


def test_washer_over_another_hole():
    """C1 7 mm from A1's centre: 7 - 2.4257 - 5.556 = -0.982 both ways."""
    found = bearing(with_hole("C1", at=(19.0, 12.0)))
    assert of(found, "C1").verdict == of(found, "A1").verdict == "fail"
    assert of(found, "C1").value == pytest.approx(7.0 - 4.8514 / 2 - RADIUS)
    assert of(found, "C1").change == "Move C1 1.49 mm away from hole A1."
