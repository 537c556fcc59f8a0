"""MISFIT-1 and MISFIT-2: what hole and bolt forgive, what the tubes' doubt adds, and what breaks."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, sqrt

import pytest
from checks.findings_of import of
from checks.joined.hand_layouts import ALL, BUSHED, CLAMPS, held

from clampwright.checks.misfit import doubt_mm, holes_meet, place_kept
from clampwright.layout.bushing_placed import Remedy
from clampwright.recipe.model import Measuring


def measured(error, given=True, layout=BUSHED):
    """The layout with tubes measured so well."""
    return replace(layout, recipe=replace(layout.recipe, measuring=Measuring(error, given)))


def off(misfit, layout=BUSHED):
    """B1's bolt comes so far from its hole's middle."""
    holes = (*layout.answer.holes[:2], held(3, CLAMPS[2], misfit))
    return replace(layout, answer=replace(layout.answer, holes=holes))


def test_the_tubes_doubt():
    """Two clamps on "low", the reference: 0 there; sqrt 2 x 1.5 on "high", and both reaches' 0.15."""
    doubts = [doubt_mm(c, BUSHED) for c in BUSHED.clamps]
    assert doubts == pytest.approx([0.0, 0.0, sqrt(2 * 1.5**2 + 2 * 0.15**2)])


def test_defaults_of_reach_count_in_full():
    """Nobody measured: 1 mm for each of the two reaches."""
    guessed = tuple(replace(c, measured=ALL - {"reach"}) for c in CLAMPS)
    layout = replace(BUSHED, clamps=guessed)
    assert doubt_mm(layout.clamps[2], layout) == pytest.approx(hypot(sqrt(2) * 1.5, 2.0))


@pytest.mark.parametrize(
    ("error", "given", "verdict"), [(0.1, True, "pass"), (1.5, True, "caution"), (1.5, False, "unknown")]
)
def test_measuring_decides_whether_paper_is_enough(error, given, verdict):
    """0.37 mm forgiven: sqrt(2 x 0.1² + 2 x 0.15²) = 0.255 is inside, 2.13 is not."""
    found = of(holes_meet(measured(error, given)), "B1")
    assert found.verdict == verdict
    assert found.value == pytest.approx(sqrt(2 * error**2 + 2 * 0.15**2))
    if verdict != "pass":
        assert "cut the bushings 2.63 mm long" in found.change
        assert "8.80 mm long" in found.change


@pytest.mark.parametrize(("misfit", "verdict"), [((0.1, 0.05), "pass"), ((0.6, 0.8), "fail")])
def test_a_bolt_beside_its_hole(misfit, verdict):
    """1.0 mm off where 0.37 is forgiven: a slot of 5.2 + 2 x 0.63 = 6.46, to the next 0.1: 6.5 mm."""
    found = of(holes_meet(off(misfit, measured(0.0))), "B1")
    assert found.verdict == verdict
    if verdict == "fail":
        assert found.value == pytest.approx(1.0)
        assert "a slot 6.50 mm long, square to high" in found.change


def test_the_place_that_fits():
    (found,) = place_kept(BUSHED)
    assert (found.verdict, found.value, found.where) == ("pass", 0.0, "separator")


def test_every_fault_of_the_place_with_its_remedy():
    breaks = ("A1 stands 4 mm over the end of low", "the worst tilt is 9.0°")
    answer = replace(BUSHED.answer, fits=False, breaks=breaks)
    (alone,) = place_kept(replace(BUSHED, answer=answer))
    assert (alone.verdict, alone.value) == ("fail", 2.0)
    assert all(text in alone.says for text in breaks)
    assert "60.00 mm" in alone.change
    remedies = (Remedy("slot", "make hole 3 a slot 9.1 mm long"), Remedy("plate", "carry it on a plate"))
    (helped,) = place_kept(replace(BUSHED, answer=answer, remedies=remedies))
    assert helped.change == "Make hole 3 a slot 9.1 mm long. Or: Carry it on a plate."


def test_a_hole_nobody_measured_is_to_be_measured_first():
    """2 mm off; half of what the hole grows is what the misfit gains."""
    recipe = BUSHED.recipe
    job = replace(recipe.job, component=replace(recipe.job.component, hole_mm=None))
    layout = off((0.0, 2.0), replace(BUSHED, recipe=replace(recipe, job=job)))
    found = of(holes_meet(layout), "B1")
    needed = 4.8514 + 2 * (2.0 - layout.answer.allowed_mm)
    assert found.verdict == "fail"
    assert found.change.startswith("Measure the holes in its lugs and write hole: 4.85 mm was taken")
    assert f"{needed:.2f} mm would do" in found.change or f"{needed + 0.005:.2f} mm would do" in found.change


def test_no_slot_longer_than_its_lug():
    """20 mm off: 4.85 + 2 x (20 - what is allowed) is far over three bolt diameters."""
    found = of(holes_meet(off((0.0, 20.0))), "B1")
    assert found.verdict == "fail"
    assert "more than 3 bolt diameters" in found.change
    assert "Make the hole" not in found.change
