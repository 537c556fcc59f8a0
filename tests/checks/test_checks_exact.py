"""SOLID-1 on plain numbers: verdict, limit and words for each kind of pair."""

from __future__ import annotations

from dataclasses import replace

import pytest
from joined_recipes import stand_off_recipe

from clampwright.checks.exact import INFO, runs_into, solids_clear
from clampwright.layout.clearance_found import CLAMPS, KEEP_OUT, OWN_STACK, PARTS, STRUCTURE, Clearance
from clampwright.layout.pairing.lay_out import lay_out_stand_off
from clampwright.trade.tables import rule

LAYOUT = lay_out_stand_off(stand_off_recipe())
CLEAR = Clearance("clamp A1", "tube high", STRUCTURE, 8.0, 0.0, 8.0)


@pytest.mark.parametrize(
    ("change", "verdict"),
    [
        ({}, "pass"),
        ({"exact_mm": 3.0}, "pass"),
        ({"exact_mm": 2.9}, "caution"),
        ({"exact_mm": 2.9, "kind": CLAMPS}, "caution"),
        ({"exact_mm": 0.011}, "caution"),
        ({"exact_mm": 0.009}, "fail"),
        ({"exact_mm": 0.0, "common_mm3": 40.0}, "fail"),
        ({"exact_mm": 40.0, "kind": KEEP_OUT, "asked_mm": 50.0}, "fail"),
        ({"exact_mm": 50.0, "kind": KEEP_OUT, "asked_mm": 50.0}, "pass"),
        ({"exact_mm": 0.0, "kind": OWN_STACK, "common_mm3": 40.0}, "fail"),
    ],
)
def test_verdicts(change: dict[str, object], verdict: str) -> None:
    """Clearances of 3 mm between clamps and beside components; touching counts from 0.01 mm down."""
    (finding,) = solids_clear([replace(CLEAR, **change)], LAYOUT)
    assert finding.verdict == verdict
    assert (finding.change == "") == (verdict == "pass")
    assert finding.code == INFO.code == "SOLID-1"
    assert all(finding.sources)


def test_what_simple_bodies_passed_and_solids_do_not_is_said() -> None:
    (finding,) = solids_clear([replace(CLEAR, exact_mm=1.5, simple_mm=9.0)], LAYOUT)
    assert "the simple bodies leave 9.00 mm and pass: go by the solids" in finding.says
    assert finding.change == "Move clamp A1 1.50 mm away from tube high."


def test_a_difference_is_said_from_the_stated_amount_on() -> None:
    differ = rule("solids-differ").value
    (same,) = solids_clear([replace(CLEAR, simple_mm=8.0 - differ)], LAYOUT)
    (less,) = solids_clear([replace(CLEAR, simple_mm=7.9 - differ)], LAYOUT)
    (none,) = solids_clear([replace(CLEAR, simple_mm=None)], LAYOUT)
    assert "simple" not in same.says
    assert "(the simple bodies leave only 6.90 mm)" in less.says
    assert "no simple body" in none.says


def test_volume_shared_is_said_and_the_remedy_is_the_kind_s() -> None:
    own = replace(CLEAR, exact_mm=0.0, common_mm3=123.4, kind=OWN_STACK, other="clamp B1")
    (finding,) = solids_clear([own], LAYOUT)
    assert "123 mm3" in finding.says
    assert "longer spacer" in finding.change
    assert runs_into(own)


def test_the_least_stands_for_a_pass_and_every_failure_is_told() -> None:
    close, far = replace(CLEAR, exact_mm=4.0, other="tube low"), CLEAR
    assert [f.where for f in solids_clear([far, close], LAYOUT)] == ["clamp A1/tube low"]
    bad = replace(CLEAR, exact_mm=0.0, kind=PARTS, other="component pump")
    worse = replace(bad, other="component relay")
    assert len(solids_clear([far, bad, worse], LAYOUT)) == 2


def test_nothing_near_is_a_pass_that_says_so() -> None:
    (finding,) = solids_clear([], LAYOUT)
    assert (finding.verdict, finding.limit) == ("pass", rule("solids-near").value)
    assert "6.00 mm" in finding.says


def test_catalogue_line_names_its_rules_and_their_sources() -> None:
    assert {rule(key).source for key in INFO.rules} == set(INFO.sources)
