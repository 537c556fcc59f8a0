"""The order of assembly: what comes before what (common practice, no source), with the layout's own words."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.joined.hand_layouts import BUSHED, CLAMP, HELD_OFF
from checks.joined.panel_layout import ON_PANEL

from clampwright.layout.order_of_work import marks_of, order, stack_words


def step(steps, word):
    """Number of the first step that has a word."""
    return next(i for i, text in enumerate(steps) if word in text)


@pytest.mark.parametrize("layout", [BUSHED, HELD_OFF, ON_PANEL], ids=["component", "pair", "panel"])
def test_nothing_is_tightened_before_everything_fits(layout):
    """Marks, loops on loose, wire, bolts, by hand, torque, paint, a look at it running."""
    steps = order(layout)
    at = [
        step(steps, word)
        for word in (
            "Mark where",
            "bolt loose",
            "safety wire",
            ": put ",
            "by hand",
            "Tighten",
            "paint",
            "first hour",
        )
    ]
    assert at == sorted(at)
    assert len(set(at)) == len(at)
    assert all(text.endswith(".") for text in steps)


def test_every_bolt_with_its_layers_from_the_head():
    steps = [text for text in order(BUSHED) if ": put " in text]
    assert [text.split(":")[0] for text in steps] == ["A1", "A2", "B1"]
    assert all("in from above" in text for text in steps)
    assert "bushing S2 (14.00 mm)" in steps[0]
    assert "bushing S1 (6.00 mm)" in steps[2]
    for text, joint in zip(steps, BUSHED.joints, strict=True):
        assert joint.stack.chosen is not None
        assert joint.stack.chosen.length.part in text
        assert (
            text.index("component lug")
            < text.index("bushing")
            < text.index("clamp feet")
            < text.index("nut ")
        )


def test_the_larger_of_two_clamps_is_wired():
    larger = replace(HELD_OFF.loops[1], clamp=replace(CLAMP, loop_mm=25.4))
    layout = replace(HELD_OFF, loops=(HELD_OFF.loops[0], larger))
    assert any("Draw B1, the larger clamp, closed" in text for text in order(layout))
    assert any("Draw A1, the first of the two equal clamps" in text for text in order(HELD_OFF))


def test_the_panel_is_drilled_first():
    assert "drill the one hole of 4.85 mm" in order(ON_PANEL)[0]


def test_torque_is_told_once_for_equal_bolts_and_asked_for_where_none_is_known():
    (line,) = (text for text in order(BUSHED) if text.startswith("Tighten"))
    assert "A1, A2 and B1 to 2.3 to 2.8 N m (20 to 25 in-lb)" in line
    joint = HELD_OFF.joints[0]
    bare = replace(HELD_OFF, joints=(replace(joint, stack=replace(joint.stack, torque=None)),))
    assert any("no torque is in the tables" in text for text in order(bare))


def test_marks_and_words():
    assert [marks_of(j, BUSHED) for j in BUSHED.joints] == [("S2",), ("S2",), ("S1",)]
    assert stack_words(HELD_OFF.joints[0], HELD_OFF) == (
        "AN960-10L, clamp feet, bushing S1 (33.70 mm), clamp feet, AN960-10L and nut MS21044N3"
    )


def test_inches_in_an_inch_recipe():
    inches = replace(BUSHED, recipe=replace(BUSHED.recipe, units="in"))
    assert not any(" mm" in text for text in order(inches))
