"""Loop clamps against AS85052/3, whose dash system, bolt and band they share; fluids and heat by MS21919."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.trade.clamps import dash_for, loop_clamp
from clampwright.trade.cushions import (
    clamp_code_for,
    clamp_codes,
    cushion_objections,
    fluid_names,
    objection_sources,
)
from clampwright.trade.sources import source

AS85052_3 = [
    # dash, tube OD, outside radius C, hole E, band T, inches; cells the copy lacks are None
    (2, 0.125, 0.192, 0.468, 0.020),
    (3, 0.188, 0.224, 0.499, 0.020),
    (4, 0.250, 0.255, 0.530, 0.020),
    (6, 0.375, 0.318, 0.592, 0.020),
    (8, 0.500, 0.380, 0.655, 0.020),
    (9, 0.562, 0.423, None, None),
]


@pytest.mark.parametrize(("dash", "od", "outside", "reach", "band"), AS85052_3)
def test_as85052_3_rows(
    dash: int, od: float, outside: float, reach: float | None, band: float | None
) -> None:
    """The standard rounds to three decimals: a row lies within a thousandth."""
    clamp = loop_clamp(od * 25.4, "CH")
    assert clamp.dash == dash
    assert clamp.loop_mm / 25.4 == pytest.approx(od, abs=0.001)
    assert clamp.outside_radius_mm / 25.4 == pytest.approx(outside, abs=0.001)
    if reach is not None:
        assert clamp.reach_mm / 25.4 == pytest.approx(reach, abs=0.001)
    if band is not None:
        assert clamp.band_mm / 25.4 == pytest.approx(band, abs=1e-9)


def test_three_quarter_tube_by_hand() -> None:
    """-12: reach 3/8 + .405, seat 3/8 + .142, feet 2·.032 + 1/16 in; the boundary of the band is at -08."""
    clamp = loop_clamp(19.05, "CH")
    assert clamp.part == "MS21919WCH12"
    assert clamp.reach_mm == pytest.approx(0.780 * 25.4)
    assert clamp.seat_mm == clamp.outside_radius_mm == pytest.approx(0.517 * 25.4)
    assert clamp.feet_mm == pytest.approx(0.1265 * 25.4)
    assert clamp.band_width_mm == 12.7
    assert clamp.measured == frozenset()
    assert source(clamp.source).status == source(clamp.seat_source).status == "derived"
    assert (loop_clamp(12.7, "CH").band_mm, loop_clamp(14.2875, "CH").band_mm) == (0.508, 0.8128)


def test_measured_values_replace_the_defaults() -> None:
    clamp = loop_clamp(19.05, "DG", dash=13, reach_mm=20.0, feet_mm=3.0)
    assert (clamp.part, clamp.reach_mm, clamp.feet_mm) == ("MS21919WDG13", 20.0, 3.0)
    assert clamp.measured == {"reach", "feet"}
    assert clamp.seat_mm == clamp.outside_radius_mm


@pytest.mark.parametrize("sixteenths", range(2, 65))
def test_dash_is_the_tube_in_sixteenths(sixteenths: int) -> None:
    """AS85052/3: the size code is the tube's outside diameter in sixteenths of an inch."""
    assert dash_for(sixteenths * 25.4 / 16) == sixteenths
    assert dash_for(sixteenths * 25.4 / 16 - 1.0) == sixteenths
    assert dash_for(sixteenths * 25.4 / 16 + 0.38) == sixteenths


def test_tubes_outside_the_family() -> None:
    for od in (0.0, 1.0, 110.0, -5.0):
        with pytest.raises(LookupError, match="dashes go from -02 to -64"):
            dash_for(od)
    with pytest.raises(LookupError, match="no loop clamp -70"):
        loop_clamp(19.05, "CH", dash=70)


@settings(max_examples=60, deadline=None)
@given(st.floats(4.0, 95.0), st.sampled_from(clamp_codes()))
def test_every_clamp_holds_together(od: float, code: str) -> None:
    clamp = loop_clamp(od, code)
    assert od - 0.3811 <= clamp.loop_mm < od + 25.4 / 16
    assert clamp.loop_mm / 2 < clamp.outside_radius_mm <= clamp.seat_mm < clamp.reach_mm
    assert clamp.reach_mm - clamp.outside_radius_mm > clamp.foot_hole_mm
    assert clamp.foot_end_mm > clamp.foot_hole_mm / 2
    assert 2 * clamp.band_mm < clamp.feet_mm < clamp.seat_mm
    assert 0.002 < clamp.mass_kg < 0.15


def test_heavier_with_size_and_with_steel() -> None:
    masses = [loop_clamp(dash * 25.4 / 16, "CH").mass_kg for dash in range(2, 40)]
    assert masses == sorted(masses)
    assert loop_clamp(19.05, "DG").mass_kg < loop_clamp(19.05, "CG").mass_kg


@pytest.mark.parametrize(
    ("code", "fahrenheit"),
    [("CE", 275), ("CF", 200), ("CG", 212), ("CH", 400), ("CJ", 450), ("DE", 212), ("DF", 212), ("DG", 212)],
)
def test_temperatures_of_an_article_that_quotes_ms21919(code: str, fahrenheit: int) -> None:
    assert loop_clamp(19.05, code).max_temperature_c == pytest.approx((fahrenheit - 32) / 1.8)


def test_silicone_and_fuel_do_not_go_together() -> None:
    assert cushion_objections("CH", ("fuel",)) == cushion_objections("H", ("fuel",)) != ()
    assert cushion_objections("CH", ()) == cushion_objections("CH", ("water", "coolant")) == ()
    assert cushion_objections("CJ", ("fuel", "oil")) == ()
    assert len(cushion_objections("CE", ("fuel", "oil", "hydraulic"))) == 2
    assert set(objection_sources("CH", ("fuel",))) == {"ms21919-sheet"}


@settings(max_examples=60, deadline=None)
@given(st.floats(-40, 240), st.sets(st.sampled_from(fluid_names())))
def test_the_code_chosen_stands_the_heat_and_the_fluids_where_one_can(heat: float, fluids: set[str]) -> None:
    wet = tuple(sorted(fluids))
    chosen = clamp_code_for(heat, wet)
    limit = loop_clamp(19.05, chosen).max_temperature_c
    best = max(loop_clamp(19.05, code).max_temperature_c for code in clamp_codes())
    assert limit >= heat or limit == best
    steel = [code for code in clamp_codes() if loop_clamp(19.05, code).band == "stainless steel"]
    stands = [code for code in steel if loop_clamp(19.05, code).max_temperature_c >= heat]
    if any(not cushion_objections(code, wet) for code in stands):
        assert cushion_objections(chosen, wet) == ()


def test_unknown_codes_and_fluids_name_the_nearest() -> None:
    with pytest.raises(LookupError, match="did you mean H"):
        loop_clamp(19.05, "XH")
    with pytest.raises(LookupError, match="did you mean fuel"):
        cushion_objections("CH", ("fule",))
