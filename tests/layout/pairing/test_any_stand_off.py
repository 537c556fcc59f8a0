"""Whatever a recipe gives: a layout whose clamps are closed on tube and line, or a reason for none."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_recipes import FIREWALL, LOW, carried, stand_off_recipe, structure
from layout.pairing.pairs import vec

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.joined import line_named
from clampwright.layout.pairing.lay_out import lay_out_stand_off
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.recipe.model import Recipe
from clampwright.recipe.stand_off_model import CarriedLine
from clampwright.structure.tubes import Tube

whole = st.integers(-3, 12).map(lambda i: 25.0 * i)
any_length = st.floats(-80.0, 320.0)
points = st.tuples(*[whole | any_length] * 3)
directions = (
    st.tuples(*[st.integers(-2, 2).map(float) | st.floats(-1.0, 1.0)] * 3)
    .filter(lambda d: np.linalg.norm(d) > 1e-3)
    .map(lambda d: tuple(float(x) for x in np.array(d) / np.linalg.norm(d)))
)
brace = Tube("brace", (200.0, 0.0, 0.0), (200.0, 200.0, 150.0), 15.875)


@st.composite
def lines(draw: st.DrawFn) -> CarriedLine:
    """A line said in any of the ways there are."""
    way = draw(st.sampled_from(("points", "direction", "beside", "side")))
    more: dict[str, Any] = {"point": None, "to": None, "od_mm": draw(st.floats(4.0, 40.0))}
    if way in ("points", "direction"):
        more["point"] = draw(points)
    if way == "points":
        more["to"] = draw(points.filter(lambda p: np.linalg.norm(np.subtract(p, more["point"])) > 2.0))
    else:
        more["direction"] = draw(directions) if way == "direction" else None
        more["toward"] = draw(directions)
        more["beside_mm"] = draw(st.floats(0.0, 120.0)) if way == "beside" else None
    return carried(**more)


def layout_or_reason(recipe: Recipe) -> StandOffLayout | CannotLayOut:
    """The layout, or what stops it."""
    try:
        return lay_out_stand_off(recipe)
    except CannotLayOut as reason:
        return reason


@settings(deadline=None, max_examples=150)
@given(lines(), st.none() | st.floats(0.0, 60.0), st.none() | st.floats(0.0, 500.0), st.booleans())
def test_a_layout_or_a_reason(
    line: CarriedLine, spacer: float | None, station: float | None, on_panel: bool
) -> None:
    support = {"tube": None, "panel": "firewall"} if on_panel else {}
    tubes = structure(LOW, brace, panels=(FIREWALL,))
    recipe = stand_off_recipe(tubes, carried=line, spacer_mm=spacer, station_mm=station, **support)
    layout = layout_or_reason(recipe)
    if isinstance(layout, CannotLayOut):
        assert layout.why
        assert layout.change
        return
    place, bolt = layout.place, vec(layout.place.bolt)
    assert 1 <= len(layout.places) <= 4
    assert [p.fits for p in layout.places] == sorted((p.fits for p in layout.places), reverse=True)
    for loop in layout.loops:
        held = line_named(loop.tube, layout)
        out = loop.turn * loop.clamp.reach_mm * np.cross(vec(loop.bolt_axis), vec(loop.axis))
        assert held.point(loop.station_mm) == pytest.approx(loop.centre, abs=1e-6)
        hole = vec(loop.centre) + out
        assert np.linalg.norm(np.cross(hole - bolt, vec(place.axis))) < 1e-6
    if spacer is not None:
        assert place.spacer_mm == pytest.approx(spacer, abs=1e-6)
    if place.fits:
        assert place.spacer_mm > -0.1 - 1e-9
        assert 0.0 <= place.station_line_mm <= layout.line.length_mm
