"""What a shop is told of bushings: counts that add up, lengths as first made, limits with their reason."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise, permutations
from math import atan, degrees

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.shop.told_layouts import EXAMPLES, example
from sheets.cut_layouts import Cutting, cutting

from clampwright.layout.bushing_parts import chamfer_made
from clampwright.layout.cut_long import as_marked, left_long
from clampwright.layout.joined import Joined
from clampwright.layout.known_to import KnownTo
from clampwright.layout.shop.piece_limits import bore_limits, chamfer_limits, length_limits, square_mm
from clampwright.layout.shop.told import TurnedGroup
from clampwright.layout.shop.turned import turned
from clampwright.recipe.bushing_model import BushingStock
from clampwright.trade.general_tolerances import WHY, general
from clampwright.trade.sources import sources
from clampwright.trade.tables import rule

BAY = tuple(example(name) for name in EXAMPLES)
TOLERANCE, SPARE = rule("bushing-tolerance").value, rule("bushing-trim").value


def told(*layouts: object) -> tuple[TurnedGroup, ...]:
    return turned(layouts)  # type: ignore[arg-type]


def named(made: Cutting, name: str, sets: int = 1) -> Cutting:
    recipe = replace(made.recipe, name=name, shop=replace(made.recipe.shop, quantity=sets))
    return replace(made, recipe=recipe)


def pieces(layout: Joined) -> int:
    return sum(part.quantity for part in layout.bushings) * layout.recipe.shop.quantity


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_bushing_is_told_once(name: str) -> None:
    layout = example(name)
    groups = turned((layout,))
    assert sum(group.quantity for group in groups) == pieces(layout)
    where = Counter(label for group in groups for each in group.belongs for label in each.where)
    assert where == Counter(fill.where for part in layout.bushings for fill in part.fills)


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_numbers_are_the_layouts(name: str) -> None:
    layout = example(name)
    marked = {part.mark: part for part in as_marked(layout)}
    seen = set()
    for group in turned((layout,)):
        for each in group.belongs:
            part, longer = marked[each.mark], left_long(marked[each.mark], layout.known_to, "in")
            assert group.length_mm == pytest.approx(part.length_mm + longer.longer_mm)
            assert each.finished_mm == part.length_mm
            assert bool(group.trim) == bool(longer.long)
            assert (group.od_mm, group.bore_mm, group.stock) == (part.od_mm, part.id_mm, part.stock)
            assert group.chamfer_mm == chamfer_made(part)
            low, high = part.id_window_mm
            assert group.bore_mm - group.bore.under_mm == pytest.approx(low)
            assert group.bore_mm + group.bore.over_mm == pytest.approx(high)
            seen.add(each.mark)
    assert seen == set(marked)


def test_the_bay_is_told_in_few_groups() -> None:
    groups = turned(BAY)
    assert sum(group.quantity for group in groups) == sum(pieces(layout) for layout in BAY)
    assert [group.number for group in groups] == [f"T{n}" for n in range(1, len(groups) + 1)]
    for one, other in pairwise(groups):
        assert (one.material, one.stock, one.length_mm) <= (other.material, other.stock, other.length_mm)
    shared = [group for group in groups if len({each.recipe for each in group.belongs}) > 1]
    assert any(len(group.belongs) == 4 and group.quantity == 7 for group in shared)
    assert all(group.quantity == sum(each.quantity for each in group.belongs) for group in groups)


def test_the_order_of_recipes_does_not_matter() -> None:
    few = BAY[1:4]
    assert len({turned(order) for order in permutations(few)}) == 1


def test_nothing_to_turn() -> None:
    assert turned(()) == ()
    assert turned((example("plain-pair"),)) == ()


def test_left_long_by_hand() -> None:
    """12.70 + 2.12 + 0.50 to spare, in tenths: 15.4 as made, trimmed to 12.7 where the gap is as laid out."""
    made = replace(cutting([12.7]), known_to=(KnownTo("A1", 1.5, 0.2, 2.12, True),))
    (group,) = told(made)
    assert group.length_mm == pytest.approx(15.4)
    assert group.belongs[0].finished_mm == pytest.approx(12.7)
    assert group.trim.startswith("Left long")
    assert group.length.why == WHY
    assert group.length.under_mm <= SPARE
    assert group.mass_each_kg == pytest.approx(made.bushings[0].mass_each_kg * 15.4 / 12.7)


def test_left_long_and_made_to_length_are_never_one_group() -> None:
    long = replace(cutting([12.7]), known_to=(KnownTo("A1", 1.5, 0.2, 2.12, True),))
    same = cutting([15.4])
    groups = told(named(long, "long"), named(same, "same"))
    assert len(groups) == 2
    assert groups[0].length_mm == pytest.approx(groups[1].length_mm)
    assert sorted(bool(group.trim) for group in groups) == [False, True]


@pytest.mark.parametrize(
    ("grade", "length", "off", "own"),
    [
        ("m", 6.0, 0.1, False),
        ("m", 12.7, 0.1, True),
        ("m", 38.4, 0.1, True),
        ("f", 5.0, 0.05, False),
        ("f", 12.7, 0.1, False),
        ("f", 38.4, 0.1, True),
        ("c", 12.7, 0.1, True),
        ("inch", 12.7, 0.1, True),
    ],
)
def test_lengths_against_iso_2768_1(grade: str, length: float, off: float, own: bool) -> None:
    """ISO 2768-1, table 1: f 0.05, 0.1, 0.15; m 0.1, 0.2, 0.3 up to 6, 30, 120. The stack asks for 0.1."""
    made = cutting([length])
    (part,) = made.bushings
    limits = length_limits(part, replace(made.recipe.shop, tolerances=grade), length, long=False)
    assert (limits.under_mm, limits.over_mm) == (off, off)
    assert (limits.why != WHY) is own


def test_a_coarse_class_leaves_enough_to_trim() -> None:
    """ISO 2768-1 c is ± 0.8 above 30 mm: a piece left long by 0.5 may not come out 0.8 short."""
    made = cutting([38.4])
    limits = length_limits(made.bushings[0], replace(made.recipe.shop, tolerances="c"), 41.0, long=True)
    assert (limits.under_mm, limits.over_mm) == (SPARE, 0.8)


def test_outside_as_drawn_or_turned() -> None:
    (as_drawn,) = told(cutting([12.7]))
    assert as_drawn.make == "tube"
    assert as_drawn.od is None
    turned_down = cutting([12.7], bolt="M5", stock=BushingStock(None, "rod", 11.0, 1.5, 305.0))
    (group,) = told(turned_down)
    assert group.make == "rod"
    assert group.od == general(turned_down.recipe.shop, 11.0)


def test_two_faces_may_open_a_seat_by_no_more_than_counts_as_nothing() -> None:
    assert 2 * square_mm() <= rule("gap-nothing").value
    (group,) = told(cutting([12.7]))
    assert group.square_mm == square_mm()
    assert "0.10 mm" in group.square_why


def test_the_head_rocks_no_further_than_clamps_may_tilt() -> None:
    """Rule tilt-caution is the angle at which feet and band begin to be bent."""
    for group in turned(BAY):
        assert degrees(atan(2 * group.square_mm / group.od_mm)) < rule("tilt-caution").value


def test_a_chamfer_is_never_told_negative() -> None:
    limits = chamfer_limits(0.05)
    assert (limits.under_mm, limits.over_mm) == (0.05, rule("bushing-chamfer-tolerance").value)


def test_a_bore_outside_its_window_keeps_its_nominal() -> None:
    part = replace(cutting([12.7]).bushings[0], id_window_mm=(5.2, 5.4))
    limits = bore_limits(part)
    assert limits.under_mm == 0.0
    assert limits.holds(part.id_mm, part.id_mm)


@given(
    st.lists(
        st.tuples(
            st.lists(st.floats(4.0, 40.0), min_size=1, max_size=4),
            st.integers(1, 5),
            st.sampled_from(["mm", "in"]),
            st.sampled_from(["AN3", "AN4", "M5"]),
            st.floats(0.0, 3.0),
        ),
        min_size=1,
        max_size=4,
    )
)
@settings(deadline=None, max_examples=40)
def test_no_piece_is_lost_or_counted_twice(
    asked: list[tuple[list[float], int, str, str, float]],
) -> None:
    bay = []
    for number, (gaps, sets, units, bolt, unsure) in enumerate(asked):
        known = tuple(KnownTo(f"A{n}", 1.5, 0.2, unsure, True) for n in range(1, len(gaps) + 1, 2))
        made = replace(cutting(gaps, units=units, bolt=bolt), known_to=known)
        bay.append(named(made, f"recipe-{number}", sets))
    groups = told(*bay)
    assert sum(group.quantity for group in groups) == sum(pieces(each) for each in bay)  # type: ignore[arg-type]
    told_mass = sum(group.mass_each_kg * group.quantity for group in groups)
    least = sum(
        p.mass_each_kg * p.quantity * each.recipe.shop.quantity for each in bay for p in each.bushings
    )
    assert told_mass >= least * (1 - 1e-9)
    assert told(*reversed(bay)) == groups
    for group in groups:
        assert group.length.holds(group.length_mm, group.length_mm)
        assert group.bore.holds(group.bore_mm, group.bore_mm)
        assert group.length.under_mm <= max(TOLERANCE, SPARE)
        assert all(each.finished_mm <= group.length_mm + 1e-9 for each in group.belongs)


def test_every_source_is_known() -> None:
    for group in turned(BAY):
        assert {*group.sources, group.length.source, group.bore.source, group.specification_source} <= set(
            sources()
        )
        assert group.specification


def test_limits_are_the_closer_of_rule_and_class_on_either_side() -> None:
    """A stack that bears 0.03 under and 0.2 over, with ± 0.1 by ISO 2768-1 m up to 6 mm: - 0.03, + 0.1."""
    made = cutting([5.0])
    part = replace(made.bushings[0], tolerance_mm=(0.03, 0.2))
    limits = length_limits(part, made.recipe.shop, 5.0, long=False)
    assert (limits.under_mm, limits.over_mm) == (0.03, 0.1)
    assert limits.why != WHY
    turned_round = replace(part, tolerance_mm=(0.2, 0.03))
    limits = length_limits(turned_round, made.recipe.shop, 5.0, long=False)
    assert (limits.under_mm, limits.over_mm) == (0.1, 0.03)


def test_a_length_for_which_iso_2768_1_gives_none_is_told_its_own() -> None:
    """Class v begins above 3 mm: 2 mm is held to what the stack bears, closer than the 0.2 of class c."""
    made = cutting([5.0])
    shop = replace(made.recipe.shop, tolerances="v")
    part = replace(made.bushings[0], length_mm=2.0)
    limits = length_limits(part, shop, 2.0, long=False)
    assert (limits.under_mm, limits.over_mm) == (TOLERANCE, TOLERANCE)
    wide = length_limits(replace(part, tolerance_mm=(1.0, 1.0)), shop, 2.0, long=False)
    assert (wide.over_mm, wide.why) == (0.2, "where ISO 2768-v gives none")
