"""Finished parts of the example recipes: what was done to them comes back, and pinches where it must."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from layout.finished_plates import NAMES, as_drawn, layout_of, moved, with_hole, with_length

from clampwright.layout.as_made_drawn import drawn
from clampwright.layout.as_made_feet import gaps_left
from clampwright.layout.as_made_fit import best_fit
from clampwright.layout.as_made_holes import CLAMPS
from clampwright.layout.as_made_slips import fits_turned, taken_otherwise
from clampwright.layout.fit_up import NOW
from clampwright.layout.stacks import thickness_mm
from clampwright.recipe.measured_model import MeasuredHole, MeasuredPart
from clampwright.trade.tables import rule


def fit_of(name, part):
    return best_fit(layout_of(name), part)


def hole(fit, label):
    return next(each for each in fit.holes if each.label == label)


def group(fit, name):
    return next(each for each in fit.groups if each.name == name)


@pytest.mark.parametrize("name", NAMES)
def test_parts_as_drawn_need_no_shift_and_have_all_their_play(name):
    fit = fit_of(name, as_drawn(layout_of(name)))
    assert fit.not_measured == fit.not_sized == ()
    for each in fit.groups:
        assert each.shift == pytest.approx((0.0, 0.0), abs=1e-9)
        assert each.turn_rad == pytest.approx(0.0, abs=1e-12)
        assert each.spare_mm == pytest.approx(each.before_mm, abs=1e-9)
        assert each.culprits == ()
    for each in fit.holes:
        assert each.spare_mm == pytest.approx(each.allowed_mm, abs=1e-9)
    for each in fit.stacks:
        assert each.made.thickness_mm == pytest.approx(each.planned.thickness_mm)
        assert each.fits


def test_a_plate_that_was_marked_out_askew_is_shifted_and_turned_back():
    """All holes 0.3 mm right, 0.2 mm down and turned 0.25 deg about the corner: the plate goes back."""
    part = moved(as_drawn(layout_of("coil-plate")), (0.3, -0.2), 0.25)
    fit = fit_of("coil-plate", part)
    clamps = group(fit, CLAMPS)
    assert math.degrees(clamps.turn_rad) == pytest.approx(-0.25, abs=1e-7)
    assert fit.turn_rad == clamps.turn_rad
    for each in fit.holes:
        assert each.off_mm == pytest.approx(0.0, abs=1e-6)
        assert abs(each.slides_mm) < 1e-5
    assert fit.before_mm < clamps.spare_mm


def test_a_component_is_told_where_it_goes_itself():
    """Its holes 0.5 mm too far right on the plate: the component goes right, the plate stays."""
    part = as_drawn(layout_of("coil-plate"))
    for label in ("C1", "C2", "C3", "C4"):
        part = with_hole(part, label, by=(0.5, 0.0))
    fit = fit_of("coil-plate", part)
    assert group(fit, "coil pack").shift == pytest.approx((0.5, 0.0), abs=1e-6)
    assert group(fit, "coil pack").spare_mm == pytest.approx(hole(fit, "C1").allowed_mm, abs=1e-6)
    assert fit.shift == pytest.approx((0.0, 0.0), abs=1e-9)


def test_one_hole_of_four_pinches_by_what_was_drilled_too_far():
    """By hand: C3 1 mm high, the others right: with those met, C3 lacks 1 mm less what is allowed there."""
    part = with_hole(as_drawn(layout_of("coil-plate")), "C3", by=(0.0, 1.0))
    fit = fit_of("coil-plate", part)
    found = group(fit, "coil pack")
    assert found.left_out == "C3"
    allowed = hole(fit, "C3").allowed_mm
    assert hole(fit, "C3").spare_mm == pytest.approx(allowed - 1.0, abs=1e-6)
    assert hole(fit, "C3").way == pytest.approx((0.0, 1.0), abs=1e-6)
    (culprit,) = found.culprits
    assert culprit.lacking_mm == pytest.approx(1.0 - allowed, abs=1e-6)
    assert culprit.toward == pytest.approx((0.0, -1.0), abs=1e-6)
    for label in ("C1", "C2", "C4"):
        assert hole(fit, label).off_mm == pytest.approx(0.0, abs=1e-6)
    assert found.spare_mm < 0 < culprit.others_spare_mm


def test_two_holes_too_far_apart_are_nobodys_fault():
    """By hand: the relay's two holes 1 mm too far apart: each lacks 0.5 mm less its play."""
    part = with_hole(as_drawn(layout_of("coil-plate")), "D2", by=(0.0, 1.0))
    fit = fit_of("coil-plate", part)
    found = group(fit, "relay")
    play = hole(fit, "D1").play_mm
    assert found.left_out == ""
    assert found.spare_mm == pytest.approx(play - 0.5, abs=1e-6)
    assert {each.label for each in found.culprits} == {"D1", "D2"}
    for label in ("D1", "D2"):
        assert hole(fit, label).off_mm == pytest.approx(0.5, abs=1e-6)


