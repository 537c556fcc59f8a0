"""The best shift and turn: closed forms, a general minimiser and brute force, and what a standard says."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog, minimize

from clampwright.layout.as_made_moves import NO_MOVE, Meeting, Move, best_move, least_squares, off, spare
from clampwright.layout.fit_up import clearance_mm, largest_shank_mm

Array = npt.NDArray[np.float64]
ALONG_X = (1.0, 0.0)


def scattered(seed: int, follows: str) -> list[Meeting]:
    """2 to 8 holes drilled 0.2 mm off, the edges askew; bolts that follow along nothing, x or any way."""
    rng = np.random.default_rng(seed)
    n = int(rng.integers(2, 9))
    bolts = rng.uniform(0.0, 200.0, (n, 2))
    turn = rng.normal(0.0, 0.02)
    cos, sin = math.cos(turn), math.sin(turn)
    holes = (
        bolts @ np.array([[cos, sin], [-sin, cos]]) + rng.normal(0.0, 3.0, 2) + rng.normal(0.0, 0.2, (n, 2))
    )
    ways = rng.uniform(0.0, math.pi, n)

    def along(i: int) -> tuple[float, float] | None:
        if follows == "none":
            return None
        return ALONG_X if follows == "x" else (math.cos(ways[i]), math.sin(ways[i]))

    return [
        Meeting(tuple(holes[i]), tuple(bolts[i]), float(rng.uniform(0.02, 0.4)), along(i), 30.0)
        for i in range(n)
    ]


def by_slsqp(meetings: list[Meeting], about: tuple[float, float], rng: np.random.Generator) -> float:
    """The greatest least spare that a general minimiser finds, from two starts."""
    start = least_squares(meetings)

    def room(x: Array) -> Array:
        move = Move((x[0], x[1]), x[2] / 100, about)
        pinch = [m.allowed_mm + x[3] - math.hypot(*off(m, move)[0]) for m in meetings]
        return np.array([*pinch, *(30.0 - abs(off(m, move)[1]) for m in meetings)])

    best = -math.inf
    for scatter in (0.0, 0.1):
        x0 = np.array([*start.shift, 100 * start.turn_rad, 0.1 - spare(meetings, start)])
        x0[:3] += rng.normal(0.0, 1.0, 3) * scatter
        found = minimize(
            lambda x: x[3],
            x0,
            jac=lambda _: np.array([0.0, 0.0, 0.0, 1.0]),
            constraints={"type": "ineq", "fun": room},
            method="SLSQP",
            options={"ftol": 1e-12, "maxiter": 200},
        )
        if np.min(room(found.x)) > -1e-8:
            best = max(best, -float(found.x[3]))
    return best


@pytest.mark.parametrize("follows", ["none", "x", "any"])
def test_no_general_minimiser_finds_more_spare(follows):
    """scipy's SLSQP on the whole problem, turn not linear, on 25 random cases of each sort."""
    rng = np.random.default_rng(7)
    compared = 0
    for seed in range(25):
        meetings = scattered(seed, follows)
        move = best_move(meetings)
        found = spare(meetings, move)
        other = by_slsqp(meetings, move.about, rng)
        assert found >= other - 2e-6, seed
        compared += abs(found - other) < 2e-5
    assert compared >= 17


def test_a_linear_programme_agrees_where_every_bolt_slides():
    """Bolts that follow along x: with the turn small, max spare is a linear programme (scipy, HiGHS)."""
    for seed in range(60):
        meetings = scattered(seed, "x")
        move = best_move(meetings)
        cos, sin = math.cos(move.turn_rad), math.sin(move.turn_rad)
        rows, limits = [], []
        for meeting in meetings:
            x, y = (h - a for h, a in zip(meeting.hole, move.about, strict=True))
            arm, slope = sin * x + cos * y, cos * x - sin * y
            rest = move.about[1] + arm - meeting.bolt[1]
            for sign in (1.0, -1.0):
                rows.append([sign, sign * slope / 100, -1.0])
                limits.append(meeting.allowed_mm - sign * rest)
        free = [(None, None)] * 3
        found = linprog([0.0, 0.0, 1.0], A_ub=rows, b_ub=limits, bounds=free, method="highs")
        assert found.status == 0
        if max(abs(off(meeting, move)[1]) for meeting in meetings) < 29.0:
            assert spare(meetings, move) == pytest.approx(-found.fun, abs=2e-6)


def test_brute_force_on_a_grid_finds_no_more_spare():
    """Every shift of a fine grid round the answer and every turn of a row, four cases."""
    steps = np.linspace(-0.3, 0.3, 25)
    for seed in range(4):
        meetings = scattered(seed, "none")
        move = best_move(meetings)
        arms = np.array([m.hole for m in meetings]) - np.array(move.about)
        target = np.array([m.bolt for m in meetings]) - np.array(move.about)
        allowed = np.array([m.allowed_mm for m in meetings])
        best = -math.inf
        for turn in move.turn_rad + steps / 100:
            cos, sin = math.cos(turn), math.sin(turn)
            rest = arms @ np.array([[cos, sin], [-sin, cos]]) - target + np.array(move.shift)
            dx, dy = np.meshgrid(steps, steps)
            far = np.hypot(rest[:, 0, None, None] + dx, rest[:, 1, None, None] + dy)
            best = max(best, float((allowed[:, None, None] - far).min(axis=0).max()))
        assert spare(meetings, move) >= best - 1e-9


