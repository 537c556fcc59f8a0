"""Checks of finished parts: pass as drawn, and for each code a part that does not."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest
from checks.findings_of import of
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.finished_plates import NAMES, RECIPES, as_drawn, layout_of, moved, with_hole, with_length

from clampwright.checks.all_checks import catalogue, check, worst
from clampwright.checks.as_made import CHECKS, as_made
from clampwright.checks.finding import VERDICTS
from clampwright.layout.as_made_fit import best_fit
from clampwright.layout.cut_long import as_marked
from clampwright.layout.kinds import lay_out
from clampwright.recipe.measured_model import MeasuredPart
from clampwright.recipe.read import read
from clampwright.trade.sources import source

COIL = as_drawn(layout_of("coil-plate"))


def found(part, code, name="coil-plate"):
    return tuple(each for each in as_made(layout_of(name), part) if each.code == code)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("plus_minus", [None, 0.01])
def test_parts_as_drawn_pass(name, plus_minus):
    findings = as_made(layout_of(name), as_drawn(layout_of(name), plus_minus))
    assert [each for each in findings if each.verdict != "pass"] == []
    assert of(findings, "measurements").value == 0.0


def test_a_plate_that_is_drawn_too_narrow_is_too_narrow_as_made():
    """The same holes fail as in EDGE-1, and no others."""
    layout = lay_out(read(RECIPES / "coil-plate-too-narrow.toml"))
    failing = {each.where for each in as_made(layout, as_drawn(layout)) if each.verdict == "fail"}
    assert failing == {
        each.where for each in check(layout) if each.code == "EDGE-1" and each.verdict == "fail"
    }
    assert failing


SPOILT: dict[str, MeasuredPart] = {
    "MADE-1": with_hole(COIL, "D2", by=(0.0, 1.5)),
    "MADE-2": with_hole(COIL, "D1", diameter_mm=5.6),
    "MADE-3": with_length(COIL, "S2", 13.0),
    "MADE-4": with_length(COIL, "S2", 17.0),
    "MADE-5": with_hole(COIL, "A1", by=(0.0, -6.0)),
    "MADE-6": replace(COIL, holes=COIL.holes[1:]),
    "MADE-7": with_length(COIL, "S2", 40.0),
    "MADE-8": replace(COIL, thickness_mm=1.6),
}


@pytest.mark.parametrize("code", sorted(SPOILT))
def test_every_code_can_pass_and_can_not_pass(code):
    assert {each.verdict for each in found(COIL, code)} == {"pass"}
    assert worst(found(SPOILT[code], code)) != "pass"


@pytest.mark.parametrize("code", sorted(SPOILT))
def test_findings_are_whole(code):
    for each in as_made(layout_of("coil-plate"), SPOILT[code]):
        assert each.verdict in VERDICTS
        assert each.says.endswith(".")
        assert ".." not in each.says + each.change
        assert each.sources
        assert all(source(key).title for key in each.sources)
        assert bool(each.change) == (each.verdict != "pass"), each
        if each.verdict in ("fail", "caution"):
            assert re.search(r"\d", each.change), each


def test_the_catalogue_lists_them_with_their_words():
    told = {info.code: info.what for info in catalogue()}
    assert set(SPOILT) == {one.code for one in CHECKS}
    for part in SPOILT.values():
        for each in as_made(layout_of("coil-plate"), part):
            assert told[each.code] == each.what


def test_inches_and_millimetres_give_the_same_verdicts():
    layout = layout_of("coil-plate")
    metric = replace(layout, recipe=replace(layout.recipe, units="mm"))
    for part in SPOILT.values():
        inch, mm = as_made(layout, part), as_made(metric, part)
        for one, other in zip(inch, mm, strict=False):
            assert (one.code, one.where) == (other.code, other.where)
        assert not any(re.search(r"\d in\b", each.says) for each in mm if each.code != "MADE-4")


def test_what_is_left_over_is_said_in_numbers():
    """By hand: S2 of 14.478 fills 14.435; at 13.0 it leaves 1.43 mm, and 13.0 is under 14.378."""
    (each,) = (f for f in found(SPOILT["MADE-3"], "MADE-3") if f.verdict == "fail")
    assert (each.value, each.limit) == (13.0, pytest.approx(14.378))
    assert "0.056 in of its gap are left" in each.says
    assert "shim of 0.056 in" in each.change


def test_a_long_bushing_is_faced_down_by_what_it_is_over():
    """By hand: S2 at 15.0 is 15.0 - 14.578 = 0.422 mm over its limit, 0.0167 in; rounded up 0.017 in."""
    (each,) = (f for f in found(with_length(COIL, "S2", 15.0), "MADE-3") if f.verdict == "fail")
    assert "Face S2 down by 0.017 in" in each.change


def test_a_length_within_the_doubt_of_the_calipers_is_no_failure():
    """0.02 mm over its limit, measured to ± 0.03 that nobody stated, then to ± 0.1 as stated, then ± 0.01."""
    long = with_length(replace(COIL, plus_minus_mm=None), "S2", 14.578 + 0.02)
    for plus_minus, verdict in ((None, "unknown"), (0.1, "unknown"), (0.01, "fail")):
        part = replace(long, plus_minus_mm=plus_minus)
        (each,) = (f for f in found(part, "MADE-3") if f.where.startswith("S2 "))
        assert each.verdict == verdict


@pytest.mark.parametrize("name", NAMES)
def test_perfect_figures_measured_to_an_inch_prove_nothing(name):
    """Whatever has something measured on it is then unknown, and no hole, length or sheet passes."""
    layout = layout_of(name)
    part = as_drawn(layout, 25.4)
    findings = as_made(layout, part)
    if part.holes or part.lengths:
        assert worst(findings) == "unknown"
    assert {f.verdict for f in findings if f.code in ("MADE-1", "MADE-2", "MADE-3", "MADE-8")} <= {"unknown"}


def test_a_pass_has_more_to_spare_than_it_was_measured_to():
    """By hand: S2 14.55 is 0.028 below its limit of 14.578; the sheet drawn 2.286 is next sold as 2.0574
    (0.081 in), so 2.20 is 0.0283 above halfway; AN3's window ends at 5.0038, 0.0238 above 4.98."""
    for change, code, where, spare in (
        (with_length(COIL, "S2", 14.55), "MADE-3", "S2 ", 0.028),
        (replace(COIL, thickness_mm=2.20), "MADE-8", "plate", 0.0283),
        (with_hole(COIL, "A1", diameter_mm=4.98), "MADE-2", "A1", 0.0238),
    ):
        for plus_minus, verdict in ((spare - 0.002, "pass"), (spare + 0.002, "unknown")):
            part = replace(change, plus_minus_mm=plus_minus)
            (each,) = (f for f in found(part, code) if f.where.startswith(where))
            assert each.verdict == verdict, (code, plus_minus)


