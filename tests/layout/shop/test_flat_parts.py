"""What a shop is told of a plate: the layout's own numbers, limits that the bolts bear, nothing else."""

from __future__ import annotations

from dataclasses import replace
from math import cos, hypot, sin, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.shop.told_layouts import EXAMPLES, PLATES, example, metric_plate

from clampwright.layout.fit_up import NOW, PILOT, SLOT, clearance_mm
from clampwright.layout.placed import FitUp, Hole, PlateLayout
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.layout.shop.hole_limits import across, place_limits, size_limits
from clampwright.layout.shop.told import FlatPart, ToldHole
from clampwright.recipe.shop import usual_shop
from clampwright.trade.general_tolerances import general
from clampwright.trade.holes import hole_window
from clampwright.trade.sources import sources
from clampwright.trade.tables import rule

INCH = 25.4


def plate(name: str) -> tuple[PlateLayout, FlatPart]:
    layout = example(name)
    assert isinstance(layout, PlateLayout)
    (part,) = flat_parts(layout)
    return layout, part


def bolted(part: FlatPart) -> list[ToldHole]:
    return [hole for hole in part.holes if hole.fastener]


@pytest.mark.parametrize("name", [name for name in EXAMPLES if name not in PLATES])
def test_other_kinds_have_no_flat_part(name: str) -> None:
    assert flat_parts(example(name)) == ()


@pytest.mark.parametrize("name", PLATES)
def test_the_numbers_are_the_layouts(name: str) -> None:
    layout, part = plate(name)
    recipe = layout.recipe
    assert part.number == f"{name}-plate"
    assert (part.recipe, part.digest, part.units) == (recipe.name, recipe.digest, recipe.units)
    assert (part.outline, part.thickness_mm, part.material) == (
        layout.outline,
        layout.thickness_mm,
        layout.material,
    )
    assert part.mass_kg == layout.plate_mass_kg
    assert part.quantity == recipe.shop.quantity
    assert [(h.label, h.at, h.diameter_mm, h.drill, h.pilot) for h in part.holes] == [
        (h.label, h.at, h.diameter_mm, h.drill, h.pilot) for h in layout.holes
    ]
    assert part.specification


@pytest.mark.parametrize("name", PLATES)
def test_finished_holes_lie_in_the_window_of_their_bolt(name: str) -> None:
    """TM 1-1520-240-BD 2-6 for AN3, ASME B18.2.8 for #8: both ends of the limits, nominal between them."""
    for hole in bolted(plate(name)[1]):
        assert hole.size is not None
        window = hole_window(hole.fastener)
        assert min(hole.size.under_mm, hole.size.over_mm) >= 0
        assert hole.diameter_mm - hole.size.under_mm >= window.low_mm - 1e-6
        assert hole.diameter_mm + hole.size.over_mm <= window.high_mm + 1e-6
        assert hole.size.under_mm + hole.size.over_mm >= 0.1
        assert hole.size.source == window.source


def test_an3_by_hand() -> None:
    """.191 to .197 in, drawn .191: + .006, - .000; H12 of ISO 286 lies within."""
    hole = bolted(plate("coil-plate")[1])[0]
    assert hole.size is not None
    assert hole.diameter_mm == pytest.approx(0.191 * INCH)
    assert (hole.size.under_mm, hole.size.over_mm) == (0.0, pytest.approx(0.006 * INCH))
    assert hole.fit == "H12"


def test_a_screw_drawn_at_the_top_of_its_window_by_hand() -> None:
    """#8: .180 to .196 in, drawn .196: + .000, and below it what a drill errs anyway, .004."""
    hole = next(h for h in plate("coil-plate")[1].holes if h.fastener == "#8")
    assert hole.size is not None
    assert (hole.size.under_mm, hole.size.over_mm) == (pytest.approx(0.004 * INCH), 0.0)


@pytest.mark.parametrize("name", PLATES)
def test_what_the_fit_up_plan_transfers_is_told_so(name: str) -> None:
    layout, part = plate(name)
    ways = {fit.hole: fit.way for fit in layout.fit_up.holes}
    told = " ".join(part.notes)
    for hole in part.holes:
        if ways[hole.label] == PILOT:
            assert hole.transferred
        if ways[hole.label] != NOW:
            assert hole.place is None
            assert hole.label in told
        if hole.transferred:
            assert f"pilot {hole.pilot} only" in told


