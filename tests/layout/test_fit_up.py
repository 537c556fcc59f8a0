"""The fit-up plan worked by hand: bolts known to so much against what plate and foot forgive."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.hand_clamps import FRAME, INCH, clamp_hole, component, component_hole, four, place

from clampwright.layout.fit_up import clearance_mm, plan
from clampwright.layout.known_to import Apart, KnownTo
from clampwright.layout.measure_again import cure
from clampwright.layout.on_feet import reference_tube
from clampwright.layout.placed import ClampPlace, FitUp, FitUpPlan, Hole
from clampwright.layout.slot import covered_mm, large_washer
from clampwright.recipe.model import Measuring

CALIPERS = 0.15
PLAY = (0.196 - 0.189 + 0.203 - 0.189) / 2 * INCH
"""#9 hole and foot hole over the largest AN3 shank: 0.267 mm."""


MEASURING = Measuring(1.5, True)


def unsure(across: float, **more: Any) -> KnownTo:
    """A clamp whose bolt is known to so much across its tube."""
    return replace(KnownTo("", 0.0, across, 0.0, True), **more)


def planned(
    clamps: tuple[ClampPlace, ...], holes: tuple[Hole, ...], upper: KnownTo | float, units: str = "mm"
) -> FitUpPlan:
    """The plan where the clamps on "upper" are known to this, and those on "lower" are the reference."""
    of_upper = upper if isinstance(upper, KnownTo) else unsure(upper)
    known = [
        replace(of_upper if c.tube == "upper" else KnownTo("", 0.0, 0.0, 0.0, True), clamp=c.label)
        for c in clamps
    ]
    return plan(clamps, (), holes, known, FRAME, measuring=MEASURING, units=units)


def ways(result: FitUpPlan) -> dict[str, str]:
    return {fit.hole: fit.way for fit in result.holes}


def of(result: FitUpPlan, label: str) -> FitUp:
    return next(fit for fit in result.holes if fit.hole == label)


def test_one_tube_is_drilled_the_other_is_piloted() -> None:
    """2.13 mm against 0.267 mm of play."""
    result = planned(*four(), 2.13)
    assert ways(result) == {
        "A1": "drill now",
        "A2": "drill now",
        "B1": "pilot, transfer in place",
        "B2": "pilot, transfer in place",
    }
    assert (of(result, "A1").uncertainty_mm, of(result, "B1").uncertainty_mm) == (0.0, 2.13)
    assert of(result, "B1").clearance_mm == pytest.approx(PLAY)
    assert "lower is the reference" in of(result, "A2").why


def test_an_unmeasured_reach_is_named_and_measured_first() -> None:
    """√(2.5² − 2²) = 1.5 mm is left with exact reaches, √(1.5² + 0.3²) with calipers on both (2 x 0.15)."""
    sure = unsure(2.5, reach_mm=2.0, across_given=False)
    fit = of(planned(*four(), sure), "B1")
    assert "2.00 mm is the clamps' reach, which nobody measured" in fit.why
    assert fit.cure == "To drill it now, no tape will do."
    assert not fit.given


def test_reaches_alone_may_be_the_cure() -> None:
    """√(0.9² − 0.89²) = 0.134 mm, with calipers √(0.134² + 0.1335²) = 0.189 < 0.267 mm."""
    fit = of(planned(*four(), unsure(0.9, reach_mm=0.89)), "B1")
    assert fit.cure == "To drill it now, measure the clamps' reach with calipers."


def test_a_distance_measured_again_is_the_cure_where_that_is_enough() -> None:
    """All of 2 mm comes from it: v − v²/(v + d²) = 0.267² where d = 0.267/√(1 − (0.267/2)²) = 0.269."""
    apart = Apart("lower", "upper", 20.0, 110.0, 2.0, 4.0)
    fit = of(planned(*four(), unsure(2.0, apart=apart)), "B1")
    assert fit.cure == (
        "To drill it now, measure the distance between lower and upper at station 20.00 mm of upper again to "
        "± 0.26 mm, with calipers."
    )
    assert apart.left_mm(2.0, 0.26) < PLAY < apart.left_mm(2.0, 0.275)


