"""Two tubes in a plane: against the drawing of them, and their ± against many simulated measurements."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.structure.survey.model import CENTRE, INSIDE, OUTSIDE
from clampwright.structure.two_tubes import TwoTubes, apart, clear, splay, touching, tubes, uncertainty
from clampwright.structure.uncertainty import plus_minus
from clampwright.trade.tables import rule

LENGTH = 500.0


def spacing(theta: float, start: float, station: float, how: str, od: tuple[float, float]) -> float:
    """What a tape reads between two tubes drawn in the plane, by cutting their wall lines with x = station.

    The first tube's walls are y = ± r₁. The second's axis passes (0, start) at the angle theta; its walls are
    that line shifted by r₂ along its own normal (-sin, cos), and are cut with the upright line x = station.
    """
    r1, r2 = od[0] / 2, od[1] / 2
    axis, normal = np.array([math.cos(theta), math.sin(theta)]), np.array([-math.sin(theta), math.cos(theta)])

    def cut(shift: float) -> float:
        through = np.array([0.0, start]) + shift * normal
        return float((through + (station - through[0]) / axis[0] * axis)[1])

    return {CENTRE: cut(0.0), OUTSIDE: cut(r2) + r1, INSIDE: cut(-r2) - r1}[how]


angles = st.floats(-0.6, 0.6)
starts = st.floats(400.0, 800.0)
ods = st.tuples(st.floats(6.0, 60.0), st.floats(6.0, 60.0))
hows = st.sampled_from((CENTRE, OUTSIDE, INSIDE))


@settings(deadline=None, max_examples=200)
@given(angles, starts, ods, hows, st.floats(0.0, 200.0), st.floats(250.0, LENGTH), st.booleans())
def test_two_spacings_give_back_the_tubes_that_were_drawn(
    theta: float, start: float, od: tuple[float, float], how: str, s1: float, s2: float, turned: bool
) -> None:
    pairs = tuple((s, spacing(theta, start, s, how, od)) for s in (s1, s2))
    two = TwoTubes(("a", "b"), od, LENGTH, how, pairs[::-1] if turned else pairs)
    assert splay(two) == pytest.approx(theta, abs=1e-9)
    first, second = tubes(two)
    assert (first.start, first.end) == ((0.0, 0.0, 0.0), (LENGTH, 0.0, 0.0))
    assert second.start == pytest.approx((0.0, start, 0.0), abs=1e-7)
    assert second.end == pytest.approx((LENGTH, start + LENGTH * math.tan(theta), 0.0), abs=1e-7)


@settings(deadline=None, max_examples=100)
@given(angles, starts, ods, hows, st.floats(0.0, LENGTH))
def test_one_spacing_and_the_angle_give_back_the_same(
    theta: float, start: float, od: tuple[float, float], how: str, station: float
) -> None:
    two = TwoTubes(("a", "b"), od, LENGTH, how, ((station, spacing(theta, start, station, how, od)),), theta)
    assert apart(two, 0.0) == pytest.approx(start, abs=1e-7)
    assert apart(two, LENGTH) == pytest.approx(start + LENGTH * math.tan(theta), abs=1e-7)


@settings(deadline=None, max_examples=100)
@given(angles, starts, ods, st.floats(0.0, LENGTH))
def test_the_clear_distance_is_what_a_tape_reads_inside(
    theta: float, start: float, od: tuple[float, float], station: float
) -> None:
    pairs = tuple((s, spacing(theta, start, s, OUTSIDE, od)) for s in (0.0, LENGTH))
    two = TwoTubes(("a", "b"), od, LENGTH, OUTSIDE, pairs)
    assert clear(two, station) == pytest.approx(spacing(theta, start, station, INSIDE, od), abs=1e-7)


def test_by_hand_a_three_four_five_triangle() -> None:
    """tan = 3/4, cos = 4/5. Axes 100 apart at 0: outside reads 100 + 10 + 8 / 0.8 = 120 there.

    At station 400 the axes are 100 + 300 = 400 apart: outside reads 420, inside 380.
    """
    od = (20.0, 16.0)
    outside = TwoTubes(("a", "b"), od, 400.0, OUTSIDE, ((0.0, 120.0), (400.0, 420.0)))
    inside = TwoTubes(("a", "b"), od, 400.0, INSIDE, ((0.0, 80.0), (400.0, 380.0)))
    for two in (outside, inside):
        assert tubes(two)[1].start == pytest.approx((0.0, 100.0, 0.0))
        assert tubes(two)[1].end == pytest.approx((400.0, 400.0, 0.0))
        assert tubes(two)[1].length_mm == pytest.approx(500.0)


def test_parallel_tubes_are_their_spacing_less_both_halves() -> None:
    two = TwoTubes(("a", "b"), (19.05, 15.875), 300.0, OUTSIDE, ((20.0, 150.0), (280.0, 150.0)))
    assert apart(two, 0.0) == apart(two, 300.0) == pytest.approx(150.0 - (19.05 + 15.875) / 2)


@pytest.mark.parametrize(
    ("spacings", "stretch"),
    [
        (((0.0, 100.0), (300.0, 100.0)), None),
        (((0.0, 20.0), (300.0, 20.0)), None),
        (((0.0, 10.0), (300.0, 10.0)), (0.0, 300.0)),
        (((0.0, 200.0), (300.0, -100.0)), (179.0, 300.0)),
    ],
)
def test_where_they_would_overlap(
    spacings: tuple[tuple[float, float], ...], stretch: tuple[float, float] | None
) -> None:
    """By hand for the last: at 45 deg the walls take 10 + 10 / cos = 24.142 of the axes' 200 - x."""
    two = TwoTubes(("a", "b"), (20.0, 20.0), 300.0, CENTRE, spacings)
    if stretch is not None and stretch[0]:
        stretch = (200.0 - 10.0 - 10.0 * math.sqrt(2), 300.0)
    found = touching(two)
    assert (found is None) is (stretch is None)
    if stretch is not None:
        assert found == pytest.approx(stretch)


