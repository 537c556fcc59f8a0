"""The fit-up plan worked by hand: e = 1.5 mm on two tubes gives 1.5·√2 = 2.12 mm between their holes."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.hand_clamps import FRAME, INCH, clamp_hole, component, component_hole, four, place

from clampwright.layout.fit_up import across_tubes_mm, clearance_mm, plan, reference_tube
from clampwright.layout.placed import ClampPlace, FitUp, FitUpPlan, Hole
from clampwright.layout.slot import covered_mm, large_washer, opening_mm
from clampwright.recipe.model import Measuring

CALIPERS = 0.15
PLAY = (0.196 - 0.189 + 0.203 - 0.189) / 2 * INCH
"""#9 hole and foot hole over the largest AN3 shank: 0.267 mm."""


def planned(
    clamps: tuple[ClampPlace, ...], holes: tuple[Hole, ...], error: float = 1.5, rounding: float = 0.0
) -> FitUpPlan:
    return plan(clamps, (), holes, Measuring(error, True), FRAME, rounding_mm=rounding)


def ways(result: FitUpPlan) -> dict[str, str]:
    return {fit.hole: fit.way for fit in result.holes}


def of(result: FitUpPlan, label: str) -> FitUp:
    return next(fit for fit in result.holes if fit.hole == label)


def test_one_tube_is_drilled_the_other_is_piloted() -> None:
    """Calipers on both reaches: √(2·1.5² + 2·0.15²) = 2.132 mm against 0.267 mm of play."""
    result = planned(*four())
    assert ways(result) == {
        "A1": "drill now",
        "A2": "drill now",
        "B1": "pilot, transfer in place",
        "B2": "pilot, transfer in place",
    }
    assert of(result, "A1").uncertainty_mm == 0.0
    assert of(result, "B1").uncertainty_mm == pytest.approx(hypot(1.5 * sqrt(2), CALIPERS * sqrt(2)))
    assert of(result, "B1").clearance_mm == pytest.approx(PLAY)


def test_rounding_adds_its_spread_at_each_hole() -> None:
    """0.5 mm: 0.5/√3 = 0.289 at 95 %: √(2·(1.5² + 0.289² + 0.15²)) = 2.171 mm."""
    fit = of(planned(*four(), rounding=0.5), "B1")
    assert fit.uncertainty_mm == pytest.approx(sqrt(2 * (1.5**2 + 0.25 / 3 + 0.15**2)))


def test_an_unmeasured_reach_counts_in_full_for_both_clamps() -> None:
    """Defaults err the same way, 1 mm each (assumed): √(2·1.5² + 2²) = 2.915 mm."""
    clamps, holes = four()
    guessed = tuple(replace(clamp, measured=frozenset[str]()) for clamp in clamps)
    result = planned(guessed, holes)
    assert of(result, "B1").uncertainty_mm == pytest.approx(sqrt(2 * 1.5**2 + 4))
    assert "nobody measured" in of(result, "B1").why
    assert of(result, "A2").uncertainty_mm == 0.0
    assert ways(planned(guessed, holes, error=0.05))["B1"] == "pilot, transfer in place"


def test_surveyed_tubes_are_drilled_now() -> None:
    """e = 0.1 mm: √(2·0.1² + 2·0.15²) = 0.255 mm, under the play of 0.267 mm."""
    assert set(ways(planned(*four(), error=0.1)).values()) == {"drill now"}


def test_a_little_lacking_is_filed_to_a_slot_across_the_tube() -> None:
    """e = 0.3 mm: √(2·0.3² + 2·0.15²) = 0.474; lacking 0.208 to either side; slot 4.98 + 0.42, up to 5.4."""
    fit = of(planned(*four(), error=0.3), "B2")
    assert fit.way == "slot"
    assert "4.98 mm x 5.40 mm" in fit.why
    assert "AN970-3" in fit.why
    assert fit.otherwise == "pilot, transfer in place"


def test_the_other_way_is_a_slot_under_a_large_washer() -> None:
    """2.132 - 0.267 = 1.865 to either side: 4.978 + 3.731 = 8.71, up to 8.8 mm; square to a tube along u."""
    fit = of(planned(*four()), "B1")
    assert fit.otherwise == (
        "a slot 4.98 mm x 8.80 mm, long way square to upper (90° from u), under a large washer AN970-3"
    )


def test_no_slot_longer_than_the_large_washer_covers() -> None:
    """AN970-3 (7/8 in): 11.11 + 2.49 - 1.5 = 12.1 mm; e = 3 mm would need 4.98 + 2·(4.25 - 0.27) = 12.9."""
    fit = of(planned(*four(), error=3.0), "B1")
    assert fit.way == "pilot, transfer in place"
    assert fit.otherwise == ""
    large = large_washer("AN3")
    assert large is not None
    assert covered_mm(large, 0.196 * INCH) == pytest.approx(12.10, abs=0.01)


