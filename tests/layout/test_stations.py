"""Stations that the tool chooses: clear of welds, of each other, of components and wrenches."""

from __future__ import annotations

from itertools import combinations
from math import cos, dist, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.plate_recipes import PARALLEL, at, component, plate, recipe, tube, with_clamps
from shapely.geometry import LineString, Point, Polygon

from clampwright.layout.bolt_room import head_room, hole_room
from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.lay_out import lay_out
from clampwright.layout.placed import ClampPlace, PlateLayout
from clampwright.layout.station_room import room
from clampwright.structure.nodes import nodes
from clampwright.structure.tubes import Node, Structure
from clampwright.trade.bolts import bolt
from clampwright.trade.tables import rule

BAND = 12.7
OD = 19.05


def stations(layout: PlateLayout) -> dict[str, float]:
    return {c.label: c.station_mm for c in layout.clamps}


def test_without_anything_to_carry_the_clamps_stand_in_a_square_amid_the_tubes() -> None:
    """Tubes 150 apart and 500 long: stations 250 ± 75."""
    found = stations(lay_out(recipe(PARALLEL)))
    assert found == pytest.approx({"A1": 175.0, "A2": 325.0, "B1": 175.0, "B2": 325.0}, abs=1e-6)


def test_a_component_between_the_rows_sets_the_spacing() -> None:
    """Body of 90 x 40 between rows 110 apart: the clamps stand at its ends, 250 ± 45."""
    layout = lay_out(recipe(PARALLEL, carries=(component(body=(90.0, 40.0, 50.0)),)))
    assert sorted(stations(layout).values()) == pytest.approx([205.0, 205.0, 295.0, 295.0], abs=1e-6)


def test_a_component_under_the_bolt_heads_drives_the_clamps_apart() -> None:
    """Body of 90 x 120 reaches over rows 110 apart: half of 90 and a wrench beyond, not much more."""
    layout = lay_out(recipe(PARALLEL, carries=(component(body=(90.0, 120.0, 50.0)),)))
    half = (stations(layout)["A2"] - stations(layout)["A1"]) / 2
    least = 45.0 + head_room("AN3")
    assert least - 1e-6 <= half <= least + 2 * 7.0


def test_wrench_room_is_half_the_socket_and_its_clearance() -> None:
    size = bolt("AN3")
    assert head_room("AN3") >= size.socket_od_mm / 2 + rule("wrench-clearance").value
    assert hole_room("AN3", "AN3") >= rule("pitch-preferred").value * size.nominal_mm


def test_stations_keep_off_ends_and_welds() -> None:
    """A brace lands on the lower tube at 250: clamps keep one outside diameter and half a band from it."""
    brace = tube("brace", (250.0, 0.0, 0.0), (300.0, -200.0, -100.0))
    structure = (*PARALLEL, brace)
    layout = lay_out(recipe(structure, on=("lower", "upper"), each=3))
    known = nodes(Structure(structure))
    assert any(n.tube == "lower" and n.station_mm == pytest.approx(250.0) for n in known)
    for place in layout.clamps:
        clear = min(abs(place.station_mm - n.station_mm) for n in known if n.tube == place.tube)
        assert clear >= OD + place.clamp.band_width_mm / 2 - 1e-6


def test_room_between_nodes() -> None:
    """Ends at 0 and 400, a weld at 150; keep 20 + 6: (26, 124) and (176, 374)."""
    brace = tube("t", (0.0, 0.0, 0.0), (400.0, 0.0, 0.0), 20.0)
    known = [Node("t", s, "") for s in (0.0, 150.0, 400.0)]
    assert room(brace, known, 12.0) == ((26.0, 124.0), (176.0, 374.0))


def test_a_tube_too_short_for_the_weld_distance_still_gets_its_clamp() -> None:
    """60 long: 2 * (19.05 + 6.35) leaves 9.2; 40 long leaves nothing, the band only stays on the tube."""
    known = [Node("t", 0.0, ""), Node("t", 60.0, "")]
    (stretch,) = room(tube("t", (0.0, 0.0, 0.0), (60.0, 0.0, 0.0)), known, BAND)
    assert stretch == pytest.approx((25.4, 34.6))
    known = [Node("t", 0.0, ""), Node("t", 40.0, "")]
    (stretch,) = room(tube("t", (0.0, 0.0, 0.0), (40.0, 0.0, 0.0)), known, BAND)
    assert stretch == pytest.approx((6.35, 33.65))
    with pytest.raises(CannotLayOut, match="2 clamp bands"):
        room(tube("t", (0.0, 0.0, 0.0), (25.0, 0.0, 0.0)), known, BAND, 2)


def test_staggered_tubes_without_a_common_stretch_still_get_clamps_on_the_tubes() -> None:
    tubes = (
        tube("lower", (0.0, 0.0, 0.0), (200.0, 0.0, 0.0)),
        tube("upper", (300.0, 150.0, 0.0), (500.0, 150.0, 0.0)),
    )
    layout = lay_out(recipe(tubes))
    for place in layout.clamps:
        assert OD + BAND / 2 - 1e-6 <= place.station_mm <= 200.0 - OD - BAND / 2 + 1e-6
    assert {c.label: c.station_mm for c in layout.clamps}["A2"] > 150.0


def test_given_stations_are_kept_and_the_others_stand_abreast_of_them() -> None:
    """Two given on the lower tube at 120 and 260: the tool sets the upper ones abreast."""
    asked = (at("lower", 120.0), at("lower", 260.0), at("upper", None), at("upper", None))
    layout = lay_out(recipe(PARALLEL, asked))
    assert stations(layout) == pytest.approx({"A1": 120.0, "A2": 260.0, "B1": 120.0, "B2": 260.0}, abs=1e-6)
    assert [c.station_given for c in layout.clamps] == [True, True, False, False]