def test_holes_to_be_filed_are_named_and_made_round() -> None:
    layout, part = plate("coil-plate-too-narrow")
    filed = [fit.hole for fit in layout.fit_up.holes if fit.way == SLOT]
    assert filed == ["B1", "B2"]
    assert part.notes[1].startswith("B1 and B2: round")
    assert not any(hole.transferred for hole in part.holes if hole.label in filed)


def assert_borne(layout: PlateLayout, part: FlatPart) -> int:
    """Every hole that is made now still takes its bolt at the worst corner of its limits; how many."""
    plan = {fit.hole: fit for fit in layout.fit_up.holes}
    clamps = {clamp.label: clamp for clamp in layout.clamps}
    judged = 0
    for hole, own in zip(part.holes, layout.holes, strict=True):
        fit = plan[hole.label]
        if hole.transferred or fit.way != NOW or not hole.fastener:
            continue
        off = (hole.place or max((general(part.shop, x) for x in hole.at), key=lambda g: g.over_mm)).over_mm
        least = hole.diameter_mm - (hole.size.under_mm if hole.size else 0.0)
        clamp = clamps.get(own.owner)
        feet = [] if clamp is None else [clamp.clamp.foot_hole_mm]
        way = None if clamp is None else across(layout.frame, clamp)
        corner = sqrt(2) * off if way is None else off * (abs(way[0]) + abs(way[1]))
        play = clearance_mm(hole.fastener, least, *feet)
        assert hypot(fit.uncertainty_mm, corner) <= play + 1e-9
        assert play <= fit.clearance_mm + 1e-9
        judged += 1
    return judged


@pytest.mark.parametrize("name", PLATES)
def test_places_within_their_limits_take_the_bolts(name: str) -> None:
    assert assert_borne(*plate(name)) >= 2


@pytest.mark.parametrize("grade", ["f", "m", "c", "v"])
@pytest.mark.parametrize("bolt", ["AN3", "M5"])
def test_a_metric_plate_takes_its_bolts_in_every_class(grade: str, bolt: str) -> None:
    layout = metric_plate(f'tolerances = "{grade}"', bolt=bolt)
    (part,) = flat_parts(layout)
    assert assert_borne(layout, part) >= 3


def test_a_components_holes_by_hand() -> None:
    """M5 at 5.5, not below 5.4: 0.2 of play, 0.15 of it unsure: √(0.2² - 0.15²)/√2 = 0.0935, told ± 0.09."""
    (part,) = flat_parts(metric_plate())
    holes = [hole for hole in part.holes if hole.purpose == "component"]
    assert len(holes) == 2
    for hole in holes:
        assert hole.size is not None
        assert hole.place is not None
        assert (hole.size.under_mm, hole.size.over_mm) == (0.1, 0.0)
        assert (hole.place.under_mm, hole.place.over_mm) == (0.09, 0.09)
        assert hole.place.why == "so that relay bolts on"
        assert not hole.transferred


def test_clamp_holes_over_the_reference_by_hand() -> None:
    """M5 at 5.4 and a foot of .203 in: 0.2 + 0.078 of play, told ± 0.27, all of it square to the tube.

    ISO 2768-1 m holds ± 0.2 of the 12.27 from the edge, which is enough there, and ± 0.5 of the 212.27.
    """
    (part,) = flat_parts(metric_plate())
    first, second = part.holes[:2]
    assert [round(x, 2) for x in (*first.at, *second.at)] == [12.27, 12.27, 212.27, 12.27]
    assert first.place is None
    assert second.place is not None
    assert second.place.over_mm == pytest.approx(0.27)
    assert second.place.why == "so that its clamp's bolt passes"


def test_a_clamp_hole_over_another_tube_by_hand() -> None:
    """Its place unsure by u: √(0.278² - u²), rounded down to a hundredth."""
    layout = metric_plate()
    (part,) = flat_parts(layout)
    unsure = next(fit.uncertainty_mm for fit in layout.fit_up.holes if fit.hole == "B1")
    (hole,) = [hole for hole in part.holes if hole.label == "B1"]
    assert hole.place is not None
    left = sqrt(((5.4 - 5.0) / 2 + (0.203 * INCH - 5.0) / 2) ** 2 - unsure**2)
    assert 0 <= left - hole.place.over_mm < 0.01


