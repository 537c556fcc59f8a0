"""Heat and fluids: insert nuts end at 250 degF (AC 43.13-1B 7-64f), MIL-HDBK-5J for the plate."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import LAYOUT, with_each_clamp, with_zone
from checks.findings_of import of, verdicts

from clampwright.checks.temperature import (
    cushion_fluids,
    cushion_temperature,
    nut_temperature,
    plate_temperature,
)
from clampwright.layout.placed import PlateLayout
from clampwright.trade.hardware import nut


def assuming(*keys):
    """The example whose recipe left some keys out."""
    return replace(LAYOUT, recipe=replace(LAYOUT.recipe, assumed=tuple((k, "assumed") for k in keys)))


@pytest.mark.parametrize(("degf", "verdict"), [(200.0, "pass"), (249.9, "pass"), (250.1, "fail")])
def test_insert_nuts_end_at_250_degf_ac_43_13_1b_7_64f(degf, verdict):
    """With the nut of the tables, on clamps only."""
    made = nut("MS21044", "AN3")
    clamps = tuple(replace(c, stack=replace(c.stack, nut=made)) for c in LAYOUT.clamps)
    layout = with_zone(replace(LAYOUT, clamps=clamps, components=()), temperature_c=(degf - 32) / 1.8)
    assert verdicts(nut_temperature(layout)) == {verdict}


def test_a_hot_zone_is_told_the_nut_to_take():
    (found,) = nut_temperature(with_zone(temperature_c=180.0))
    assert found.change.startswith("Take MS21045-3, good for 232")


def test_a_zone_too_hot_for_any_nut_says_so():
    (found,) = nut_temperature(with_zone(temperature_c=300.0))
    assert found.verdict == "fail"
    assert "no nut in the tables stands 300" in found.change


def test_cushion_temperature(layout: PlateLayout):
    assert verdicts(cushion_temperature(layout)) == {"pass"}
    (found,) = cushion_temperature(with_zone(temperature_c=205.0))
    assert (found.verdict, found.value, found.limit) == ("fail", 205.0, 204.0)
    assert "205" in found.change


def test_no_cushion_for_two_fluids_that_exclude_each_other():
    """Phosphate ester and petroleum: nothing in the table stands both."""
    (found,) = cushion_fluids(with_zone(fluids=("hydraulic", "fuel")))
    assert found.verdict == "fail"
    assert found.change.startswith("No cushion in the tables stands hydraulic fluid and fuel at 93 °C")


@pytest.mark.parametrize("run", [nut_temperature, cushion_temperature])
def test_an_assumed_zone_temperature_is_unknown_not_a_pass(run):
    (found,) = run(assuming("zone.temperature"))
    assert found.verdict == "unknown"
    assert "assumed" in found.sources
    assert 'temperature = "93 °C"' in found.change


def test_an_assumed_temperature_still_fails_what_it_is_too_hot_for():
    (found,) = nut_temperature(with_zone(assuming("zone.temperature"), temperature_c=150.0))
    assert found.verdict == "fail"


@pytest.mark.parametrize(
    ("code", "fluid", "verdict"),
    [
        ("CJ", "fuel", "pass"),
        ("CH", "fuel", "fail"),  # silicone and fuel do not go together (MS21919 sheet, from memory)
        ("CE", "hydraulic", "pass"),  # ethylene propylene for phosphate ester (article on the MS21919 sheet)
        ("CE", "oil", "fail"),
        ("CF", "fuel", "pass"),
        ("CF", "hydraulic", "fail"),
    ],
)
def test_cushions_and_fluids_ms21919(code, fluid, verdict):
    (found,) = cushion_fluids(with_zone(with_each_clamp(code=code), fluids=(fluid,)))
    assert found.verdict == verdict
    assert (found.value > 0) == (verdict == "fail")


def test_a_wrong_cushion_is_told_the_code():
    (found,) = cushion_fluids(with_zone(with_each_clamp(code="CH", part="MS21919WCH12"), fluids=("fuel",)))
    assert found.change == "Take MS21919WCJ12, or keep fuel away from it."


def test_no_fluids_said_is_a_pass_and_not_said_is_unknown():
    assert verdicts(cushion_fluids(with_zone(fluids=()))) == {"pass"}
    assert verdicts(cushion_fluids(with_zone(assuming("zone.fluids"), fluids=()))) == {"unknown"}


def test_plate_temperature():
    """A limit of 150 degC, from the layout's own material; none, no finding."""
    limited = replace(LAYOUT, material=replace(LAYOUT.material, max_temperature_c=150.0))
    assert of(plate_temperature(limited), "plate").verdict == "pass"
    assert of(plate_temperature(with_zone(limited, temperature_c=151.0)), "plate").verdict == "fail"
    assert plate_temperature(LAYOUT) == ()
