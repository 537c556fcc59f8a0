"""The catalogue as a whole: every code can pass and not pass, says what to change, and names its sources."""

from __future__ import annotations

import re
from dataclasses import fields, replace
from math import cos, pi, radians, sin

import pytest
from checks.example_plate import (
    ALL,
    CLAMPS,
    COIL,
    LAYOUT,
    LONG,
    MIDDLE,
    TUBES,
    WIDE,
    also,
    box_at,
    clamp_stack,
    polygon,
    rectangle,
    with_clamp,
    with_each_clamp,
    with_hole,
    with_plate,
    with_zone,
)

from clampwright.checks.all_checks import BUSHED, PLATE, SURROUNDED, catalogue, check, checks, grouped, worst
from clampwright.checks.finding import VERDICTS, Finding
from clampwright.layout.outline import Arc, Line, Outline
from clampwright.layout.placed import Frame, PlateLayout, StackItem
from clampwright.quantities import Vec3
from clampwright.structure.tubes import Structure, Tube
from clampwright.trade.sources import source

SHARED = {one.code for family in (*BUSHED, *SURROUNDED) for one in family}
"""Codes that the tests of all kinds of layout look at."""
OWN = tuple(one.code for family in PLATE for one in family if one.code not in SHARED)
"""Codes that are looked at here."""


def found_in(layout: PlateLayout) -> tuple[Finding, ...]:
    """The findings of the codes that are looked at here."""
    return tuple(found for found in check(layout) if found.code in OWN)


def notch(radius: float) -> Outline:
    """The example's outline with a notch in its upper edge whose inside corners have a radius."""
    u0, u1, v, r = 100.0, 124.0, WIDE - 20.0, radius
    lines = [
        Line((6.0, 0.0), (LONG - 6.0, 0.0)),
        Arc((LONG - 6.0, 0.0), (LONG, 6.0), (LONG - 6.0, 6.0), True),
        Line((LONG, 6.0), (LONG, WIDE - 6.0)),
        Arc((LONG, WIDE - 6.0), (LONG - 6.0, WIDE), (LONG - 6.0, WIDE - 6.0), True),
        Line((LONG - 6.0, WIDE), (u1 + 6.0, WIDE)),
        Arc((u1 + 6.0, WIDE), (u1, WIDE - 6.0), (u1 + 6.0, WIDE - 6.0), True),
        Line((u1, WIDE - 6.0), (u1, v + r)),
        Arc((u1, v + r), (u1 - r, v), (u1 - r, v + r), False),
        Line((u1 - r, v), (u0 + r, v)),
        Arc((u0 + r, v), (u0, v + r), (u0 + r, v + r), False),
        Line((u0, v + r), (u0, WIDE - 6.0)),
        Arc((u0, WIDE - 6.0), (u0 - 6.0, WIDE), (u0 - 6.0, WIDE - 6.0), True),
        Line((u0 - 6.0, WIDE), (6.0, WIDE)),
        Arc((6.0, WIDE), (0.0, WIDE - 6.0), (6.0, WIDE - 6.0), True),
        Line((0.0, WIDE - 6.0), (0.0, 6.0)),
        Arc((0.0, 6.0), (6.0, 0.0), (6.0, 6.0), True),
    ]
    return Outline(tuple(lines))


def bushed(tall: float, layout: PlateLayout, gap: float | None = None) -> PlateLayout:
    """The layout with a bushing at B2."""
    packing = (StackItem("bushing", "bushing", tall),)
    return with_clamp("B2", layout, packing=packing, gap_mm=tall if gap is None else gap)


FULL = bushed(
    6.0,
    also(
        box_at((190.0, MIDDLE[1]), 20.0, 20.0, 15.0),
        replace(LAYOUT, outline=notch(4.0), material=replace(LAYOUT.material, max_temperature_c=150.0)),
    ),
)
"""A layout in which every check has something to look at, and passes."""


def test_everything_passes_before_it_is_spoilt():
    found = found_in(FULL)
    assert [f for f in found if f.verdict != "pass"] == []
    assert worst(found) == "pass"
    assert {f.code for f in found} == set(OWN)


def stacked(stack):
    """FULL with another stack at A1."""
    return with_clamp("A1", FULL, stack=stack)


def planned(**changes):
    """FULL with another plan for its first hole."""
    plan = FULL.fit_up
    return replace(FULL, fit_up=replace(plan, holes=(replace(plan.holes[0], **changes), *plan.holes[1:])))


