"""± of clearances against draws that are settled and measured one by one (JCGM 101, propagation by draws)."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from layout.clearances.set_down import Array, distances, on_clamp, on_part, poses, tube_drawn, vec
from layout.plate_recipes import at, component, plate, recipe, tube
from layout.settling.drawn import Draws, drawn
from layout.settling.surveyed import with_survey

from clampwright.layout.bodies import Body, Box, Capsule, Cylinder, clearance
from clampwright.layout.clearance_known import Clear, Side, clear_between
from clampwright.layout.drift import rigid, turned
from clampwright.layout.drifts import Drifts, drifts
from clampwright.layout.joined import Named
from clampwright.layout.joint_solids import loop_bodies
from clampwright.layout.kinds import lay_out
from clampwright.layout.moved_bodies import turned as body_turned
from clampwright.layout.placed import PlateLayout
from clampwright.recipe.model import Measuring
from clampwright.recipe.read import read
from clampwright.structure.uncertainty import coverage

RECIPES = Path(__file__).parents[3] / "recipes"
DRAWS, NEAR = 1500, 0.08
"""Draws; what 95 % of so many may be off: three standard deviations of a 95th percentile of |normal|."""
TUBES = (
    tube("low", (0.0, 0.0, 0.0), (500.0, 0.0, 10.0)),
    tube("high", (0.0, 140.0, 6.0), (480.0, 190.0, -12.0), 15.875),
    tube("far", (20.0, 300.0, 4.0), (510.0, 310.0, 0.0)),
    tube("brace", (150.0, -60.0, 110.0), (260.0, 330.0, 95.0)),
    tube("beside", (-40.0, 20.0, 40.0), (90.0, 40.0, 160.0), 12.7),
)


def surveyed(seed: int) -> PlateLayout:
    """A plate on three tubes that err together, two others about it."""
    clamps = (at("low", 90.0), at("low", 330.0), at("high", 150.0), at("far", 200.0), at("far", 280.0))
    made = recipe(TUBES, clamps, carries=(component(),), sheet=plate())
    layout = lay_out(with_survey(made, 0.4, seed))
    assert isinstance(layout, PlateLayout)
    return layout


def stated(one: Named, other: Named, all_drifts: Drifts) -> Clear:
    a, b = (Side(each.body, all_drifts.of(each), each.what) for each in (one, other))
    return clear_between(a, b, all_drifts)


def half_width(values: Array) -> float:
    return float(np.percentile(np.abs(values - np.median(values)), 95))


def holds(found: Clear, seen: Array) -> None:
    """The ± is the draws' half width where one place is nearest; where ends count it is never less, and what
    is less than the worst stays within what 95 % leave on that side, ends together."""
    assert found.plus_minus_mm >= half_width(seen) * (1 - NEAR) - 0.004
    assert found.plus_minus_mm <= half_width(seen) * 1.35 + 0.004
    assert float(np.mean(seen < found.worst_mm)) < 0.05 + 0.01


@pytest.mark.parametrize("seed", range(3))
def test_component_against_tubes(seed: int) -> None:
    layout = surveyed(seed)
    part = next(named for named in layout.parts if named.owner != "plate")
    draws = drawn(layout, DRAWS, 100 + seed)
    pose, _ = poses(layout, draws)
    assert isinstance(part.body, Box)
    for name in ("brace", "beside"):
        placed = Named(f"tube {name}", name, tube_drawn(name, layout, _as_laid(layout))(0))
        found = stated(part, placed, drifts(layout))
        seen = distances(on_part(part.body, layout, pose), tube_drawn(name, layout, draws), DRAWS)
        assert float(np.median(seen)) == pytest.approx(found.mm, abs=0.1)
        holds(found, seen)
        assert found.plus_minus_mm == pytest.approx(half_width(seen), rel=NEAR, abs=0.004)


@pytest.mark.parametrize("seed", range(2))
def test_clamps_against_a_tube_that_they_are_not_on(seed: int) -> None:
    layout = surveyed(10 + seed)
    draws = drawn(layout, DRAWS, 200 + seed)
    pose, found = poses(layout, draws)
    brace = Named("tube brace", "brace", tube_drawn("brace", layout, _as_laid(layout))(0))
    for clamp in layout.clamps:
        for which, named in enumerate(loop_bodies(clamp)):
            known = stated(named, brace, drifts(layout))
            body = on_clamp(clamp, which, layout, draws, pose, found[clamp.label])
            holds(known, distances(body, tube_drawn("brace", layout, draws), DRAWS))


@pytest.mark.parametrize("name", ["coil-plate", "two-tube-minimum"])
def test_plates_of_the_examples_against_their_tubes(name: str) -> None:
    """The plate's own box beside the tubes that hold it, along which its edges run."""
    layout = lay_out(replace(read(RECIPES / f"{name}.toml"), measuring=Measuring(1.5, True)))
    assert isinstance(layout, PlateLayout)
    draws = drawn(layout, DRAWS, 5)
    pose, _ = poses(layout, draws)
    box = layout.parts[0]
    assert isinstance(box.body, Box)
    for held in {clamp.tube for clamp in layout.clamps}:
        body = Named(f"tube {held}", held, tube_drawn(held, layout, _as_laid(layout))(0))
        seen = distances(on_part(box.body, layout, pose), tube_drawn(held, layout, draws), DRAWS)
        holds(stated(box, body, drifts(layout)), seen)


