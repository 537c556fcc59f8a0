"""SPACER-1 to SPACER-4: the bolt's place, the line's thickness, its next supports, the spacer's length."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.joined.hand_layouts import HELD_OFF, PLACE, asking, in_zone

from clampwright.checks.spacer import joined, length_known, next_supports, thickness_known
from clampwright.layout.stand_off_placed import Bundle, Wrap
from clampwright.recipe.model import Measuring
from clampwright.trade.line_supports import support_spacing

APART = (1.5**2 * (0.6**2 + 0.4**2 + 2 * 0.5**2) + 2 * 0.15**2) ** 0.5


def test_a_place_that_can_be_joined():
    (found,) = joined(HELD_OFF)
    assert (found.verdict, found.value) == ("pass", pytest.approx(33.7364))
    (plain,) = joined(replace(HELD_OFF, place=replace(PLACE, spacer_mm=0.05)))
    assert "no spacer" in plain.says


def test_feet_that_would_overlap():
    """4 mm too near, and none of the places fits."""
    broken = replace(PLACE, spacer_mm=-4.0, fits=False, breaks=("the two feet would overlap by 4.00 mm",))
    (found,) = joined(replace(HELD_OFF, place=broken, places=(broken,)))
    assert found.verdict == "fail"
    assert "would overlap by 4.00 mm" in found.says
    assert "4.00 mm or more farther off" in found.change


def test_another_place_that_fits_is_named():
    broken = replace(PLACE, number=2, fits=False, breaks=("the bolt would meet the hose by 1.20 mm",))
    (found,) = joined(replace(HELD_OFF, place=broken, places=(PLACE, broken)))
    assert found.verdict == "fail"
    assert found.change.startswith("Take place 1:")


def test_a_bundle_is_never_quite_its_circle():
    bundle = Bundle(15.0, "circle that holds 7 equal wires: 3 d", 7, "assumed")
    (found,) = thickness_known(replace(HELD_OFF, bundle=bundle))
    assert found.verdict == "unknown"
    assert "7 wires reckoned to 15.00 mm" in found.says
    assert thickness_known(HELD_OFF)[0].verdict == "pass"


@pytest.mark.parametrize(
    ("fluids", "temperature", "verdict"),
    [(("oil",), 90.0, "pass"), (("fuel",), 90.0, "caution"), ((), 280.0, "fail")],
)
def test_the_tape_under_a_clamp(fluids, temperature, verdict):
    """Silicone tape: to 500 degF (260 degC), and not where fuel wets it."""
    wrapped = replace(HELD_OFF, wrap=Wrap(0.6, 1.2, "silicone-tape"))
    (found,) = thickness_known(in_zone(wrapped, fluids=fluids, temperature_c=temperature))
    assert found.verdict == verdict


def held_at(supports, what="hose"):
    """The line with its next supports."""
    return asking(
        HELD_OFF, carried=replace(HELD_OFF.recipe.job.carried, what=what, next_supports_mm=supports)
    )


@pytest.mark.parametrize(
    ("supports", "verdict"),
    [((300.0, 609.6), "pass"), ((300.0, 610.0), "caution"), (None, "unknown")],
)
def test_supports_every_24_inches(supports, verdict):
    """AC 43.13-1B p. 9-20 for hoses, 11-96a for wiring."""
    for what in ("hose", "bundle", "cable"):
        (found,) = next_supports(held_at(supports, what))
        assert (found.verdict, found.limit) == (verdict, pytest.approx(24 * 25.4))


@pytest.mark.parametrize(
    ("od_in", "most_in"), [(0.25, 13.5), (0.3, 13.5), (0.375, 16.5), (0.75, 24.0), (1.2, 26.5), (0.1, 9.5)]
)
def test_rigid_tubes_by_mil_h_8891a(od_in, most_in):
    """Table II, aluminium (recalled); a size between two rows goes by the thinner."""
    assert support_spacing("tube", od_in * 25.4).most_mm == pytest.approx(most_in * 25.4)


def test_a_hose_gives_to_its_spacer():
    """Where they cross, at 0.6 of the tube and half way of the hose: 1.5² (0.6² + 0.4² + 2 · 0.5²), and both
    seats by calipers, 2 · 0.15²: 1.53 mm."""
    (found,) = length_known(HELD_OFF)
    assert (found.verdict, found.value) == ("pass", pytest.approx(APART))
    assert found.plus_minus == found.value
    assert "may run 1.53 mm from where it was measured (a default nobody measured is in it)" in found.says


def test_a_rigid_line_wants_its_spacer_trimmed():
    """1.53 mm and 0.5 mm to trim: 2.03 mm longer, in the tenths in which people cut 2.1."""
    rigid = asking(HELD_OFF, carried=replace(HELD_OFF.recipe.job.carried, what="tube"))
    (found,) = length_known(rigid)
    assert found.verdict == "caution"
    assert found.change.startswith("Cut the spacer 2.10 mm longer than listed")
    assert "most of it from the place of low" in found.says


def test_a_rigid_line_that_was_measured_well_takes_its_spacer_as_listed():
    """0.05 mm (1.02 times that where they cross), and seats of 0.212 mm together: over the 0.1 mm that a
    spacer is cut to, so it needs better seats yet."""
    rigid = asking(HELD_OFF, carried=replace(HELD_OFF.recipe.job.carried, what="tube"))
    sure = replace(rigid, recipe=replace(rigid.recipe, measuring=Measuring(0.05, True)))
    (found,) = length_known(sure)
    assert found.value == pytest.approx((0.05**2 * 1.02 + 2 * 0.15**2) ** 0.5)
    assert found.verdict == ("pass" if found.value <= found.limit else "caution")
    assert "most of it from the clamps' seat as measured" in found.says


def test_a_spacer_that_is_given_is_as_long_as_it_is():
    (found,) = length_known(replace(HELD_OFF, line_solved=True))
    assert (found.verdict, found.value) == ("pass", 0.0)
