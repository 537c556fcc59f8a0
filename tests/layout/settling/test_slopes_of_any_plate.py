"""The linear model is the slope of the nonlinear one: every cause alone, a little, on any part."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from joined_recipes import bushing_job, bushing_recipe, structure
from layout.plate_recipes import at, component, plate, recipe, tube
from layout.settling.drawn import Draws, settle
from layout.settling.surveyed import erring_together
from layout.settling.test_parts_against_monte_carlo import component_at_the_bench, plate_at_the_bench

from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.kinds import lay_out
from clampwright.layout.placed import PlateLayout
from clampwright.layout.settling import settling
from clampwright.recipe.bushing_model import Lug
from clampwright.recipe.model import Measured, Recipe
from clampwright.structure.tubes import Tube

SMALL = 1e-3
NEAR = 5e-7
"""Millimetres that the squares of such causes, and the weights of the conditions, leave."""

slopes, turns = st.floats(-5.0, 5.0), st.floats(-12.0, 12.0)


def tube_at(name: str, y: float, degrees: float, slope: float, mark: float | None) -> Tube:
    """A tube of 600 mm whose middle is at (300, y, 0)."""
    a, s = radians(degrees), radians(slope)
    half = np.array([300.0 * cos(a) * cos(s), 300.0 * sin(a) * cos(s), 300.0 * sin(s)])
    middle = np.array([300.0, y, 0.0])
    start, end = (middle - half).tolist(), (middle + half).tolist()
    return replace(tube(name, tuple(start), tuple(end)), mark_mm=mark)  # type: ignore[arg-type]


def slopes_agree(made: Recipe, seed: int) -> None:
    """Each cause's effect on every clamp, as settled one by one and as the linear model has it."""
    sure = erring_together(made.structure.tubes, SMALL, seed, 6)
    try:
        layout = lay_out(replace(made, structure=replace(made.structure, uncertainty=sure)))
    except CannotLayOut:
        assume(False)
    assert isinstance(layout, PlateLayout | BushingLayout)
    found = settling(layout)
    ends = {
        t.name: np.array([t.start, t.end]) + sure.ends(t.name).T.reshape(6, 2, 3)
        for t in made.structure.tubes
    }
    own = {
        (cause.kind, label, cause.axis): np.array(
            [0.0] * 6 + [SMALL * (i == j) for i in range(len(found.inputs.own))]
        )
        for j, cause in enumerate(found.inputs.own)
        for label in cause.of
    }
    still = {
        name: np.repeat(np.array([[t.start, t.end]]), len(found.inputs.own), axis=0)
        for name, t in ((t.name, t) for t in made.structure.tubes)
    }
    every = {name: np.concatenate([ends[name], still[name]]) for name in ends}
    bench = plate_at_the_bench if isinstance(layout, PlateLayout) else component_at_the_bench
    seen = settle(layout, Draws(every, own), bench(layout))
    factor = found.inputs.factor(sure)
    factor[:, 6:] = np.where(factor[:, 6:] > 0, SMALL, 0.0)
    largest = max(float(np.abs(row @ factor).max()) for row in found.station.values())
    near = NEAR * max(1.0, largest / SMALL) ** 2
    for label in found.across:
        assert seen[label].across == pytest.approx(found.across[label] @ factor, abs=near)
        assert seen[label].gap == pytest.approx(found.gap[label] @ factor, abs=near)
        assert seen[label].station == pytest.approx(found.station[label] @ factor, abs=near)


@given(
    st.tuples(turns, slopes),
    st.tuples(turns, slopes),
    st.lists(
        st.tuples(st.floats(120.0, 480.0), st.sampled_from(["inboard", "outboard"]), st.booleans()),
        min_size=3,
        max_size=4,
    ),
    st.integers(1, 2),
    st.none() | st.floats(0.0, 600.0),
    st.integers(0, 10_000),
)
@settings(deadline=None, max_examples=40)
def test_any_plate_on_two_tubes(
    one: tuple[float, float],
    other: tuple[float, float],
    spots: list[tuple[float, str, bool]],
    first: int,
    mark: float | None,
    seed: int,
) -> None:
    tubes = (tube_at("low", 0.0, *one, mark), tube_at("high", 170.0, *other, None))
    clamps = tuple(
        at(
            "low" if i < first else "high",
            station,
            side,
            Measured(19.0, 12.5, 2.6) if sure else Measured(),
            line=i,
        )
        for i, (station, side, sure) in enumerate(spots)
    )
    named: dict[str, list[float]] = {}
    for each in clamps:
        named.setdefault(each.tube, []).append(each.station_mm or 0.0)
    assume(len(named) == 2)
    assume(
        all(
            b - a > 60.0 for own in named.values() for a, b in zip(sorted(own), sorted(own)[1:], strict=False)
        )
    )
    made = recipe(tubes, clamps, carries=(component(),), sheet=plate(round_to_mm=0.5), measured=Measured())
    slopes_agree(made, seed)


@given(
    st.floats(8.0, 20.0),
    slopes,
    slopes,
    st.lists(st.floats(-6.0, 6.0), min_size=8, max_size=8),
    st.integers(0, 9999),
)
@settings(deadline=None, max_examples=15)
def test_any_component_on_two_splayed_tubes(
    splay: float, one: float, other: float, off: list[float], seed: int
) -> None:
    tubes = (tube_at("low", 0.0, 0.0, one, 100.0), tube_at("high", 170.0, splay, other, None))
    corners = ((-45.0, -65.0), (45.0, -65.0), (-45.0, 60.0), (45.0, 72.0))
    lugs = tuple(Lug((x + off[2 * i], y + off[2 * i + 1]), 3.0, 0.0) for i, (x, y) in enumerate(corners))
    job = bushing_job()
    job = replace(
        job, component=replace(job.component, lugs=lugs), pose=replace(job.pose, at=(300.0, 90.0, 30.0))
    )
    slopes_agree(replace(bushing_recipe(structure(*tubes)), job=job), seed)


@pytest.mark.parametrize("splay", [0.0, 0.001, 0.3, 1.9])
def test_nearly_parallel_tubes_are_as_sure_as_parallel_ones(splay: float) -> None:
    """Nothing jumps where two directions become one, and nothing is divided by the angle between them."""
    known = []
    for degrees in (0.0, splay):
        tubes = (tube_at("low", 0.0, 0.0, 0.0, None), tube_at("high", 150.0, degrees, 0.0, None))
        clamps = tuple(at(name, s) for name in ("low", "high") for s in (200.0, 400.0))
        layout = lay_out(recipe(tubes, clamps, carries=(component(),)))
        known.append([(k.across_mm, k.gap_mm, k.station_mm) for k in layout.known_to])
    assert np.array(known[1]) == pytest.approx(np.array(known[0]), rel=0.03, abs=0.01)


@pytest.mark.parametrize("splay", [0.0, 0.3, 1.9])
def test_a_component_on_nearly_parallel_tubes_does_not_run_away(splay: float) -> None:
    tubes = (tube_at("low", 0.0, 0.0, 0.0, None), tube_at("high", 150.0, splay, 0.0, None))
    layout = lay_out(bushing_recipe(structure(*tubes)))
    assert max(known.station_mm for known in layout.known_to) < 5.0
    assert max(known.across_mm for known in layout.known_to) == pytest.approx(1.0, abs=0.15)
