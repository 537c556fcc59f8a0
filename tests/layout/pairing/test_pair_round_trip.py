"""Two clamps put on a bolt by hand, the bolt forgotten and found again; moved and turned round as a whole."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.pairing.pairs import Known, axes_apart, known_pairs, measured, motion, moved, reversed_, vec

from clampwright.layout.pairing.closed import Closed, Pair
from clampwright.layout.pairing.from_spacer import parallel_from_spacer, skew_at_station, skew_from_spacer
from clampwright.layout.pairing.parallel_pair import beside, parallel_places
from clampwright.layout.pairing.skew_pair import skew_places

CLOSE = 1e-6
quick = settings(deadline=None, max_examples=120)


def the_same(places: tuple[Closed, ...], known: Known) -> Closed:
    """The place with the known sides."""
    sides = (known.turn_tube, known.turn_line)
    return next(p for p in places if (p.turn_tube, p.turn_line) == sides)


def assert_found(place: Closed, known: Known) -> None:
    """Everything that was forgotten is back."""
    assert np.abs(vec(place.axis) - known.axis).max() < 1e-9
    assert np.abs(vec(place.bolt) - known.bolt).max() < CLOSE
    assert place.spacer_mm == pytest.approx(known.spacer, abs=CLOSE)
    assert place.station_tube_mm == pytest.approx(known.station_tube, abs=CLOSE)
    assert place.station_line_mm == pytest.approx(known.station_line, abs=CLOSE)


@quick
@given(known_pairs(2.5, 177.5))
def test_a_skew_pair_is_found_again(known: Known) -> None:
    places = skew_places(known.pair)
    assert_found(the_same(places, known), known)
    distance = axes_apart(known.pair.tube, known.pair.line)
    for place in places:
        found = measured(known.pair, place)
        assert max(found.off_tube_hole, found.off_line_hole) < CLOSE
        assert found.between_feet == pytest.approx(place.spacer_mm, abs=CLOSE)
        seats = known.pair.on_tube.seat_mm + known.pair.on_line.seat_mm
        assert place.spacer_mm == pytest.approx(distance - seats, abs=CLOSE)


@quick
@given(known_pairs(0.0, 0.0))
def test_a_parallel_pair_is_found_again(known: Known) -> None:
    places = parallel_places(known.pair, known.station_tube)
    assert_found(the_same(places, known), known)
    for place in places:
        found = measured(known.pair, place)
        assert max(found.off_tube_hole, found.off_line_hole) < CLOSE
        assert found.between_feet == pytest.approx(place.spacer_mm, abs=CLOSE)


@quick
@given(known_pairs(2.5, 177.5), st.floats(-60.0, 60.0))
def test_a_skew_line_moved_off_comes_back_by_its_spacer(known: Known, off: float) -> None:
    """The line is only roughly known along the bolt: the spacer says where it runs."""
    pair = known.pair
    shift = off * known.axis
    rough = replace(pair, line=moved(pair.line, np.eye(3), shift))
    x, y, z = known.axis
    place = the_same(skew_from_spacer(rough, known.spacer, (x, y, z)), known)
    assert_found(place, known)
    assert np.abs(vec(place.line.start) - vec(pair.line.start)).max() < CLOSE


@quick
@given(known_pairs(2.5, 177.5), st.integers(0, 999))
def test_a_skew_line_of_known_direction_comes_back_by_spacer_station_and_side(
    known: Known, seed: int
) -> None:
    pair = known.pair
    _, shift = motion(seed)
    rough = replace(pair, line=moved(pair.line, np.eye(3), shift))
    x, y, z = known.axis
    place = the_same(skew_at_station(rough, known.spacer, (x, y, z), known.station_tube), known)
    assert np.abs(vec(place.bolt) - known.bolt).max() < CLOSE
    assert place.spacer_mm == pytest.approx(known.spacer, abs=CLOSE)
    apart = np.cross(vec(place.line.start) - vec(pair.line.start), vec(pair.line.direction))
    assert np.linalg.norm(apart) < CLOSE, "the same endless line"


@quick
@given(known_pairs(0.0, 0.0), st.floats(5.0, 90.0))
def test_a_parallel_line_comes_back_by_its_spacer_and_side(known: Known, rough_distance: float) -> None:
    pair, station = known.pair, known.station_tube
    side, distance = beside(pair, station)
    rough = replace(pair, line=moved(pair.line, np.eye(3), (rough_distance - distance) * vec(side)))
    place = the_same(parallel_from_spacer(rough, known.spacer, side, station), known)
    assert_found(place, known)
    assert beside(replace(pair, line=place.line), station)[1] == pytest.approx(distance, abs=CLOSE)


@quick
@given(known_pairs(2.5, 177.5), st.integers(0, 999))
def test_nothing_changes_when_everything_is_moved(known: Known, seed: int) -> None:
    turn, shift = motion(seed)
    pair = known.pair
    there = replace(pair, tube=moved(pair.tube, turn, shift), line=moved(pair.line, turn, shift))
    for here, gone in zip(skew_places(pair), skew_places(there), strict=True):
        assert gone.spacer_mm == pytest.approx(here.spacer_mm, abs=CLOSE)
        assert gone.station_tube_mm == pytest.approx(here.station_tube_mm, abs=CLOSE)
        assert gone.station_line_mm == pytest.approx(here.station_line_mm, abs=CLOSE)
        assert np.abs(turn @ vec(here.bolt) + shift - vec(gone.bolt)).max() < CLOSE


def corners(places: tuple[Closed, ...]) -> list[tuple[float, ...]]:
    """The bolts' places, in an order of their own."""
    return sorted(tuple(round(x, 5) + 0.0 for x in p.bolt) for p in places)