def test_a_finer_general_tolerance_needs_no_own_limit() -> None:
    """An inch drawing holds ± .005 in of every place: clamp holes have 0.203 mm."""
    for hole in plate("coil-plate")[1].holes:
        assert hole.place is None


def test_what_no_shop_should_be_asked_for_is_transferred() -> None:
    """#11 for AN3 leaves 0.025 mm either way: nothing at all is unsure, and still ± 0.018 is no limit."""
    hole = Hole("C1", "component", "relay", (40.0, 50.0), 4.8514, "AN3", "#11", "#40")
    shop = usual_shop("mm")
    size = size_limits(hole, shop, "mm")
    fit = FitUp("C1", NOW, 0.0, clearance_mm("AN3", 4.8514), "", "")
    need = place_limits(hole, fit, size, None, None, shop, "mm")
    assert need.too_tight
    assert need.limits is None
    assert need.off_mm == pytest.approx(0.01)
    assert need.off_mm < rule("hole-place-least").value


@given(
    st.sampled_from(["AN3", "AN4", "M5", "M6", "#8"]),
    st.floats(0.0, 1.0),
    st.floats(0.0, 0.5),
    st.floats(0.0, 3.2),
    st.sampled_from(["mm", "in"]),
)
@settings(deadline=None, max_examples=120)
def test_a_limit_never_lets_a_hole_pinch(
    fastener: str, share: float, unsure: float, angle: float, units: str
) -> None:
    window = hole_window(fastener)
    diameter = window.low_mm + share * (window.high_mm - window.low_mm)
    hole = Hole("A1", "clamp", "A1", (40.0, 50.0), diameter, fastener, "", "#40")
    shop = usual_shop(units)
    size = size_limits(hole, shop, units)
    assert size is not None
    assert window.low_mm - 1e-6 <= diameter - size.under_mm <= diameter + size.over_mm
    assert diameter + size.over_mm <= window.high_mm + 1e-6
    way = (cos(angle), sin(angle))
    need = place_limits(hole, FitUp("A1", NOW, unsure, 1.0, "", ""), size, way, diameter, shop, units)
    play = clearance_mm(fastener, diameter - size.under_mm, diameter)
    off = (need.limits or general(shop, 50.0)).over_mm
    fits = hypot(unsure, off * (abs(way[0]) + abs(way[1]))) <= play + 1e-9
    assert fits or need.too_tight
    if need.limits is not None:
        assert need.limits.over_mm < general(shop, 50.0).over_mm


def test_a_lone_hole_has_nothing_to_match() -> None:
    """One hole alone is at its place wherever it is."""
    layout = metric_plate()
    lone = replace(layout.components[0], holes=layout.components[0].holes[:1])
    (part,) = flat_parts(replace(layout, components=(lone,)))
    assert [h.place for h in part.holes if h.purpose == "component"] == [None, None]


def test_a_lightening_hole_is_held_to_the_general_tolerance() -> None:
    layout = metric_plate(more="plate.lightening = [{}]")
    (part,) = flat_parts(layout)
    (hole,) = [hole for hole in part.holes if hole.purpose == "lightening"]
    assert (hole.size, hole.place, hole.fit, hole.transferred) == (None, None, "", False)


def test_sets_stock_sheet_and_notes_come_from_the_recipe() -> None:
    layout = metric_plate("quantity = 3", more='plate.sheet = ["300 mm", "600 mm"]')
    (part,) = flat_parts(layout)
    assert part.quantity == 3
    assert part.sheet_mm == (300.0, 600.0)
    assert any(note.startswith("Thickness") for note in part.notes)
    assert part.face == "component side up"


@pytest.mark.parametrize("name", PLATES)
def test_every_source_is_known(name: str) -> None:
    _, part = plate(name)
    named = [limits.source for hole in part.holes for limits in (hole.size, hole.place) if limits]
    assert {*named, part.specification_source} <= set(sources())


def test_a_hole_outside_its_window_is_told_as_asked() -> None:
    """A hole of 6 mm for AN3 rattles, and a check says so; the shop makes what the drawing shows."""
    shop = usual_shop("mm")
    hole = Hole("A1", "clamp", "A1", (40.0, 50.0), 6.0, "AN3", "", "")
    size = size_limits(hole, shop, "mm")
    assert size is not None
    assert (size.under_mm, size.over_mm, size.why) == (0.1, 0.0, "as the recipe asks")