def test_slots_follow_the_tube() -> None:
    """A tube at 30° from u is crossed at 120°."""
    clamps, holes = four()
    turned = tuple(
        replace(c, axis=place("x", "t", (0, 0), degrees=30).axis) if c.tube == "upper" else c for c in clamps
    )
    assert "(120° from u)" in of(planned(turned, holes), "B1").otherwise


def test_the_tube_with_most_clamps_is_the_reference() -> None:
    clamps, holes = four()
    extra = place("B3", "upper", (80.0, 110.0), turn=-1)
    result = planned((*clamps, extra), (*holes, clamp_hole("B3", (80.0, 110.0))))
    assert reference_tube((*clamps, extra)) == "upper"
    assert [fit.hole for fit in result.holes] == ["B1", "B2", "B3", "A1", "A2"]
    assert ways(result)["A1"] == "pilot, transfer in place"
    assert ways(result)["B3"] == "drill now"


def test_a_hole_on_the_other_side_of_the_reference_tube_needs_the_reach() -> None:
    """The two holes are two reaches apart: calipers √2·0.15 = 0.21 pass, a guessed reach (2 mm) does not."""
    clamps, holes = four()
    other = place("A3", "lower", (80.0, -20.0), turn=-1)
    result = planned((*clamps, other), (*holes, clamp_hole("A3", (80.0, -20.0))))
    assert of(result, "A3").uncertainty_mm == pytest.approx(CALIPERS * sqrt(2))
    assert of(result, "A3").way == "drill now"
    guessed = replace(other, measured=frozenset[str]())
    result = planned((*clamps, guessed), (*holes, clamp_hole("A3", (80.0, -20.0))))
    assert of(result, "A3").way == "pilot, transfer in place"


def test_component_holes_go_by_calipers() -> None:
    """#9 over .189 in: 0.089 mm of play, less than 0.15: transfer. #2 (.221) gives 0.406: drill now."""
    coil = component("coil", ("C1", "C2"))
    for drill_in, way in ((0.196, "pilot, transfer in place"), (0.221, "drill now")):
        holes = tuple(component_hole(label, "coil", drill_in) for label in coil.holes)
        result = plan((), (coil,), holes, Measuring(1.5, False), FRAME, rounding_mm=0.0)
        assert set(ways(result).values()) == {way}
        assert result.holes[0].uncertainty_mm == CALIPERS
        assert result.holes[0].clearance_mm == pytest.approx((drill_in - 0.189) / 2 * INCH)


def test_a_single_component_hole_has_nothing_to_match() -> None:
    strap = component("strap", ("D1",))
    result = plan((), (strap,), (component_hole("D1", "strap"),), Measuring(1.5, True), FRAME, rounding_mm=0)
    assert ways(result) == {"D1": "drill now"}


def test_screw_holes_go_by_the_nominal_diameter() -> None:
    """ASME B1.1: #8 is 0.164 in; a #9 hole (.196) gives (0.196 - 0.164)/2 in."""
    assert clearance_mm("#8", 0.196 * INCH) == pytest.approx(0.016 * INCH)


def test_work_goes_reference_others_components_lightening() -> None:
    clamps, holes = four()
    coil = component("coil", ("C1", "C2"))
    light = Hole("L1", "lightening", "", (80.0, 60.0), 25.0, "", "hole saw", "#40")
    mixed = (light, component_hole("C1", "coil"), *holes[::-1], component_hole("C2", "coil"))
    result = plan(clamps, (coil,), mixed, Measuring(1.5, True), FRAME, rounding_mm=0.0)
    assert [fit.hole for fit in result.holes] == ["A2", "A1", "B2", "B1", "C1", "C2", "L1"]
    assert of(result, "L1").way == "drill now"


def test_figures_in_inches_on_request() -> None:
    clamps, holes = four()
    result = plan(clamps, (), holes, Measuring(1.5, True), FRAME, rounding_mm=0.0, units="in")
    assert " in" in of(result, "B1").why
    assert " mm" not in of(result, "B1").why + of(result, "B1").otherwise


@given(st.floats(0.0, 6.0), st.floats(0.0, 1.0), st.sampled_from([0.191, 0.196, 0.25]))
@settings(deadline=None, max_examples=80)
def test_a_hole_is_drilled_now_only_where_its_clearance_covers_it(
    error: float, rounding: float, drill_in: float
) -> None:
    clamps, holes = four()
    wide = tuple(replace(hole, diameter_mm=drill_in * INCH) for hole in holes)
    for fit in planned(clamps, wide, error, rounding).holes:
        assert (fit.way == "drill now") == (fit.uncertainty_mm <= fit.clearance_mm)
        if fit.way == "slot":
            assert fit.uncertainty_mm - fit.clearance_mm <= 0.5


@given(st.floats(0.0, 5.0), st.floats(0.0, 5.0))
@settings(deadline=None, max_examples=60)
def test_a_larger_error_never_makes_a_hole_surer(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert across_tubes_mm(low, 0.4) <= across_tubes_mm(high, 0.4)
    assert opening_mm(5.0, low) <= opening_mm(5.0, high)
