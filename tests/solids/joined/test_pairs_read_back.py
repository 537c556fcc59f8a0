"""Stand-offs measured on their exported assemblies by gmsh, which did not write them.

Design rule: n along a x b, axis distance d, spacer L = d - seat_A - seat_B for axes that cross; parallel axes
L = sqrt(d^2 - (r_A +- r_B)^2) - seat_A - seat_B.
"""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest
from joined_recipes import FIREWALL
from solids.joined.pairs import stand_off
from solids.joined.read_back import Read, Vector, between_lines, distances, off_line, read_back

from clampwright.files.solid_files import assembly_file
from clampwright.solids.joined_assembly import joined_assembly

NEAR = 1e-6
PAIRS = ("skew", "parallel")


@cache
def exported(name: str) -> bytes:
    """The assembly as STEP."""
    return assembly_file(name, "the bushings", joined_assembly(stand_off(name)), "pass").data


@pytest.fixture(scope="module")
def read(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, Read]]:
    return {name: read_back(exported(name), tmp_path_factory.mktemp(name)) for name in (*PAIRS, "panel")}


def long_one(bodies: dict[str, Read], word: str) -> Read:
    """The tube or line among the bodies, whose name goes on with the stations shown."""
    (found,) = (body for name, body in bodies.items() if name.startswith(word))
    return found


def shank(bodies: dict[str, Read], label: str) -> tuple[Vector, Vector]:
    """The bolt's axis, from the circles of its shank."""
    return bodies[f"bolt {label}"].axis(4.826)


def heights(read: Read, diameter: float, line: tuple[Vector, Vector]) -> list[float]:
    """Where along a line its circles of a diameter lie, lowest first."""
    return sorted(float((centre - line[0]) @ line[1]) for centre in read.centres(diameter))


@pytest.mark.parametrize("name", PAIRS)
def test_distance_between_tube_axis_and_line_axis(name: str, read: dict[str, dict[str, Read]]) -> None:
    """Skew: the axes at z = 0 and z = 40. Parallel: 60 mm beside. Both as the recipe has them."""
    layout, bodies = stand_off(name), read[name]
    tube, line = long_one(bodies, "tube low").axis(19.05), long_one(bodies, "line oil hose").axis(20.0)
    wanted = {"skew": 40.0, "parallel": 60.0}[name]
    assert between_lines(tube, line) == pytest.approx(wanted, abs=NEAR)
    assert layout.distance_mm == pytest.approx(wanted, abs=NEAR)


@pytest.mark.parametrize("name", PAIRS)
def test_both_foot_holes_the_bushing_and_the_bolt_share_one_axis(
    name: str, read: dict[str, dict[str, Read]]
) -> None:
    layout, bodies = stand_off(name), read[name]
    bolt = shank(bodies, "A1+B1")
    for loop in layout.loops:
        for centre in bodies[f"clamp {loop.label} band"].centres(loop.clamp.foot_hole_mm):
            assert off_line(centre, bolt) < NEAR
    (part,) = layout.bushings
    for diameter in (part.id_mm, part.od_mm):
        assert all(off_line(c, bolt) < NEAR for c in bodies["bushing A1+B1"].centres(diameter))
    assert all(off_line(c, bolt) < NEAR for c in bodies["nut A1+B1"].centres(4.826))


@pytest.mark.parametrize("name", PAIRS)
def test_loops_lie_round_tube_and_line_at_their_reach_from_the_bolt(
    name: str, read: dict[str, dict[str, Read]]
) -> None:
    layout, bodies = stand_off(name), read[name]
    bolt = shank(bodies, "A1+B1")
    for loop, word, od in zip(layout.loops, ("tube low", "line oil hose"), (19.05, 20.0), strict=True):
        axis = long_one(bodies, word).axis(od)
        round_it = bodies[f"clamp {loop.label} cushion"].centres(loop.clamp.loop_mm)
        assert all(off_line(centre, axis) < NEAR for centre in round_it)
        assert between_lines(axis, bolt) == pytest.approx(loop.clamp.reach_mm, abs=NEAR)


