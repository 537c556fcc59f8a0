"""± of the exact clearances: that of the simple bodies where these are the same; in file and words."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest
from joined_recipes import HIGH, LOW
from solids.joined.hand_component import hand_component
from solids.joined.pairs import stand_off

from clampwright.checks.clash_joined import held_clear
from clampwright.checks.exact import solids_clear
from clampwright.files.clearances_csv import clearances_csv
from clampwright.layout.clearance_found import Clearance
from clampwright.layout.joined import Joined
from clampwright.recipe.model import Measuring
from clampwright.solids.apart import apart_mm
from clampwright.solids.clearances import clearances
from clampwright.solids.joined_assembly import joined_assembly
from clampwright.solids.shapes import moved, ring
from clampwright.solids.tube import tube_place, tube_shape
from clampwright.structure.surroundings import Panel
from clampwright.structure.tubes import Structure, Tube


def known_to(layout: Joined, error_mm: float) -> Joined:
    recipe = replace(layout.recipe, measuring=Measuring(error_mm, True))
    return replace(layout, recipe=recipe)  # type: ignore[type-var]


def measured(layout: Joined) -> dict[tuple[str, str], Clearance]:
    return {(c.one, c.other): c for c in clearances(layout, joined_assembly(layout))}


def off(found: Clearance) -> float:
    assert found.known is not None
    return found.known.plus_minus_mm


def test_a_box_and_a_tube_have_the_simple_bodies_plus_minus() -> None:
    """The separator's box is its body; which of the equally near places is taken matters by 5 % at most."""
    layout = known_to(hand_component(), 1.5)
    exact = measured(layout)["component separator", "tube high"]
    (simple,) = (f for f in held_clear(layout) if f.where == "separator")
    assert simple.plus_minus is not None
    assert off(exact) == pytest.approx(simple.plus_minus, rel=0.05)
    assert simple.plus_minus > 0.1


def test_a_panel_errs_on_its_own_beside_the_clamps() -> None:
    """± 1.5 of the panel and what the clamps' settling adds."""
    roof = Panel("roof", (900.0, -700.0, 119.0), (0.0, 0.0, -1.0), 0.8, "6061-T6")
    layout = known_to(hand_component(), 1.5)
    among = replace(layout, recipe=replace(layout.recipe, structure=Structure((LOW, HIGH), (roof,))))
    found = measured(among)["component separator", "panel roof"]
    assert 1.5 < off(found) < 4.0
    assert found.known is not None
    assert found.known.measured_mm > 1.5


def test_nothing_errs_without_a_measuring_error_but_the_clamps() -> None:
    """Twice the error is twice the ±, but for calipers on reach and seat."""
    for make in (hand_component, lambda: stand_off("skew")):
        by_error = [measured(known_to(make(), error)) for error in (1.0, 2.0)]
        shared = [key for key in by_error[0] if by_error[0][key].known is not None]
        assert shared
        for key in shared:
            one, two = (found[key].known for found in by_error)
            assert one is not None
            assert two is not None
            assert two.measured_mm == pytest.approx(2 * one.measured_mm, rel=0.05, abs=1e-3)


def test_doubt_is_a_caution_in_the_words_and_a_column_in_the_file() -> None:
    layout = known_to(hand_component(), 1.5)
    exact = measured(layout)["component separator", "tube high"]
    thin = replace(exact, exact_mm=3.2, simple_mm=3.2, known=replace(exact.clear, mm=3.2))
    (found,) = solids_clear([thin], layout)
    assert found.verdict == "caution"
    assert f"3.20 mm ± {off(exact):.2f} mm apart as solids, and could" in found.says
    rows = list(csv.DictReader(io.StringIO(clearances_csv(layout, [thin]).data.decode(), newline="")))
    assert float(rows[0]["plus_minus_95_mm"]) == pytest.approx(off(exact), abs=5e-4)


def test_where_two_solids_are_nearest_by_hand() -> None:
    """Two tubes of 20 that cross 50 apart: 30 mm between their skins, one above the other."""
    low = Tube("low", (0.0, 0.0, 0.0), (100.0, 0.0, 0.0), 20.0)
    over = Tube("over", (40.0, -80.0, 50.0), (40.0, 80.0, 50.0), 20.0)
    a, b = (moved(tube_shape(t.od_mm, t.length_mm), tube_place(t, 0.0)) for t in (low, over))
    apart, places = apart_mm(a, b)
    assert apart == pytest.approx(30.0, abs=1e-6)
    assert places[0][0] == pytest.approx((40.0, 0.0, 10.0), abs=1e-4)
    assert places[0][1] == pytest.approx((40.0, 0.0, 40.0), abs=1e-4)
    disc = ring(4.0, 0.0, 1.0)
    assert apart_mm(disc, disc)[0] == 0.0
