"""A line held off a panel by one clamp."""

from __future__ import annotations

from math import asin, cos, radians, sin

import numpy as np
import pytest
from layout.pairing.pairs import clamp, tube, vec

from clampwright.layout.pairing.from_spacer import panel_from_spacer
from clampwright.layout.pairing.on_panel import face_distance, panel_places
from clampwright.structure.surroundings import Panel

WALL = Panel("firewall", (-50.0, 0.0, 0.0), (1.0, 0.0, 0.0), 0.5, "304 stainless")
CLAMP = clamp(20.0, 13.0)


def test_a_line_along_the_panel() -> None:
    """30 mm in front of the face, seat 13: spacer 17, holes 20 mm to either side of the line."""
    hose = tube((-20.0, 0.0, 10.0), (-20.0, 200.0, 10.0), "hose")
    places = panel_places(WALL, hose, CLAMP, 120.0)
    assert [p.spacer_mm for p in places] == pytest.approx([17.0, 17.0])
    assert sorted(p.foot for p in places) == [
        pytest.approx((-50.0, 120.0, -10.0)),
        pytest.approx((-50.0, 120.0, 30.0)),
    ]
    assert {p.station_line_mm for p in places} == {120.0}
    assert {p.axis for p in places} == {WALL.normal}
    assert face_distance(WALL, hose, 120.0) == pytest.approx(30.0)


@pytest.mark.parametrize("deg", [2.0, 10.0, 25.0])
def test_a_line_that_leaves_the_panel_tilts_its_clamp_by_that_angle(deg: float) -> None:
    """The hole lies on the bolt, the foot's face meets it one spacer before the panel's face."""
    c, s = cos(radians(deg)), sin(radians(deg))
    hose = tube((-20.0, 0.0, 0.0), (-20.0 + 200.0 * s, 200.0 * c, 0.0), "hose")
    for place in panel_places(WALL, hose, CLAMP, 60.0):
        centre, b, m = (
            vec(hose.point(place.station_line_mm)),
            vec(hose.direction),
            vec(place.own_axis_line),
        )
        n, foot = vec(place.axis), vec(place.foot)
        hole = centre + place.turn_line * CLAMP.reach_mm * np.cross(m, b)
        assert np.linalg.norm(np.cross(hole - foot, n)) < 1e-9
        assert m @ b == pytest.approx(0.0, abs=1e-12)
        face = foot + n * (((centre + CLAMP.seat_mm * m - foot) @ m) / (n @ m))
        assert (face - foot) @ n == pytest.approx(place.spacer_mm, abs=1e-9)
        assert place.tilt_rad == pytest.approx(asin(abs(n @ b)), abs=1e-9)
        assert place.station_line_mm == pytest.approx(60.0)


@pytest.mark.parametrize("spacer", [0.0, 6.35, 40.0])
def test_the_line_follows_from_the_spacer(spacer: float) -> None:
    """Solved forward, then back from the line that came out."""
    rough = tube((-5.0, 0.0, 10.0), (0.0, 200.0, 10.0), "hose")
    for place in panel_from_spacer(WALL, rough, CLAMP, 80.0, spacer):
        assert place.spacer_mm == pytest.approx(spacer, abs=1e-9)
        again = panel_places(WALL, place.line, CLAMP, 80.0)
        assert any(p.spacer_mm == pytest.approx(spacer, abs=1e-9) for p in again)
        assert place.line.direction == pytest.approx(rough.direction)


def test_a_line_behind_the_face_has_a_negative_height() -> None:
    assert face_distance(WALL, tube((-60.0, 0.0, 0.0), (-60.0, 99.0, 0.0)), 5.0) == pytest.approx(-10.0)