def with_tube(tube):
    """FULL with another tube in its structure."""
    return replace(FULL, recipe=replace(FULL.recipe, structure=Structure((*TUBES, tube))))


def moved(component, at):
    """FULL with the relay somewhere else."""
    return replace(FULL, components=(COIL, replace(component, at=at)))


CROSSING = Tube("crossing", (300.0, -50.0, 10.0), (300.0, 250.0, 10.0), 19.05)
BEHIND = Tube("behind", (305.0, 100.0, 18.0), (305.0, 100.0, 100.0), 19.05)

TWO = StackItem("washers", "AN960-10L", 0.8128, 2)

SPOILT: dict[str, PlateLayout] = {
    "HOLE-1": with_hole("C1", FULL, diameter_mm=5.2),
    "HOLE-2": with_hole("C1", FULL, drill="#10"),
    "HOLE-3": with_each_clamp(FULL, foot_hole_mm=4.5),
    "EDGE-1": with_hole("C1", FULL, at=(6.0, 90.0)),
    "EDGE-2": with_hole("L1", FULL, diameter_mm=80.0),
    "EDGE-3": with_hole("L1", FULL, at=(24.0, 90.0)),
    "PITCH-1": with_hole("C1", FULL, at=(26.0, 12.0)),
    "WASHER-1": with_hole("C1", FULL, at=(5.0, 90.0)),
    "CLAMP-1": with_each_clamp(FULL, loop_mm=17.4625),
    "CLAMP-2": with_clamp("A2", FULL, station_mm=214.0, centre=(214.0, 0.0, 0.0)),
    "CLAMP-3": also(box_at((22.0, 12.0), 20.0, 20.0, 15.0, "horn"), FULL),
    "CLAMP-4": with_clamp("A1", FULL, tilt_rad=radians(6.0)),
    "CLAMP-5": with_clamp("A1", FULL, measured=ALL - {"seat"}),
    "CLAMP-6": with_zone(FULL, temperature_c=220.0),
    "CLAMP-7": with_zone(FULL, fluids=("hydraulic",)),
    "CLASH-1": with_hole("C1", FULL, at=(16.0, 8.0)),
    "CLASH-2": with_tube(CROSSING),
    "CLASH-3": with_each_clamp(FULL, outside_radius_mm=20.0),
    "CLASH-4": with_tube(BEHIND),
    "CLASH-5": also(box_at((190.0, MIDDLE[1] + 5.0), 20.0, 20.0, 15.0, "horn"), FULL),
    "ACCESS-1": also(box_at((30.1, 12.0), 20.0, 20.0, 15.0, "horn"), FULL),
    "ACCESS-2": with_tube(Tube("low", (261.9, 40.0, -30.0), (261.9, 160.0, -30.0), 19.05)),
    "BOLT-1": stacked(clamp_stack(4.0)),
    "BOLT-2": stacked(
        replace(clamp_stack(), items=(*clamp_stack().items, StackItem("washers", "x", 0.8, 2)))
    ),
    "GAP-1": bushed(6.0, FULL, gap=9.0),
    "GAP-2": bushed(30.0, FULL),
    "SUPPORT-1": replace(FULL, clamps=FULL.clamps[:2]),
    "SUPPORT-2": replace(FULL, centre_of_gravity=(LONG + 5.0, 90.0, 20.0)),
    "WELD-1": with_clamp("A1", FULL, station_mm=10.0),
    "ZONE-1": replace(FULL, recipe=replace(FULL.recipe, assumed=(("zone.temperature", "93 °C"),))),
    "NUT-1": with_zone(FULL, temperature_c=130.0),
    "TORQUE-1": stacked(replace(clamp_stack(), torque=None)),
    "SHEET-1": with_plate(FULL, sheet_mm=(200.0, 200.0)),
    "SHEET-2": replace(FULL, thickness_mm=2.4),
    "SHEET-3": with_zone(FULL, temperature_c=160.0),
    "CORNER-1": replace(FULL, outline=rectangle(radius=1.0)),
    "CORNER-2": replace(FULL, outline=notch(0.5)),
    "CUT-1": replace(FULL, thickness_mm=6.35),
    "CUT-2": replace(FULL, outline=notch(0.5)),
    "CUT-3": with_hole("L1", FULL, diameter_mm=100.0),
    "TEMPLATE-1": replace(FULL, outline=rectangle(900.0, 600.0)),
    "FIT-1": planned(uncertainty_mm=2.0),
    "FIT-2": with_clamp("A1", FULL, at_exact=(12.0, 12.4)),
}


