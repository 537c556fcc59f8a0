"""The picture of a stack: in order, to the scale it states, every label its own, nothing over anything."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sheets.page_geometry import extremes, overlapping

from clampwright.layout.placed import Stack, StackItem
from clampwright.layout.stacks import build_stack, clamp_items, plain_items, screw_items
from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Box, Item, Page, Path, Text
from clampwright.sheets.ink import FINE, PALE
from clampwright.sheets.scales import scale_to_fit, scale_words
from clampwright.sheets.spread import spread
from clampwright.sheets.stack_picture import picture_height, stack_picture
from clampwright.sheets.stack_shapes import HATCH, UNSURE
from clampwright.trade.bolts import bolt
from clampwright.trade.hardware import nut, nut_for

BOX: Box = (10.0, 20.0, 100.0, 94.0)
BUSHING = StackItem("bushing", "bushing, 6061-T6", 12.7, od_mm=11.1125, id_mm=5.0165)
NUT = nut("MS21044", "AN3")
USUAL = build_stack("AN3", clamp_items(2.286, (BUSHING,), 3.213, "AN3"), NUT)


def texts(items: Sequence[Item]) -> list[Text]:
    """Labels from the top."""
    return sorted((i for i in items if isinstance(i, Text)), key=lambda text: -text.at[1])


def flat(items: Sequence[Item]) -> str:
    """All labels in one line, from the top."""
    return " ".join(text.text for text in texts(items))


def leaders(items: Sequence[Item]) -> list[Path]:
    """Lines from layers to labels."""
    return [i for i in items if isinstance(i, Path) and i.pen == FINE]


def scale_of(items: Sequence[Item]) -> float:
    """The scale as the picture states it."""
    words = next(t.text for t in texts(items) if t.text.startswith("scale "))
    up, down = words.removeprefix("scale ").split(":")
    return float(up) / float(down)


def check(items: Sequence[Item], box: Box) -> None:
    """Inside the box, no text over a text, no two leaders crossing, no leader through a text."""
    for item in items:
        for x, y in extremes(item):
            assert box[0] - 1e-6 <= x <= box[2] + 1e-6, item
            assert box[1] - 1e-6 <= y <= box[3] + 1e-6, item
    assert overlapping(Page("x", 300.0, 300.0, tuple(items))) == []
    pieces = [[(p.points[n], p.points[n + 1]) for n in (0, 1)] for p in leaders(items)]
    for one, other in combinations(pieces, 2):
        assert not any(crossing(*a, *b) for a in one for b in other)


def crossing(a: Vec2, b: Vec2, c: Vec2, d: Vec2) -> bool:
    """Whether two straight lines cross inside both."""

    def side(p: Vec2, q: Vec2, r: Vec2) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < -1e-9 and side(c, d, a) * side(c, d, b) < -1e-9


def test_labels_run_from_the_head_to_the_nut() -> None:
    said = [text.text for text in texts(stack_picture(USUAL, BOX, "mm")) if "scale" not in text.text]
    assert USUAL.chosen is not None
    assert said[0].startswith(USUAL.chosen.length.part)
    for text, item in zip(said[1:], USUAL.items, strict=False):
        assert item.name in text
        assert f"{item.thickness_mm:.2f}" in text
    assert said[len(USUAL.items) + 1].startswith("nut MS21044N3")
    assert "threads past the nut" in said[-1]


def test_layers_are_drawn_to_the_scale_that_is_stated() -> None:
    """The washers' rectangles (thickness by the tables, AN960: 0.063 and 0.032 in) and the whole stack."""
    items = stack_picture(USUAL, BOX, "mm")
    scale = scale_of(items)
    washers = [i for i in items if isinstance(i, Path) and i.fill == PALE]
    high = sorted({round(max(y for _, y in w.points) - min(y for _, y in w.points), 4) for w in washers})
    assert high == pytest.approx(
        sorted({round(scale * i.thickness_mm, 4) for i in USUAL.items if i.name == "washer"}), abs=1e-3
    )
    top = max(y for w in washers for _, y in w.points)
    low = min(y for w in washers for _, y in w.points)
    assert top - low == pytest.approx(scale * USUAL.thickness_mm, abs=1e-6)
    shank = bolt("AN3").nominal_mm * scale
    boxes = [i for i in items if isinstance(i, Path) and len(i.points) == 4]
    widths = [max(x for x, _ in b.points) - min(x for x, _ in b.points) for b in boxes]
    assert any(width == pytest.approx(shank, abs=1e-6) for width in widths)


def test_the_bushing_is_in_section_on_both_sides_of_the_bolt() -> None:
    items = stack_picture(USUAL, BOX, "mm")
    hatch = [i for i in items if isinstance(i, Path) and i.pen == HATCH]
    axis = np.mean([p[0] for i in items if isinstance(i, Path) and i.fill == PALE for p in i.points])
    assert any(p[0] < axis for line in hatch for p in line.points)
    assert any(p[0] > axis for line in hatch for p in line.points)
    for line in hatch:
        (ax, ay), (bx, by) = line.points
        assert abs(bx - ax) == pytest.approx(abs(by - ay), abs=1e-6)


