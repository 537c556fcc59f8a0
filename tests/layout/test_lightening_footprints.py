"""Lightening holes beside footprints that lie on the plate: distances by shapely, an independent route."""

from __future__ import annotations

from math import degrees, radians

import numpy as np
import pytest
from layout.plate_recipes import PARALLEL, component, plate, recipe
from shapely.affinity import rotate, translate
from shapely.geometry import Point, Polygon, box

from clampwright.layout.lay_out import lay_out
from clampwright.layout.lightening import KeepOut, place_lightening
from clampwright.layout.outlines import rounded_rectangle
from clampwright.recipe.model import Lightening
from clampwright.trade.tables import rule

WEB = rule("lightening-web").value
STEP = rule("lightening-step").value
WHERE, HALF = (80.0, 50.0), (45.0, 12.0)
SHEET = (0.0, 0.0, 160.0, 100.0)


def footprint(turn_rad: float) -> Polygon:
    upright = translate(box(-HALF[0], -HALF[1], HALF[0], HALF[1]), *WHERE)
    return rotate(upright, degrees(turn_rad), origin=WHERE)


def beside(turn_rad: float) -> KeepOut:
    return KeepOut(rounded_rectangle(SHEET, 0.0), (), ((WHERE, turn_rad, HALF),))


@pytest.mark.parametrize("turn", [0.0, 30.0, -30.0, 90.0, 200.0])
def test_room_beside_a_turned_footprint_is_the_distance_less_a_web(turn: float) -> None:
    """On a grid over the plate, to the nearer of its edge and the footprint."""
    flat, edge = footprint(radians(turn)), box(*SHEET).exterior
    places = [Point(u, v) for u in np.linspace(4.0, 156.0, 12) for v in np.linspace(4.0, 96.0, 9)]
    free = [p for p in places if not flat.contains(p)]
    room = beside(radians(turn)).room(np.array([(p.x, p.y) for p in free]))
    expected = [min(p.distance(flat), p.distance(edge)) - WEB for p in free]
    assert room.tolist() == pytest.approx(expected, abs=1e-9)
    assert sum(p.distance(flat) < p.distance(edge) for p in free) >= 12


@pytest.mark.parametrize("turn", [30.0, -30.0])
def test_the_largest_hole_beside_a_turned_body_keeps_its_web(turn: float) -> None:
    """The saw that is taken leaves a web to body and edge, and the next size up would not."""
    (circle,), _ = place_lightening([Lightening(None, None)], beside(radians(turn)), 0.0, "mm")
    assert circle is not None
    at, radius = Point(circle[0]), circle[1]
    reach = min(at.distance(footprint(radians(turn))), at.distance(box(*SHEET).exterior))
    assert reach - radius >= WEB - 1e-6
    assert reach - (radius + STEP / 2) < WEB


@pytest.mark.parametrize("turn", [30.0, -30.0])
def test_a_turned_body_without_holes_keeps_its_web_on_a_whole_plate(turn: float) -> None:
    """The footprint's corners as the layout places them, against two holes that the tool sets beside it."""
    strapped = component("canister", turn_rad=radians(turn), body=(90.0, 24.0, 50.0))
    sheet = plate(lightening=(Lightening(None, None), Lightening(None, None)))
    layout = lay_out(recipe(PARALLEL, carries=(strapped,), sheet=sheet))
    cuts = [h for h in layout.holes if h.purpose == "lightening"]
    assert cuts
    flat = Polygon(layout.components[0].corners)
    assert flat.area == pytest.approx(90.0 * 24.0)
    assert all(Point(c.at).distance(flat) - c.diameter_mm / 2 >= WEB - 1e-6 for c in cuts)
