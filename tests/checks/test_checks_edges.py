"""Edge distances: two diameters (practice), 1.5 below which MIL-HDBK-5 tabulates no bearing (from memory)."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import HOLE, LAYOUT, LONG, MARGIN, WIDE, polygon, rectangle, with_hole, with_plate
from checks.findings_of import of
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.checks.edges import cut_out_distance, edge_distance, web
from clampwright.layout.placed import PlateLayout

VERDICTS = ("pass", "caution", "fail")


def test_e_over_d_by_hand(layout: PlateLayout):
    """12 / 4.8514 = 2.4735."""
    found = of(edge_distance(layout), "A1")
    assert (found.verdict, found.change) == ("pass", "")
    assert found.value == pytest.approx(MARGIN / HOLE)
    assert found.value == pytest.approx(2.4735, abs=1e-4)


@pytest.mark.parametrize(
    ("ratio", "verdict"),
    [(2.0, "pass"), (1.999, "caution"), (1.5, "caution"), (1.499, "fail"), (0.4, "fail")],
)
def test_limits_of_e_over_d(ratio, verdict):
    found = of(edge_distance(with_hole("C1", at=(ratio * HOLE, 80.0))), "C1")
    assert (found.verdict, found.value) == (verdict, pytest.approx(ratio))


def test_what_to_change_is_said_in_numbers():
    """e = 7.75: 2 x 4.8514 - 7.75 = 1.9528 short; both numbers rounded up."""
    found = of(edge_distance(with_hole("C3", at=(LONG - 7.75, 90.0))), "C3")
    assert found.verdict == "caution"
    assert found.says.startswith("7.75 mm from hole centre to the edge: 1.59 hole diameters")
    assert found.change == (
        "Widen the plate: margin at least 9.71 mm, or move C3 1.96 mm inward; that makes 2 hole diameters."
    )


def test_numbers_are_in_the_recipes_units():
    """0.290 in from the edge: 2 x 0.191 - 0.290 = 0.092."""
    inches = replace(LAYOUT, recipe=replace(LAYOUT.recipe, units="in"))
    found = of(edge_distance(with_hole("C3", inches, at=(0.290 * 25.4, 90.0))), "C3")
    assert found.change == (
        "Widen the plate: margin at least 0.382 in, or move C3 0.092 in inward; that makes 2 hole diameters."
    )


def test_a_polygon_has_no_margin_to_widen():
    found = of(edge_distance(with_hole("A1", with_plate(outline="polygon"), at=(6.0, MARGIN))), "A1")
    assert found.change == ("Set the polygon's edge 3.71 mm further out; that makes 2 hole diameters.")


def test_a_hole_outside_the_plate_fails_with_negative_e():
    found = of(edge_distance(with_hole("C1", at=(-5.0, 50.0))), "C1")
    assert (found.verdict, found.value) == ("fail", pytest.approx(-5.0 / HOLE))
    assert "outside the plate" in found.says


def test_the_round_of_a_corner_is_the_edge():
    """Corner radius 40: from (12, 12) to its centre (40, 40) is 28 x sqrt 2 = 39.598; e = 0.402."""
    found = of(edge_distance(replace(LAYOUT, outline=rectangle(radius=40.0))), "A1")
    assert found.value == pytest.approx((40.0 - 28.0 * 2**0.5) / HOLE)
    assert found.verdict == "fail"


def test_a_notch_counts_as_an_edge():
    """A notch down to y = 100 at x = 110..114 stands 117.588 - 100 above and 36.1 mm beside C3."""
    notch = polygon(
        (0, 0), (LONG, 0), (LONG, WIDE), (146, WIDE), (146, 100), (142, 100), (142, WIDE), (0, WIDE)
    )
    found = of(edge_distance(replace(LAYOUT, outline=notch)), "C3")  # C3 at 150.1, 117.588
    assert found.value == pytest.approx((150.1 - 146.0) / HOLE)
    assert found.verdict == "fail"


def test_cut_out_by_hand(layout: PlateLayout):
    """C1 lies 38.1 and 25.4 from the middle: hypot 45.791 less 20 = 25.791 to L1's edge."""
    (found,) = cut_out_distance(layout)
    assert (found.verdict, found.value) == ("pass", pytest.approx((45.7906 - 20.0) / HOLE, abs=1e-4))