@pytest.mark.parametrize("name", PAIRS)
def test_the_gap_between_the_feet_is_the_spacer(name: str, read: dict[str, dict[str, Read]]) -> None:
    """The holes' rims on the facing sides of the feet are as far apart as the formula has the spacer."""
    layout, bodies = stand_off(name), read[name]
    bolt = shank(bodies, "A1+B1")
    spans = [
        heights(bodies[f"clamp {loop.label} band"], loop.clamp.foot_hole_mm, bolt) for loop in layout.loops
    ]
    low, high = sorted(spans)
    a, b = (loop.clamp for loop in layout.loops)
    if name == "skew":
        wanted = 40.0 - a.seat_mm - b.seat_mm
    else:
        aside = {True: a.reach_mm - b.reach_mm, False: a.reach_mm + b.reach_mm}[_same_side(name)]
        wanted = math.sqrt(60.0**2 - aside**2) - a.seat_mm - b.seat_mm
    assert high[0] - low[-1] == pytest.approx(wanted, abs=NEAR)
    assert layout.place.spacer_mm == pytest.approx(wanted, abs=NEAR)


def _same_side(name: str) -> bool:
    """Whether tube and line lie on one side of the bolt."""
    place, loops = stand_off(name).place, stand_off(name).loops
    a, b = (np.subtract(loop.centre, place.bolt) for loop in loops)
    n = np.array(place.axis)
    return float((a - (a @ n) * n) @ (b - (b @ n) * n)) > 0


@pytest.mark.parametrize("name", PAIRS)
def test_the_bushing_lies_on_one_foot_and_reaches_the_other(
    name: str, read: dict[str, dict[str, Read]]
) -> None:
    """What the made length leaves open is the few hundredths that the bushing's fill states."""
    layout, bodies = stand_off(name), read[name]
    bolt = shank(bodies, "A1+B1")
    (part,) = layout.bushings
    (fill,) = part.fills
    ends = heights(bodies["bushing A1+B1"], part.od_mm - 2 * part.chamfer_mm, bolt)
    low, high = sorted(
        heights(bodies[f"clamp {loop.label} band"], loop.clamp.foot_hole_mm, bolt) for loop in layout.loops
    )
    open_gaps = sorted((ends[0] - low[-1], high[0] - ends[-1]), key=abs)
    assert open_gaps[0] == pytest.approx(0.0, abs=NEAR)
    assert open_gaps[1] == pytest.approx(fill.left_mm, abs=NEAR)
    assert abs(fill.left_mm) <= 0.1
    assert ends[-1] - ends[0] == pytest.approx(part.length_mm, abs=NEAR)


@pytest.mark.parametrize("name", PAIRS)
def test_minimum_clearance_of_line_and_tube(name: str, tmp_path_factory: pytest.TempPathFactory) -> None:
    """Axis distance less both radii: gmsh's kernel on the solids it read."""
    bodies = joined_assembly(stand_off(name))
    tube, line = (next(b.name for b in bodies if b.name.startswith(w)) for w in ("tube low", "line"))
    (found,) = distances(exported(name), [(tube, line)], tmp_path_factory.mktemp(name))
    wanted = {"skew": 40.0, "parallel": 60.0}[name] - 19.05 / 2 - 10.0
    assert found == pytest.approx(wanted, abs=NEAR)


def test_the_panel_s_hole_is_on_the_bolt_and_its_face_meets_the_bushing(
    read: dict[str, dict[str, Read]],
) -> None:
    layout, bodies = stand_off("panel"), read["panel"]
    bolt = shank(bodies, "B1")
    panel = bodies["panel firewall, only round the hole"]
    rims = panel.centres(layout.panel_hole_mm)
    assert all(off_line(rim, bolt) < NEAR for rim in rims)
    assert sorted(rim[0] for rim in rims) == pytest.approx([-50.0 - FIREWALL.thickness_mm, -50.0], abs=NEAR)
    (part,) = layout.bushings
    ends = [c[0] for c in bodies["bushing B1"].centres(part.od_mm - 2 * part.chamfer_mm)]
    assert min(abs(x + 50.0) for x in ends) <= abs(part.fills[0].left_mm) + NEAR
    foot = [c[0] for c in bodies["clamp B1 band"].centres(layout.loops[0].clamp.foot_hole_mm)]
    assert min(foot) == pytest.approx(-50.0 + layout.place.spacer_mm, abs=NEAR)


def test_the_line_runs_square_off_the_panel_as_the_recipe_says(read: dict[str, dict[str, Read]]) -> None:
    """Axis 50 mm before the face at x = -50: the recipe's line at x = 0."""
    line = long_one(read["panel"], "line oil hose").axis(20.0)
    assert abs(line[0][0]) < NEAR
    assert np.allclose(np.abs(line[1]), np.array([0.0, 200.0, 5.0]) / math.hypot(200.0, 5.0), atol=1e-9)