def test_where_no_measurement_is_enough_none_is_asked_for() -> None:
    """1 mm of 2 does not come from the distance: with calipers √(4 − 9/(3 + 0.15²)) = 1.01 mm is left."""
    apart = Apart("lower", "upper", 20.0, 110.0, 3**0.5, 3.0)
    assert apart.left_mm(2.0, 0.15) == pytest.approx(1.011, abs=1e-3)
    fit = of(planned(*four(), unsure(2.0, apart=apart)), "B1")
    assert fit.cure == "To drill it now, no tape will do."


@pytest.mark.parametrize(
    ("distance", "cured"), [(152.4, True), (152.5, False)], ids=["within 6 in", "beyond calipers"]
)
def test_a_tape_is_not_asked_for_what_only_calipers_do(distance: float, cured: bool) -> None:
    """± 0.269 mm is asked for: 0.15 mm with calipers of 6 in, 0.5 mm with a tape (both assumed)."""
    fit = of(planned(*four(), unsure(2.0, apart=Apart("lower", "upper", 20.0, distance, 2.0, 4.0))), "B1")
    assert fit.cure.endswith("again to ± 0.26 mm, with calipers.") == cured
    assert fit.cure.endswith("no tape will do.") != cured


def test_a_tape_is_asked_for_what_a_tape_can_do() -> None:
    """Play of 1 mm against ± 2 mm, all from the distance: v − v²/(v + d²) = 1² where d = 1/√(1 − 1/4)."""
    sure = unsure(2.0, apart=Apart("lower", "upper", 20.0, 400.0, 2.0, 4.0))
    assert cure(sure, 1.0, "mm", "To drill it now") == (
        "To drill it now, measure the distance between lower and upper at station 20.00 mm of upper again to "
        "± 1.15 mm."
    )


@pytest.mark.parametrize(
    ("mark", "place"),
    [(5.0, "at mark + 15.00 mm of upper"), (30.0, "at mark - 10.00 mm of upper"), (20.0, "at the mark of")],
)
def test_the_place_is_told_from_the_mark_where_there_is_one(mark: float, place: str) -> None:
    sure = unsure(2.0, apart=Apart("lower", "upper", 20.0, 110.0, 2.0, 4.0, mark))
    assert place in cure(sure, PLAY, "mm", "To drill it now")


def test_surveyed_tubes_are_drilled_now() -> None:
    """0.255 mm, under the play of 0.267 mm."""
    result = planned(*four(), 0.255)
    assert set(ways(result).values()) == {"drill now"}
    assert {fit.cure for fit in result.holes} == {""}


def test_a_little_lacking_is_filed_to_a_slot_across_the_tube() -> None:
    """0.474 mm: lacking 0.208 to either side; slot 4.98 + 0.42, up to 5.4."""
    fit = of(planned(*four(), 0.474), "B2")
    assert fit.way == "slot"
    assert "4.98 mm x 5.40 mm" in fit.why
    assert "AN970-3" in fit.why
    assert fit.otherwise == "pilot, transfer in place"


def test_the_other_way_is_a_slot_under_a_large_washer() -> None:
    """2.132 - 0.267 = 1.865 to either side: 4.978 + 3.731 = 8.71, up to 8.8 mm; square to a tube along u."""
    fit = of(planned(*four(), 2.132), "B1")
    assert fit.otherwise == (
        "a slot 4.98 mm x 8.80 mm, long way square to upper (90° from u), under a large washer AN970-3"
    )


def test_no_slot_longer_than_the_large_washer_covers() -> None:
    """AN970-3 (7/8 in): 11.11 + 2.49 - 1.5 = 12.1 mm; 4.25 mm would need 4.98 + 2·(4.25 - 0.27) = 12.9."""
    fit = of(planned(*four(), 4.25), "B1")
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
    assert "(120° from u)" in of(planned(turned, holes, 2.132), "B1").otherwise


def test_the_tube_with_most_clamps_is_the_reference() -> None:
    clamps, holes = four()
    extra = place("B3", "upper", (80.0, 110.0), turn=-1)
    result = planned((*clamps, extra), (*holes, clamp_hole("B3", (80.0, 110.0))), 0.1)
    assert reference_tube((*clamps, extra)) == "upper"
    assert [fit.hole for fit in result.holes] == ["B1", "B2", "B3", "A1", "A2"]