@pytest.mark.parametrize(("diameter", "verdict"), [(72.1, "pass"), (73.0, "caution"), (80.0, "fail")])
def test_a_cut_out_too_near(diameter, verdict):
    """45.791 - d/2 against 2 x 4.8514 = 9.703 (d <= 72.18) and 1.5 x 4.8514 = 7.277 (d <= 77.03)."""
    found = cut_out_distance(with_hole("L1", diameter_mm=diameter))
    assert found[0].verdict == verdict
    assert found[0].where in ("C1/L1", "C2/L1", "C3/L1", "C4/L1")


def test_a_large_cut_out_is_told_how_small_it_must_be():
    """9.7028 asked, 45.7906 - 40 = 5.7906 there: 3.9122 short, so 80 - 7.8244 = 72.1756 across."""
    found = of(cut_out_distance(with_hole("L1", diameter_mm=80.0)), "C3/L1")
    assert found.change == "Move L1 3.92 mm away from C3, or make its diameter 72.17 mm."


def test_every_close_pair_is_reported():
    found = cut_out_distance(with_hole("L1", diameter_mm=80.0))
    assert sorted(f.where for f in found if f.verdict == "fail") == ["C1/L1", "C2/L1", "C3/L1", "C4/L1"]
    assert len(found) == 4


def test_no_cut_out_no_finding(layout: PlateLayout):
    bare = replace(layout, holes=tuple(h for h in layout.holes if h.purpose != "lightening"))
    assert cut_out_distance(bare) == ()
    assert web(bare) == ()


@pytest.mark.parametrize(("v", "verdict"), [(28.1, "pass"), (25.0, "caution"), (19.0, "fail")])
def test_web_between_cut_out_and_edge(v, verdict):
    """A hole of 40 at v leaves v - 20 below it; 8 mm are asked (assumed)."""
    found = of(web(with_hole("L1", at=(112.0, v))), "L1")
    assert (found.verdict, found.value) == (verdict, pytest.approx(v - 20.0))


def test_web_between_two_cut_outs(layout: PlateLayout):
    """Centres 30 apart, radii 20 and 5: 5 mm between them."""
    cut = next(h for h in layout.holes if h.label == "L1")
    second = replace(cut, label="L2", at=(cut.at[0] + 30.0, cut.at[1]), diameter_mm=10.0)
    found = of(web(replace(layout, holes=(*layout.holes, second))), "L1/L2")
    assert (found.verdict, found.value) == ("caution", pytest.approx(5.0))


@given(near=st.floats(0.1, 60.0), nearer=st.floats(0.0, 1.0))
@settings(deadline=None, max_examples=60)
def test_moving_a_hole_towards_the_edge_never_betters_it(near, nearer):
    far = of(edge_distance(with_hole("C1", at=(near, 90.0))), "C1")
    close = of(edge_distance(with_hole("C1", at=(near * nearer, 90.0))), "C1")
    assert VERDICTS.index(close.verdict) >= VERDICTS.index(far.verdict)
    assert close.value <= far.value + 1e-9


@given(e=st.floats(0.5, 9.6))
@settings(deadline=None, max_examples=40)
def test_doing_what_a_finding_says_makes_it_pass(e):
    """The margin shown is rounded up: a hole set that far from the edge passes."""
    found = of(edge_distance(with_hole("C1", at=(e, 90.0))), "C1")
    inward = float(found.change.split("move C1 ")[1].split(" mm")[0])
    margin = float(found.change.split("at least ")[1].split(" mm")[0])
    assert of(edge_distance(with_hole("C1", at=(e + inward, 90.0))), "C1").verdict == "pass"
    assert of(edge_distance(with_hole("C1", at=(margin, 90.0))), "C1").verdict == "pass"


@pytest.mark.parametrize("noise", [-1e-9, 0.0, 1e-9])
def test_what_touches_but_for_rounding_is_not_metal_left(noise):
    """A cut-out whose rim lies on the edge breaks through, and a hole's centre on the edge is on the edge."""
    broken = of(web(with_hole("L1", at=(20.0 + noise, 90.0))), "L1")  # 40 mm across
    assert (broken.verdict, broken.says) == ("fail", "L1 breaks through to the edge.")
    found = of(edge_distance(with_hole("C1", at=(noise, 90.0))), "C1")
    assert (found.verdict, found.says) == ("fail", "The hole's centre lies on the plate's edge.")
