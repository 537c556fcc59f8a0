"""± of a clearance against figures worked out by hand: independent ends, each coordinate ± 1.5 mm.

A place at the share t of a tube goes by (1 - t) start + t end: ± 1.5 sqrt((1 - t)² + t²) along any line
square to the tube (root sum square, JCGM 100:2008, 5.1.2).
"""

from __future__ import annotations

from dataclasses import replace
from math import hypot, sqrt

import numpy as np
import pytest
from layout.clearances.hand_drifts import ERROR, SURE, TUBE, drifts, still

from clampwright.layout.bodies import Body, Box, Capsule, Cylinder
from clampwright.layout.clash_bodies import tube_body
from clampwright.layout.clearance_known import Clear, Side, clear_along, clear_between
from clampwright.layout.drift import Drift, of_tube, rigid
from clampwright.structure.uncertainty import coverage

AXES = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def share(t: float) -> float:
    """± of a place of the tube."""
    return ERROR * sqrt((1 - t) ** 2 + t**2)


def to_tube(body: Body, drift: Drift | None = None) -> Clear:
    """From a body of the part to the tube."""
    all_drifts = drifts(drift)
    a, b = Side(body, all_drifts.part), Side(tube_body(TUBE), all_drifts.tubes["low"])
    one, other = clear_between(a, b, all_drifts), clear_between(b, a, all_drifts)
    assert one.plus_minus_mm == pytest.approx(other.plus_minus_mm, abs=1e-3)
    return one


def test_a_wire_across_the_tube() -> None:
    """At station 100 of 500, t = 0.2, 12 mm over the tube's skin: 1.5 sqrt(0.68)."""
    found = to_tube(Capsule((100.0, -80.0, 24.0), (100.0, 60.0, 24.0), 2.0))
    assert found.mm == pytest.approx(12.0)
    assert found.plus_minus_mm == pytest.approx(share(0.2), rel=1e-3)
    assert found.worst_mm == pytest.approx(12.0 - share(0.2), rel=1e-3)
    assert found.most_from == "where low is"


def test_a_wire_along_the_tube_is_as_sure_as_its_worse_end() -> None:
    """Stations 50 to 250: the axis leans, so that the end at t = 0.1 is the one that may come nearest."""
    found = to_tube(Capsule((50.0, 15.0, 0.0), (250.0, 15.0, 0.0), 2.0))
    assert found.mm == pytest.approx(3.0)
    assert found.plus_minus_mm == pytest.approx(share(0.1), rel=1e-3)


@pytest.mark.parametrize("lean", [0.0, 0.001, 0.003])
def test_a_plate_over_the_tube(lean: float) -> None:
    """Its corners over t = 0.2 and 0.8; leaning, the high end is 300 lean higher and no nearer at worst."""
    u, n = (1.0, 0.0, lean), (-lean, 0.0, 1.0)
    size = hypot(1.0, lean)
    axes = ((u[0] / size, 0.0, u[2] / size), AXES[1], (n[0] / size, 0.0, n[2] / size))
    found = to_tube(Box((250.0, 0.0, 16.0), axes, (150.0, 60.0, 1.0)))
    assert found.mm == pytest.approx(15.0 - 150.0 * lean - 10.0, abs=1e-3)
    assert found.plus_minus_mm == pytest.approx(share(0.2), abs=5e-3)


def test_a_slightly_leaning_wire_is_watched_at_both_ends() -> None:
    """Nearest at t = 0.5 (± 1.06), its other end at t = 0 (± 1.5) 0.2 mm higher: at worst that is nearest."""
    found = to_tube(Capsule((0.0, 0.0, 20.2), (250.0, 0.0, 20.0), 0.0))
    assert found.mm == pytest.approx(10.0, abs=1e-4)
    assert found.worst_mm == pytest.approx(10.2 - share(0.0), abs=1e-3)


def test_what_goes_with_the_tube_keeps_its_distance() -> None:
    """A part that both ends carry along: the common part of their errors drops out."""
    rows = SURE.ends("low")
    shift = (rows[:3] + rows[3:]) / 2
    turn = np.cross(np.array([1.0, 0.0, 0.0]), (rows[3:] - rows[:3]).T).T / 500.0
    twist = np.vstack([turn, shift - np.cross(turn.T, np.array([250.0, 0.0, 0.0])).T])
    found = to_tube(Capsule((100.0, -80.0, 24.0), (100.0, 60.0, 24.0), 2.0), rigid(twist))
    assert found.plus_minus_mm == pytest.approx(0.0, abs=1e-9)


def test_two_bodies_on_the_part_and_bodies_that_touch_have_none() -> None:
    all_drifts = drifts()
    a = Side(Capsule((0.0, 0.0, 40.0), (9.0, 0.0, 40.0), 2.0), all_drifts.part)
    assert clear_between(a, replace(a, body=tube_body(TUBE)), all_drifts).plus_minus_mm == 0.0
    sunk = to_tube(Capsule((0.0, 0.0, 0.0), (9.0, 0.0, 40.0), 2.0))
    assert (sunk.mm, sunk.plus_minus_mm) == (0.0, 0.0)


def test_a_keep_out_errs_on_its_own() -> None:
    """± 1.5 beside a part that stands still; hypot with the tube's own; √2 between two of them."""
    all_drifts = drifts()
    kept = Side(Capsule((100.0, -80.0, 40.0), (100.0, 60.0, 40.0), 2.0), None, "exhaust")
    part = Side(Cylinder((100.0, 0.0, 60.0), (100.0, 0.0, 80.0), 5.0), all_drifts.part)
    by_part = clear_between(part, kept, all_drifts)
    assert by_part.plus_minus_mm == pytest.approx(ERROR)
    assert by_part.most_from == "where exhaust is"
    tube = Side(tube_body(TUBE), all_drifts.tubes["low"])
    by_tube = clear_between(kept, tube, all_drifts)
    assert by_tube.plus_minus_mm == pytest.approx(hypot(ERROR, share(0.2)), rel=1e-3)
    assert by_tube.measured_mm == pytest.approx(by_tube.plus_minus_mm, rel=1e-3)
    panel = Side(Box((100.0, 0.0, 70.0), AXES, (40.0, 40.0, 1.0)), None, "firewall")
    assert clear_between(kept, panel, all_drifts).plus_minus_mm == pytest.approx(ERROR * sqrt(2))


def test_known_places_give_what_the_search_finds() -> None:
    all_drifts = drifts()
    a = Side(Capsule((100.0, -80.0, 24.0), (100.0, 60.0, 24.0), 2.0), all_drifts.part)
    b = Side(tube_body(TUBE), all_drifts.tubes["low"])
    along = clear_along(12.0, (100.0, 0.0, 22.0), (100.0, 0.0, 10.0), a, b, all_drifts)
    assert along.plus_minus_mm == pytest.approx(share(0.2))


def test_a_tube_s_end_face_leans_with_it() -> None:
    """What lies beside the axis at the end: 10 mm beside it in z, the end up by 1 turns the face by 1/500."""
    found = of_tube(TUBE, SURE, SURE.causes).at((500.0, 0.0, 10.0))
    sigma = ERROR / coverage()
    assert found[0].tolist() == pytest.approx([0, 0, sigma * 10 / 500, sigma, 0, -sigma * 10 / 500])
    assert found[2].tolist() == pytest.approx([0, 0, 0, 0, 0, sigma])
    assert still().at((1.0, 2.0, 3.0)).tolist() == np.zeros((3, 6)).tolist()
