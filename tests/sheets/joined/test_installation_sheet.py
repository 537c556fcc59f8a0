"""The installation sheet: each clamp's place and each bolt's stack for every kind, nothing over anything."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from functools import cache
from pathlib import Path as File

import numpy as np
import pytest
from hypothesis import HealthCheck, given, reject, settings
from hypothesis import strategies as st
from joined_recipes import carried, parallel, stand_off_recipe
from sheets.joined.any_layout import any_layout, feet_direction, independent_clock
from sheets.joined.by_hand import LEVEL, UPRIGHT, USUAL, ByHand, layout_of
from sheets.page_geometry import outside, overlapping, texts, words
from sheets.sheet_plates import CAUTION, FAIL, FAILING, FINE, UNKNOWN

from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.joined import Joined, line_named
from clampwright.layout.order_of_work import order
from clampwright.layout.pairing.lay_out import lay_out_stand_off
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.make import check_recipe
from clampwright.sheets.bolt_way import bolt_way, way_words
from clampwright.sheets.installation_sheet import installation_sheet
from clampwright.sheets.joint_panel import clamps_of, grouped
from clampwright.sheets.tube_wraps import tube_wraps

RECIPES = File(__file__).parents[3] / "recipes"
PAPERS = ["letter", "a4"]


@cache
def of_recipe(name: str) -> Joined:
    """The layout of a recipe of the examples."""
    return check_recipe(RECIPES / f"{name}.toml").layout


def crossing() -> StandOffLayout:
    """The hose that crosses over the low tube."""
    return lay_out_stand_off(stand_off_recipe())


def beside() -> StandOffLayout:
    """The hose that runs beside it."""
    return lay_out_stand_off(stand_off_recipe(carried=parallel(55.0, (0.0, 0.6, 0.8))))


EXAMPLES = [
    "coil-plate",
    "oil-hose-stand-off",
    "plain-pair",
    "bundle-on-firewall",
    "separator-bushings",
    "regulator-too-wide",
]


def flat(layout: Joined, paper: str = "a4") -> str:
    """All words of the sheet in one line."""
    return words(installation_sheet(layout, FAILING, paper).pages).replace("\n", " ")


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_lies_over_anything(name: str, paper: str) -> None:
    for page in installation_sheet(of_recipe(name), FAILING, paper).pages:
        assert outside(page, 8.0) == []
        assert overlapping(page) == []


@given(any_layout(), st.sampled_from(PAPERS))
@settings(deadline=None, max_examples=20, suppress_health_check=[HealthCheck.too_slow])
def test_random_layouts_stay_on_their_pages(layout: ByHand, paper: str) -> None:
    sheet = installation_sheet(layout, FAILING, paper)
    for page in sheet.pages:
        assert outside(page, 8.0) == []
        assert overlapping(page) == []
    text = words(sheet.pages)
    assert all(loop.label in text for loop in layout.loops)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_clamp_stands_there_with_both_stations_clock_and_part(name: str) -> None:
    layout = of_recipe(name)
    text, units = flat(layout), layout.recipe.units
    for loop in layout.loops:
        tube = line_named(loop.tube, layout)
        assert f"{loop.label} on {loop.tube}, OD" in text
        part = text[text.index(f"{loop.label} on {loop.tube}, OD") :]
        part = part[: part.index(loop.clamp.part) + 130]
        start, end = loop.station_mm, math.dist(tube.start, tube.end) - loop.station_mm
        found = re.search(r"station (\S+) in \((\S+) mm\) from the start at (\[[^]]*\]) in", part)
        assert found is not None
        assert float(found[1]) == pytest.approx(start / 25.4, abs=6e-4)
        assert float(found[2]) == pytest.approx(start, abs=6e-3)
        assert [float(c) for c in found[3].strip("[]").split(",")] == pytest.approx(
            [c / 25.4 for c in tube.start], abs=6e-4
        )
        rest = re.search(r"(\S+) in \((\S+) mm\) from the end", part)
        assert rest is not None
        assert float(rest[2]) == pytest.approx(end, abs=6e-3)
        feet = independent_clock(loop, feet_direction(loop))
        face = independent_clock(loop, np.asarray(loop.bolt_axis))
        said = [float(deg) for deg in re.findall(r"\d+:\d\d \((\d+)°", part)][:2]
        for deg, expected in zip(said, (feet, face), strict=True):
            assert min((deg - expected) % 360, (expected - deg) % 360) <= 0.5
        assert loop.clamp.part in part
        assert "wrap" in part
        assert units == "in"


def test_millimetres_first_in_a_recipe_in_millimetres() -> None:
    text = flat(USUAL)
    assert "150.00 mm (5.906 in) from the start at [100, -50, 20] mm" in text


def test_an_upright_tube_says_what_counts_as_twelve() -> None:
    assert ", 12:00 is the +x side)" in flat(layout_of([(UPRIGHT, [(120.0, 2.0)])]))
    assert ", 12:00 is the +x side)" not in flat(layout_of([(LEVEL, [(120.0, 2.0)])]))


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_bolt_has_its_picture_bolt_nut_and_torque_in_both_units(name: str) -> None:
    """20 to 25 inch-pounds for 10-32 in tension, AC 43.13-1B table 7-1: 2.26 to 2.82 N m."""
    layout = of_recipe(name)
    text = flat(layout)
    for group in grouped(layout.joints):
        stack = group[0].stack
        assert stack.chosen is not None
        assert f"{stack.chosen.length.part}: grip" in text
        assert f"Bolt {stack.chosen.length.part}, nut {stack.nut.part}" in text
    assert text.count("scale ") >= len(grouped(layout.joints)) + 1
    assert "20 to 25 in-lb (2.3 to 2.8 N m), on top of the nut's own drag" in text


def test_bushings_go_by_their_marks() -> None:
    layout = of_recipe("oil-hose-stand-off")
    (part,) = layout.bushings
    assert part.mark == "S1"
    assert f"bushing S1, {part.length_mm / 25.4:.3f} in ({part.length_mm:.2f} mm) long" in flat(layout)


def test_feet_of_a_pair_are_named_in_the_order_in_which_the_bolt_meets_them() -> None:
    """From the head: the foot faces at centre + seat * bolt axis, projected on the bolt."""
    for layout in (crossing(), beside()):
        (joint,) = layout.joints
        faces = {
            loop.label: float(
                (np.asarray(loop.centre) + loop.clamp.seat_mm * np.asarray(loop.bolt_axis) - joint.head)
                @ np.asarray(joint.axis)
            )
            for loop in layout.loops
        }
        first, second = sorted(faces, key=lambda label: faces[label])
        assert [loop.label for loop in clamps_of(joint, layout)] == [first, second]
        text = flat(layout)
        assert text.index(f"feet of {first},") < text.index(f"feet of {second},")
        assert f"head on the feet of {first}, nut on the feet of {second}" in text


def test_the_way_of_a_bolt_in_words() -> None:
    assert way_words((0.0, -1.0, 0.0)) == "to -y"
    assert way_words((0.0, -0.8, 0.6)) == "to -y, 37° towards up"
    (joint, *_) = USUAL.joints
    up = replace(joint, axis=(0.0, 0.0, -1.0))
    assert bolt_way(up, ["A1"]) == "head on the component lug, nut on the feet of A1; the head looks up"


def test_equal_bolts_of_a_component_share_a_panel_and_clamps_do_not() -> None:
    layout = of_recipe("coil-plate")
    groups = [[joint.label for joint in group] for group in grouped(layout.joints)]
    assert ["C1", "C2", "C3", "C4"] in groups
    assert [label for group in groups for label in group] == [joint.label for joint in layout.joints]
    assert all(len(group) == 1 for group in groups if group[0] in {loop.label for loop in layout.loops})
    assert "D1, D2 relay, 2 off" in re.sub(" +", " ", flat(layout))


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_order_of_assembly_and_what_the_next_mechanic_looks_at(name: str) -> None:
    layout = of_recipe(name)
    text = flat(layout)
    for step in order(layout):
        assert step.split(". ")[0][:60] in text
    for wanted in (
        "For the next mechanic",
        "Stations count from each tube's start",
        "line of paint",
        "under the band",
        "Cushions hard",
    ):
        assert wanted in text
    assert "Common practice, no source" in text


def test_other_places_of_the_bolt_are_listed() -> None:
    layout = crossing()
    text = flat(layout)
    assert len(layout.places) > 1
    assert f"{layout.place.number}, on this sheet" in text
    for place in layout.places:
        assert f"{place.spacer_mm:.2f}" in text
        assert f"{place.station_line_mm:.2f}" in text


def test_a_pair_says_distance_angle_and_scale() -> None:
    layout = crossing()
    text = flat(layout)
    assert "Seen along low from its start, scale 1:1" in text
    assert f"{layout.distance_mm:.2f} mm" in text
    assert f"{math.degrees(layout.crossing_rad):.1f}° between line and low" in text


def test_other_answers_for_a_component_are_listed() -> None:
    layout = of_recipe("regulator-too-wide")
    assert isinstance(layout, BushingLayout)
    text = flat(layout)
    assert layout.others
    assert f"{layout.fitting} of {layout.examined} ways fit" in text
    for answer in (layout.answer, *layout.others):
        assert f"{answer.longest_mm / 25.4:.3f}" in text
        assert answer.says[:40] in text or answer.breaks[0][:40] in text
    assert "x, y the component's own; its origin lies at" in text


def test_a_component_that_does_not_fit_says_at_which_hole_and_by_how_much() -> None:
    layout = of_recipe("regulator-too-wide")
    assert isinstance(layout, BushingLayout)
    assert not layout.answer.fits
    text = flat(layout)
    assert "does not fit" in text
    for held in layout.answer.holes:
        if math.hypot(*held.misfit_mm) > layout.answer.allowed_mm:
            assert f"hole {held.hole}: the bolt on {held.tube} misses it by" in text
    for remedy in layout.remedies:
        assert remedy.says[:40] in text
    assert "crosses where the clamps' bolts come" in text
    assert "crosses where the clamps' bolts come" not in flat(of_recipe("separator-bushings"))


directions = st.tuples(*(st.floats(-1.0, 1.0) for _ in range(3))).filter(lambda d: math.hypot(*d) > 0.3)


@given(
    directions,
    st.floats(30.0, 90.0),
    st.floats(0.0, 6.28),
    st.floats(5.0, 60.0),
    st.sampled_from(["mm", "in"]),
)
@settings(deadline=None, max_examples=10, suppress_health_check=[HealthCheck.too_slow])
def test_random_lines_over_a_tube_are_drawn(
    direction: tuple[float, float, float], away: float, angle: float, od: float, units: str
) -> None:
    point = (250.0, away * math.cos(angle), away * math.sin(angle))
    long = math.hypot(*direction)
    x, y, z = (c / long for c in direction)
    line = carried(point=point, to=None, direction=(x, y, z), od_mm=od)
    try:
        layout = lay_out_stand_off(replace(stand_off_recipe(carried=line), units=units))
    except CannotLayOut:  # the line runs through the tube's axis
        reject()
    for page in installation_sheet(layout, FINE, "letter").pages:
        assert outside(page, 8.0) == []
        assert overlapping(page) == []
    for page in tube_wraps(layout, FINE, "letter").pages:
        assert outside(page, 8.0) == []
        assert overlapping(page) == []


def test_a_component_without_a_box_is_drawn_by_its_holes() -> None:
    layout = of_recipe("separator-bushings")
    assert isinstance(layout, BushingLayout)
    bare = replace(layout, component=None, others=())
    text = flat(bare)
    assert "hole 3" in text
    assert "Other ways to hold it" not in text


def test_findings_assumptions_and_cautions() -> None:
    text = flat(of_recipe("coil-plate"))
    for wanted in (
        FAIL.change,
        CAUTION.change,
        UNKNOWN.change[:40],
        "experimental, amateur-built",
        "Strength and vibration are not judged",
        "Assumed: the recipe does not say",
        "clamps.each",
    ):
        assert wanted in text


def test_do_not_install_exactly_when_a_check_fails() -> None:
    for findings, stops in ((FINE, False), ((), False), (FAILING, True)):
        for page in installation_sheet(USUAL, findings, "letter").pages:
            assert ("DO NOT INSTALL" in words((page,))) is stops
            assert "DO NOT DRILL" not in words((page,))


def test_a_sheet_without_anything_bolted_is_still_a_sheet() -> None:
    bare = replace(USUAL, loops=(), joints=())
    pages = installation_sheet(bare, (), "a4").pages
    assert len(pages) >= 1
    assert all(texts(page) for page in pages)


def test_the_head_names_the_kind_where_there_is_no_plate() -> None:
    assert "kind stand-off recipe" in flat(USUAL)
    assert "material 6061-T6 sheet" in flat(of_recipe("coil-plate"))
