"""Checks of finished parts: pass as drawn, and for each code a part that does not."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from checks.findings_of import of
from layout.finished_plates import NAMES, RECIPES, as_drawn, layout_of, moved, with_hole, with_length

from clampwright.checks.all_checks import catalogue, check, worst
from clampwright.checks.as_made import CHECKS, as_made
from clampwright.checks.finding import VERDICTS
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
    """0.05 mm over its limit, measured to ± 0.15 that nobody stated, then to ± 0.1 as stated, then ± 0.01."""
    long = with_length(replace(COIL, plus_minus_mm=None), "S2", 14.578 + 0.05)
    for plus_minus, verdict in ((None, "unknown"), (0.1, "caution"), (0.01, "caution")):
        part = replace(long, plus_minus_mm=plus_minus)
        (each,) = (f for f in found(part, "MADE-3") if f.where.startswith("S2 "))
        assert each.verdict == ("fail" if plus_minus == 0.01 else verdict)


def test_a_bushing_left_long_fails_only_below_the_shortest_gap():
    for length, verdict in ((20.0, "pass"), (15.875, "pass"), (14.4, "pass"), (13.0, "fail")):
        (each,) = (f for f in found(with_length(COIL, "S2L", length), "MADE-3") if f.where.startswith("S2L"))
        assert each.verdict == verdict, length


def test_the_hole_to_blame_is_opened_towards_its_bolt():
    part = with_hole(COIL, "C3", by=(0.0, 1.0))
    whole = of(found(part, "MADE-1"), "coil pack")
    assert whole.verdict == "fail"
    assert "hole C3 is to blame" in whole.says
    assert "File hole C3 0.033 in toward the bottom edge to a slot" in whole.change
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
    assert of(sizes, "D1").verdict == "caution"
    assert "gauges" in of(sizes, "D1").change
    assert of(found(SPOILT["MADE-2"], "MADE-2"), "D1").verdict == "fail"


def test_measurements_taken_from_the_wrong_edge_are_said_first():
    wide = sum(layout_of("coil-plate").outline.box()[::2])
    odd = replace(COIL, holes=tuple(replace(h, at=(wide - h.at[0], h.at[1])) for h in COIL.holes))
    first = as_made(layout_of("coil-plate"), odd)[0]
    assert (first.where, first.verdict) == ("measurements", "fail")
    assert "right edge" in first.says


def test_a_thinner_sheet_fails_and_a_thicker_one_is_a_caution():
    for thickness, verdict in ((2.286, "pass"), (2.25, "pass"), (2.032, "fail"), (2.54, "caution")):
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
