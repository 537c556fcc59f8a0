"""What errs, and conditions in turn: by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from joined_recipes import HIGH, LOW, bushing_recipe, structure
from layout.hand_clamps import four
from layout.settling.surveyed import erring_together

from clampwright.layout.clamp_rows import Linear
from clampwright.layout.how_sure import known_to, worked_out
from clampwright.layout.in_turn import condition, in_turn
from clampwright.layout.inputs import inputs
from clampwright.layout.kinds import lay_out
from clampwright.layout.own_causes import REACH, SEAT, clamp_causes, place_causes, rounded_causes
from clampwright.layout.settling import settling
from clampwright.layout.tubes_known import tubes_known, worst_end_mm
from clampwright.recipe.model import Measuring
from clampwright.structure.uncertainty import plus_minus


def test_measured_clamps_err_each_on_its_own_and_others_by_size() -> None:
    """Two of -12 and one of -10 unmeasured, one measured: three causes of reach, and the same of seat."""
    one, two, three, known = four()[0]
    bare = frozenset[str]()
    clamps = (
        replace(one, measured=bare),
        replace(two, measured=bare),
        replace(three, measured=bare, clamp=replace(three.clamp, dash=10)),
        known,
    )
    causes = list(clamp_causes(clamps, 1.96))
    reaches = [cause for cause in causes if cause.kind == REACH]
    assert sorted(cause.of for cause in reaches) == [("A1", "A2"), ("B1",), ("B2",)]
    assert {cause.of: cause.given for cause in reaches} == {
        ("A1", "A2"): False,
        ("B1",): False,
        ("B2",): True,
    }
    assert {cause.of: round(1.96 * cause.sigma_mm, 9) for cause in reaches}[("B2",)] == 0.15
    assert {cause.of: round(1.96 * cause.sigma_mm, 9) for cause in reaches}[("A1", "A2")] == 1.0
    assert len([cause for cause in causes if cause.kind == SEAT]) == 3


def test_no_rounding_no_cause() -> None:
    assert list(rounded_causes(four()[0], 0.0)) == []
    assert len(list(rounded_causes(four()[0], 0.5))) == 8


def test_the_factor_holds_each_cause_once() -> None:
    """Tubes as their uncertainty has them, own causes down the diagonal after them."""
    sure = erring_together((LOW, HIGH), 0.5, 3, 4)
    given = inputs([HIGH, LOW, HIGH], list(place_causes("hose", 1.96, True, 1.96)))
    factor = given.factor(sure)
    assert factor.shape == (12 + 3, 4 + 3)
    assert factor[:6, :4].tolist() == sure.ends("high").tolist()
    assert factor[6:12, :4].tolist() == sure.ends("low").tolist()
    assert factor[12:, 4:].tolist() == np.eye(3).tolist()
    assert not factor[12:, :4].any()
    assert given.own_row("place", "hose", 1).tolist() == [0.0] * 13 + [1.0, 0.0]
    assert not given.own_row("place", "cable").any()


def test_tubes_outside_the_survey_err_by_the_measuring_error_alone() -> None:
    recipe = replace(bushing_recipe(), measuring=Measuring(1.2, True))
    surveyed = erring_together((LOW,), 0.1, 1)
    mixed = tubes_known(replace(recipe, structure=replace(recipe.structure, uncertainty=surveyed)))
    assert mixed.tubes == ("low", "high")
    assert mixed.causes == surveyed.causes + 6
    assert [plus_minus(row) for row in mixed.ends("high")] == pytest.approx([1.2] * 6)
    assert mixed.ends("low")[:, :9].tolist() == surveyed.ends("low").tolist()
    assert not (mixed.ends("low") @ mixed.ends("high").T).any()
    assert worst_end_mm(mixed, ("high",)) == pytest.approx(1.2)
    assert tubes_known(replace(recipe, structure=structure(LOW, uncertainty=surveyed))) is surveyed


def test_a_structure_of_its_own_uncertainty_ignores_the_measuring_error() -> None:
    recipe = bushing_recipe()
    sure = erring_together((LOW, HIGH), 0.2, 2)
    surveyed = replace(recipe, structure=replace(recipe.structure, uncertainty=sure))
    for error in (0.1, 9.0):
        layout = lay_out(replace(surveyed, measuring=Measuring(error, False)))
        assert known_to(layout) == layout.known_to == worked_out(layout)
        assert layout.known_to == lay_out(surveyed).known_to
        assert all(each.across_given and each.gap_given for each in layout.known_to)


def test_what_a_layout_carries_is_what_settles() -> None:
    """± of the factor's rows: root sum of squares times 1.96."""
    layout = lay_out(bushing_recipe())
    found = settling(layout)
    factor = found.inputs.factor(found.sure)
    for known in layout.known_to:
        by_hand = 1.96 * float(np.sqrt(np.sum((found.across[known.clamp] @ factor) ** 2)))
        assert known.across_mm == pytest.approx(by_hand)


def line(*twist: float) -> Linear:
    return Linear(np.array(twist), np.array([1.0]))


def test_later_conditions_take_only_what_is_left() -> None:
    """x = -1 first; then x + y = 0 moves y alone, and x = 0 can do nothing any more."""
    first, second = line(1, 0, 0, 0, 0, 0), Linear(np.array([1.0, 1, 0, 0, 0, 0]), np.array([0.0]))
    third = Linear(np.array([1.0, 0, 0, 0, 0, 0]), np.array([0.0]))
    twists = in_turn([condition([first]), condition([second]), condition([third])], 1)
    assert twists[:, 0] == pytest.approx([-1, 1, 0, 0, 0, 0])


def test_more_conditions_than_freedoms_share_what_is_off() -> None:
    """x = -1 and x = 0 at once: half way."""
    still = Linear(np.array([1.0, 0, 0, 0, 0, 0]), np.array([0.0]))
    twists = in_turn([condition([line(1, 0, 0, 0, 0, 0), still])], 1)
    assert twists[0, 0] == pytest.approx(-0.5)


def test_a_movement_that_hardly_serves_is_left_alone() -> None:
    twists = in_turn([condition([line(1e-3, 0, 0, 0, 0, 0)], 1e-2)], 1)
    assert not twists.any()
    assert in_turn([condition([line(1e-3, 0, 0, 0, 0, 0)])], 1)[0, 0] == pytest.approx(-1000.0)
