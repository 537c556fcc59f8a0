"""Bundles against packings of circles found by search, bounds of area and Descartes' circles."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from clampwright.trade.bundles import bundle_circle, circle_round_three, wire_od_mm
from clampwright.trade.sources import source
from clampwright.trade.tables import load

Array = npt.NDArray[np.float64]
RATIOS = {row.whole("count"): row.number("circle_over_each") for row in load("circle_packings").rows}


def least_circle(diameters: list[float], tries: int, seed: int = 1) -> float:
    """Diameter of the least circle found that holds all: circles free to move, none over another.

    Minimises the radius from random starts (sequential quadratic programming), so it is never below the
    true least by more than the solver's tolerance.
    """
    radii = np.array(diameters) / 2
    n = len(radii)
    i, j = np.triu_indices(n, 1)
    pairs, each = np.arange(len(i)), np.arange(n)

    def room(z: Array) -> Array:
        p, radius = z[:-1].reshape(n, 2), z[-1]
        d = p[i] - p[j]
        apart = (d**2).sum(axis=1) - (radii[i] + radii[j]) ** 2
        return np.concatenate([apart, (radius - radii) ** 2 - (p**2).sum(axis=1)])

    def slope(z: Array) -> Array:
        p, found = z[:-1].reshape(n, 2), np.zeros((len(i) + n, 2 * n + 1))
        d = 2 * (p[i] - p[j])
        for k in (0, 1):
            found[pairs, 2 * i + k], found[pairs, 2 * j + k] = d[:, k], -d[:, k]
            found[len(i) + each, 2 * each + k] = -2 * p[:, k]
        found[len(i) + each, -1] = 2 * (z[-1] - radii)
        return found

    rng, best = np.random.default_rng(seed), math.inf
    size = 1.5 * math.sqrt((radii**2).sum())
    for _ in range(tries):
        start = np.append(rng.uniform(-0.7 * size, 0.7 * size, 2 * n), 1.3 * size)
        found = minimize(
            lambda z: z[-1],
            start,
            jac=lambda z: np.eye(len(z))[-1],
            constraints={"type": "ineq", "fun": room, "jac": slope},
            method="SLSQP",
            options={"maxiter": 400, "ftol": 1e-10},
        )
        if found.x[-1] > radii.max() and room(found.x).min() > -1e-6:
            best = min(best, 2 * float(found.x[-1]))
    return best


CLOSED_FORMS = {
    1: 1.0,
    2: 2.0,
    3: 1 + 2 / math.sqrt(3),
    4: 1 + math.sqrt(2),
    5: 1 + math.sqrt(2 * (1 + 1 / math.sqrt(5))),
    6: 3.0,
    7: 3.0,
    8: 1 + 1 / math.sin(math.pi / 7),
    9: 1 + math.sqrt(2 * (2 + math.sqrt(2))),
    11: 1 + 1 / math.sin(math.pi / 9),
    13: 2 + math.sqrt(5),
    18: 1 + math.sqrt(2) + math.sqrt(6),
    19: 1 + math.sqrt(2) + math.sqrt(6),
}
"""Of regular arrangements: rings of circles round none or one, and 18 and 19 in hexagons."""


@pytest.mark.parametrize(("count", "ratio"), CLOSED_FORMS.items())
def test_ratios_with_a_closed_form(count: int, ratio: float) -> None:
    assert RATIOS[count] == pytest.approx(ratio, abs=6e-5)


@pytest.mark.parametrize("count", [3, 5, 7, 8, 10, 12])
def test_ratios_against_a_search(count: int) -> None:
    """A numerical search finds the table's circle and none smaller."""
    assert least_circle([1.0] * count, 25) == pytest.approx(RATIOS[count], abs=2e-4)


def test_ratios_lie_between_the_bounds_of_area_and_grow() -> None:
    """No plane packing is denser than π/√12 (Thue), and one more circle never needs less room."""
    assert list(RATIOS) == list(range(1, 38))
    values = list(RATIOS.values())
    assert values == sorted(values)
    for count, ratio in RATIOS.items():
        assert count == 1 or 0.5 <= count / ratio**2 < math.pi / math.sqrt(12)