def test_edge_distance_within_the_measuring_doubt_of_what_is_asked_is_unknown():
    """By hand: 2.0 diameters asked, 0.1 mm to spare: passes to ± 0.05, unknown to ± 0.2."""
    layout = layout_of("coil-plate")
    (before,) = [each for each in found(COIL, "MADE-5") if each.where == "A1" and each.unit == "e/D"]
    wide = next(hole.diameter_mm for hole in layout.holes if hole.label == "A1")
    nearer = with_hole(COIL, "A1", by=(0.0, -(before.value - before.limit) * wide + 0.1))
    for plus_minus, verdict in ((0.05, "pass"), (0.2, "unknown")):
        part = replace(nearer, plus_minus_mm=plus_minus)
        (each,) = [f for f in found(part, "MADE-5") if f.where == "A1" and f.unit == "e/D"]
        assert each.verdict == verdict


def test_a_hole_is_never_eased_past_its_bolts_window_without_a_washer():
    """AN3's window ends at 5.0038 mm (TM 1-1520-240-BD table 2-6), 0.197 in."""
    part = replace(with_hole(COIL, "A1", by=(0.02, 0.02)), plus_minus_mm=25.4)
    change = of(found(part, "MADE-1"), "A1").change
    assert "0.197 in at the most" in change
    assert "wider only under a washer" in change


SHARES = (-0.98, -0.5, 0.25, 0.5, 0.98)


@pytest.mark.parametrize("share", SHARES)
@pytest.mark.parametrize("name", NAMES)
def test_lengths_within_their_drawn_limits_fail_nothing(name, share):
    """Every piece at a share of its own tolerance, the sheet at a share of 0.1 mm: no fail follows."""
    layout = layout_of(name)
    part = as_drawn(layout)
    within = {one.mark: one.tolerance_mm for one in as_marked(layout)}
    lengths = tuple(
        replace(one, length_mm=one.length_mm + share * within[one.mark][share > 0]) for one in part.lengths
    )
    sheet = None if part.thickness_mm is None else part.thickness_mm + share * 0.1
    findings = as_made(layout, replace(part, lengths=lengths, thickness_mm=sheet))
    assert [f for f in findings if f.verdict == "fail"] == []


def test_a_bolt_missed_by_less_than_the_drawn_tolerances_is_a_caution_with_what_helps():
    """By hand: S1 0.251 in A1's stack makes 0.5315 in; AN3-7A suits 0.5 to 0.5 + 1/32 = 0.53125 in."""
    part = with_length(COIL, "S1", 0.251 * 25.4, 0.251 * 25.4)
    each = of(found(part, "MADE-4"), "A1")
    assert each.verdict == "caution"
    assert "0.001 in thicker than it suits, which the tolerances explain" in each.says
    assert "AN3-10A" in each.change
    beyond = of(found(with_length(COIL, "S1", 0.27 * 25.4), "MADE-4"), "A1")
    assert beyond.verdict == "fail"


