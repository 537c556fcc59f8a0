"""Lightening holes: the largest free place (against a fine search by shapely) and the distances kept."""

from __future__ import annotations

from math import dist, hypot

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.plate_recipes import PARALLEL, component, plate, recipe
from layout.shapes import SHAPES, fine_polygon
from shapely import prepare
from shapely.geometry import Point

from clampwright.layout.drilled_holes import cut_out
from clampwright.layout.lay_out import lay_out
from clampwright.layout.lightening import Circle, KeepOut, most_room, place_lightening
from clampwright.layout.outlines import rounded_rectangle
from clampwright.recipe.model import Lightening
from clampwright.trade.hardware import washers
from clampwright.trade.holes import drill
from clampwright.trade.tables import rule

WEB = rule("lightening-web").value


def test_an_empty_rectangle_takes_its_hole_in_the_middle() -> None:
    """100 x 60 less a web of 8 all round leaves 44: a saw of 13 eighths, on the middle line."""
    free = KeepOut(rounded_rectangle((0.0, 0.0, 100.0, 60.0), 5.0), (), ())
    circles, notes = place_lightening([Lightening(None, None)], free, 0.0, "mm")
    (circle,) = circles
    assert circle is not None
    assert circle[0] == pytest.approx((50.0, 30.0), abs=0.5)
    assert 2 * circle[1] == pytest.approx(13 * 25.4 / 8, abs=1e-9)
    assert [key for key, _ in notes] == ["plate.lightening[1].at", "plate.lightening[1].diameter"]


def test_a_hole_in_the_middle_leaves_the_farther_side() -> None:
    """Keep-out of 20 at (30, 30): 42 are left beside it, so a saw of 13 eighths there."""
    free = KeepOut(rounded_rectangle((0.0, 0.0, 100.0, 60.0), 0.0), (((30.0, 30.0), 20.0),), ())
    (circle,), _ = place_lightening([Lightening(None, None)], free, 0.0, "mm")
    assert circle is not None
    assert circle[0] == pytest.approx((70.9, 30.0), abs=2.0)
    assert 2 * circle[1] == pytest.approx(13 * 25.4 / 8, abs=1e-9)


def test_given_places_come_first_and_the_others_keep_off_them() -> None:
    free = KeepOut(rounded_rectangle((0.0, 0.0, 120.0, 60.0), 5.0), (), ())
    asked = [Lightening(None, 20.0), Lightening((60.0, 30.0), 30.0)]
    circles, _ = place_lightening(asked, free, 0.5, "mm")
    first, second = circles
    assert first is not None
    assert second == ((60.0, 30.0), 15.0)
    assert dist(first[0], second[0]) - first[1] - second[1] >= WEB - 0.5
    for number in first[0]:
        assert number / 0.5 == pytest.approx(round(number / 0.5))


def test_no_room_leaves_the_hole_out_and_says_so() -> None:
    free = KeepOut(rounded_rectangle((0.0, 0.0, 24.0, 24.0), 2.0), (), ())
    circles, notes = place_lightening([Lightening(None, None)], free, 0.5, "mm")
    assert circles == (None,)
    assert "no room" in notes[0][1]


def test_no_hole_is_larger_than_a_common_hole_saw() -> None:
    """A plate of 400 x 300 would hold one of 284; three of 2-1/2 in are cut, and it is said why."""
    free = KeepOut(rounded_rectangle((0.0, 0.0, 400.0, 300.0), 5.0), (), ())
    circles, notes = place_lightening([Lightening(None, None)] * 3, free, 0.0, "in")
    assert [2 * c[1] for c in circles if c is not None] == [pytest.approx(2.5 * 25.4)] * 3
    assert [says for key, says in notes if key.endswith("diameter")] == [
        "2.500 in (the largest common hole saw)"
    ] * 3


