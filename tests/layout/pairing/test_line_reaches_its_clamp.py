"""A line that a given spacer puts somewhere is drawn through its own clamp, and past it on both sides."""

from __future__ import annotations

import math

import pytest
from joined_recipes import carried, stand_off_recipe

from clampwright.layout.pairing.lay_out import lay_out_stand_off


@pytest.mark.parametrize("station_mm", [60.0, 250.0, 430.0])
def test_the_clamp_lies_on_the_line_between_its_ends(station_mm: float) -> None:
    line = carried(point=None, to=None, direction=(math.cos(0.5), math.sin(0.5), 0.0), toward=(0.0, 0.0, 1.0))
    layout = lay_out_stand_off(stand_off_recipe(carried=line, spacer_mm=20.0, station_mm=station_mm))
    loop = layout.loops[-1]
    assert 0.0 < loop.station_mm < layout.line.length_mm
    assert layout.line.point(loop.station_mm) == pytest.approx(loop.centre, abs=1e-6)
    assert layout.place.station_line_mm == pytest.approx(loop.station_mm)
