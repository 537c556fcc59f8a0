"""MISFIT-1 and MISFIT-2: what hole and bolt forgive, what the tubes' doubt adds, and what breaks."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.findings_of import of
from checks.joined.hand_layouts import BUSHED, CLAMPS, held

from clampwright.checks.misfit import holes_meet, place_kept
from clampwright.layout.bushing_placed import Remedy
from clampwright.layout.how_sure import known_to
from clampwright.recipe.model import Measuring


def measured(error, given=True, layout=BUSHED):
    """The layout with tubes measured so well."""
    return replace(layout, recipe=replace(layout.recipe, measuring=Measuring(error, given)))


def off(misfit, layout=BUSHED):
    """B1's bolt comes so far from its hole's middle."""
    holes = (*layout.answer.holes[:2], held(3, CLAMPS[2], misfit))
    return replace(layout, answer=replace(layout.answer, holes=holes))


def known(**across):
    """The separator with its bolts known to so much across their tubes."""
    each = [replace(k, across_mm=across.get(k.clamp, k.across_mm)) for k in known_to(BUSHED)]
    return replace(BUSHED, known_to=tuple(each))


def test_three_bolts_on_parallel_tubes_share_the_doubt():
    """A1 and A2 keep the component parallel to "low"; the distance to "high", 80 mm farther along, is shared
    by least squares, two thirds to B1 and one to both of A: A1 and A2 turn no hole, B1 cannot."""
    found = {f.where: f for f in holes_meet(BUSHED)}
    sizes = {label: f.plus_minus for label, f in found.items()}
    assert sizes["A1"] == pytest.approx(sizes["A2"], rel=0.02)
    assert sizes["B1"] == pytest.approx(2 * sizes["A1"], rel=0.02)
    x = 240.0 / 500.0
    low, high = 1.5**2 * (x**2 + (1 - x) ** 2), 1.5**2 * (x**2 + (1 - x) ** 2)
    apart = (low + high + 0.15**2 * 1.5) ** 0.5
    assert sizes["B1"] == pytest.approx(2 / 3 * apart, rel=0.01)


@pytest.mark.parametrize(
    ("error", "given", "verdict"), [(0.1, True, "pass"), (1.5, True, "caution"), (1.5, False, "unknown")]
)
def test_measuring_decides_whether_paper_is_enough(error, given, verdict):
    """0.37 mm forgiven: 2/3 √(2 · 0.1² (0.48² + 0.52²) + 1.5 · 0.15²) = 0.139 is inside, 1.01 is not."""
    found = of(holes_meet(measured(error, given)), "B1")
    assert found.verdict == verdict
    by_hand = 2 / 3 * (2 * error**2 * (0.48**2 + 0.52**2) + 1.5 * 0.15**2) ** 0.5
    assert found.value == pytest.approx(by_hand, rel=0.01)
    if verdict != "pass":
        assert found.change.startswith(
            "Try the fit on the tubes first. Where it binds, make the hole for AN3"
        )
        assert "most of it from the place of high" in found.says
        assert ("a default nobody measured" in found.says) == (not given)


def test_what_to_measure_again_to_be_sure():
    """The distance between both tubes, abreast of B1."""
    found = of(holes_meet(measured(0.6)), "B1")
    assert found.verdict == "caution"
    assert (
        "To be sure of it beforehand, measure the distance between low and high at station 240.00 mm of high"
        in (found.change)
    )


def test_a_slot_as_long_as_the_doubt():
    """2.13 mm where 0.37 is forgiven: 5.2 + 2 · 1.76 = 8.72, to the next 0.1: 8.8 mm."""
    found = of(holes_meet(known(B1=2.13)), "B1")
    assert "8.80 mm long, square to high" in found.change


def test_a_clamp_that_may_slide_farther_than_it_has_room():
    """A1 at 200 of 500: its band (12.7) may come to 19.05 of the near end: 200 - 6.35 - 19.05 = 174.6 mm."""
    each = [replace(k, across_mm=0.0, station_mm=175.0, given=True) for k in known_to(BUSHED)]
    found = of(holes_meet(replace(BUSHED, known_to=tuple(each))), "A1")
    assert found.verdict == "caution"
    assert "may slide 175.00 mm either way along low. It is free to slide 174.60 mm" in found.says
    each = [replace(k, station_mm=174.5) for k in each]
    assert of(holes_meet(replace(BUSHED, known_to=tuple(each))), "A1").verdict == "pass"


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