def test_recalled_ratios_are_marked_as_such() -> None:
    keys = {row.whole("count"): row.source() for row in load("circle_packings").rows}
    assert {source(keys[n]).status for n in range(1, 21)} == {"textbook"}
    assert {source(keys[n]).status for n in range(21, 38)} == {"memory"}


three = st.floats(0.5, 10.0)


@settings(deadline=None, max_examples=25)
@given(three, three, three)
def test_circle_round_three_against_a_search(a: float, b: float, c: float) -> None:
    sizes = sorted((a, b, c), reverse=True)
    exact = circle_round_three(sizes[0], sizes[1], sizes[2])
    assert least_circle(sizes, 6) == pytest.approx(exact, rel=1e-5)


def test_circle_round_three_by_descartes() -> None:
    """Descartes' theorem on curvatures: (a + b + c − e)² = 2 (a² + b² + c² + e²), e = 2/D."""
    sizes = (3.0, 2.0, 1.8)
    a, b, c = (2 / d for d in sizes)
    e = 2 / circle_round_three(*sizes)
    assert (a + b + c - e) ** 2 == pytest.approx(2 * (a * a + b * b + c * c + e * e))


@pytest.mark.parametrize("seed", range(5))
def test_a_mixed_bundle_is_never_drawn_too_thin(seed: int) -> None:
    """The circle given holds the wires: a search finds room in it, and it is at most a sixth too large."""
    rng = np.random.default_rng(seed)
    gauges = rng.choice([24, 22, 20, 18, 16, 14, 12, 10, 8], size=rng.integers(4, 10))
    sizes = [wire_od_mm(int(g)) for g in gauges]
    given_circle = bundle_circle([(1, size) for size in sizes]).diameter_mm
    least = least_circle(sizes, 6)
    assert least <= given_circle * 1.001
    assert given_circle < 1.17 * least
    assert given_circle >= sum(sorted(sizes)[-2:])


def test_small_wires_beside_two_large_ones_take_no_room() -> None:
    """Two of 5 mm and one of 1 mm in the gap beside them: 10 mm."""
    assert bundle_circle([(2, 5.0), (1, 1.0)]).diameter_mm == 10.0
    assert bundle_circle([(1, 5.0), (1, 3.0)]).diameter_mm == 8.0


def test_many_equal_wires_by_the_root_rule() -> None:
    """Common practice, no source: D = 1.2 d √N for more than the table of packings knows."""
    found = bundle_circle([(64, 1.5)])
    assert found.diameter_mm == pytest.approx(1.2 * 1.5 * 8, rel=1e-3)
    assert source(found.source).status == "practice"
    assert found.how == "circle whose area 64 wires fill to 69 %"


def test_the_same_wires_told_in_several_rows_are_one_bundle() -> None:
    assert bundle_circle([(3, 1.5), (4, 1.5)]) == bundle_circle([(7, 1.5)])
    assert bundle_circle([(7, 1.5), (0, 9.0)]) == bundle_circle([(7, 1.5)])


def test_no_wires() -> None:
    with pytest.raises(ValueError, match="no wires"):
        bundle_circle([])


def test_wires_retyped_and_in_order() -> None:
    """MIL-W-22759/16 as lists quote it: 20 gauge 0.060 in, 12 gauge 0.114 in. Thicker with a lower gauge,
    and always more than the bare conductor, 0.005 in · 92^((36 − n)/39) (ASTM B258)."""
    assert wire_od_mm(20) == pytest.approx(0.060 * 25.4)
    assert wire_od_mm(12) == pytest.approx(0.114 * 25.4)
    gauges = [row.whole("gauge") for row in load("wires").rows]
    sizes = [wire_od_mm(gauge) for gauge in gauges]
    assert gauges == sorted(gauges, reverse=True)
    assert sizes == sorted(sizes)
    for gauge, size in zip(gauges, sizes, strict=True):
        bare = 0.005 * 25.4 * 92 ** ((36 - gauge) / 39)
        assert 1.15 * bare < size < 2.6 * bare


def test_an_unknown_gauge_names_those_that_are_known() -> None:
    with pytest.raises(LookupError, match="no wire of gauge 21: the gauges are 26, 24, 22"):
        wire_od_mm(21)
