"""± of plates and components against draws that are settled one by one, without linearising."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from joined_recipes import bushing_job, bushing_recipe, structure
from layout.plate_recipes import at, component, plate, recipe, tube
from layout.settling.drawn import (
    FIRST,
    THEN,
    Array,
    Conditions,
    Figures,
    Part,
    drawn,
    half_width,
    settle,
)
from layout.settling.surveyed import with_survey

from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.how_sure import worked_out
from clampwright.layout.kinds import lay_out
from clampwright.layout.on_feet import reference_tube, stands_on
from clampwright.layout.placed import PlateLayout
from clampwright.recipe.bushing_model import Lug
from clampwright.recipe.model import Measured, Measuring, Recipe
from clampwright.recipe.read import read

RECIPES = Path(__file__).parents[3] / "recipes"
DRAWS, NEAR, LEAST = 5000, 0.05, 0.004
"""Draws; what 95 % of so many may be off (three standard deviations of a 95th percentile); mm of noise."""
LEVER = 100.0
"""Millimetres at which a clamp out of square counts like a millimetre."""


def plate_at_the_bench(part: Part) -> Conditions:
    """The drill sheet: three feet as packed, the reference's bolts in, its first clamp at its station;
    whatever is still free, as near to all the clamps as can be."""
    carry, tube = stands_on(part.clamps), reference_tube(part.clamps)
    own = [clamp.label for clamp in part.clamps if clamp.tube == tube]

    def conditions(found: Mapping[str, Figures]) -> Sequence[tuple[Array, float]]:
        return [
            *((found[label].gap, FIRST) for label in carry),
            *((found[label].across, FIRST) for label in own),
            (found[own[0]].station, FIRST),
            *((f.across, THEN) for f in found.values()),
            *((f.station, THEN) for f in found.values()),
            *((LEVER * f.square, THEN) for f in found.values() if len(carry) < 3),
        ]

    return conditions


def component_at_the_bench(part: Part) -> Conditions:
    """The installation sheet: three feet as packed, and its bolts in their holes as well as they go. Nothing
    but the first clamp's station says where it lies along parallel tubes."""
    carry, tube = stands_on(part.clamps), reference_tube(part.clamps)
    first = next(clamp.label for clamp in part.clamps if clamp.tube == tube)
    splayed = {tuple(np.abs(np.round(clamp.axis, 3)).tolist()) for clamp in part.clamps}

    def conditions(found: Mapping[str, Figures]) -> Sequence[tuple[Array, float]]:
        return [
            *((found[label].gap, FIRST) for label in carry),
            *((f.across, THEN) for f in found.values()),
            *([(found[first].station, FIRST)] if len(splayed) == 1 else []),
        ]

    return conditions


def holds(layout: object, seed: int, near: float = NEAR) -> None:
    """Every stated ± is what the draws show."""
    assert isinstance(layout, PlateLayout | BushingLayout)
    bench = plate_at_the_bench if isinstance(layout, PlateLayout) else component_at_the_bench
    found = settle(layout, drawn(layout, DRAWS, seed), bench(layout))
    for known in worked_out(layout):
        seen = found[known.clamp]
        for stated, values in (
            (known.station_mm, seen.station),
            (known.across_mm, seen.across),
            (known.gap_mm, seen.gap),
        ):
            assert half_width(values) == pytest.approx(stated, rel=near, abs=LEAST), known.clamp


def example(name: str, error_mm: float) -> Recipe:
    return replace(read(RECIPES / f"{name}.toml"), measuring=Measuring(error_mm, True))


@pytest.mark.parametrize(
    "name", ["coil-plate", "two-tube-minimum", "separator-bushings", "regulator-too-wide"]
)
def test_examples(name: str) -> None:
    holds(lay_out(example(name, 1.5)), 1)


SPLAYED = (
    tube("low", (0.0, 0.0, 0.0), (500.0, 0.0, 10.0)),
    tube("high", (0.0, 140.0, 6.0), (480.0, 190.0, -12.0), 15.875),
    tube("far", (20.0, 300.0, 4.0), (510.0, 310.0, 0.0)),
)