def many(two: TwoTubes, count: int, seed: int) -> np.ndarray:
    """Places of the second tube's ends (start y, start z, end y, end z) measured anew each time.

    A station, a spacing, an angle, an outside diameter and the plane err on their own, by their ± / 1.96.
    """
    chance = np.random.default_rng(seed)
    sigma, caliper = two.error_mm / 1.96, rule("caliper-error").value / 1.96
    found = []
    for _ in range(count):
        spacings = tuple((s + chance.normal(0, sigma), m + chance.normal(0, sigma)) for s, m in two.spacings)
        od = (two.od_mm[0] + chance.normal(0, caliper), two.od_mm[1] + chance.normal(0, caliper))
        angle = None
        if two.splay_rad is not None:
            angle = two.splay_rad + chance.normal(0, two.splay_error_rad / 1.96)
        again = replace(two, spacings=spacings, splay_rad=angle, od_mm=od)
        off = chance.normal(0, two.out_of_plane_mm / 1.96, 2)
        found.append((apart(again, 0.0), off[0], apart(again, two.length_mm), off[1]))
    return np.array(found)


CASES = {
    "two spacings outside": TwoTubes(
        ("a", "b"), (20.0, 16.0), 500.0, OUTSIDE, ((40.0, 220.0), (400.0, 130.0)), None, 1.5, 0.0, 2.0
    ),
    "two spacings near each other inside": TwoTubes(
        ("a", "b"), (20.0, 16.0), 500.0, INSIDE, ((300.0, 220.0), (200.0, 190.0)), None, 1.0, 0.0, 1.0
    ),
    "a spacing and an angle": TwoTubes(
        ("a", "b"),
        (40.0, 30.0),
        500.0,
        OUTSIDE,
        ((100.0, 300.0),),
        math.radians(25),
        0.5,
        math.radians(1),
        3.0,
    ),
    "axis to axis": TwoTubes(
        ("a", "b"), (20.0, 16.0), 500.0, CENTRE, ((0.0, 150.0), (500.0, 150.0)), None, 2.0, 0.0, 0.5
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_the_covariance_is_that_of_many_measurements(name: str) -> None:
    """Second route: 20 000 simulated measurements; a spread found from n of them is off by 1/√(2n)."""
    two = CASES[name]
    runs = many(two, 20_000, 7)
    rows = uncertainty(two).ends("b")[[1, 2, 4, 5]]
    wanted = rows @ rows.T
    found = np.cov(runs.T)
    spread = np.sqrt(np.diag(wanted))
    assert np.sqrt(np.diag(found)) == pytest.approx(spread, rel=0.025)
    assert found / np.outer(spread, spread) == pytest.approx(wanted / np.outer(spread, spread), abs=0.035)


@pytest.mark.parametrize("name", CASES)
def test_the_stated_plus_minus_holds_in_95_of_100_at_any_station(name: str) -> None:
    two = CASES[name]
    runs = many(two, 20_000, 11)
    known, (_, second) = uncertainty(two), tubes(two)
    for share in (0.0, 0.3, 0.5, 1.0):
        at = second.point(share * second.length_mm)[1]
        y = (1 - share) * runs[:, 0] + share * runs[:, 2]
        held = plus_minus(known.point(second, share * second.length_mm)[1])
        inside = float(np.mean(np.abs(y - at) <= held))
        assert 0.944 <= inside <= 0.956, (share, inside)


def test_what_is_exact_and_what_the_causes_are_called() -> None:
    for two in CASES.values():
        known = uncertainty(two, given=False)
        assert not known.ends("a").any(), "the first tube is the frame"
        assert not known.ends("b")[[0, 3]].any(), "stations are taken square across"
        assert len(known.causes_are) == known.causes == len(set(known.causes_are))
        assert not known.given
    assert uncertainty(CASES["axis to axis"]).causes == 4
    assert uncertainty(CASES["a spacing and an angle"]).causes_are[:2] == ("their spacing", "their angle")
