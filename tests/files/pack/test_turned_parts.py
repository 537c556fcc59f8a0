"""Turning sheets of a bay: one, unless recipes ask the shop for different things."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from files.pack.packed_bays import THREE, bay, checked, told

from clampwright.files.pack.bay import Bay
from clampwright.files.pack.turned_parts import TURNING_SHEET, turnings
from clampwright.make import Checked
from clampwright.pack import bay_of


def pieces(of: Bay) -> int:
    """Pieces on all sheets."""
    return sum(group.quantity for turning in turnings(of) for group in turning.groups)


def test_one_sheet_where_all_ask_the_same() -> None:
    (sheet,) = turnings(bay(*THREE))
    assert sheet.name == TURNING_SHEET
    assert [group.number for group in sheet.groups] == [f"T{n}" for n in range(1, len(sheet.groups) + 1)]
    shared = [group for group in sheet.groups if len({own.recipe for own in group.belongs}) > 1]
    assert shared, "bushings that are alike are one group over recipes"


def test_another_finish_is_another_sheet_and_no_number_stands_twice() -> None:
    one, *others = (checked(name) for name in THREE)
    mixed = bay_of([told(one, finish="alodine"), *others])
    first, second = turnings(mixed)
    assert {first.shop.finish, second.shop.finish} == {"", "alodine"}
    numbers = [group.number for turning in (first, second) for group in turning.groups]
    assert numbers == [f"T{n}" for n in range(1, len(numbers) + 1)]
    assert second.name == f"{TURNING_SHEET}-from-{second.groups[0].number}"
    assert pieces(mixed) == pieces(bay(*THREE))


def test_recipes_in_inches_and_in_millimetres_stand_on_a_sheet_each() -> None:
    """A turning sheet says sizes in one unit; the shop is told the same in all other things."""
    one, other = checked(THREE[1]), checked(THREE[2])
    shop = other.layout.recipe.shop
    recipe: Any = replace(one.layout.recipe, units="mm", shop=shop)
    layout: Any = replace(one.layout, recipe=recipe)
    metric, inch = sorted(
        turnings(bay_of([Checked(layout, one.findings), other])),
        key=lambda turning: turning.groups[0].belongs[0].recipe,
        reverse=True,
    )
    assert metric.shop == inch.shop
    assert [{own.recipe for group in each.groups for own in group.belongs} for each in (metric, inch)] == [
        {THREE[1]},
        {THREE[2]},
    ]
    same: Any = replace(one.layout, recipe=replace(recipe, units="in"))
    (sheet,) = turnings(bay_of([Checked(same, one.findings), other]))
    assert len(sheet.groups) <= len(metric.groups) + len(inch.groups)


def test_sets_count() -> None:
    assert pieces(bay(*THREE, quantity=4)) == 4 * pieces(bay(*THREE))


def test_nothing_to_turn() -> None:
    assert turnings(bay("plain-pair")) == ()
