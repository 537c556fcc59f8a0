"""The printer's correction, worked by hand: drawn length = 100 / measured."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from clampwright.sheets.print_check import print_check, reading_error, tolerated_error


def test_no_print_is_not_verified_and_not_corrected() -> None:
    check = print_check(())
    assert check.stretch == (1.0, 1.0)
    assert not check.verified
    assert check.last_error((100.0, 0.0)) is None


def test_one_print_outside_the_tolerance() -> None:
    """A printer that gives 99.2 for 100 needs 100/99.2 = 1.0080645."""
    check = print_check(((99.2, 99.4),))
    assert check.stretch == pytest.approx((1.0080645, 1.0060362), abs=1e-7)
    assert not check.verified
    assert check.last_error((100.0, 0.0)) == pytest.approx(0.8)
    assert check.last_error((0.0, 200.0)) == pytest.approx(1.2)


def test_the_second_print_verifies_and_leaves_the_correction() -> None:
    check = print_check(((99.2, 99.4), (100.05, 99.96)))
    assert check.stretch == pytest.approx((1.0080645, 1.0060362), abs=1e-7)
    assert check.verified
    assert check.last_error((200.0, 100.0)) == pytest.approx(math.hypot(0.1, 0.04))


def test_prints_outside_multiply() -> None:
    check = print_check(((97.0, 100.0), (99.0, 100.1)))
    assert check.stretch == pytest.approx((100 / 97 * 100 / 99, 100 / 100.1))
    assert not check.verified


def test_a_good_print_after_a_bad_one_and_a_bad_one_after_a_good_one() -> None:
    assert print_check(((100.1, 100.0),)).verified
    assert print_check(((100.1, 100.0),)).stretch == (1.0, 1.0)
    assert not print_check(((100.1, 100.0), (98.0, 98.0))).verified


def test_a_refused_pair_after_a_good_one_undoes_it() -> None:
    """60 mm is no measurement of a 100 mm bar: what was measured last is not known, whatever came before."""
    check = print_check(((100.0, 100.0), (60.0, 100.0)))
    assert not check.verified
    assert check.refused == ((60.0, 100.0),)
    assert check.last == (100.0, 100.0)


@pytest.mark.parametrize(
    "pair", [(0.0, 100.0), (25.4, 25.4), (100.0, 204.0), (-3.0, 100.0), (math.nan, 100.0)]
)
def test_what_is_no_print_of_these_bars_is_refused(pair: tuple[float, float]) -> None:
    check = print_check(((99.2, 99.4), pair))
    assert check.refused == (pair,)
    assert check.stretch == pytest.approx((100 / 99.2, 100 / 99.4))
    assert not check.verified


@given(st.floats(0.92, 1.08), st.floats(0.92, 1.08))
def test_a_steady_printer_prints_true_at_the_second_try(across: float, along: float) -> None:
    first = (100 * across, 100 * along)
    check = print_check((first,))
    second = (first[0] * check.stretch[0], first[1] * check.stretch[1])
    assert print_check((first, second)).verified
    if max(abs(length - 100) for length in first) > 0.2:
        assert second == pytest.approx((100.0, 100.0))


def test_errors_grow_with_the_distance() -> None:
    assert reading_error((300.0, 400.0)) == pytest.approx(0.5)
    assert tolerated_error((300.0, 400.0)) == pytest.approx(1.0)
