"""The stated ± against many fits to noise that was drawn anew each time."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.ndimage import gaussian_filter

from clampwright.structure.scan.cylinder import Cylinder, fit_robustly, square_to
from clampwright.structure.scan.settling import Fitted
from clampwright.structure.scan.spread import spread
from clampwright.structure.uncertainty import coverage

RADIUS = 9.525


def noise(
    turn: np.ndarray, along: np.ndarray, long: float, alike: float, rng: np.random.Generator
) -> np.ndarray:
    """Noise of 0.5 mm, 0.8 of it alike over `alike` mm of the skin: white noise, smoothed there."""
    if alike == 0:
        return np.asarray(0.5 * rng.normal(size=len(turn)))
    step = 1.5
    across = round(2 * np.pi * RADIUS / step)
    white = rng.normal(size=(int(long / step) + 60, across))
    smooth = (
        gaussian_filter(white, alike / step, mode=("reflect", "wrap")) * 2 * alike / step * math.sqrt(math.pi)
    )
    rows = ((along + long / 2) / step).astype(int) + 30
    columns = (turn % (2 * np.pi) / (2 * np.pi) * across).astype(int) % across
    return np.asarray(0.5 * (0.8 * smooth[rows, columns] + 0.6 * rng.normal(size=len(turn))))


def held(
    seen: float, count: int, long: float, alike: float, rng: np.random.Generator
) -> tuple[bool, bool, bool]:
    """Whether ± of the diameter, of an end's place and of the direction hold the truth, systematic causes
    left out (there are none here)."""
    turn, along = rng.uniform(-seen / 2, seen / 2, count), rng.uniform(-long / 2, long / 2, count)
    out = RADIUS + noise(turn, along, long, alike, rng)
    points = np.column_stack([out * np.cos(turn), out * np.sin(turn), along])
    start = Cylinder(
        np.array([0.3, 0.3, 0.0]), np.array([0.01, 0.0, 1.0]) / math.hypot(0.01, 1), 1.05 * RADIUS
    )
    found, trust, sigma = fit_robustly(points, start, closely=1e-6)
    station = found.stations(points)
    high = float(station.max())
    fitted = Fitted(
        found,
        points,
        np.ones(count),
        trust,
        sigma,
        4 * sigma,
        float(station.min()),
        high,
        (1, 1),
        count,
        points,
        False,
    )
    how = spread(fitted).scatter
    u, _ = square_to(found.axis)
    end = (found.point + found.axis * high) * [1, 1, 0]
    place = how[0, 0] + 2 * high * how[0, 2] + high**2 * how[2, 2]
    k = coverage()
    return (
        abs(found.radius - RADIUS) <= k * math.sqrt(how[4, 4]),
        abs(float(end @ u)) <= k * math.sqrt(place),
        abs(float(found.axis[:2] @ u[:2])) <= k * math.sqrt(how[2, 2]),
    )


@pytest.mark.parametrize(
    ("seen", "count", "long", "alike", "least"),
    [
        (2 * np.pi, 2000, 400.0, 0.0, 0.92),
        (2.6, 1500, 400.0, 0.0, 0.92),
        (2 * np.pi, 300, 60.0, 0.0, 0.92),
        (2.6, 200, 60.0, 0.0, 0.92),
        (2 * np.pi, 2000, 400.0, 3.0, 0.86),
        (2.6, 1500, 400.0, 5.0, 0.84),
    ],
    ids=["all round", "one side", "short", "short and one side", "noise alike", "noise alike, one side"],
)
def test_plus_minus_hold_the_truth_as_often_as_they_say(
    seen: float, count: int, long: float, alike: float, least: float
) -> None:
    """95 in 100; where noise is alike over some millimetres (64 % of its variance here) fewer, since the
    patches are then not quite independent."""
    rng = np.random.default_rng(11)
    share = np.mean([held(seen, count, long, alike, rng) for _ in range(150)], axis=0)
    assert share.min() >= least, share
    assert share.max() <= 1.0
    assert share.mean() >= least + 0.02


def test_noise_that_is_alike_makes_a_wider_plus_minus() -> None:
    """The same points, the same roughness: a patch is worth one measurement, not a hundred."""
    wide = []
    for alike in (0.0, 5.0):
        rng = np.random.default_rng(12)
        turn, along = rng.uniform(0, 2 * np.pi, 3000), rng.uniform(-200, 200, 3000)
        out = RADIUS + noise(turn, along, 400.0, alike, rng)
        points = np.column_stack([out * np.cos(turn), out * np.sin(turn), along])
        start = Cylinder(np.zeros(3), np.array([0.0, 0.0, 1.0]), RADIUS)
        found, trust, sigma = fit_robustly(points, start)
        fitted = Fitted(
            found, points, np.ones(3000), trust, sigma, 1.0, -200.0, 200.0, (1, 1), 3000, points, False
        )
        wide.append(math.sqrt(spread(fitted).scatter[4, 4]))
    assert wide[1] > 2.5 * wide[0]