def test_labels_follow_on_and_the_stations() -> None:
    asked = (at("upper", 300.0), at("lower", 290.0), at("upper", 100.0), at("lower", 110.0))
    layout = lay_out(recipe(PARALLEL, asked, on=("upper", "lower")))
    assert [(c.label, c.tube, c.station_mm) for c in layout.clamps] == [
        ("A1", "upper", 100.0),
        ("A2", "upper", 300.0),
        ("B1", "lower", 110.0),
        ("B2", "lower", 290.0),
    ]


def test_stations_are_rounded_to_the_increment() -> None:
    layout = lay_out(recipe(PARALLEL, carries=(component(),), sheet=plate(round_to_mm=0.396875)))
    for place in layout.clamps:
        steps = place.station_mm / 0.396875
        assert steps == pytest.approx(round(steps), abs=1e-6)


def test_clamps_converge_on_the_middle_of_a_vee() -> None:
    """Tubes at ±12 degrees: both tubes' stations alike, holes mirrored about the bisector."""
    c, s = cos(radians(12)), sin(radians(12))
    tubes = (
        tube("right", (0.0, 0.0, 0.0), (600 * c, -600 * s, 0.0)),
        tube("left", (0.0, 0.0, 0.0), (600 * c, 600 * s, 0.0)),
    )
    layout = lay_out(recipe(tubes, carries=(component(body=(60.0, 40.0, 30.0)),)))
    found = stations(layout)
    assert found["A1"] == pytest.approx(found["B1"], abs=1e-6)
    assert found["A2"] == pytest.approx(found["B2"], abs=1e-6)
    places = {p.label: p.at_exact for p in layout.clamps}
    middle = (places["A1"][1] + places["B1"][1]) / 2
    assert (places["A2"][1] + places["B2"][1]) / 2 == pytest.approx(middle, abs=1e-6)
    assert places["A1"][0] == pytest.approx(places["B1"][0], abs=1e-6)


def plan_of(place: ClampPlace, layout: PlateLayout) -> Polygon:
    """Band and feet of a clamp in plan, as shapely draws them."""
    u, v = layout.frame.u, layout.frame.v
    rise = [a - b for a, b in zip(place.centre, layout.frame.origin, strict=True)]
    centre = (
        sum(x * y for x, y in zip(rise, u, strict=True)),
        sum(x * y for x, y in zip(rise, v, strict=True)),
    )
    reach = dist(centre, place.at_exact)
    out = [(h - c) / reach for h, c in zip(place.at_exact, centre, strict=True)]
    clamp = place.clamp
    toe, heel = clamp.reach_mm + clamp.foot_end_mm, -clamp.outside_radius_mm
    ends = [(centre[0] + d * out[0], centre[1] + d * out[1]) for d in (heel, toe)]
    return LineString(ends).buffer(clamp.band_width_mm / 2, cap_style="flat")


@settings(deadline=None, max_examples=25)
@given(
    length=st.floats(30.0, 110.0),
    width=st.floats(20.0, 140.0),
    spacing=st.floats(120.0, 220.0),
    spread=st.floats(-8.0, 8.0),
)
def test_chosen_stations_are_clear_of_everything(
    length: float, width: float, spacing: float, spread: float
) -> None:
    """Tubes of 700 have room for any of these: clearances measured in plan by shapely."""
    c, s = cos(radians(spread)), sin(radians(spread))
    tubes = (
        tube("lower", (0.0, 0.0, 0.0), (700.0, 0.0, 0.0)),
        tube("upper", (0.0, spacing, 10.0), (700 * c, spacing + 700 * s, 10.0)),
    )
    holes = ((-length / 2 + 6, 0.0), (length / 2 - 6, 0.0))
    coil = component(body=(length, width, 40.0), holes=holes)
    layout = lay_out(recipe(tubes, carries=(coil,)))
    (placed,) = layout.components
    body = Polygon(placed.corners)
    where = {h.label: h.at for h in layout.holes}
    for one, other in combinations(layout.clamps, 2):
        gap = plan_of(one, layout).distance(plan_of(other, layout))
        assert gap >= rule("clamp-clearance").value - 1e-3
    for place in layout.clamps:
        assert body.distance(Point(place.at_exact)) >= head_room("AN3") - 1e-3
        for label in placed.holes:
            assert dist(where[label], place.at_exact) >= hole_room("AN3", "AN3") - 1e-3
        assert OD + BAND / 2 - 1e-6 <= place.station_mm <= 700.0 - OD - BAND / 2 + 1e-6


def test_where_there_is_no_room_the_best_is_taken_and_nothing_raised() -> None:
    """A body longer and wider than the tubes allow: the clamps go as far out as welds let them."""
    tubes = tuple(tube(t.name, t.start, (160.0, t.end[1], 0.0)) for t in PARALLEL)
    layout = lay_out(recipe(tubes, carries=(component(body=(300.0, 300.0, 50.0)),)))
    assert len(layout.clamps) == 4
    assert min(stations(layout).values()) >= OD + BAND / 2 - 1e-6


def test_one_clamp_a_tube_stands_at_the_middle() -> None:
    layout = lay_out(recipe(PARALLEL, each=1))
    assert stations(layout) == pytest.approx({"A1": 250.0, "B1": 250.0}, abs=1e-6)


def test_outboard_clamps_reach_away_from_each_other() -> None:
    inside, outside = lay_out(recipe(PARALLEL)), lay_out(with_clamps(recipe(PARALLEL), side="outboard"))
    across = [
        max(c.at[1] for c in lay.clamps) - min(c.at[1] for c in lay.clamps) for lay in (inside, outside)
    ]
    assert across == pytest.approx([110.0, 190.0], abs=1e-9)