@quick
@given(known_pairs(2.5, 177.5))
def test_the_bolts_do_not_ask_from_which_end_or_from_which_of_the_two_one_measures(known: Known) -> None:
    """Tube or line measured from its other end, or tube and line changing roles: the same four bolts."""
    pair = known.pair
    ends = (
        replace(pair, tube=reversed_(pair.tube)),
        replace(pair, line=reversed_(pair.line)),
        Pair(pair.line, pair.on_line, pair.tube, pair.on_tube),
    )
    here = skew_places(pair)
    for other in ends:
        there = skew_places(other)
        for p in here:
            near = min(float(np.abs(vec(p.bolt) - vec(q.bolt)).max()) for q in there)
            assert near < CLOSE
        assert sorted(p.spacer_mm for p in there) == pytest.approx(
            sorted(p.spacer_mm for p in here), abs=CLOSE
        )


@quick
@given(known_pairs(0.0, 0.0))
def test_parallel_bolts_do_not_ask_that_either(known: Known) -> None:
    pair, station = known.pair, known.station_tube
    here = parallel_places(pair, station)
    back = replace(pair, tube=reversed_(pair.tube))
    for other, at in ((back, 400.0 - station), (replace(pair, line=reversed_(pair.line)), station)):
        there = parallel_places(other, at)
        for p in here:
            assert min(float(np.abs(vec(p.bolt) - vec(q.bolt)).max()) for q in there) < CLOSE


@quick
@given(known_pairs(0.0, 2.0), st.integers(0, 999))
def test_nearly_parallel_places_lie_on_both_holes_wherever_they_are(known: Known, seed: int) -> None:
    """Also with the line turned out of the plane, by up to 2 deg in all directions."""
    turn, shift = motion(seed)
    lean = 0.02 * (vec(known.pair.line.end) - vec(known.pair.line.start)) @ turn
    line = replace(known.pair.line, end=tuple(vec(known.pair.line.end) + 0.5 * lean))
    pair = replace(known.pair, tube=moved(known.pair.tube, turn, shift), line=moved(line, turn, shift))
    places = parallel_places(pair, known.station_tube)
    assert len(places) >= 2
    for place in places:
        found = measured(pair, place)
        assert max(found.off_tube_hole, found.off_line_hole) < CLOSE
        assert found.between_feet == pytest.approx(place.spacer_mm, abs=CLOSE)
