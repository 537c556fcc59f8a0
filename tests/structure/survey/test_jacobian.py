"""Gradients against differences of their own readings, and the readings against plain geometry."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from structure.survey.known_figures import MOUNT, mount, on_the_line, read

from clampwright.structure.survey.equations import computed, evaluate
from clampwright.structure.survey.model import (
    Along,
    Between,
    Datum,
    Distance,
    Plumb,
    Slope,
    Survey,
    SurveyPoint,
)
from clampwright.structure.survey.residuals import equations


def everything(datum: Datum) -> Survey:
    """The mount with one measurement of every kind, and a mark on a tube's skin."""
    survey = mount()
    kinds = (
        Distance("UL", "EUR", 0.0, 1.5, "outside", ("upper-left", "top")),
        Distance("RT", "RB", 0.0, 1.5, "inside", ("top", "lower-left")),
        Distance("UR", "ELL", 0.0, 1.5, "outside", ("upper-right", "")),
        Along("LL", "EUL", "x", 0.0, 2.0),
        Along("LR", "EUR", "z", 0.0, 2.0, plumb=True),
        Plumb("UL", "LL", 40.0),
        Slope("brace-left", 0.0, 0.005),
        Between("top", "left", 0.0, 0.01),
    )
    skin = SurveyPoint("S", skin_of="brace-right")
    points = (*survey.points, skin)
    return replace(survey, points=points, measurements=(*survey.measurements, *kinds), datum=datum)


FRAMES = [Datum("LL", "y", "LR", plane_axis="z", in_plane="UL"), Datum("LL", "y", "LR", level=True)]


@pytest.mark.parametrize("datum", FRAMES, ids=["three points", "level"])
@settings(deadline=None, max_examples=15)
@given(st.integers(0, 10**6))
def test_gradients_are_those_of_central_differences(datum: Datum, seed: int) -> None:
    survey = everything(datum)
    system = equations(survey)
    lot = np.random.default_rng(seed)
    figure = lot.uniform(-400, 400, size=(system.places, 3))
    figure[-1] = lot.normal(size=3) * 300 + (0.0, 0.0, 1000.0)
    _, jacobian = evaluate(system, figure)
    step = 1e-4
    for column, free in enumerate(system.free):
        ahead, behind = figure.copy().ravel(), figure.copy().ravel()
        ahead[free] += step
        behind[free] -= step
        by_difference = (
            (computed(system, ahead.reshape(-1, 3)) - computed(system, behind.reshape(-1, 3)))
            / (2 * step)
            / system.sigma
        )
        assert jacobian[:, column] == pytest.approx(by_difference, rel=2e-5, abs=2e-5)


def test_readings_are_those_of_plain_geometry() -> None:
    """`read` works them out by sines and dot products, one by one, in a level world."""
    survey = everything(FRAMES[1])
    truth = {**on_the_line(MOUNT), "S": (200.0, 550.0, -210.0)}
    survey = read(survey, truth)
    system = equations(survey)
    figure = np.array([*(truth[p.name] for p in survey.points), (0.0, 0.0, 1000.0)])
    off = (computed(system, figure) - system.measured)[system.of >= 0]
    plumb = [i for i, m in enumerate(survey.measurements) if isinstance(m, Plumb)]
    ordinary = ~np.isin(system.of[system.of >= 0], plumb)
    assert np.max(np.abs(off[ordinary])) < 1e-9
    assert sorted(np.abs(off[~ordinary])) == pytest.approx([14.0, 31.0])
    """LL lies 14 mm forward and 31 mm to the right of the plumb line through UL."""


def test_many_figures_at_once_give_what_each_gives_alone() -> None:
    survey = everything(FRAMES[0])
    system = equations(survey)
    figures = np.random.default_rng(5).uniform(-400, 400, size=(4, system.places, 3))
    residuals, jacobian = evaluate(system, figures)
    for i, figure in enumerate(figures):
        one, own = evaluate(system, figure)
        assert residuals[i] == pytest.approx(one)
        assert np.allclose(jacobian[i], own)
