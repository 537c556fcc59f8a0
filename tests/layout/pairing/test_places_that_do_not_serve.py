"""Every reason for which a place for the bolt does not serve, met and just not met."""

from __future__ import annotations

from dataclasses import replace

import pytest
from joined_recipes import EXHAUST, LOW, carried, parallel, stand_off_recipe, structure

from clampwright.layout.pairing.lay_out import lay_out_stand_off
from clampwright.layout.stand_off_placed import BoltPlace, StandOffLayout
from clampwright.quantities import Vec3
from clampwright.recipe.model import Measured
from clampwright.recipe.stand_off_model import CarriedLine, PairClamp
from clampwright.structure.surroundings import KeepOut
from clampwright.structure.tubes import Structure, Tube

ALONE = structure(LOW, keep_outs=())
SEAT, REACH = 13.1318, 19.812
"""Of both measured clamps."""


def across(x: float, height: float, half: float = 100.0) -> CarriedLine:
    """A hose square over the low tube at x."""
    return carried(point=(x, -half, height), to=(x, half, height))


def laid(line: CarriedLine, tubes: Structure = ALONE, **more: object) -> StandOffLayout:
    """The hose laid out."""
    return lay_out_stand_off(stand_off_recipe(tubes, carried=line, **more))


def the_break(place: BoltPlace, *words: str) -> str:
    """The one sentence that holds all words."""
    found = [says for says in place.breaks if all(word in says for word in words)]
    assert len(found) == 1, place.breaks
    return found[0]


def test_a_line_with_room_all_round_fits_everywhere() -> None:
    layout = laid(across(250.0, 45.0))
    assert [(p.fits, p.breaks) for p in layout.places] == [(True, ())] * 4


def test_a_line_too_near_says_how_far_off_it_would_have_to_run() -> None:
    """22 mm between the axes of a crossing, 2 · 13.13 mm of seats."""
    layout = laid(across(250.0, 22.0))
    assert not any(p.fits for p in layout.places)
    says = the_break(layout.place, "cannot be joined")
    assert "overlap by 4.26 mm" in says
    assert "run 26.26 mm off instead of 22.00 mm" in says


def test_a_parallel_line_too_near_for_one_way_is_joined_the_other_way() -> None:
    """45 mm: with a loop to either side 39.62 mm of lateral leave √(45² − 39.62²) = 21.33 mm of height."""
    layout = laid(parallel(45.0, (0.0, 0.0, 1.0)))
    assert [p.fits for p in layout.places] == [True, True, False, False]
    says = the_break(layout.places[2], "cannot be joined")
    assert "overlap by 4.93 mm" in says
    assert "run 47.54 mm off instead of 45.00 mm" in says, "√(26.26² + 39.62²)"


def test_feet_that_just_touch_need_no_more() -> None:
    layout = laid(across(250.0, 2 * SEAT + 1e-9))
    assert layout.place.fits
    assert layout.place.spacer_mm == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize(("x", "serving"), [(60.0, 4), (40.0, 2), (-10.0, 0)])
def test_stations_near_the_end_of_the_tube(x: float, serving: int) -> None:
    """The bolts lie 19.8 mm to either side; clear of the end are stations from 19.05 + 6.35 mm."""
    layout = laid(across(x, 45.0))
    assert sum(p.fits for p in layout.places) == serving
    for place in layout.places:
        if not place.fits and place.station_tube_mm > 6.35:
            assert "end of the tube" in the_break(place, "must stay visible")
        elif not place.fits:
            the_break(place, "past the end of low")


def test_a_weld_at_the_crossing() -> None:
    """A brace that ends on the tube at 269.8 mm: the place there does not serve, that at 230.2 does."""
    brace = Tube("brace", (250.0 + REACH, 0.0, 0.0), (250.0 + REACH, 200.0, -200.0), 15.875)
    layout = laid(across(250.0, 45.0), structure(LOW, brace, keep_outs=()))
    assert layout.place.station_tube_mm == pytest.approx(250.0 - REACH)
    assert layout.place.fits
    assert "0.00 mm from a place" in the_break(layout.places[-1], "must stay visible", "brace ends here")


def test_a_line_that_is_too_short() -> None:
    """The bolts lie 19.8 mm before and behind the tube's axis: 15 mm of line to either side are too few."""
    layout = laid(across(250.0, 45.0, half=15.0))
    says = the_break(layout.place, "past the end of the straight piece")
    assert "stand 11.16 mm past" in says, "19.812 + 6.35 − 15"


def test_a_tilt_that_bends_the_clamp() -> None:
    """A line on a panel, 6 deg out of its plane; at 4 deg it serves, with that tilt."""
    for rise, serves in ((21.0, False), (14.0, True)):
        line = carried(point=(0.0, 0.0, 0.0), to=(rise, 200.0, 0.0))
        layout = laid(line, tube=None, panel="firewall")
        assert layout.place.fits is serves
        if not serves:
            assert "6.0°" in the_break(layout.place, "tilted")


def test_a_reach_so_short_that_the_bolt_runs_into_the_tube() -> None:
    """Tube and line 9.5 and 10 mm of radius, half a bolt 2.4 mm: a reach of 11 mm is too short for both."""
    short = PairClamp(None, Measured(11.0, 13.0, 3.0), None)
    layout = laid(across(250.0, 45.0), on_tube=short, on_line=short)
    the_break(layout.place, "bolt would run", "into low")
    assert "1.40 mm into oil hose" in the_break(layout.place, "bolt would run", "into oil hose")