def test_a_diameter_that_is_asked_for_is_cut_as_asked() -> None:
    free = KeepOut(rounded_rectangle((0.0, 0.0, 400.0, 300.0), 5.0), (), ())
    (circle,), _ = place_lightening([Lightening(None, 101.3)], free, 0.0, "mm")
    assert circle is not None
    assert 2 * circle[1] == pytest.approx(101.3)


@settings(deadline=None, max_examples=40)
@given(diameter=st.floats(3.0, 600.0))
def test_every_lightening_hole_has_a_pilot_smaller_than_itself(diameter: float) -> None:
    """Common practice, no source: a hole saw runs on a 1/4 in drill."""
    made = cut_out(diameter)
    assert drill(made.pilot).diameter_mm < diameter
    assert diameter <= 25.4 or made.pilot == "1/4"


ROUNDS = st.lists(
    st.tuples(st.tuples(st.floats(0.0, 100.0), st.floats(0.0, 80.0)), st.floats(5.0, 25.0)), max_size=5
)


@settings(deadline=None, max_examples=15)
@given(rounds=ROUNDS)
@pytest.mark.parametrize("name", ["concave", "hull", "rectangle"])
def test_no_place_of_a_fine_grid_has_more_room(name: str, rounds: list[Circle]) -> None:
    """Room at 1500 places worked out with shapely is nowhere more than at the place found."""
    shape, polygon = SHAPES[name], fine_polygon(SHAPES[name])
    free = KeepOut(shape, tuple(rounds), ())
    found = most_room(free)
    best = float(free.room(np.array([found]))[0])
    u0, v0, u1, v1 = shape.box()
    prepare(polygon)
    edge = polygon.exterior.simplify(0.01)
    for u in np.linspace(u0, u1, 30):
        for v in np.linspace(v0, v1, 30):
            if polygon.contains(Point(u, v)):
                room = edge.distance(Point(u, v)) - WEB
                room = min([room, *(hypot(u - c[0], v - c[1]) - r for c, r in rounds)])
                assert room <= best + 0.1


def test_a_plate_keeps_bolt_holes_and_washers_whole() -> None:
    """Distance from every bolt hole to the cut-out: two diameters, and a web beyond the washer's rim."""
    coil = component(holes=((-22.0, -12.0), (22.0, -12.0), (22.0, 12.0), (-22.0, 12.0)))
    sheet = plate(round_to_mm=0.5, lightening=(Lightening(None, None), Lightening(None, 14.0)))
    layout = lay_out(recipe(PARALLEL, carries=(coil,), sheet=sheet))
    cuts = [h for h in layout.holes if h.purpose == "lightening"]
    assert [h.label for h in cuts] == ["L1", "L2"]
    assert cuts[1].diameter_mm == pytest.approx(14.0)
    rim = max(w.od_mm for w in washers("AN3") if w.kind != "large") / 2
    for cut in cuts:
        for hole in layout.holes:
            if hole.purpose != "lightening":
                clear = dist(cut.at, hole.at) - cut.diameter_mm / 2
                assert clear >= 2 * hole.diameter_mm - 1e-9
                assert clear >= rim + WEB - 0.5
        assert layout.outline.distance(cut.at) - cut.diameter_mm / 2 >= WEB - 0.5


def test_a_component_without_holes_of_its_own_lies_on_whole_metal() -> None:
    strapped = component("canister", holes=(), body=(60.0, 40.0, 50.0))
    sheet = plate(lightening=(Lightening(None, 12.0),))
    layout = lay_out(recipe(PARALLEL, carries=(strapped,), sheet=sheet))
    (cut,) = [h for h in layout.holes if h.purpose == "lightening"]
    (placed,) = layout.components
    du = max(abs(cut.at[0] - placed.at[0]) - 30.0, 0.0)
    dv = max(abs(cut.at[1] - placed.at[1]) - 20.0, 0.0)
    assert hypot(du, dv) - 6.0 >= WEB - 0.1