def test_a_nut_of_unknown_height_is_dashed_and_said_to_be() -> None:
    unknown = replace(USUAL, nut=replace(NUT, height_mm=None))
    items = stack_picture(unknown, BOX, "mm")
    assert any(isinstance(i, Path) and i.pen == UNSURE for i in items)
    assert "height not known, drawn dashed" in flat(items)
    assert not any(isinstance(i, Path) and i.pen == UNSURE for i in stack_picture(USUAL, BOX, "mm"))


def test_a_stack_without_a_bolt_draws_it_dashed_and_says_so() -> None:
    items = stack_picture(replace(USUAL, chosen=None), BOX, "mm")
    assert any(isinstance(i, Path) and i.pen == UNSURE for i in items)
    assert texts(items)[0].text == "bolt: none of AN3 fits"
    screw = build_stack("#8", screw_items(1.5, 2.3, "#8"), nut_for("#8", 90.0))
    assert texts(stack_picture(screw, BOX, "mm"))[0].text == "#8: choose its length by hand"


def test_a_bolt_that_does_not_fit_is_said_not_to() -> None:
    assert USUAL.chosen is not None
    unfit = replace(USUAL, chosen=replace(USUAL.chosen, fits=False))
    assert "does not fit" in flat(stack_picture(unfit, BOX, "mm"))
    assert "does not fit" not in flat(stack_picture(USUAL, BOX, "mm"))


@st.composite
def stacks(draw: st.DrawFn) -> Stack:
    """Stacks of 3 to 120 mm with any layers, bolts and nuts."""
    size = draw(st.sampled_from(["AN3", "AN4", "AN8", "M5", "AN7", "#8"]))
    long = draw(st.floats(1.0, 110.0))
    bushing = StackItem(
        "bushing", "bushing, 304 stainless", long, od_mm=draw(st.sampled_from([11.1, 19.05, 9.5]))
    )
    layers = [StackItem("component lug", "component lug", draw(st.floats(0.3, 6.0)))]
    layers += [bushing] * draw(st.integers(0, 2))
    layers += [StackItem("washers", "AN960-10", 1.6, draw(st.integers(1, 3)), 11.1, 5.2)]
    layers += [StackItem("clamp feet", "clamp feet", draw(st.floats(1.0, 5.0)))] * draw(st.integers(1, 2))
    built = build_stack(size, plain_items(tuple(layers), size), nut_for(size, 90.0))
    unknown = draw(st.booleans())
    return replace(built, nut=replace(built.nut, height_mm=None)) if unknown else built


@given(stacks(), st.sampled_from(["mm", "in"]), st.floats(60.0, 190.0), st.floats(45.0, 120.0))
@settings(deadline=None, max_examples=60)
def test_any_stack_in_any_box(stack: Stack, units: str, wide: float, high: float) -> None:
    box = (5.0, 7.0, 5.0 + wide, 7.0 + high)
    items = stack_picture(stack, box, units)
    check(items, box)
    assert len(leaders(items)) >= len(stack.items) + 2


@given(stacks(), st.floats(60.0, 190.0))
@settings(deadline=None, max_examples=30)
def test_the_height_asked_for_leaves_the_labels_whole(stack: Stack, wide: float) -> None:
    box = (0.0, 0.0, wide, picture_height(stack, wide, "in"))
    items = stack_picture(stack, box, "in")
    check(items, box)
    assert not any(text.text.endswith("...") for text in texts(items))


@given(
    st.lists(st.tuples(st.floats(0.0, 100.0), st.floats(1.0, 8.0)), min_size=1, max_size=9),
    st.integers(0, 1000),
)
@settings(deadline=None, max_examples=80)
def test_spread_labels_lie_clear_and_no_clear_place_is_nearer(
    labels: list[tuple[float, float]], seed: int
) -> None:
    """Least squares: no random set of places that keeps the same rules is nearer to the targets."""
    targets = sorted((target for target, _ in labels), reverse=True)
    heights = [height for _, height in labels]
    middles = np.asarray(spread(targets, heights, -200.0, 300.0))
    need = (np.asarray(heights[:-1]) + np.asarray(heights[1:])) / 2
    assert (middles[:-1] - middles[1:] >= need - 1e-9).all()
    cost = float(((middles - targets) ** 2).sum())
    random = np.random.default_rng(seed)
    for _ in range(40):
        other = middles + random.normal(0.0, 0.3, len(middles))
        if (other[:-1] - other[1:] >= need).all():
            assert float(((other - targets) ** 2).sum()) >= cost - 1e-9


def test_labels_stay_between_the_ends_where_they_fit() -> None:
    middles = spread((100.0, 99.0, -50.0), (4.0, 4.0, 4.0), 0.0, 20.0)
    assert middles == pytest.approx((18.0, 14.0, 2.0))


@given(st.floats(0.5, 400.0), st.floats(0.5, 400.0), st.floats(5.0, 200.0), st.floats(5.0, 200.0))
@settings(deadline=None)
def test_a_scale_fits_and_is_stated(wide: float, high: float, room_wide: float, room_high: float) -> None:
    """ISO 5455 has 5:1, 2:1, 1:1, 1:2, 1:5, 1:10, 1:20 and 1:50."""
    scale = scale_to_fit((wide, high), (room_wide, room_high))
    assert wide * scale <= room_wide + 1e-6
    assert high * scale <= room_high + 1e-6
    up, down = scale_words(scale).split(":")
    assert float(up) / float(down) == pytest.approx(scale, rel=0.06)
