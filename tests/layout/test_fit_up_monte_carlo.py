"""Second route for the combined error: tubes drawn at random, the plate set on them as at the bench.

A measured coordinate is off by e at 95 %, a normal error of σ = e/1.96. The plate is made from the measured
tubes, its two reference holes are set one reach from the true first tube (the clamps slide), and the
distance of a third hole from the true second tube, less the reach, is what its clearance has to cover.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
import pytest

from clampwright.layout.fit_up import across_tubes_mm
from clampwright.layout.shims_ready import height_spread_mm

Array = npt.NDArray[np.float64]

ERROR = 1.5
DRAWS = 40_000
REACH = 19.8
LENGTH = 400.0
APART = 130.0


def unit(vector: Array) -> Array:
    return np.asarray(vector / np.linalg.norm(vector, axis=-1, keepdims=True))


def left(vector: Array) -> Array:
    """Directions turned a quarter turn to the left."""
    return np.stack([-vector[..., 1], vector[..., 0]], axis=-1)


def mismatch(share: float, degrees: float) -> Array:
    """How far the hole at a share of the second tube's length misses it, signed, mm, one a draw."""
    rng = np.random.default_rng(20_250_101)
    turn = np.radians(degrees)
    true_a = np.array([[0.0, 0.0], [LENGTH, 0.0]])
    true_b = np.array([[0.0, APART], [LENGTH * np.cos(turn), APART + LENGTH * np.sin(turn)]])
    noise = rng.normal(0.0, ERROR / 1.96, (DRAWS, 2, 2, 2))
    seen_a, seen_b = true_a + noise[:, 0], true_b + noise[:, 1]
    along_a, along_b = unit(seen_a[:, 1] - seen_a[:, 0]), unit(seen_b[:, 1] - seen_b[:, 0])
    hole_a = [seen_a[:, 0] + s * LENGTH * along_a + REACH * left(along_a) for s in (share, share + 0.3)]
    hole_b = seen_b[:, 0] + share * LENGTH * along_b - REACH * left(along_b)
    set_at = np.array([[share * LENGTH, REACH], [(share + 0.3) * LENGTH, REACH]])
    return square_to_b(moved(hole_b, hole_a, set_at), true_b) + REACH


def moved(point: Array, holes: list[Array], set_at: Array) -> Array:
    """A plate's point after its two reference holes have been set where they belong."""
    way, onto = unit(holes[1] - holes[0]), unit(set_at[1] - set_at[0])
    rest = point - holes[0]
    along, across = np.sum(rest * way, axis=-1), np.sum(rest * left(way), axis=-1)
    return np.asarray(set_at[0] + along[:, None] * onto + across[:, None] * left(onto))


def square_to_b(point: Array, true_b: Array) -> Array:
    """Signed distance from the true second tube, positive to its left."""
    return np.asarray((point - true_b[0]) @ left(unit(true_b[1] - true_b[0])))


@pytest.mark.parametrize("degrees", [0.0, 12.0])
def test_at_the_measured_ends_the_error_is_e_root_two(degrees: float) -> None:
    spread = np.percentile(np.abs(mismatch(0.0, degrees)), 95)
    assert spread == pytest.approx(across_tubes_mm(ERROR, 0.0), rel=0.03)


@pytest.mark.parametrize("share", [0.1, 0.35, 0.6])
@pytest.mark.parametrize("degrees", [0.0, 12.0, 25.0])
def test_between_the_ends_it_is_no_larger(share: float, degrees: float) -> None:
    spread = np.percentile(np.abs(mismatch(share, degrees)), 95)
    assert spread <= across_tubes_mm(ERROR, 0.0)


def test_half_way_it_is_e() -> None:
    """Two ends halve each other's error: √2·e·√(½² + ½²) = e."""
    spread = np.percentile(np.abs(mismatch(0.5, 0.0)), 95)
    assert spread == pytest.approx(ERROR, rel=0.03)


def test_rounding_is_covered() -> None:
    """Coordinates rounded to 0.5 mm at both holes, on top of the tubes' errors."""
    rng = np.random.default_rng(7)
    rounded = mismatch(0.0, 0.0) + rng.uniform(-0.25, 0.25, (2, DRAWS)).sum(axis=0)
    spread = np.percentile(np.abs(rounded), 95)
    assert spread == pytest.approx(across_tubes_mm(ERROR, 0.5), rel=0.02)
    assert spread > 1.01 * np.percentile(np.abs(mismatch(0.0, 0.0)), 95)


def test_heights_of_two_feet() -> None:
    rng = np.random.default_rng(11)
    heights = rng.normal(0.0, ERROR / 1.96, (2, DRAWS))
    spread = np.percentile(np.abs(heights[0] - heights[1]), 95)
    assert spread == pytest.approx(height_spread_mm(ERROR), rel=0.03)
