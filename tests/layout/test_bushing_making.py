"""Gaps filled: packing, stack and parts agree, and every bolt fits that can."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.layout.bushing_groups import Way, fewest_lengths, washer_sets, ways
from clampwright.layout.bushing_making import Filled, ToFill, fill
from clampwright.layout.packing import pack, washer_item
from clampwright.layout.placed import StackItem
from clampwright.layout.stacks import build_stack, count_washers, plain_items
from clampwright.recipe.bushing_model import BushingStock
from clampwright.trade.hardware import nut, nut_for
from clampwright.trade.tables import rule

INCH = 25.4
STOCK = BushingStock(None, None, None, 1.5, 305.0)
LUG, FEET = StackItem("component lug", "component lug", 3.0), StackItem("clamp feet", "clamp feet", 2.6035)
NUT = nut("MS21044", "AN3")


def filled(gaps: list[float], bolt: str = "AN3", units: str = "mm", degrees_c: float = 90.0) -> Filled:
    wanted = [ToFill(f"A{n}", gap, (LUG,), (FEET,)) for n, gap in enumerate(gaps, 1)]
    return fill(wanted, bolt, nut_for(bolt, degrees_c), STOCK, degrees_c, units)


def height(items: tuple[StackItem, ...]) -> float:
    return sum(item.thickness_mm * item.count for item in items)


def test_small_gaps_are_packed_as_always() -> None:
    made = filled([0.05, 0.8, 1.2, 2.4])
    for label, gap in zip(made.packings, [0.05, 0.8, 1.2, 2.4], strict=True):
        assert made.packings[label] == pack(gap, "AN3", 90.0, "mm")
    assert made.parts == ()
    assert made.cuts.bars == ()


def test_one_bushing_by_hand() -> None:
    """1/2 in of 7/16 x .120 tube: 0.098 lb/in3 times the ring, 13.2 mm of a bar with what is faced off."""
    made = filled([12.7], units="in")
    (part,) = made.parts
    assert (part.mark, part.quantity, part.make) == ("S1", 1, "tube")
    assert part.length_mm == pytest.approx(12.7)
    pounds = 0.098 * pi / 4 * (0.4375**2 - 0.1975**2) * 0.5
    assert part.mass_each_kg == pytest.approx(pounds * 0.45359237, rel=2e-3)
    assert part.id_window_mm[0] < part.id_mm < part.id_window_mm[1]
    (item,) = made.packings["A1"]
    assert item.part == "bushing, 6061-T6, 0.4375 in OD x 0.1975 in bore x 0.500 in"
    assert made.cuts.needed_mm == ((part.stock, pytest.approx(13.2)),)


def test_a_thin_washer_saves_a_length() -> None:
    made = filled([12.7, 13.52], units="in")
    (part,) = made.parts
    assert part.quantity == 2
    assert [fill.washers for fill in part.fills] == [(), (("AN960-10L", pytest.approx(0.032 * INCH)),)]
    assert part.fills[1].left_mm == pytest.approx(13.52 - 12.7 - 0.8128)
    assert [item.name for item in made.packings["A2"]] == ["washers", "bushing"]


def test_the_stack_runs_from_the_head_through_lug_washers_bushing_and_feet() -> None:
    made = filled([12.7, 13.52], units="in")
    names = [item.name for item in made.stacks["A2"].items if item.name != "washer"]
    assert names == ["component lug", "washers", "bushing", "clamp feet"]


def test_hot_zones_take_stainless_steel_and_say_to_what() -> None:
    (part,) = filled([12.7], degrees_c=150.0).parts
    assert part.material == "304 stainless"
    assert part.max_temperature_c > 150.0


def test_a_bolt_without_known_lengths_keeps_its_bushing() -> None:
    made = fill([ToFill("A1", 12.7, (LUG,), (FEET,))], "AN7", nut("MS21044", "AN7"), STOCK, 90.0, "in")
    assert made.stacks["A1"].chosen is None
    assert len(made.parts) == 1


def test_washers_that_leave_no_bolt_are_not_used() -> None:
    """Pairs two regular washers apart could all share a length; where no dash fits then, they do not."""
    redone = 0
    for tenths in range(80, 200):
        gaps = [tenths * 0.1, tenths * 0.1 + 3.2]
        free = fewest_lengths([ways(gap, washer_sets("AN3"), 0.1) for gap in gaps])
        assert len({way.steps for way in free}) == 1
        made = filled(gaps)
        redone += len(made.parts) == 2
        for label, gap in zip(("A1", "A2"), gaps, strict=True):
            alone = [
                build_stack("AN3", plain_items((LUG, *_laid(way), FEET), "AN3"), NUT)
                for way in ways(gap, washer_sets("AN3"), 0.1).values()
            ]
            could = any(stack.chosen is not None and stack.chosen.fits for stack in alone)
            chosen = made.stacks[label].chosen
            assert chosen is not None
            assert chosen.fits or not could, (gap, label)
    assert redone > 0


def _laid(way: Way) -> tuple[StackItem, ...]:
    washers = tuple(washer_item(washer, "washers") for washer in way.washers)
    return (*washers, StackItem("bushing", "bushing", way.steps * 0.1))


@given(
    st.lists(st.floats(0.0, 45.0), min_size=1, max_size=6),
    st.sampled_from(["AN3", "AN4", "AN7", "M5", "M6"]),
    st.sampled_from(["mm", "in"]),
)
@settings(deadline=None, max_examples=60)
def test_gaps_parts_stacks_and_bars_agree(gaps: list[float], bolt: str, units: str) -> None:
    made = filled(gaps, bolt, units)
    fills = {each.where: (part, each) for part in made.parts for each in part.fills}
    for label, gap in zip(made.packings, gaps, strict=True):
        packing, stack = made.packings[label], made.stacks[label]
        tall = any(item.name == "bushing" for item in packing)
        assert tall == (label in fills)
        if packing:
            washers_only = all(item.name == "washers" for item in packing)
            limit = rule("gap-washer-tolerance" if washers_only else "gap-nothing").value
            assert abs(gap - height(packing)) <= limit + 1e-5
        else:
            assert gap < rule("gap-nothing").value
        assert count_washers(packing) <= rule("gap-washers-most").value
        assert count_washers(stack.items) <= rule("washers-most").value
        assert height(stack.items) == pytest.approx(stack.thickness_mm)
        if tall:
            part, own = fills[label]
            assert own.left_mm == pytest.approx(gap - height(packing), abs=1e-9)
            assert part.length_mm == pytest.approx(packing[-1].thickness_mm)
    assert len(made.parts) <= len(gaps)
    assert [part.length_mm for part in made.parts] == sorted({part.length_mm for part in made.parts})
    assert sum(part.quantity for part in made.parts) == sum(len(bar.cuts) for bar in made.cuts.bars)
    assert all(part.quantity == len(part.fills) for part in made.parts)