def test_a_clamp_of_the_reference_that_is_not_sure_says_why() -> None:
    """One on the other side of it: two reaches apart."""
    clamps, holes = four()
    known = [KnownTo("A2", 0.0, 0.4, 0.0, True)]
    fit = of(plan(clamps, (), holes, known, FRAME, measuring=MEASURING), "A2")
    assert fit.why.startswith("One of several on the reference tube: ± 0.40 mm against ± 0.27 mm of play")
    assert fit.way == "slot"


def test_component_holes_go_by_calipers() -> None:
    """#9 over .189 in: 0.089 mm of play, less than 0.15: transfer. #2 (.221) gives 0.406: drill now."""
    coil = component("coil", ("C1", "C2"))
    for drill_in, way in ((0.196, "pilot, transfer in place"), (0.221, "drill now")):
        holes = tuple(component_hole(label, "coil", drill_in) for label in coil.holes)
        result = plan((), (coil,), holes, (), FRAME, measuring=MEASURING)
        assert set(ways(result).values()) == {way}
        assert result.holes[0].uncertainty_mm == CALIPERS
        assert result.holes[0].clearance_mm == pytest.approx((drill_in - 0.189) / 2 * INCH)


def test_a_single_component_hole_has_nothing_to_match() -> None:
    strap = component("strap", ("D1",))
    result = plan((), (strap,), (component_hole("D1", "strap"),), (), FRAME, measuring=MEASURING)
    assert ways(result) == {"D1": "drill now"}


def test_screw_holes_go_by_the_nominal_diameter() -> None:
    """ASME B1.1: #8 is 0.164 in; a #9 hole (.196) gives (0.196 - 0.164)/2 in."""
    assert clearance_mm("#8", 0.196 * INCH) == pytest.approx(0.016 * INCH)


def test_work_goes_reference_others_components_lightening() -> None:
    clamps, holes = four()
    coil = component("coil", ("C1", "C2"))
    light = Hole("L1", "lightening", "", (80.0, 60.0), 25.0, "", "hole saw", "#40")
    mixed = (light, component_hole("C1", "coil"), *holes[::-1], component_hole("C2", "coil"))
    result = plan(clamps, (coil,), mixed, (), FRAME, measuring=MEASURING)
    assert [fit.hole for fit in result.holes] == ["A2", "A1", "B2", "B1", "C1", "C2", "L1"]
    assert of(result, "L1").way == "drill now"


def test_figures_in_inches_on_request() -> None:
    apart = Apart("lower", "upper", 20.0, 110.0, 2.0, 4.0)
    result = planned(*four(), unsure(2.132, apart=apart), "in")
    assert " in" in of(result, "B1").why
    assert " mm" not in of(result, "B1").why + of(result, "B1").otherwise + of(result, "B1").cure


@given(st.floats(0.0, 6.0), st.sampled_from([0.191, 0.196, 0.25]))
@settings(deadline=None, max_examples=80)
def test_a_hole_is_drilled_now_only_where_its_clearance_covers_it(across: float, drill_in: float) -> None:
    clamps, holes = four()
    wide = tuple(replace(hole, diameter_mm=drill_in * INCH) for hole in holes)
    for fit in planned(clamps, wide, across).holes:
        assert (fit.way == "drill now") == (fit.uncertainty_mm <= fit.clearance_mm)
        assert (fit.cure == "") == (fit.way == "drill now")
        if fit.way == "slot":
            assert fit.uncertainty_mm - fit.clearance_mm <= 0.5


@given(st.floats(0.5, 3.0), st.floats(0.1, 3.0), st.floats(0.0, 0.99), st.floats(0.05, 0.95))
@settings(deadline=None, max_examples=80)
def test_what_is_asked_for_is_just_enough(across: float, spread: float, alike: float, share: float) -> None:
    """The ± asked of a distance leaves just the ± that was wanted, and a little more does not."""
    apart = Apart("a", "b", 0.0, 100.0, spread, alike * across * spread)
    wanted = share * across
    needed = apart.needed_mm(across, wanted)
    if needed is None:
        assert apart.left_mm(across, 0.0) >= wanted - 1e-9
    else:
        assert apart.left_mm(across, needed) == pytest.approx(wanted)
        assert apart.left_mm(across, 1.01 * needed + 1e-6) > wanted
