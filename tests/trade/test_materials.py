"""Sheet materials against round handbook figures, gauges against table 4-10, and drill speeds by hand."""

from __future__ import annotations

import math

import pytest

from clampwright.trade.drilling import drilling
from clampwright.trade.materials import gauges, material, material_names
from clampwright.trade.sources import source

KSI_MPA = 6.894757293168361


@pytest.mark.parametrize(
    ("name", "ftu", "fty", "density"),
    [
        ("6061-T6", 42, 35, 2710),
        ("2024-T3", 63, 42, 2770),
        ("2024-T3 bare", 63, 42, 2770),
        ("2024-T3 clad", 59, 39, 2770),
        ("7075-T6", 78, 68, 2800),
        ("5052-H32", 31, 23, 2680),
        ("4130", 95, 75, 7833),
        ("304", 75, 30, 7920),
        ("Ti-6Al-4V", 134, 126, 4430),
    ],
)
def test_strength_and_density(name: str, ftu: float, fty: float, density: float) -> None:
    """MIL-HDBK-5J in ksi (memory); densities in kg/m³ as any handbook rounds them, within half a per cent."""
    found = material(name)
    assert (found.ftu_mpa, found.fty_mpa) == pytest.approx((ftu * KSI_MPA, fty * KSI_MPA), rel=1e-9)
    assert found.density_kg_m3 == pytest.approx(density, rel=0.005)


def test_clad_sheet_goes_by_thickness() -> None:
    """MIL-HDBK-5J, clad 2024-T3: .010 to .062 in 59 ksi, .063 to .128 in 61 ksi (memory)."""
    assert material("2024-T3 clad", 0.040 * 25.4).ftu_mpa == pytest.approx(59 * KSI_MPA)
    assert material("2024-T3 clad", 0.090 * 25.4).ftu_mpa == pytest.approx(61 * KSI_MPA)
    assert material("2024-T3 clad", 0.500 * 25.4).ftu_mpa == pytest.approx(59 * KSI_MPA)


@pytest.mark.parametrize("name", material_names())
def test_materials_hold_together(name: str) -> None:
    found = material(name)
    assert found.fty_mpa < found.ftu_mpa < 1000
    assert found.fsu_mpa is not None
    assert 0.5 < found.fsu_mpa / found.ftu_mpa < 0.75
    specific = found.elastic_gpa / found.density_kg_m3 * 1000
    assert 23 < specific < 28
    assert 0.28 < found.poisson < 0.35
    assert source(found.source).status in ("memory", "handbook", "standard")


@pytest.mark.parametrize("name", material_names())
def test_gauges_rise_and_stay_sheet(name: str) -> None:
    thick = [each.thickness_mm for each in gauges(name)]
    assert thick == sorted(set(thick))
    assert len(thick) >= 10
    assert 0.3 < thick[0] < thick[-1] < 6.5


def test_gauges_of_ac_43_13_1b_table_4_10() -> None:
    old = {round(each.thickness_mm / 25.4, 4) for each in gauges("2024-T3")}
    assert {0.016, 0.020, 0.025, 0.032, 0.036, 0.040, 0.051, 0.064, 0.081, 0.091, 0.102, 0.128} <= old
    assert {0.050, 0.063, 0.090, 0.125} <= old


def test_no_such_material_names_the_nearest() -> None:
    with pytest.raises(LookupError, match="did you mean 6061-T6"):
        material("6061T6")
    with pytest.raises(LookupError, match="did you mean 2024-T3"):
        material("2024-T4")
    with pytest.raises(LookupError, match="no sheet material 'bolt steel'"):
        material("bolt steel")


@pytest.mark.parametrize("name", material_names())
@pytest.mark.parametrize("diameter", [2.0, 4.85, 6.35, 12.7, 80.0])
def test_drill_speed_never_passes_the_cutting_speed(name: str, diameter: float) -> None:
    """n = 1000 v/(pi d): cutting speeds are common practice, no source."""
    found = drilling(name, diameter)
    speed = {"aluminium": 60, "alloy steel": 18, "stainless steel": 9, "titanium": 9}[material(name).family]
    exact = 1000 * speed / (math.pi * diameter)
    assert found.speed_rpm <= max(50.0, min(2500.0, exact))
    assert found.speed_rpm > min(2500.0, exact) - 50
    assert found.bit
    assert found.feed
    assert source(found.source).status == "practice"
