"""The checks on recipes that are read and laid out, from text to findings."""

from __future__ import annotations

from pathlib import Path

import pytest
from checks.findings_of import of

from clampwright.checks.all_checks import catalogue, check, worst
from clampwright.checks.finding import Finding
from clampwright.layout.lay_out import lay_out
from clampwright.recipe.read import read, read_text

RECIPES = Path(__file__).parents[2] / "recipes"
SOURCES = {info.code: set(info.sources) for info in catalogue()}

MEASURED = """
kind = "accessory plate"
name = "measured"
units = "mm"
structure.tubes.low = { start = [0, 0, 0], end = [500, 0, 0], od = 19.05 }
structure.tubes.high = { start = [0, 150, 0], end = [500, 150, 0], od = 19.05 }
zone = { temperature = "90 degC", fluids = ["oil"] }
measuring.error = 0.02
clamps = { reach = 19.81, seat = 13.13, feet = FEET }
plate = { thickness = 2.286, toward = [0, 0, 1], MARGIN round_to = 0 }
carries = [
    { name = "box", mass = "0.1 kg", holes = [[-20, 0], [20, 0]], lug = 2, body = [60, 30, 9], hole = HOLE },
]
"""


def found_in(feet: float = 2.2, margin: str = "", hole: str = '"#11"') -> tuple[Finding, ...]:
    """Findings of a recipe in which everything has been measured, with a few numbers open."""
    text = MEASURED.replace("FEET", str(feet)).replace("MARGIN", margin).replace("HOLE", hole)
    return check(lay_out(read_text(text)))


@pytest.mark.parametrize("name", ["coil-plate", "coil-plate-too-narrow", "two-tube-minimum"])
def test_findings_cite_what_the_catalogue_lists(name):
    for found in check(lay_out(read(RECIPES / f"{name}.toml"))):
        assert set(found.sources) <= SOURCES[found.code], found
        assert found.sources


def test_a_recipe_that_measures_nothing_is_unknown_and_names_what_to_measure():
    """Never a pass on defaults: reach, seat, feet, zone, fluids."""
    findings = check(lay_out(read(RECIPES / "two-tube-minimum.toml")))
    assert worst(findings) == "unknown"
    unknown = {f.code for f in findings if f.verdict == "unknown"}
    assert {"CLAMP-5", "BOLT-1", "NUT-1", "CLAMP-6", "CLAMP-7"} <= unknown
    (one,) = {f.change for f in findings if f.code == "CLAMP-5" and f.where == "A1"}
    assert all(word in one for word in ("reach", "seat", "feet", "calipers"))


def test_a_recipe_that_measures_everything_has_nothing_unknown():
    """What is left is the fit-up plan of holes transferred in place, and that it names no keep-outs."""
    findings = found_in()
    assert worst(findings) in ("pass", "caution")
    assert {f.code for f in findings if f.verdict != "pass"} <= {"FIT-1", "KEEP-1"}


def test_a_narrow_margin_fails_at_the_clamps():
    """6 mm of margin: 6 / 4.8514 = 1.24."""
    findings = found_in(margin="margin = 6,")
    found = of([f for f in findings if f.code == "EDGE-1"], "A1")
    assert (found.verdict, found.value) == ("fail", pytest.approx(6.0 / 4.8514, abs=1e-3))


def test_a_drill_for_another_bolt_fails_at_the_component():
    """5.5 mm is the ISO 273 hole of M5, above the AN3 window (TM 1-1520-240-BD para 2-6)."""
    findings = found_in(hole="5.5")
    assert of([f for f in findings if f.code == "HOLE-1"], "C1").verdict == "fail"
    assert of([f for f in findings if f.code == "HOLE-1"], "A1").verdict == "pass"
