"""Heat and fluids: insert nuts end at 250 degF (AC 43.13-1B 7-64f), MIL-HDBK-5J for the plate."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import LAYOUT, with_each_clamp, with_zone
from checks.findings_of import of, verdicts

from clampwright.checks.all_checks import check, grouped
from clampwright.checks.fluids import cushion_fluids
from clampwright.checks.temperature import (
    cushion_temperature,
    nut_temperature,
    plate_temperature,
    zone_temperature,
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
    assert found.change == "See ZONE-1."
    assert found.says.endswith("the zone is assumed to have 93 °C.")


def test_a_default_temperature_is_asked_for_once_and_never_handed_back():
    """The weakest part is the insert nut, 121 degC; the default itself is no text to paste."""
    (found,) = zone_temperature(assuming("zone.temperature"))
    assert (found.verdict, found.value, found.limit) == ("unknown", 93.0, None)
    assert 'temperature = "... degC"' in found.change
    assert "93" not in found.change
    assert "serves up to 121 °C (MS21044N3)" in found.says
    assert "assumed" in found.sources


def test_a_given_temperature_passes_with_what_the_parts_serve():
    (found,) = zone_temperature(LAYOUT)
    assert found.verdict == "pass"
    assert found.says == "The recipe gives the zone 93 °C; what is chosen serves up to 121 °C (MS21044N3)."


def test_inch_recipes_are_asked_for_degrees_fahrenheit():
    layout = assuming("zone.temperature")
    (found,) = zone_temperature(replace(layout, recipe=replace(layout.recipe, units="in")))
    assert 'temperature = "... degF"' in found.change


def test_clamps_of_two_sizes_are_one_line_for_people():
    """Two part numbers of one cushion say the same of the heat."""
    other = replace(LAYOUT.clamps[0].clamp, part="MS21919WCJ10", dash=10)
    layout = assuming("zone.temperature")
    layout = replace(layout, clamps=(replace(layout.clamps[0], clamp=other), *layout.clamps[1:]))
    (found,) = (f for f in grouped(check(layout)) if f.code == "CLAMP-6")
    assert found.where == "MS21919WCJ10, MS21919WCJ12"


def test_an_assumed_temperature_still_fails_what_it_is_too_hot_for():
    (found,) = nut_temperature(with_zone(assuming("zone.temperature"), temperature_c=150.0))
    assert found.verdict == "fail"
    assert found.change.endswith("First see ZONE-1: measure the zone.")


@pytest.mark.parametrize(
    ("code", "fluid", "verdict"),
    [
        ("CJ", "fuel", "pass"),
        ("CH", "fuel", "fail"),  # silicone and fuel do not go together (MS21919 sheet, from memory)
        ("CH", "oil", "caution"),  # silicone only with care (the same sheet, from memory)
        ("CE", "hydraulic", "pass"),  # ethylene propylene for phosphate ester (article on the MS21919 sheet)
        ("CE", "oil", "fail"),
        ("CF", "fuel", "pass"),
        ("CF", "hydraulic", "fail"),
    ],
)
def test_cushions_and_fluids_ms21919(code, fluid, verdict):
    (found,) = cushion_fluids(with_zone(with_each_clamp(code=code), fluids=(fluid,)))
    assert found.verdict == verdict
    assert (found.value > 0) == (verdict != "pass")


def test_a_wrong_cushion_is_told_the_code():
    (found,) = cushion_fluids(with_zone(with_each_clamp(code="CH", part="MS21919WCH12"), fluids=("fuel",)))
    assert found.change == "Take MS21919WCJ12, or keep fuel away from it."


def test_oil_on_silicone_is_told_what_stands_it_better():
    (found,) = cushion_fluids(with_zone(with_each_clamp(code="CH", part="MS21919WCH12"), fluids=("oil",)))
    assert found.change == "Take MS21919WCJ12, or keep oil away from it."


def test_no_fluids_said_is_a_pass_and_not_said_is_unknown():
    assert verdicts(cushion_fluids(with_zone(fluids=()))) == {"pass"}
    (found,) = cushion_fluids(with_zone(assuming("zone.fluids"), fluids=()))
    assert (found.verdict, found.sources) == ("unknown", ("assumed",))


def test_plate_temperature():
    """A limit of 150 degC, from the layout's own material; none, no finding."""
    limited = replace(LAYOUT, material=replace(LAYOUT.material, max_temperature_c=150.0))
    assert of(plate_temperature(limited), "plate").verdict == "pass"
    assert of(plate_temperature(with_zone(limited, temperature_c=151.0)), "plate").verdict == "fail"
    assert plate_temperature(LAYOUT) == ()
