"""The order list of a bay: every piece of every recipe's own list is in it once, with spares on top."""

from __future__ import annotations

import csv
import io
from collections import Counter
from dataclasses import replace
from typing import Any

import pytest
from files.pack.packed_bays import THREE, bay, checked, told
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.files.hardware_csv import hardware_csv
from clampwright.files.pack.bay import Bay
from clampwright.files.pack.order_lines import NEVER_WITHOUT, order_lines, spares
from clampwright.files.pack.order_list import COLUMNS, NO_LENGTH, order_list
from clampwright.files.pack.stock_lines import StockLine
from clampwright.pack import bay_of


def rows(of: Bay, stock: Any = ()) -> list[dict[str, str]]:
    """The list as a spreadsheet reads it."""
    text = order_list(of, stock).data.decode("utf-8")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def own_lists(names: tuple[str, ...], sets: int) -> Counter[str]:
    """Pieces by part number in the recipes' own hardware lists, as their files say; bushings are made."""
    pieces: Counter[str] = Counter()
    for name in names:
        text = hardware_csv(checked(name).layout).data.decode("utf-8")
        for row in csv.DictReader(io.StringIO(text, newline="")):
            if row["what"] != "bushing":
                pieces[row["part"]] += int(row["quantity"]) * sets
    return pieces


@pytest.mark.parametrize("sets", [1, 3])
def test_fitted_is_the_sum_of_the_recipes_own_lists(sets: int) -> None:
    found = rows(bay(*THREE, quantity=sets))
    assert {row["part"]: int(row["fitted"]) for row in found} == dict(own_lists(THREE, sets))
    assert len({row["part"] for row in found}) == len(found)
    for row in found:
        assert int(row["to_order"]) == int(row["fitted"]) + int(row["spares"])


def test_where_used_adds_up_and_names_every_place() -> None:
    for row in rows(bay(*THREE)):
        uses = [use.split(": ", 1)[1].split(" at ") for use in row["where_used"].split("; ")]
        assert sum(int(count) for count, _ in uses) == int(row["fitted"])
        assert all(places for _, places in uses)


def test_spares_by_hand() -> None:
    """10 % of 12 nuts is 1.2: two. 10 % of 3 is 0.3: one. None asked for: but a nut and a washer."""
    assert spares("nut", [(8, 10), (1, 10), (3, 10)]) == 2
    assert spares("clamp", [(3, 10)]) == 1
    assert spares("bolt", [(40, 0)]) == 0
    assert spares("washer", [(40, 0)]) == 1
    assert spares("bolt", [(10, 10)]) == 1
    assert spares("bolt", [(10, 10), (20, 50)]) == 11


@settings(deadline=None, max_examples=60)
@given(
    st.sampled_from(["clamp", "bolt", "screw", "nut", "washer", "shim"]),
    st.lists(st.tuples(st.integers(1, 400), st.integers(0, 200)), min_size=1, max_size=5),
)
def test_spares_are_enough_and_no_piece_more(kind: str, fitted: list[tuple[int, int]]) -> None:
    share = sum(count * percent for count, percent in fitted)
    found = spares(kind, fitted)
    if kind in NEVER_WITHOUT and found == 1:
        assert share <= 100
    else:
        assert 100 * found >= share > 100 * (found - 1) or found == share == 0


def test_no_spares_asked_for_still_leaves_nuts_and_washers() -> None:
    found = order_lines(bay(*THREE, spares_percent=0))
    assert {line.kind for line in found if line.spares} == set(NEVER_WITHOUT)
    assert {line.spares for line in found if line.kind in NEVER_WITHOUT} == {1}


def test_torques_stand_at_the_nuts_as_in_the_recipes_own_list() -> None:
    own = {line.part: line.torque_nm for name in THREE for line in checked(name).layout.hardware}
    for row in rows(bay(*THREE)):
        window = own[row["part"]]
        assert bool(row["torque_n_m"]) == (window is not None) == (row["kind"] == "nut")
        if window is not None:
            low, high = (float(word) for word in row["torque_n_m"].split(" to "))
            assert (low, high) == pytest.approx(window, abs=0.006)


def test_two_torques_of_one_nut_are_both_told() -> None:
    """As where one recipe's nut is tightened by its head."""
    one, other = (checked(name) for name in THREE[:2])
    layout: Any = other.layout
    lines = tuple(replace(line, torque_nm=(1.0, 2.0)) if line.torque_nm else line for line in layout.hardware)
    changed = replace(other, layout=replace(layout, hardware=lines))
    (row,) = (r for r in rows(bay_of([one, changed])) if r["part"] == "MS21044N3")
    assert row["torque_n_m"] == "coil-plate: 2.26 to 2.82; separator-bushings: 1.00 to 2.00"


def test_a_length_that_no_table_knows_is_said() -> None:
    (screw,) = (row for row in rows(bay("coil-plate")) if row["kind"] == "screw")
    assert NO_LENGTH in screw["note"]


def test_weights_are_those_of_the_parts() -> None:
    found = rows(bay(*THREE, quantity=2))
    own = {line.part: line.mass_each_kg for name in THREE for line in checked(name).layout.hardware}
    for row in found:
        each = own[row["part"]]
        if each is None:
            assert row["mass_each_g"] == ""
        else:
            assert float(row["mass_each_g"]) == pytest.approx(each * 1e3, abs=0.051)
            assert float(row["mass_fitted_g"]) == pytest.approx(each * 1e3 * int(row["fitted"]), abs=0.051)


def test_stock_stands_behind_the_hardware() -> None:
    bar = StockLine("bar stock", "tube 7/16 in", "12 in long", 2, ("coil-plate",), "enough")
    found = rows(bay(*THREE), [bar])
    assert [row["kind"] for row in found][-1] == "bar stock"
    assert found[-1]["to_order"] == "2"


def test_every_line_of_a_failing_recipe_says_so() -> None:
    found = rows(bay("coil-plate-too-narrow"))
    assert found
    assert {row["check"] for row in found} == {"DO NOT MAKE: a check fails"}
    assert {row["check"] for row in rows(bay("oil-hose-stand-off"))} == {"no check fails"}


def test_the_columns_and_no_formulas() -> None:
    text = order_list(bay(*THREE), ()).data.decode("utf-8")
    assert text.splitlines()[0] == ",".join(COLUMNS)
    assert all(cell[:1] not in "=+-@" for row in rows(bay(*THREE)) for cell in row.values() if cell)


def test_a_recipe_told_otherwise_changes_only_its_own() -> None:
    """Two sets of one recipe, one of the other."""
    one, other = (checked(name) for name in THREE[:2])
    found = {line.part: line.fitted for line in order_lines(bay_of([told(one, quantity=2), other]))}
    expected = own_lists(THREE[:1], 2) + own_lists(THREE[1:2], 1)
    assert found == dict(expected)
