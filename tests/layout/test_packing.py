"""Packing of a gap: washers by AN960 thickness (1/16 and 1/32 in), shims and bushings by arithmetic."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.layout.packing import pack
from clampwright.trade.bolts import bolt
from clampwright.trade.tables import rule

INCH = 25.4
SIZES = ["AN3", "AN4", "AN5", "AN6", "AN7", "AN8", "M4", "M5", "M6", "M8"]
GAPS = st.floats(0.0, 80.0)


def total(gap: float, name: str = "AN3", units: str = "mm") -> float:
    return sum(item.thickness_mm * item.count for item in pack(gap, name, 90.0, units))


@pytest.mark.parametrize(
    ("gap_in", "parts"),
    [
        (0.003, []),
        (0.030, ["AN960-10L"]),
        (0.065, ["AN960-10"]),
        (0.095, ["AN960-10L", "AN960-10"]),
        (0.124, ["AN960-10", "AN960-10"]),
        (0.014, ["shim, 304 stainless, 0.4375 in OD x 0.1975 in bore x 0.014 in"]),
        (0.046, ["AN960-10L", "shim, 304 stainless, 0.4375 in OD x 0.1975 in bore x 0.014 in"]),
        (0.081, ["AN960-10", "shim, 304 stainless, 0.4375 in OD x 0.1975 in bore x 0.018 in"]),
        (0.250, ["bushing, 6061-T6, 0.4375 in OD x 0.1975 in bore x 0.250 in"]),
    ],
)
def test_packing_of_gaps_in_inches(gap_in: float, parts: list[str]) -> None:
    """AN960-10L .032, AN960-10 .063: sums .064, .095, .126; the rest is cut in steps of .002 or .005."""
    assert [item.part for item in pack(gap_in * INCH, "AN3", 90.0, "in")] == parts


@pytest.mark.parametrize(("degrees_c", "material"), [(100.0, "6061-T6"), (100.5, "304 stainless")])
def test_hot_bushings_are_steel(degrees_c: float, material: str) -> None:
    """Aluminium to 100 °C without knock-down (memory)."""
    (bushing,) = pack(12.0, "AN3", degrees_c, "mm")
    assert material in bushing.part


def test_a_bushing_weighs_density_times_ring() -> None:
    """0.098 lb/in3, 7/16 OD, .1975 bore, 1/2 in long: 0.098·π/4·(.4375² − .1975²)·.5 lb."""
    (bushing,) = pack(0.5 * INCH, "AN3", 90.0, "in")
    pounds = 0.098 * pi / 4 * (0.4375**2 - 0.1975**2) * 0.5
    assert bushing.mass_kg == pytest.approx(pounds * 0.45359237, rel=2e-3)


@pytest.mark.parametrize("name", SIZES)
def test_every_bushing_passes_over_its_bolt_and_bears_on_a_wall(name: str) -> None:
    (bushing,) = pack(20.0, name, 90.0, "mm")
    assert bushing.id_mm is not None
    assert bushing.od_mm is not None
    assert bolt(name).shank_max_mm < bushing.id_mm < bolt(name).shank_max_mm + 0.5
    assert bushing.od_mm - bushing.id_mm > 2.0


@given(GAPS, st.sampled_from(SIZES), st.sampled_from(["mm", "in"]))
@settings(deadline=None, max_examples=200)
def test_packing_fills_the_gap_within_its_tolerance(gap: float, name: str, units: str) -> None:
    items = pack(gap, name, 90.0, units)
    names = {item.name for item in items}
    if not items:
        assert gap < rule("gap-nothing").value
        return
    tolerance = rule("gap-washer-tolerance" if names == {"washers"} else "gap-nothing").value
    assert abs(total(gap, name, units) - gap) <= tolerance + 1e-9
    assert sum(item.name == "washers" for item in items) <= 2
    assert sum(item.name in ("shim", "bushing") for item in items) <= 1
    assert names != {"washers", "bushing"}


@given(GAPS, GAPS)
@settings(deadline=None, max_examples=150)
def test_a_wider_gap_never_gets_thinner_packing(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert total(low) <= total(high) + 1e-9


@given(st.floats(4.0, 80.0))
@settings(deadline=None, max_examples=80)
def test_bushings_are_cut_in_steps_that_can_be_measured(gap: float) -> None:
    for units, step in (("mm", 0.1), ("in", 0.005 * INCH)):
        (bushing,) = pack(gap, "AN3", 90.0, units)
        assert bushing.name == "bushing"
        assert bushing.thickness_mm / step == pytest.approx(round(bushing.thickness_mm / step))


@pytest.mark.parametrize(("most", "count"), [(2, 2), (1, 1), (0, 0)])
def test_fewer_washers_on_request(most: int, count: int) -> None:
    items = pack(0.095 * INCH, "AN3", 90.0, "mm", most_washers=most)
    assert sum(item.name == "washers" for item in items) == count
    assert sum(item.thickness_mm for item in items) == pytest.approx(0.095 * INCH, abs=0.1)
