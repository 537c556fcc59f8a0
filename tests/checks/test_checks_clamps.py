"""Clamps on their tubes: dash system of SAE AS85052/3, loop tolerance of AS6298; tilt limits are assumed."""

from __future__ import annotations

from dataclasses import replace
from math import radians

import pytest
from checks.example_plate import ALL, CLAMP, LAYOUT, with_clamp
from checks.findings_of import of

from clampwright.checks.clamps import loop_size, tilt, unmeasured
from clampwright.layout.placed import PlateLayout
from clampwright.structure.tubes import Structure


def on_tube(od):
    """The example on tubes of another diameter."""
    tubes = tuple(replace(t, od_mm=od) for t in LAYOUT.recipe.structure.tubes)
    return replace(LAYOUT, recipe=replace(LAYOUT.recipe, structure=Structure(tubes)))


def test_dash_is_the_diameter_in_sixteenths_sae_as85052_3(layout: PlateLayout):
    """3/4 in tube: dash 12, loop 0.750 in."""
    found = of(loop_size(layout), "A1")
    assert (found.verdict, found.value) == ("pass", pytest.approx(0.0))


@pytest.mark.parametrize(
    ("od", "verdict"),
    [
        (19.05, "pass"),
        (18.7, "pass"),  # 0.35 loose, within SAE AS6298's tolerance of .015 in
        (19.4, "pass"),
        (18.0, "caution"),  # 1.05 mm loose: a metric tube in the next inch size, packed with tape (practice)
        (17.4, "fail"),  # 1.65 mm: more than one dash
        (19.5, "fail"),  # 0.45 too tight
        (22.225, "fail"),  # 7/8 in tube
    ],
)
def test_loop_against_tube(od, verdict):
    assert {f.verdict for f in loop_size(on_tube(od))} == {verdict}


def test_a_small_loop_is_told_the_dash():
    """7/8 in = 14 sixteenths."""
    found = of(loop_size(on_tube(22.225)), "B1")
    assert found.change == "Take dash 14."
    assert "too small by 3.18" in found.says


def test_a_loose_loop_is_told_how_much_tape():
    found = of(loop_size(on_tube(18.0)), "A1")
    assert found.change == "Pack it with tape to 19.05 mm outside: 0.53 mm all round."


@pytest.mark.parametrize(
    ("degrees", "verdict"), [(0.0, "pass"), (2.0, "pass"), (2.1, "caution"), (5.0, "caution"), (5.2, "fail")]
)
def test_tilt(degrees, verdict):
    found = of(tilt(with_clamp("B2", tilt_rad=radians(degrees))), "B2")
    assert (found.verdict, found.value) == (verdict, pytest.approx(degrees))


def test_a_tilted_clamp_is_told_the_wedge():
    """12.7 mm of band at 3 degrees: 12.7 x tan 3 = 0.666 mm."""
    found = of(tilt(with_clamp("B2", tilt_rad=radians(3.0))), "B2")
    assert "0.67 mm" in found.change


def test_defaults_are_unknown_never_a_pass():
    found = of(unmeasured(with_clamp("A2", measured=frozenset())), "A2")
    assert found.verdict == "unknown"
    assert "Reach 19.81 mm, seat 12.83 mm and feet 2.20 mm of MS21919WCJ12: defaults" in found.says


@pytest.mark.parametrize("name", ["reach", "seat", "feet"])
def test_only_what_is_missing_is_named(name):
    found = of(unmeasured(with_clamp("A2", measured=ALL - {name})), "A2")
    assert found.verdict == "unknown"
    assert found.says.lower().startswith(name)
    for other in ALL - {name}:
        assert f"{other} " not in found.says.lower()
        assert f"{other}," not in found.change.lower()


def test_how_to_measure_reach_with_calipers():
    """Over bolt and tube: take off half of 4.826 (AN3, 0.190 in) and half of 19.05 = 11.938."""
    found = of(unmeasured(with_clamp("A2", measured=ALL - {"reach"})), "A2")
    assert "less 11.94 mm (half the bolt and half the tube)" in found.change


def test_measured_clamps_pass(layout: PlateLayout):
    assert {f.verdict for f in unmeasured(layout)} == {"pass"}
    assert CLAMP.measured == ALL