def test_loops_whose_feet_split_on_the_centre_plane_run_into_each_other_back_to_back() -> None:
    """Seat 2 mm, loops of 13 mm radius: with both feet on one side, axes 9 mm apart are too near."""
    flat = PairClamp(None, Measured(19.8, 2.0, 3.0), None)
    layout = laid(parallel(9.0, (0.0, 0.0, 1.0)), on_tube=flat, on_line=flat)
    the_break(layout.place, "two loops would run into each other")


@pytest.mark.parametrize(("pressed", "fits"), [(0.0, True), (0.45, True), (0.55, False)])
def test_loops_that_touch_lie_back_to_back(pressed: float, fits: bool) -> None:
    """Foot to foot with seats so far inside the loops' outsides, 13.132 and 13.925 mm; rule: 0.5 mm each."""
    tight = [PairClamp(None, Measured(REACH, out - pressed, 3.0), None) for out in (13.1318, 13.9255)]
    layout = laid(parallel(27.0573 - 2 * pressed, (0.0, 0.0, 1.0)), on_tube=tight[0], on_line=tight[1])
    assert layout.place.spacer_mm == pytest.approx(0.0, abs=1e-3)
    assert layout.place.fits is fits
    if not fits:
        the_break(layout.place, "two loops would run into each other")


def test_another_tube_in_the_way_of_one_side() -> None:
    """A tube that passes over one side of the crossing: the places on the other side come first."""
    passing = Tube("passing", (200.0, 36.0, 30.0), (300.0, 36.0, 30.0), 19.05)
    layout = laid(across(250.0, 60.0), structure(LOW, passing, keep_outs=()))
    assert layout.place.fits
    assert layout.place.bolt[1] < 0
    the_break(layout.places[-1], "of passing", "3.00 mm is wanted")


@pytest.mark.parametrize(("height", "fits"), [(130.0, True), (105.0, False)])
def test_a_keep_out_has_its_own_distance(height: float, fits: bool) -> None:
    """A hot pipe of 44.45 mm, 50 mm to be kept: highest is the washer and nut at some 56 mm."""
    pipe = KeepOut("pipe", (0.0, 0.0, height), (500.0, 0.0, height), 44.45, 50.0, "engine", "hot")
    layout = laid(across(250.0, 45.0), structure(LOW, keep_outs=(pipe,)))
    assert layout.place.fits is fits
    if not fits:
        the_break(layout.place, "of pipe", "50.00 mm is wanted")


def test_a_box_to_keep_out_of() -> None:
    """A cylinder head's corner beside one side of the crossing."""
    box = KeepOut("case", (200.0, 20.0, 0.0), (300.0, 60.0, 90.0), None, 5.0, "engine", "other")
    layout = laid(across(250.0, 45.0), structure(LOW, keep_outs=(box,)))
    assert layout.place.fits
    assert layout.place.bolt[1] < 0
    the_break(layout.places[-1], "of case", "5.00 mm is wanted")


def at_best(line: CarriedLine, tubes: Structure) -> StandOffLayout:
    """A line beside the low tube, its station left to the tool."""
    return laid(line, tubes)


def test_a_free_station_avoids_what_stands_at_the_middle() -> None:
    """A keep-out across the middle of the tube: the nearest station that clears it is taken."""
    in_the_way = KeepOut("rod", (250.0, -90.0, 45.0), (250.0, 90.0, 45.0), 10.0, 12.0, "engine", "control")
    layout = at_best(parallel(60.0, (0.0, 0.0, 1.0)), structure(LOW, keep_outs=(in_the_way,)))
    assert layout.place.fits
    off = abs(layout.place.station_tube_mm - 250.0)
    assert 12.0 + 5.0 + 6.35 < off < 60.0


def test_a_free_station_is_clear_of_a_weld() -> None:
    brace = Tube("brace", (200.0, 0.0, 0.0), (200.0, 200.0, -200.0), 15.875)
    layout = at_best(parallel(60.0, (0.0, 0.0, 1.0)), structure(LOW, brace, keep_outs=()))
    clear = 19.05 + 6.35
    assert layout.place.station_tube_mm == pytest.approx((200.0 + clear + 500.0 - clear) / 2)
    assert layout.place.fits


def test_a_given_station_is_kept_whatever_stands_there() -> None:
    layout = laid(parallel(60.0, (0.0, 0.0, 1.0)), station_mm=10.0)
    assert layout.place.station_tube_mm == 10.0
    the_break(layout.place, "must stay visible")
    assert layout.loops[0].station_given


def test_exhaust_of_the_example_is_far_enough() -> None:
    """The shared keep-out of the examples lies 200 mm up."""
    layout = laid(across(250.0, 45.0), structure(LOW, keep_outs=(EXHAUST,)))
    assert layout.place.fits


def test_lengths_are_told_in_the_units_of_the_recipe() -> None:
    metric = stand_off_recipe(ALONE, carried=across(250.0, 22.0))
    says = lay_out_stand_off(replace(metric, units="in")).place.breaks[0]
    assert "0.168 in" in says
    assert " mm" not in says


POINT: Vec3 = (250.0, -20.0, 45.0)


def test_a_line_of_open_ends_is_no_shorter_than_what_it_takes() -> None:
    """Given by a point and a direction: stations count on, and no end is in the way."""
    line = carried(point=POINT, to=None, direction=(0.0, 1.0, 0.0))
    layout = laid(line)
    assert all(p.fits for p in layout.places)
    start = layout.line.start[1]
    for place in layout.places:
        assert layout.line.point(place.station_line_mm)[1] == pytest.approx(start + place.station_line_mm)
    assert layout.line.start[1] == pytest.approx(-REACH - 150.0), "150 mm before the first of the places"
    assert layout.line.end[1] == pytest.approx(REACH + 150.0)
    note = dict(layout.assumed)["line"]
    assert "149.81 mm before the point given" in note
