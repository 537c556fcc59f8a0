"""BUSH-1 to BUSH-5: bores, pressures, side loads and heat against textbook formulas worked by hand."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest
from checks.findings_of import of, verdicts
from checks.joined.hand_layouts import BUSHED, HELD_OFF, asking, in_zone

from clampwright.checks.bushed import bushed
from clampwright.checks.bushing_heat import heat_gain_n, pull_with_heat
from clampwright.checks.bushings import bore_and_wall, material_in_place, seat_pressure
from clampwright.checks.long_spacers import lever_mm, side_load, weight_n
from clampwright.checks.preload import (
    bolt_elastic,
    bolt_stiffness,
    gain_n,
    opening_moment_nmm,
    preload,
    preload_n,
    ring_mm2,
    tensile_area_mm2,
)
from clampwright.trade.bolts import bolt
from clampwright.trade.pressed import expansion_per_k, pressed

OD, ID = 7 / 16 * 25.4, 0.1975 * 25.4
END = pi / 4 * ((OD - 0.6) ** 2 - (ID + 0.6) ** 2)
HIGH = 25 * 0.1129848 / (0.2 * 4.826e-3)
"""25 in-lb (AC 43.13-1B, table 7-1) on AN3 with K 0.20: 2926 N."""


def with_part(layout, mark, **changes):
    """The layout with one made bushing changed."""
    parts = tuple(replace(p, **changes) if p.mark == mark else p for p in layout.bushings)
    return replace(layout, bushings=parts)


def with_ring(od, bore, layout=HELD_OFF):
    """The pair with another bushing in its stack."""
    (joint,) = layout.joints
    items = tuple(replace(i, od_mm=od, id_mm=bore) if i.name == "bushing" else i for i in joint.stack.items)
    return replace(layout, joints=(replace(joint, stack=replace(joint.stack, items=items)),))


def test_shigley_example_8_3_torque():
    """9th ed., ex. 8-3: 3/4-16, F = 25 kip, K = 0.2: T = 3750 lbf in, and back (methods check value 6)."""
    torque_nm = 3750 * 0.112984829
    assert preload_n(torque_nm, 0.75 * 25.4) == pytest.approx(25000 * 4.4482216, rel=1e-6)


def test_thermal_gain_of_a_long_aluminium_spacer():
    """1/4 bolt through 40 mm of 6061 tube 12.7/6.5, +80 K: k_b 140.8, k_s 159.6 kN/mm, +2753 N; computed.

    Expansion 11.5e-6/K more than the bolt's. The tube's stiffness by A E/L with 9.9 Msi agrees to 0.1 %.
    """
    metal = pressed("6061-T6")
    assert metal is not None
    stiff = ring_mm2(12.7, 6.5) * metal.elastic_mpa / 40.0
    assert stiff == pytest.approx(159.6e3, rel=1e-3)
    assert gain_n(11.5e-6, 40.0, 80.0, 140.8e3, 159.6e3) == pytest.approx(2753.0, abs=1.0)
    share = 140.8 / (140.8 + 159.6)
    assert share == pytest.approx(0.469, abs=5e-4)


def test_bolt_stiffness_of_shigley_problem_8_24():
    """Two pieces in a row, A_d A_t E/(A_d l_t + A_t l_d): as springs one after the other."""
    stack = HELD_OFF.joints[0].stack
    grip = stack.chosen.length.grip_mm
    size = bolt("AN3")
    shank = pi / 4 * size.nominal_mm**2
    springs = (bolt_elastic() * shank / grip, bolt_elastic() * 12.9 / (stack.thickness_mm - grip))
    in_a_row = 1 / sum(1 / k for k in springs)
    assert bolt_stiffness(stack) == pytest.approx(in_a_row, rel=1e-3)
    assert tensile_area_mm2("AN3") == pytest.approx(0.0200 * 645.16, rel=2e-3)


def test_the_moment_that_opens_a_ring():
    """F/A - M c/I = 0 at the rim, I = pi/64 (Do^4 - Di^4)."""
    moment = opening_moment_nmm(2000.0, OD, ID)
    stress = moment * (OD / 2) / (pi / 64 * (OD**4 - ID**4))
    assert stress == pytest.approx(2000.0 / ring_mm2(OD, ID))


def test_bores_and_walls():
    """Window of AN3: 4.9006 to 5.326; wall of 7/16 x 0.120 tube."""
    found = bore_and_wall(BUSHED)
    assert [(f.where, f.verdict) for f in found] == [("S1", "pass"), ("S2", "pass")]
    assert found[0].value == pytest.approx(0.120 * 25.4)
    tight, loose = (of(bore_and_wall(with_part(BUSHED, "S1", id_mm=bore)), "S1") for bore in (4.8, 5.6))
    assert (tight.verdict, loose.verdict) == ("fail", "fail")
    assert "does not go over" in tight.says
    assert "rattles" in loose.says
    thin = of(bore_and_wall(with_part(BUSHED, "S2", od_mm=ID + 1.2)), "S2")
    assert (thin.verdict, thin.value) == ("caution", pytest.approx(0.6))
    assert f"{ID + 1.4:.2f} mm" in thin.change


def test_pressure_on_the_end_of_a_bushing():
    """25 in-lb on AN3: 2926 N, a third more with scatter, over the ring less its chamfers; band 29 ksi."""
    (found,) = seat_pressure(HELD_OFF)
    assert found.value == pytest.approx(1.3 * HIGH / END, rel=2e-3)
    assert found.limit == pytest.approx(29 * 6.894757, rel=1e-5)
    assert (found.verdict, found.where) == ("pass", "A1+B1")
    assert verdicts(seat_pressure(BUSHED)) == {"pass"}
    assert "lug's metal is not known" in seat_pressure(BUSHED)[0].says


@pytest.mark.parametrize(("od", "verdict"), [(8.4, "pass"), (7.9375, "caution"), (7.2, "fail")])
def test_a_thin_bushing_presses_hard(od, verdict):
    """Bore 4.991 mm: ends of 21.7, 17.9 and 4.0 mm² under 3804 N: past 200 MPa with scatter, or at once."""
    (found,) = seat_pressure(with_ring(od, 0.1965 * 25.4))
    assert found.verdict == verdict
    area = pi / 4 * ((od - 0.6) ** 2 - (0.1965 * 25.4 + 0.6) ** 2)
    assert found.value == pytest.approx(1.3 * HIGH / area, rel=2e-3)


def test_pressure_is_not_known_without_a_torque_or_a_material():
    (joint,) = HELD_OFF.joints
    bare = replace(HELD_OFF, joints=(replace(joint, stack=replace(joint.stack, torque=None)),))
    for family in (seat_pressure, side_load, pull_with_heat):
        assert verdicts(family(bare)) == {"unknown"}
    assert verdicts(seat_pressure(replace(HELD_OFF, bushings=()))) == {"unknown"}


def test_acetal_is_pressed_flat():
    """5 ksi: 34 MPa against 47 at the torque itself."""
    (found,) = seat_pressure(with_part(HELD_OFF, "S1", material="acetal"))
    assert (found.verdict, found.limit) == ("fail", pytest.approx(34.47, abs=0.01))


def test_the_side_load_that_opens_a_long_spacer():
    """20 in-lb less 30 %: 1639 N; M = F (Do² + Di²)/(8 Do) over 33.7 + 13.1318 mm."""
    (found,) = side_load(HELD_OFF)
    low = 20 * 0.1129848 / (0.2 * 4.826e-3) * 0.7
    assert found.value == pytest.approx(low * (OD**2 + ID**2) / (8 * OD) / (33.7 + 13.1318), rel=1e-3)
    assert found.limit == pytest.approx(9 * 9.80665 * pi / 4 * 19.05**2 * 300 * 2500e-9, rel=1e-6)
    assert found.verdict == "pass"


def test_where_the_part_stays_parallel_the_arm_is_half():
    """Two bolts or more hold it: M = V L/2; 0.5 kg on three bolts at 9 g."""
    first = bushed(BUSHED)[0]
    assert lever_mm(first, BUSHED) == pytest.approx(7.0)
    assert weight_n(BUSHED) == pytest.approx(0.5 * 9.80665 / 3)
    assert verdicts(side_load(BUSHED)) == {"pass"}


def test_a_heavy_component_opens_its_bushings():
    """40 kg on three bolts at 9 g: 1177 N each; the 14 mm ones open at 391 N, and 4.66 mm would do."""
    heavy = asking(BUSHED, component=replace(BUSHED.recipe.job.component, mass_kg=40.0))
    found = of(side_load(heavy), "A1")
    assert (found.verdict, found.limit) == ("caution", pytest.approx(40 * 9.80665 * 9 / 3))
    assert found.value == pytest.approx(391.5, abs=0.5)
    assert "4.65 mm or shorter" in found.change


def test_a_mast_of_a_spacer_is_cautioned():
    """33.7 mm on 8 mm outside: 4.2 times, where 4 is the most; a light line so that the load is no matter."""
    light = asking(HELD_OFF, carried=replace(HELD_OFF.recipe.job.carried, next_supports_mm=(50.0, 50.0)))
    (found,) = side_load(with_ring(8.0, ID, light))
    assert (found.verdict, found.value) == ("caution", pytest.approx(33.7 / 8.0))
    assert "8.43 mm thick" in found.change


def test_heat_that_tightens():
    """6061 over steel: 11.9e-6/K over 33.7 mm and 70 K, through both springs; 0.75 x 125 ksi in the bolt."""
    one = bushed(HELD_OFF)[0]
    metal = pressed("6061-T6")
    assert metal is not None
    over = expansion_per_k("aluminium") - expansion_per_k("alloy steel")
    assert over == pytest.approx(11.9e-6)
    springs = 1 / bolt_stiffness(one.joint.stack) + 33.7 / (ring_mm2(OD, ID) * metal.elastic_mpa)
    gain = heat_gain_n(one, metal, "aluminium", 70.0)
    assert gain == pytest.approx(over * 33.7 * 70.0 / springs)
    (found,) = pull_with_heat(HELD_OFF)
    assert found.value == pytest.approx(preload(one.joint.stack).most + gain)
    assert found.limit == pytest.approx(0.75 * 125 * 6.894757 * 12.9, rel=1e-3)
    assert found.verdict == "pass"


def test_heat_that_crushes_a_thin_bushing():
    """5/16 x 0.058 tube: 17.9 mm² of 35 ksi bear 4310 N, tightening may give 3804."""
    (found,) = pull_with_heat(with_ring(7.9375, 0.1965 * 25.4))
    assert found.verdict == "caution"
    assert found.limit == pytest.approx(35 * 6.894757 * 17.9, rel=0.02)


def test_cold_that_loosens():
    """At -150 degC aluminium shrinks away: more than the least preload is lost."""
    (found,) = pull_with_heat(in_zone(HELD_OFF, temperature_c=-150.0))
    assert found.verdict == "caution"
    assert "takes off" in found.says


@pytest.mark.parametrize(
    ("material", "limit", "zone", "ahead", "verdict"),
    [
        ("6061-T6", 100.0, 90.0, True, "pass"),
        ("6061-T6", 100.0, 120.0, True, "fail"),
        ("304 stainless", 425.0, 120.0, True, "pass"),
        ("acetal", 85.0, 60.0, True, "fail"),
        ("acetal", 85.0, 60.0, False, "pass"),
    ],
)
def test_materials_in_their_place(material, limit, zone, ahead, verdict):
    """Acetal is never ahead of the firewall; aluminium up to 100 degC."""
    made = with_part(HELD_OFF, "S1", material=material, max_temperature_c=limit)
    (found,) = material_in_place(in_zone(made, temperature_c=zone, ahead_of_firewall=ahead))
    assert found.verdict == verdict


def test_an_assumed_zone_does_not_pass():
    recipe = replace(HELD_OFF.recipe, assumed=(("zone.temperature", "90 °C"),))
    assert verdicts(material_in_place(replace(HELD_OFF, recipe=recipe))) == {"unknown"}
