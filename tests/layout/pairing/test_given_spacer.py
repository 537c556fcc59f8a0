"""A spacer at hand: where the line ends up, and back again from where it is."""

from __future__ import annotations

from dataclasses import replace

import pytest
from joined_recipes import LOW, carried, parallel, stand_off_recipe, structure

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.pairing.lay_out import lay_out_stand_off
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.quantities import Vec3

SEAT, REACH = 13.1318, 19.812
UP: Vec3 = (0.0, 0.0, 1.0)


def laid(**more: object) -> StandOffLayout:
    """On the low tube alone."""
    return lay_out_stand_off(stand_off_recipe(structure(LOW, keep_outs=()), **more))


@pytest.mark.parametrize("spacer", [0.0, 6.35, 25.0])
@pytest.mark.parametrize("toward", [UP, (0.0, -0.6, 0.8), (0.3, 0.9, 0.3)])
def test_forward_and_back_beside_a_tube(spacer: float, toward: Vec3) -> None:
    """The spacer gives the distance; with that distance the same spacer comes out."""
    ahead = laid(carried=replace(parallel(1.0, toward), beside_mm=None), spacer_mm=spacer)
    assert ahead.line_solved
    assert ahead.place.spacer_mm == pytest.approx(spacer, abs=1e-9)
    back = laid(carried=parallel(ahead.distance_mm, toward))
    same = [
        p for p in back.places if (p.turn_tube, p.turn_line) == (ahead.place.turn_tube, ahead.place.turn_line)
    ]
    assert same[0].spacer_mm == pytest.approx(spacer, abs=1e-9)
    assert same[0].bolt == pytest.approx(ahead.place.bolt, abs=1e-6)
    assert not back.line_solved


def test_forward_and_back_over_a_crossing() -> None:
    rough = carried(point=(240.0, -100.0, 70.0), to=(290.0, 100.0, 70.0))
    ahead = laid(carried=rough, spacer_mm=10.0)
    assert ahead.line.start == pytest.approx((240.0, -100.0, 10.0 + 2 * SEAT))
    back = laid(carried=carried(point=ahead.line.start, to=ahead.line.end))
    assert [p.spacer_mm for p in back.places] == pytest.approx([10.0] * 4)


def test_only_a_direction_and_a_side_are_known() -> None:
    """The clamp on the tube goes where there is most room, the line where that leaves it."""
    line = carried(point=None, to=None, direction=(0.0, 1.0, 0.0), toward=(0.0, 0.0, -1.0))
    layout = laid(carried=line, spacer_mm=8.0)
    assert layout.place.spacer_mm == pytest.approx(8.0)
    assert layout.place.station_tube_mm == pytest.approx(250.0)
    assert layout.place.axis == pytest.approx((0.0, 0.0, -1.0))
    assert layout.line.start[2] == pytest.approx(-8.0 - 2 * SEAT)
    assert abs(layout.line.start[0] - 250.0) == pytest.approx(REACH)
    at = laid(carried=line, spacer_mm=8.0, station_mm=100.0)
    assert at.place.station_tube_mm == 100.0


def test_forward_off_a_panel() -> None:
    line = carried(point=(-10.0, 0.0, 10.0), to=None, direction=(0.0, 1.0, 0.0))
    layout = laid(tube=None, panel="firewall", carried=line, spacer_mm=12.0)
    assert layout.distance_mm == pytest.approx(12.0 + SEAT)
    assert layout.line_solved


def test_the_line_is_told_for_every_place() -> None:
    """Beside a tube each place has a line of its own: √((8 + 26.264)² + lateral²) off, nearest first."""
    layout = laid(carried=replace(parallel(1.0, UP), beside_mm=None), spacer_mm=8.0)
    wanted = [8.0 + 2 * SEAT] * 2 + [((8.0 + 2 * SEAT) ** 2 + (2 * REACH) ** 2) ** 0.5] * 2
    assert [p.distance_mm for p in layout.places] == pytest.approx(wanted)
    assert "the axis of oil hose runs 34.26 mm from that of low" in layout.place.says


def test_a_side_that_says_nothing() -> None:
    """With a spacer given: a side in the plane of both directions, and a side along the tube."""
    crossing = carried(point=None, to=None, direction=(0.0, 1.0, 0.0), toward=(0.0, 1.0, 0.0))
    with pytest.raises(CannotLayOut, match="on which side of low"):
        laid(carried=crossing, spacer_mm=5.0)