def test_a_keep_out_errs_on_its_own() -> None:
    """Tubes and keep-out drawn, each coordinate of the keep-out's ends by the same error, both ends alike."""
    layout = surveyed(30)
    part = next(named for named in layout.parts if named.owner != "plate")
    pipe = Capsule((120.0, -40.0, 130.0), (300.0, 330.0, 140.0), 12.0)
    found = clear_between(Side(part.body, drifts(layout).part), Side(pipe, None, "pipe"), drifts(layout))
    draws = drawn(layout, DRAWS, 300)
    pose, _ = poses(layout, draws)
    sigma = layout.recipe.measuring.error_mm / coverage()
    off = np.random.default_rng(301).normal(scale=sigma, size=(DRAWS, 3))

    def piped(i: int) -> Body:
        return replace(pipe, start=vec(off[i] + pipe.start), end=vec(off[i] + pipe.end))

    assert isinstance(part.body, Box)
    seen = distances(on_part(part.body, layout, pose), piped, DRAWS)
    assert found.plus_minus_mm == pytest.approx(half_width(seen), rel=NEAR)


def test_a_body_swung_about_what_itself_moves() -> None:
    """Poses of body and line by random small twists; the body set down, then turned about the line there."""
    rng = np.random.default_rng(7)
    scale = np.array([[2e-3]] * 3 + [[0.5]] * 3)
    own, line = (scale * rng.normal(size=(6, 4)) for _ in range(2))
    about, axis, angle = (10.0, 20.0, 5.0), (0.0, 0.6, 0.8), 0.9
    body = Cylinder((60.0, 0.0, 10.0), (80.0, 30.0, 10.0), 4.0)
    other = Capsule((0.0, 0.0, 90.0), (100.0, 40.0, 110.0), 3.0)
    turn = np.array([body_turned_vector(row, axis, angle) for row in np.eye(3)]).T
    drift = turned(rigid(own), rigid(line), about, turn)
    z = rng.normal(size=(400, 4))
    for each in 0.05 * z:
        first = rigid(own).moved(body, each)
        spun = rigid(line)
        base = np.array(about) + spun.at(about) @ each
        way = np.array(axis) + np.cross((line[:3] @ each), axis)
        second = body_turned(first, vec(base), vec(way / np.linalg.norm(way)), angle)
        swung = drift.moved(body_turned(body, about, axis, angle), each)
        assert clearance(second, other) == pytest.approx(clearance(swung, other), abs=2e-4)


def body_turned_vector(row: Array, axis: tuple[float, float, float], angle: float) -> Array:
    k = np.array(axis)
    return np.asarray(
        row * np.cos(angle) + np.cross(k, row) * np.sin(angle) + k * (k @ row) * (1 - np.cos(angle))
    )


def _as_laid(layout: PlateLayout) -> Draws:
    return Draws({t.name: np.array([[t.start, t.end]]) for t in layout.recipe.structure.tubes}, {})