def test_clamps_slide_along_their_tubes_so_that_an_error_along_them_costs_nothing():
    """A1 drilled 1 mm along its tube: its clamp slides, or shares it with the others; no spare is lost."""
    layout = layout_of("coil-plate")
    place = next(clamp for clamp in layout.clamps if clamp.label == "A1")
    u = [sum(a * b for a, b in zip(place.axis, way, strict=True)) for way in (layout.frame.u, layout.frame.v)]
    size = math.hypot(*u)
    part = with_hole(as_drawn(layout), "A1", by=(u[0] / size, u[1] / size))
    fit = fit_of("coil-plate", part)
    assert group(fit, CLAMPS).spare_mm == pytest.approx(hole(fit, "A1").play_mm, abs=1e-3)
    assert 0.5 < abs(hole(fit, "A1").slides_mm) <= 1.1
    assert hole(fit, "A1").room_mm == rule("made-slide-most").value


def test_a_hole_that_is_transferred_in_place_may_lie_off_by_as_much_as_its_bolt():
    layout = layout_of("coil-plate")
    plan = {each.hole: each for each in layout.fit_up.holes}
    fit = fit_of("coil-plate", as_drawn(layout))
    for each in fit.holes:
        expected = plan[each.label].clearance_mm
        assert each.play_mm == pytest.approx(expected, abs=1e-9)
        assert each.transferred == (plan[each.label].way != NOW)
        more = plan[each.label].uncertainty_mm if each.transferred else 0.0
        assert each.allowed_mm == pytest.approx(expected + more, abs=1e-9)


def test_a_wider_hole_gives_half_of_what_it_is_wider():
    part = with_hole(as_drawn(layout_of("coil-plate")), "D1", diameter_mm=5.1784)
    before = hole(fit_of("coil-plate", as_drawn(layout_of("coil-plate"))), "D1").play_mm
    assert hole(fit_of("coil-plate", part), "D1").play_mm == pytest.approx(before + 0.1, abs=1e-9)


def test_what_is_not_measured_is_told_and_does_not_count():
    part = as_drawn(layout_of("coil-plate"))
    rest = replace(
        part, holes=tuple(each for each in part.holes if each.label != "C3"), lengths=part.lengths[:1]
    )
    rest = with_hole(rest, "D1", diameter_mm=None)
    fit = fit_of("coil-plate", rest)
    assert fit.not_measured == ("C3", "S1 (1 of 2 pieces)", "S2", "S2L")
    assert fit.not_sized == ("D1",)
    assert "C3" not in {each.label for each in fit.holes}
    assert fit_of("coil-plate", MeasuredPart((), ())).holes == ()


def test_the_longest_piece_goes_under_the_longest_gap_and_what_is_left_is_worked_out():
    """Separator: S1 stands twice under gaps of 6.35; pieces of 6.30 and 6.45 leave 0.05 and -0.10."""
    part = with_length(as_drawn(layout_of("separator-bushings")), "S1", 6.45, 6.30)
    fit = fit_of("separator-bushings", part)
    left = sorted(each.left_mm for each in fit.lengths if each.mark == "S1")
    assert left == pytest.approx([-0.10, 0.05], abs=1e-9)


def test_a_stack_is_built_with_the_measured_length():
    part = with_length(as_drawn(layout_of("separator-bushings")), "S2", 17.0)
    fit = fit_of("separator-bushings", part)
    refit = next(each for each in fit.stacks if each.label == "B1")
    drawn_mm = next(
        one.length_mm for one in drawn(layout_of("separator-bushings")).lengths if one.mark == "S2"
    )
    assert refit.made.thickness_mm - refit.planned.thickness_mm == pytest.approx(17.0 - drawn_mm)
    assert thickness_mm(refit.made.items) == pytest.approx(refit.made.thickness_mm)
    assert not refit.fits
    assert refit.better is not None
    assert refit.better.chosen is not None
    assert refit.better.chosen.fits
    assert refit.better.chosen.length.dash != refit.planned.chosen.length.dash or refit.better.adjusted


def test_a_bushing_left_long_changes_no_stack():
    """It is trimmed to its gap: 1 mm more on it says nothing of the bolt."""
    part = with_length(as_drawn(layout_of("coil-plate")), "S2L", 17.0)
    before = fit_of("coil-plate", as_drawn(layout_of("coil-plate")))
    assert [s.made.thickness_mm for s in fit_of("coil-plate", part).stacks] == [
        s.made.thickness_mm for s in before.stacks
    ]


