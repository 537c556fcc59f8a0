"""Tolerances against edge distance: the worst case by hand, and corners of the limits by trial."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest
from layout.shop.told_layouts import RECIPES, metric_plate

from clampwright.layout.lay_out import lay_out
from clampwright.layout.outlines import rounded_rectangle
from clampwright.layout.placed import Hole, PlateLayout
from clampwright.layout.shop import edge_room
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.layout.shop.places_needed import outline_alone, place_needed
from clampwright.recipe.read import read
from clampwright.recipe.shop import usual_shop
from clampwright.trade.general_tolerances import general, none_given
from clampwright.trade.tables import rule

COARSE = replace(usual_shop("mm"), tolerances="v")


def hole(x: float, y: float) -> Hole:
    return Hole("A1", "clamp", "A1", (x, y), 5.0, "M5", "5", "")


def coil_plate(grade: str) -> PlateLayout:
    layout = lay_out(read(RECIPES / "coil-plate.toml"))
    assert isinstance(layout, PlateLayout)
    recipe = layout.recipe
    return replace(layout, recipe=replace(recipe, shop=replace(recipe.shop, tolerances=grade)))


def test_far_from_the_datum_the_outline_errs_too() -> None:
    """ISO 2768-1 v: the top at 130 errs 2.5. A 5 mm hole 11 below it keeps 7.5 with 11 - 7.5 - 2.5 = 1.0."""
    plate = rounded_rectangle((0, 0, 200, 130), 5)
    assert edge_room.edge_room(hole(100, 119), plate, COARSE) == edge_room.EdgeRoom(pytest.approx(1.0), True)


def test_near_the_datum_only_the_hole_errs() -> None:
    """11 off the lower edge, which is what Y counts from: 11 - 7.5 = 3.5."""
    plate = rounded_rectangle((0, 0, 200, 130), 5)
    assert edge_room.edge_room(hole(100, 11), plate, COARSE).off_mm == pytest.approx(3.5)


def test_a_hole_that_is_too_near_as_drawn_is_left_to_the_checks() -> None:
    plate = rounded_rectangle((0, 0, 200, 130), 5)
    assert not edge_room.edge_room(hole(100, 5), plate, COARSE).nominal


@pytest.mark.parametrize("grade", ["m", "c", "v", "inch"])
def test_no_corner_of_the_limits_takes_the_edge_distance(grade: str) -> None:
    """Hole at each corner of its limits, far edges drawn in by their general tolerance: e >= 1.5 D."""
    layout = coil_plate(grade)
    shop, least = layout.recipe.shop, rule("edge-distance-least").value
    _, _, wide, tall = layout.outline.box()
    (part,) = flat_parts(layout)
    judged = 0
    for told, own in zip(part.holes, layout.holes, strict=True):
        off = told.place.over_mm if told.place else max(general(shop, at).over_mm for at in told.at)
        right, top = wide - general(shop, wide).under_mm, tall - general(shop, tall).under_mm
        if outline_alone(own, layout):
            continue
        for dx, dy in product((-off, off), repeat=2):
            x, y = told.at[0] + dx, told.at[1] + dy
            assert min(x, y, right - x, top - y) >= least * told.diameter_mm - 1e-9
        judged += 1
    assert judged == len(part.holes)


def test_a_very_coarse_class_asks_for_a_limit_of_the_hole_at_the_far_edge() -> None:
    """B1 lies 11.11 below the top edge at 133.35: 11.1125 - 7.2771 - 2.5 = 1.3354, closer than ± 2.5."""
    layout = coil_plate("v")
    (told,) = [each for each in flat_parts(layout)[0].holes if each.label == "B1"]
    assert told.place is not None
    assert told.place.over_mm == pytest.approx(1.3335)
    assert told.place.why == edge_room.WHY
    assert place_needed(layout.holes[2], None, coil_plate("inch")) is None


def test_where_the_outline_alone_may_err_too_far_a_note_says_so() -> None:
    """9.75 below the top at 133.35: 9.75 - 1.5 x 4.8514 = 2.473, less than the 2.5 that the top may err."""
    layout = coil_plate("v")
    near = replace(layout.holes[0], at=(80.0, 123.6))
    told = replace(layout, holes=(near, *layout.holes[1:]))
    assert outline_alone(near, told)
    (part,) = flat_parts(told)
    assert any(note.startswith("Edge distance at A1") for note in part.notes)


@pytest.mark.parametrize(("at", "grade", "off"), [(2.5, "v", 0.2), (0.4, "m", 0.1), (2500.0, "f", 2.0)])
def test_where_iso_2768_1_gives_none_the_nearest_class_or_range_stands_in(
    at: float, grade: str, off: float
) -> None:
    """Table 1: v begins above 3 mm (c: 0.2), nothing below 0.5 mm (m: 0.1), f ends at 2 m (m: 2)."""
    found = general(replace(usual_shop("mm"), tolerances=grade), at)
    assert (found.under_mm, found.over_mm) == (off, off)
    assert found.why == f"where ISO 2768-{grade} gives none"
    assert none_given(found)


@pytest.mark.parametrize("grade", ["f", "m", "c"])
def test_where_it_gives_one_nothing_stands_in(grade: str) -> None:
    shop = replace(usual_shop("mm"), tolerances=grade)
    assert not any(none_given(general(shop, size)) for size in (0.5, 2.5, 3.0, 400.0, 2000.0))


def test_a_hole_so_near_to_its_datum_is_told_a_place_of_its_own() -> None:
    """2.5 mm from the datum edge ISO 2768-1 v gives nothing: ± 0.2 of class c, for a lightening hole too."""
    layout = metric_plate('tolerances = "v"')
    for purpose, fastener in (("component", "#8"), ("lightening", "")):
        near = replace(layout.holes[-1], at=(2.5, 60.0), purpose=purpose, fastener=fastener)
        told = replace(layout, holes=(*layout.holes[:-1], near))
        (part,) = flat_parts(told)
        place = part.holes[-1].place
        assert place is not None
        assert (place.over_mm, place.why) == (0.2, "where ISO 2768-v gives none")