@pytest.mark.parametrize("code", OWN)
def test_every_code_can_pass_and_can_not_pass(code):
    (one,) = (c for c in checks() if c.code == code)
    assert {f.verdict for f in one.run(FULL)} == {"pass"}
    assert any(f.verdict != "pass" for f in one.run(SPOILT[code]))
    assert worst(found_in(SPOILT[code])) != "pass"


@pytest.mark.parametrize("code", sorted(SPOILT))
def test_findings_are_whole(code):
    """Known verdicts and sources; a change with a number where something is to be changed, none on a pass."""
    for found in found_in(SPOILT[code]):
        assert found.verdict in VERDICTS
        assert found.says.endswith(".")
        assert found.where
        assert found.sources
        for key in found.sources:
            assert source(key).title
        if found.verdict in ("fail", "caution"):
            assert re.search(r"\d", found.change), found
        assert bool(found.change) == (found.verdict != "pass"), found
        assert found.verdict != "pass" or found.value is not None


def test_catalogue_codes_are_unique_and_stable_in_form():
    codes = [info.code for info in catalogue()]
    assert len(set(codes)) == len(codes)
    assert all(re.fullmatch(r"[A-Z]+-\d+", code) for code in codes)
    assert set(SPOILT) == set(OWN)


def test_catalogue_says_what_a_finding_says():
    """Code and words of a finding are those of its check, and its sources exist."""
    for one in (one for one in checks() if one.code in OWN):
        for found in one.run(FULL):
            assert (found.code, found.what) == (one.code, one.what)
        assert one.computes.endswith(".")
        assert one.info().sources
        for key in one.info().sources:
            assert source(key)


def test_the_order_of_findings_does_not_change():
    assert found_in(FULL) == found_in(FULL)
    codes = [f.code for f in found_in(FULL)]
    assert codes == sorted(codes, key=OWN.index)


def test_grouped_findings_lose_nothing():
    found = found_in(FULL)
    joined = grouped(found)
    assert len(joined) < len(found)
    places = [where for f in joined for where in f.where.split(", ")]
    assert sorted(places) == sorted(f.where for f in found)
    assert worst(joined) == worst(found)


def turned(place: Vec3, angle: float) -> Vec3:
    """A place turned about an axis askew: first about z, then about x."""
    x, y, z = place
    x, y = x * cos(angle) - y * sin(angle), x * sin(angle) + y * cos(angle)
    y, z = y * cos(angle) - z * sin(angle), y * sin(angle) + z * cos(angle)
    return (x, y, z)


@pytest.mark.parametrize("angle", [0.3, 1.1, pi / 2, 2.9])
def test_turning_the_world_changes_no_verdict(angle):
    """The builder's frame is the builder's own: the same plate anywhere has the same findings."""

    def turn(place: Vec3) -> Vec3:
        return turned(place, angle)

    frame = Frame(*(turn(getattr(FULL.frame, f.name)) for f in fields(Frame)))
    tubes = tuple(replace(t, start=turn(t.start), end=turn(t.end)) for t in TUBES)
    clamps = tuple(
        replace(c, centre=turn(c.centre), axis=turn(c.axis), bolt_axis=turn(c.bolt_axis)) for c in FULL.clamps
    )
    recipe = replace(FULL.recipe, structure=Structure(tubes))
    elsewhere = replace(FULL, frame=frame, clamps=clamps, recipe=recipe)
    for here, there in zip(found_in(FULL), found_in(elsewhere), strict=True):
        assert (here.code, here.verdict) == (there.code, there.verdict)
        assert there.value == pytest.approx(here.value, abs=1e-5)


def test_inches_change_words_only():
    """The same layout told in inches: equal verdicts and values, other words."""
    inches = replace(FULL, recipe=replace(FULL.recipe, units="in"))
    for mm, inch in zip(found_in(FULL), found_in(inches), strict=True):
        assert (mm.code, mm.where, mm.verdict, mm.value) == (inch.code, inch.where, inch.verdict, inch.value)
        assert " mm" not in inch.says


def test_a_polygon_with_sharp_corners_and_clamps_in_a_row_raises_nothing():
    """Poor layouts are told, not raised."""
    poor = replace(
        FULL,
        outline=polygon((0.0, 0.0), (30.0, 0.0), (0.0, 30.0)),
        clamps=CLAMPS[:1],
        components=(),
        holes=FULL.holes[:1],
    )
    assert worst(found_in(poor)) == "fail"