def test_three_feet_never_rock_and_a_lean_is_worked_out():
    """Coil plate: B2 is trimmed in place, so three carry; S2 1 mm long leans it."""
    layout = layout_of("coil-plate")
    made = as_drawn(layout)
    high = next(one.length_mm for one in made.lengths if one.mark == "S2") + 1.0
    fit = best_fit(layout, with_length(made, "S2", high))
    assert {each.label for each in fit.feet} == {"A1", "A2", "B1"}
    assert all(each.carries and each.gap_mm == pytest.approx(0.0, abs=1e-9) for each in fit.feet)
    at = {clamp.label: clamp.at for clamp in layout.clamps}
    (ax, ay), (bx, by), (x, y) = at["A1"], at["A2"], at["B1"]
    arm = abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / math.hypot(bx - ax, by - ay)
    over = next(each.high_mm for each in fit.feet if each.label == "B1")
    assert fit.lean_rad == pytest.approx(math.atan(over / arm), rel=1e-6)


def test_a_table_with_one_short_leg_rocks():
    """By hand: on a rectangle a leg short by d hangs by d, or the one across does; the other two carry."""
    places = [(0.0, 0.0), (120.0, 0.0), (120.0, 80.0), (0.0, 80.0)]
    gaps = gaps_left(places, [0.0, -0.3, 0.0, 0.0])
    assert [max(foot) for foot in gaps] == pytest.approx([0.0, 0.3, 0.0, 0.3], abs=1e-9)
    assert all(min(foot) == pytest.approx(0.0, abs=1e-9) for foot in gaps)


def test_feet_in_one_plane_all_carry_however_it_leans():
    places = [(0.0, 0.0), (120.0, 0.0), (130.0, 80.0), (0.0, 70.0), (60.0, 20.0)]
    high = [0.1 + 0.01 * x - 0.02 * y for x, y in places]
    assert all(max(foot) == pytest.approx(0.0, abs=1e-6) for foot in gaps_left(places, high))


def test_feet_in_one_line_raise_nothing():
    assert len(gaps_left([(0.0, 0.0), (10.0, 0.0), (20.0, 0.0)], [0.0, 0.1, 0.0])) == 3


def edges_of(layout):
    low_x, low_y, high_x, high_y = layout.outline.box()
    return low_x + high_x, low_y + high_y


@pytest.mark.parametrize(
    ("taken", "says"),
    [
        (lambda x, y, w, h: (y, x), "exchanged"),
        (lambda x, y, w, h: (w - x, y), "right edge"),
        (lambda x, y, w, h: (x, h - y), "top edge"),
        (lambda x, y, w, h: (w - x, h - y), "upside down"),
    ],
)
def test_holes_that_were_measured_from_other_edges_are_recognised(taken, says):
    layout = layout_of("coil-plate")
    wide, tall = edges_of(layout)
    part = as_drawn(layout)
    odd = replace(part, holes=tuple(replace(h, at=taken(*h.at, wide, tall)) for h in part.holes))
    assert says in taken_otherwise(layout, odd)


def test_exchanged_labels_are_recognised_and_good_measurements_are_left_alone():
    layout = layout_of("coil-plate")
    part = as_drawn(layout)
    at = {each.label: each.at for each in part.holes}
    crossed = with_hole(with_hole(part, "A1", at=at["B2"]), "B2", at=at["A1"])
    assert taken_otherwise(layout, crossed) == "A1 and B2 seem to be exchanged."
    assert taken_otherwise(layout, moved(part, (0.4, 0.4), 0.1)) == ""
    assert taken_otherwise(layout, with_hole(part, "A1", by=(5.0, 0.0))) == ""
    assert taken_otherwise(layout, MeasuredPart((MeasuredHole("A1", (0.0, 0.0)),), ())) == ""


def test_labels_exchanged_across_the_plate_and_figures_off_by_ten_are_recognised():
    layout = layout_of("coil-plate")
    part = as_drawn(layout)
    at = {each.label: each.at for each in part.holes}
    other = part
    for one, two in (("A1", "A2"), ("B1", "B2"), ("C1", "C2"), ("C3", "C4")):
        other = with_hole(with_hole(other, one, at=at[two]), two, at=at[one])
    other = with_hole(with_hole(other, "D1", at=at["D2"]), "D2", at=at["D1"])
    assert "exchanged" in taken_otherwise(layout, other)
    around = part
    for one, two in (("C1", "C2"), ("C2", "C3"), ("C3", "C4"), ("C4", "C1")):
        around = with_hole(around, one, at=at[two])
    assert taken_otherwise(layout, around).startswith("The labels C1, C2, C3 and C4 seem to be exchanged")
    tenth = with_hole(part, "C1", at=(at["C1"][0] * 10, at["C1"][1]))
    assert taken_otherwise(layout, tenth).startswith("x of C1 is 10 times too large")


def test_a_fit_that_turns_the_part_half_round_is_told_as_such():
    layout = layout_of("coil-plate")
    half = moved(as_drawn(layout), (0.0, 0.0), 180.0)
    assert "turned by 180°" in fits_turned(best_fit(layout, half).groups)
    askew = moved(as_drawn(layout), (0.0, 0.0), 2.0)
    assert fits_turned(best_fit(layout, askew).groups) == ""