@given(
    shift=st.tuples(st.floats(-20.0, 20.0), st.floats(-20.0, 20.0)),
    turn=st.floats(-3.0, 3.0),
    slides=st.booleans(),
)
@settings(deadline=None, max_examples=30)
def test_a_perfect_part_that_was_moved_is_moved_back(shift, turn, slides):
    """What was done to it comes back, and every hole has its whole play."""
    bolts = [(10.0, 10.0), (150.0, 14.0), (146.0, 120.0), (12.0, 112.0)]
    there = Move(shift, math.radians(turn), (80.0, 60.0))
    along = ALONG_X if slides else None
    meetings = [Meeting(there.of(bolt), bolt, 0.1 + 0.05 * i, along) for i, bolt in enumerate(bolts)]
    move = best_move(meetings)
    assert move.turn_rad == pytest.approx(-there.turn_rad, abs=1e-9)
    for meeting in meetings:
        assert move.of(meeting.hole) == pytest.approx(meeting.bolt, abs=1e-6)
    assert spare(meetings, move) == pytest.approx(0.1, abs=1e-6)


@given(apart=st.floats(20.0, 300.0), error=st.floats(0.01, 1.0), play=st.floats(0.02, 0.5))
@settings(deadline=None, max_examples=30)
def test_two_holes_share_their_error(apart, error, play):
    """By hand: two holes e too far apart stand e/2 off each, so the spare is play - e/2."""
    pair = [Meeting((0.0, 0.0), (0.0, 0.0), play), Meeting((apart + error, 0.0), (apart, 0.0), play)]
    move = best_move(pair)
    assert spare(pair, move) == pytest.approx(play - error / 2, abs=1e-6)
    assert move.shift[0] == pytest.approx(-error / 2, abs=1e-6)
    assert move.turn_rad == pytest.approx(0.0, abs=1e-8)


def test_two_holes_with_unequal_play_share_it_so_that_both_have_the_same_spare():
    """By hand: e = a + b with a - p = b - q: p 0.1, q 0.3, e 0.6 gives a 0.2, b 0.4, spare -0.1."""
    pair = [Meeting((0.0, 0.0), (0.0, 0.0), 0.1), Meeting((50.6, 0.0), (50.0, 0.0), 0.3)]
    move = best_move(pair)
    assert [math.hypot(*off(m, move)[0]) for m in pair] == pytest.approx([0.2, 0.4], abs=1e-6)


def test_three_holes_at_a_middle_turn_nothing():
    """An equilateral pattern drilled 0.25 mm too large about its middle: by symmetry no move helps."""
    angles = [math.pi / 2 + k * 2 * math.pi / 3 for k in range(3)]
    unit = [(math.cos(a), math.sin(a)) for a in angles]
    meetings = [Meeting((40.25 * x, 40.25 * y), (40 * x, 40 * y), 0.2) for x, y in unit]
    assert spare(meetings, best_move(meetings)) == pytest.approx(-0.05, abs=1e-6)


def test_minimax_is_better_than_least_squares_for_the_tightest_hole():
    """One hole of three off: least squares puts two thirds on it, minimax half of what counts."""
    row = [Meeting((x, y), (x, 0.0), 0.0, ALONG_X) for x, y in ((0.0, 0.0), (50.0, 0.3), (100.0, 0.0))]
    assert spare(row, least_squares(row)) == pytest.approx(-0.2, abs=1e-9)
    assert spare(row, best_move(row)) == pytest.approx(-0.15, abs=1e-6)


def test_a_single_hole_is_met_without_a_turn():
    alone = [Meeting((3.0, 4.0), (1.0, 1.0), 0.1)]
    move = best_move(alone)
    assert move.of((3.0, 4.0)) == pytest.approx((1.0, 1.0), abs=1e-12)
    assert move.turn_rad == 0.0
    assert best_move([]) is NO_MOVE
    assert spare([], NO_MOVE) == math.inf


def test_holes_on_one_spot_raise_nothing():
    """Two bolts through one place leave the turn open: none is made."""
    same = [Meeting((5.0, 5.0), (4.0, 5.0), 0.1), Meeting((5.0, 5.0), (4.0, 5.0), 0.2)]
    move = best_move(same)
    assert spare(same, move) == pytest.approx(0.1, abs=1e-9)


def test_asme_y14_5m_1994_appendix_b_floating_fasteners():
    """Appendix B (as two teaching pages quote it): H = F + T.

    Its example, recalled: fasteners of 6 at the most in holes of 6.44 at the least, T = 0.44 in diameter for
    each part. A hole's axis anywhere in such a zone of both parts, the bolts still go in: with the holes of
    one part 0.22 off one way and those of the other 0.22 off the other way, none is spare. Here the bolt
    stands in the part's hole, and what is measured is the plate's.
    """
    hole, shank = 6.44, 6.0
    play = (hole - shank) / 2
    assert 2 * play == pytest.approx(0.44)
    worst = [Meeting((-play, 0.0), (0.0, 0.0), play), Meeting((100.0 + play, 0.0), (100.0, 0.0), play)]
    assert spare(worst, NO_MOVE) == pytest.approx(0.0, abs=1e-12)
    assert spare(worst, best_move(worst)) == pytest.approx(0.0, abs=1e-6)


def test_play_of_the_fit_up_plan_is_the_floating_fastener():
    """Both parts clear: each adds (H - F)/2, so T/2 of either part's zone (ASME Y14.5M-1994, appendix B)."""
    shank = largest_shank_mm("AN3")
    assert clearance_mm("AN3", shank + 0.44) == pytest.approx(0.22)
    assert clearance_mm("AN3", shank + 0.44, shank + 0.2) == pytest.approx(0.22 + 0.10)
