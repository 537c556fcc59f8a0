"""What the tool chooses must pass what the tool checks: its own checks, and shapely, on chosen places."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import dist, hypot, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.plate_recipes import PARALLEL, UP, component, plate, recipe, tube, with_plate

from clampwright.checks.access import head_access, nut_access
from clampwright.checks.clash import clamp_against_clamp, head_against_component, nut_against_structure
from clampwright.checks.edges import CHECKS as EDGES
from clampwright.checks.finding import Finding
from clampwright.checks.pitch import pitch
from clampwright.layout.lay_out import lay_out
from clampwright.layout.placed import PlateLayout
from clampwright.quantities import Vec2
from clampwright.recipe.model import Lightening
from clampwright.trade.tables import rule

COMFORT = (
    pitch,
    clamp_against_clamp,
    head_against_component,
    nut_against_structure,
    head_access,
    nut_access,
    *(check.run for check in EDGES),
)


def complaints(layout: PlateLayout) -> list[Finding]:
    """What the plate as drawn does not keep; what only the ± of the tubes puts in doubt was not chosen."""
    found = (f for check in COMFORT for f in check(layout) if f.verdict in ("caution", "fail"))
    return [
        f for f in found if f.plus_minus is None or f.value is None or f.limit is None or f.value < f.limit
    ]


def side_by_side(apart: float, slope: float) -> tuple[object, ...]:
    rise = 500 * sin(radians(slope))
    return (
        tube("lower", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0)),
        tube("upper", (0.0, apart, -rise / 2), (500.0, apart, rise / 2)),
    )


@settings(deadline=None, max_examples=40)
@given(
    apart=st.floats(100.0, 220.0),
    slope=st.floats(-6.0, 6.0),
    width=st.floats(20.0, 70.0),
    increment=st.sampled_from([0.0, 0.396875, 0.5]),
)
def test_a_plain_component_gets_a_plate_without_a_complaint(
    apart: float, slope: float, width: float, increment: float
) -> None:
    holes = ((-width / 2, -20.0), (width / 2, 20.0))
    coil = component("box", None, holes=holes, body=None)
    sheet = plate(margin_mm=None, round_to_mm=increment)
    layout = lay_out(recipe(side_by_side(apart, slope), carries=(coil,), sheet=sheet))  # type: ignore[arg-type]
    assert complaints(layout) == []


def test_narrow_components_do_not_bring_the_holes_too_near() -> None:
    """A component 2 wide: the clamps of one tube keep four hole diameters, however the holes are rounded."""
    small = component("sensor", None, holes=((0.0, 0.0),), body=(2.0, 2.0, 5.0))
    layout = lay_out(recipe(PARALLEL, carries=(small,), sheet=plate(round_to_mm=0.5, margin_mm=None)))
    where = {h.label: h for h in layout.holes}
    least = rule("pitch-preferred").value * where["A1"].diameter_mm
    for one, other in combinations(layout.holes, 2):
        assert dist(one.at, other.at) >= least - 1e-9


def test_clamps_on_tubes_close_together_stand_past_each_other() -> None:
    """Axes 41 apart, holes 20 inside each: abreast they would share one hole."""
    tubes = (PARALLEL[0], tube("upper", (0.0, 41.0, 0.0), (500.0, 41.0, 0.0)))
    layout = lay_out(recipe(tubes, carries=(component("box", (0.0, 90.0)),)))
    assert {c.station_mm for c in layout.clamps if c.tube == "lower"} != {
        c.station_mm for c in layout.clamps if c.tube == "upper"
    }
    assert [*pitch(layout), *clamp_against_clamp(layout)] != []
    assert all(f.verdict == "pass" for f in (*pitch(layout), *clamp_against_clamp(layout)))


def over_both(where: Vec2 | None) -> PlateLayout:
    """Holes 150 apart across tubes 150 apart: with the component in the middle each lies over a tube."""
    holes = ((-20.0, -75.0), (20.0, -75.0), (20.0, 75.0), (-20.0, 75.0))
    wide = component("frame", where, holes=holes, body=None)
    return lay_out(recipe(PARALLEL, carries=(wide,), sheet=plate(margin_mm=None, round_to_mm=0.5)))


def test_a_component_over_a_tube_is_moved_just_off_it() -> None:
    """A socket's half, its clearance and the tube's half: about 18, so no more than 20 in steps of 2."""
    layout = over_both(None)
    assert complaints(layout) == []
    (note,) = [says for key, says in layout.assumed if key == "carries[1].at"]
    assert "clear the tubes" in note
    vs = [c.at[1] for c in layout.clamps]
    us = [c.at[0] for c in layout.clamps]
    middle = ((min(us) + max(us)) / 2, (min(vs) + max(vs)) / 2)
    (placed,) = layout.components
    assert 16.0 < hypot(placed.at[0] - middle[0], placed.at[1] - middle[1]) <= 20.0 + 0.5


def test_a_component_with_a_place_of_its_own_stays_and_the_check_tells() -> None:
    layout = over_both((0.0, 0.0))
    assert [key for key, _ in layout.assumed if key == "carries[1].at"] == []
    assert "CLASH-1" in {f.code for f in complaints(layout)}


def test_nuts_of_a_plate_that_stands_off_clear_the_tubes() -> None:
    """40 off the tubes the nuts hang clear of them, though a socket from below would not pass."""
    high = lay_out(with_plate(over_both((0.0, 0.0)).recipe, stand_off_mm=40.0))
    assert {f.code for f in complaints(high)} == {"ACCESS-2"}


def test_clamps_keep_off_lightening_holes_with_a_place() -> None:
    """A 60 hole where a row of clamps would stand: bolt holes keep two diameters off its edge."""
    sheet = plate(margin_mm=None, round_to_mm=0.5, lightening=(Lightening((0.0, -40.0), 60.0),))
    small = component("sensor", (0.0, 30.0), holes=((0.0, 0.0),), body=None)
    layout = lay_out(recipe(PARALLEL, carries=(small,), sheet=sheet))
    (cut,) = [h for h in layout.holes if h.purpose == "lightening"]
    for hole in layout.holes:
        if hole.purpose == "clamp":
            clear = dist(hole.at, cut.at) - cut.diameter_mm / 2
            assert clear >= rule("edge-distance-preferred").value * hole.diameter_mm - 1e-9


def test_clamps_keep_inside_a_polygon_that_is_given() -> None:
    """A slot between u = -30 and 30, as deep as the upper row of clamps: they stand beyond it."""
    points = (
        (-110.0, -75.0), (110.0, -75.0), (110.0, 75.0), (30.0, 75.0),
        (30.0, 35.0), (-30.0, 35.0), (-30.0, 75.0), (-110.0, 75.0),
    )  # fmt: skip
    sheet = plate(outline="polygon", points=points, toward=UP, round_to_mm=0.5)
    small = component("sensor", (0.0, 0.0), holes=((0.0, 0.0),), body=None)
    layout = lay_out(recipe(PARALLEL, carries=(small,), sheet=sheet))
    for hole in layout.holes:
        assert (
            layout.outline.distance(hole.at)
            >= rule("edge-distance-preferred").value * hole.diameter_mm - 1e-9
        )
        assert layout.outline.contains(hole.at)


@pytest.mark.parametrize("names", [("one", "two"), ("two", "one")])
def test_moved_components_keep_the_gap_of_their_row(names: tuple[str, str]) -> None:
    holes = ((0.0, -75.0), (0.0, 75.0))
    row = tuple(component(name, None, holes=holes, body=(40.0, 60.0, 30.0)) for name in names)
    layout = lay_out(recipe(PARALLEL, carries=row, sheet=plate(margin_mm=None, round_to_mm=0.5)))
    one, two = ([p[0] for p in placed.corners] for placed in layout.components)
    gap = max(min(one) - max(two), min(two) - max(one))
    assert gap >= rule("component-gap").value - 1e-9
    assert complaints(layout) == []
    assert lay_out(replace(layout.recipe, name="again")).holes == layout.holes