@pytest.mark.parametrize("seed", range(4))
def test_plates_on_three_tubes_that_err_together(seed: int) -> None:
    """Full covariance, marks on the tubes, rounding, one clamp outboard, reaches measured and not."""
    clamps = (
        at("low", 90.0),
        at("low", 330.0 - 20 * seed, measured=Measured()),
        at("high", 120.0 + 30 * seed, side="outboard"),
        at("far", 200.0, measured=Measured(19.0, None, None)),
        at("far", 280.0),
    )
    made = recipe(SPLAYED, clamps, carries=(component(),), sheet=plate(round_to_mm=0.5), measured=Measured())
    holds(lay_out(with_survey(made, 0.4, seed, (100.0, 0.0, 450.0))), 10 + seed)


@pytest.mark.parametrize("seed", range(3))
def test_a_plate_with_one_clamp_a_tube_turns_about_the_first(seed: int) -> None:
    """One bolt in its hole: the plate turns about it until the other bolts come nearest to theirs."""
    made = recipe(SPLAYED, (at("low", 250.0), at("high", 240.0), at("far", 230.0)), carries=(component(),))
    holds(lay_out(with_survey(made, 0.4, 40 + seed)), 20 + seed)


def test_a_plate_on_two_feet_lies_as_square_as_it_can() -> None:
    made = recipe(SPLAYED[:2], (at("low", 250.0), at("high", 240.0)), carries=(component(),))
    holds(lay_out(with_survey(made, 0.4, 50)), 30)


@pytest.mark.parametrize("seed", range(3))
def test_components_that_err_together(seed: int) -> None:
    """Four holes on tubes 11 degrees apart: a bolt and a foot more than the component can follow."""
    low = tube("low", (0.0, 0.0, 0.0), (500.0, 0.0, 8.0))
    high = tube("high", (0.0, 120.0, 6.0), (490.0, 215.0, 0.0))
    made = bushing_recipe(structure(low, high))
    lugs = tuple(
        Lug(place, 3.0, 0.0) for place in ((-45.0, -63.0), (40.0, -63.0), (-40.0, 45.0), (38.0, 60.0))
    )
    job = bushing_job()
    job = replace(job, component=replace(job.component, lugs=lugs))
    holds(lay_out(with_survey(replace(made, job=job), 0.3, 60 + seed, (50.0, 400.0))), 40 + seed)


def test_a_component_on_parallel_tubes_keeps_its_first_station() -> None:
    """Nothing holds it along them."""
    layout = lay_out(with_survey(bushing_recipe(), 0.3, 70))
    first = next(k for k in worked_out(layout) if k.clamp == "A1")
    assert first.station_mm == pytest.approx(0.0, abs=1e-9)
    holds(layout, 50)


def test_a_component_fixed_in_space_leaves_everything_to_its_clamps() -> None:
    """Its place errs in three coordinates, and every gap and bolt takes up what the tubes err."""
    made = bushing_recipe()
    job = bushing_job()
    loose = lay_out(made)
    assert isinstance(loose, BushingLayout)
    frame = loose.frame
    pose = replace(job.pose, at=frame.origin, up=frame.n, along=frame.u, fixed=True, within_mm=None)
    layout = lay_out(replace(made, job=replace(job, pose=pose), measuring=Measuring(0.8, True)))
    assert isinstance(layout, BushingLayout)
    rng = np.random.default_rng(3)
    shift = 0.8 / 1.96 * rng.normal(size=(DRAWS, 3))
    draws = drawn(layout, DRAWS, 4)
    moved = {name: ends - shift[:, None, :] for name, ends in draws.ends.items()}
    found = settle(
        layout, replace(draws, ends=moved), lambda each: [(0.0 * next(iter(each.values())).gap, 1.0)]
    )
    for known in worked_out(layout):
        seen = found[known.clamp]
        assert not known.carries
        assert half_width(seen.gap) == pytest.approx(known.gap_mm, rel=NEAR)
        assert half_width(seen.across) == pytest.approx(known.across_mm, rel=NEAR)
