"""Packing of gaps: gap tolerances and the height of bushings are assumed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import ALL, CLAMP, LAYOUT, with_clamp, with_plate
from checks.findings_of import of, verdicts

from clampwright.checks.packing import bushing_height, gap, packing_thickness
from clampwright.layout.placed import PlateLayout, StackItem
from clampwright.recipe.model import Measuring

BUSHING = StackItem("bushing", "bushing 12.7 mm", 12.7)


def test_feet_that_meet_the_plate_need_nothing(layout: PlateLayout):
    assert verdicts(gap(layout)) == {"pass"}
    assert gap(layout)[0].says == "The foot meets the plate; nothing to pack."


@pytest.mark.parametrize(
    ("gap_mm", "bushing", "verdict"),
    [
        (12.7, 12.7, "pass"),
        (12.79, 12.7, "pass"),
        (12.85, 12.7, "fail"),
        (12.55, 12.7, "fail"),
        (0.05, 0.0, "pass"),
        (0.2, 0.0, "fail"),
    ],
)
def test_gap_less_packing(gap_mm, bushing, verdict):
    """A tenth of a millimetre is nothing."""
    packing = (replace(BUSHING, thickness_mm=bushing),) if bushing else ()
    found = of(gap(with_clamp("B1", gap_mm=gap_mm, packing=packing)), "B1")
    assert (found.verdict, found.value) == (verdict, pytest.approx(gap_mm - bushing))


def test_washers_come_in_steps_and_may_miss_by_more():
    """Two of 0.8128 in a gap of 1.5: 0.126 mm too thick, within 0.15."""
    two = (StackItem("washers", "AN960-10L", 0.8128, 2),)
    place = with_clamp("B1", gap_mm=1.5, packing=two)
    assert of(gap(place), "B1").verdict == "pass"
    assert packing_thickness(place.clamps[2]) == pytest.approx(1.6256)


def test_a_gap_is_never_pulled_closed_with_the_bolt():
    """An eighth of an inch left open."""
    found = of(gap(with_clamp("B1", gap_mm=3.175)), "B1")
    assert "the bolt would pull the plate down 3.17 mm" in found.says or "3.18 mm" in found.says
    assert found.change.startswith("Pack it with 3.1")


def test_a_gap_between_unlike_clamps_rests_on_their_default_seats():
    """A dash 10 on the other tube, seat 1.5875 mm less, neither measured: the difference is a guess."""
    other = replace(CLAMP, part="MS21919WCJ10", dash=10, seat_mm=CLAMP.seat_mm - 1.5875)
    bushing = replace(BUSHING, thickness_mm=1.5875)
    layout = with_clamp("B1", clamp=other, gap_mm=1.5875, packing=(bushing,), measured=frozenset())
    assert of(gap(layout), "B1").verdict == "unknown"
    assert of(gap(layout), "A1").verdict == "pass"


def test_a_measured_seat_against_a_default_of_the_same_part():
    """What was measured differs from the default, so the default is in doubt, and is named with its value."""
    other = replace(CLAMP, seat_mm=CLAMP.seat_mm - 2.0)
    layout = with_clamp("B1", clamp=other, gap_mm=12.7, packing=(BUSHING,))
    guessed = tuple(c if c.label == "B1" else replace(c, measured=ALL - {"seat"}) for c in layout.clamps)
    layout = replace(layout, clamps=guessed)
    found = of(gap(layout), "B1")
    assert found.verdict == "unknown"
    assert f"{CLAMP.seat_mm:.2f} mm was taken" in found.change
    assert f"{other.seat_mm:.2f} mm was taken" not in found.change


def test_like_clamps_err_alike_so_their_gaps_hold():
    layout = with_clamp("B1", gap_mm=12.7, packing=(BUSHING,), measured=frozenset())
    assert of(gap(layout), "B1").verdict == "pass"


@pytest.mark.parametrize(
    ("error", "given", "verdict"),
    [(0.05, True, "pass"), (0.5, False, "pass"), (0.9, True, "caution"), (0.9, False, "unknown")],
)
def test_a_fourth_foot_is_as_high_as_the_tubes_are_known(error, given, verdict):
    """Stations 200 and 400 of 600: each pair of ends counts (1/3)², four of them, and four seats by calipers:
    √(4 (e/3)² + 4 · 0.15²), 0.45 mm at 0.5 and 0.67 at 0.9; up to 0.5 the cushions give."""
    layout = replace(LAYOUT, recipe=replace(LAYOUT.recipe, measuring=Measuring(error, given)))
    doubt = (4 * (error / 3) ** 2 + 4 * 0.15**2) ** 0.5
    found = of(gap(layout), "B2")
    assert found.plus_minus == pytest.approx(doubt, rel=0.01)
    assert found.verdict == verdict
    assert {of(gap(layout), label).verdict for label in ("A1", "A2", "B1")} == {"pass"}
    if found.verdict != "pass":
        assert f"The gap is known to ± {doubt:.2f} mm" in found.says
        assert found.change.startswith("Measure the gap with the plate on its other feet before packing it")


def test_a_bushing_under_a_fourth_foot_is_cut_long():
    """√(4 (1.5/3)² + 4 · 0.15²) = 1.044 mm, and 0.5 to trim: 1.544, in the tenths in which people cut 1.6."""
    layout = replace(LAYOUT, recipe=replace(LAYOUT.recipe, measuring=Measuring(1.5, True)))
    found = of(gap(with_clamp("B2", layout, gap_mm=12.7, packing=(BUSHING,))), "B2")
    assert found.verdict == "caution"
    assert found.change.startswith(
        "Cut the bushing 1.60 mm longer than listed, measure the gap with the plate"
    )


@pytest.mark.parametrize(
    ("tall", "verdict"), [(19.3, "pass"), (19.4, "caution"), (38.6, "caution"), (38.7, "fail")]
)
def test_tall_bushings(tall, verdict):
    """Four diameters of AN3 (0.190 in = 4.826): 19.304 mm; eight: 38.608 mm (both assumed)."""
    packing = (replace(BUSHING, thickness_mm=tall),)
    found = of(bushing_height(with_clamp("B1", gap_mm=tall, packing=packing)), "B1")
    assert (found.verdict, found.value) == (verdict, pytest.approx(tall / 4.826))
    assert ("19.30 mm" in found.change) == (verdict != "pass")
    assert found.limit == (8.0 if verdict == "fail" else 4.0)


@pytest.mark.parametrize(
    ("stand_off", "change"),
    [
        (30.0, "Set stand_off = 9.30 mm or less."),  # 40 - 19.304 = 20.696 of it
        (10.0, "Set stand_off = 0; to come down the other 10.70 mm to 19.30 mm, use other tubes"),
        (0.0, "To come down 20.70 mm to 19.30 mm, use other tubes"),
    ],
)
def test_a_tall_bushing_is_told_how_far_to_come_down(stand_off, change):
    """As far as there is stand-off, less of it; the rest lies between the tubes."""
    packing = (replace(BUSHING, thickness_mm=40.0),)
    layout = with_plate(with_clamp("B1", gap_mm=40.0, packing=packing), stand_off_mm=stand_off)
    assert of(bushing_height(layout), "B1").change.startswith(change)


def test_without_bushings_no_finding():
    assert bushing_height(LAYOUT) == ()