def test_the_washer_that_helps_makes_the_same_bolt_fit():
    """By hand: S1 0.0039 in short, AN3-10A's shank stands 0.001 in past; a washer more covers that."""
    layout = layout_of("separator-bushings")
    part = as_drawn(layout)
    short = with_length(part, "S1", *[one.length_mm - 0.098 for one in part.lengths if one.mark == "S1"])
    (each,) = (f for f in as_made(layout, short) if f.code == "MADE-4" and f.where == "A1")
    assert each.verdict == "caution"
    refit = next(one for one in best_fit(layout, short).stacks if one.label == "A1")
    assert each.change == f"Keep {refit.made.chosen.length.part}, with {refit.washers}."
    assert refit.made.chosen.shank_past_stack_mm > 0


def test_figures_shown_do_not_contradict_the_verdict():
    """0.2540 in is over 0.2539 in (6.45 mm): shown as 0.254 both they would be equal."""
    (each,) = (f for f in found(with_length(COIL, "S1", 6.4516), "MADE-3") if f.where.startswith("S1"))
    numbers = re.findall(r"0\.\d+", each.says)[:3]
    assert numbers == ["0.2540", "0.2461", "0.2539"]
    assert each.verdict != "pass"


@st.composite
def misfits(draw):
    """Holes of the coil plate drilled off: all by up to 0.6 mm, or one by 0.4 to 1.2 mm."""
    one = draw(st.sampled_from([None, *(hole.label for hole in COIL.holes)]))
    part = COIL
    for hole in COIL.holes:
        most = 0.6 if one is None else 1.2 if hole.label == one else 0.01
        far, way = draw(st.floats(0.0, most)), draw(st.floats(0.0, 2 * math.pi))
        part = with_hole(part, hole.label, by=(far * math.cos(way), far * math.sin(way)))
    return part


INCHES = r"([\d.]+) in"


def cured(part, change, off):
    """The part with what is advised done to it; a slot as the hole where it is nearest along it."""
    if each_ := re.search(rf"Open each of ([\w, ]+) by {INCHES}", change):
        for label in each_[1].split(", "):
            was = next(hole.diameter_mm for hole in part.holes if hole.label == label)
            part = with_hole(part, label, diameter_mm=was + float(each_[2]) * 25.4)
        return part
    if one := re.search(rf"Open hole (\w+) to {INCHES}", change):
        return with_hole(part, one[1], diameter_mm=float(one[2]) * 25.4)
    label = re.search(r"File hole (\w+) ", change)[1]
    by = {way: float(inch) * 25.4 for inch, way in re.findall(rf"{INCHES} toward the (\w+) edge", change)}
    x, y = by.get("right", 0.0) - by.get("left", 0.0), by.get("top", 0.0) - by.get("bottom", 0.0)
    places = [(x * k / 200, y * k / 200) for k in range(201)]
    return with_hole(part, label, by=min(places, key=lambda at: math.dist(at, off[label])))


@given(misfits())
@settings(deadline=None, max_examples=40)
def test_what_is_advised_cures_the_misfit(part):
    """Done as told, the best fit then has no hole that pinches, and the one to blame lets its bolt pass
    without what a transfer in place would make up."""
    layout = layout_of("coil-plate")
    before = best_fit(layout, part)
    groups = {group.name: group for group in before.groups}
    off = {hole.label: hole.bolt_off for hole in before.holes}
    for each in found(part, "MADE-1"):
        if each.verdict != "fail" or each.where not in groups:
            continue
        fit = best_fit(layout, cured(part, each.change, off))
        assert next(g.spare_mm for g in fit.groups if g.name == each.where) >= -2e-6, each.change
        blamed = groups[each.where].left_out
        if blamed:
            after = next(hole for hole in fit.holes if hole.label == blamed)
            assert after.play_mm - after.off_mm >= -0.01, each.change


def test_a_bushing_left_long_fails_only_below_the_shortest_gap():
    for length, verdict in ((20.0, "pass"), (15.875, "pass"), (14.4, "pass"), (13.0, "fail")):
        (each,) = (f for f in found(with_length(COIL, "S2L", length), "MADE-3") if f.where.startswith("S2L"))
        assert each.verdict == verdict, length


def test_the_hole_to_blame_is_opened_towards_its_bolt():
    part = with_hole(COIL, "C3", by=(0.0, 1.0))
    whole = of(found(part, "MADE-1"), "coil pack")
    assert whole.verdict == "fail"
    assert "hole C3 is to blame" in whole.says
    assert "File hole C3 0.039 in toward the bottom edge to a slot" in whole.change
    assert {each.where for each in found(part, "MADE-1") if each.verdict == "fail"} == {"coil pack", "C3"}


def test_holes_with_nobody_to_blame_are_opened_evenly():
    """By hand: the relay's holes 1.5 mm too far apart, play 0.4064: each lacks 0.3436, 0.6872 of diameter."""
    change = of(found(SPOILT["MADE-1"], "MADE-1"), "relay").change
    assert "Open each of D1, D2 by 0.028 in of diameter" in change


def test_spare_within_the_doubt_is_doubtful():
    """D1 and D2 0.6 mm too far apart: 0.1064 left, measured to ± 0.02 (and their pattern to ± 0.15)."""
    part = with_hole(replace(COIL, plus_minus_mm=0.02), "D2", by=(0.0, 0.6))
    assert of(found(part, "MADE-1"), "D1").verdict == "caution"
    assert of(found(replace(part, plus_minus_mm=None), "MADE-1"), "D1").verdict == "unknown"
    assert of(found(part, "MADE-1"), "relay").verdict == "pass"


def test_a_shift_is_told_in_words():
    part = moved(COIL, (0.3, -0.2))
    says = of(found(part, "MADE-1"), "the clamps").says
    assert "0.012 in left and 0.008 in up" in says


def test_a_transferred_hole_may_lie_off_and_is_then_to_be_tried():
    """B1 and B2 follow bolts known to ± 2.1 mm: half a millimetre off is a caution, 6 mm a failure."""
    for off, verdict in ((0.1, "pass"), (0.7, "caution"), (6.0, "fail")):
        part = with_hole(with_hole(COIL, "B1", by=(0.0, off)), "B2", by=(0.0, off))
        each = of(found(part, "MADE-1"), "B1")
        assert each.verdict == verdict, off


def test_a_pilot_is_told_as_a_pilot():
    """#40 is 2.489 mm: B1 is transferred, so that is right; A1 should have been drilled to size."""
    sizes = found(with_hole(with_hole(COIL, "B1", diameter_mm=2.49), "A1", diameter_mm=2.49), "MADE-2")
    assert (of(sizes, "B1").verdict, of(sizes, "A1").verdict) == ("pass", "caution")
    assert of(sizes, "A1").change == "Open A1 to #11 (0.191 in)."


def test_a_hole_near_the_edge_of_its_window_is_gauged():
    sizes = found(with_hole(replace(COIL, plus_minus_mm=0.05), "D1", diameter_mm=5.02), "MADE-2")
    assert of(sizes, "D1").verdict == "unknown"
    assert "gauges" in of(sizes, "D1").change
    assert of(found(SPOILT["MADE-2"], "MADE-2"), "D1").verdict == "fail"


def test_measurements_taken_from_the_wrong_edge_are_said_first():
    wide = sum(layout_of("coil-plate").outline.box()[::2])
    odd = replace(COIL, holes=tuple(replace(h, at=(wide - h.at[0], h.at[1])) for h in COIL.holes))
    first = as_made(layout_of("coil-plate"), odd)[0]
    assert (first.where, first.verdict) == ("measurements", "fail")
    assert "right edge" in first.says


def test_a_thinner_sheet_fails_and_a_thicker_one_is_a_caution():
    for thickness, verdict in (
        (2.286, "pass"), (2.25, "pass"), (2.3114, "pass"), (2.032, "fail"), (2.54, "caution"),
    ):  # fmt: skip
        (each,) = found(replace(COIL, thickness_mm=thickness), "MADE-8")
        assert each.verdict == verdict, thickness


def test_a_component_on_three_bushings_never_rocks_and_its_lean_is_told():
    part = with_length(as_drawn(layout_of("separator-bushings")), "S2", 15.5)
    (each,) = (f for f in as_made(layout_of("separator-bushings"), part) if f.code == "MADE-7")
    assert each.value == pytest.approx(0.0, abs=1e-9)
    assert "leaning" in each.says


def test_nothing_measured_is_unknown_and_never_a_pass():
    """No hole, no bushing: what is not known to fit is not passed."""
    findings = as_made(layout_of("coil-plate"), MeasuredPart((), ()))
    assert worst(findings) == "unknown"
    assert {each.code for each in findings} == {"MADE-6"}


def test_edge_distance_is_that_of_the_diameter_as_measured():
    """The same place and half as wide again: e/D falls by a third, whatever was drawn."""
    (before,) = [each for each in found(COIL, "MADE-5") if each.where == "A1" and each.unit == "e/D"]
    drawn = next(hole.diameter_mm for hole in layout_of("coil-plate").holes if hole.label == "A1")
    wide = with_hole(COIL, "A1", diameter_mm=1.5 * drawn)
    (after,) = [each for each in found(wide, "MADE-5") if each.where == "A1" and each.unit == "e/D"]
    assert after.value == pytest.approx(before.value / 1.5)
