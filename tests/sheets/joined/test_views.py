"""Plans and views along a tube: to the scale they state, and the right way round."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path as File

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_recipes import LOW, carried, parallel, stand_off_recipe
from scipy.spatial import ConvexHull
from sheets.joined.any_layout import feet_direction, independent_clock

from clampwright.layout.bodies import Box, Capsule, Cylinder
from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.pairing.lay_out import lay_out_stand_off
from clampwright.layout.placed import PlateLayout
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.make import check_recipe
from clampwright.quantities import Vec2
from clampwright.recipe.bushing_model import BushingJob
from clampwright.sheets.canvas import Drawn
from clampwright.sheets.drawing import Circle, Path, Text
from clampwright.sheets.pair_view import pair_eye, pair_view, viewed_along
from clampwright.sheets.plan_view import AXIS, plan_view
from clampwright.sheets.silhouettes import Eye, hull, silhouette, square_to

BOX = (0.0, -100.0, 112.0, 0.0)
RECIPES = File(__file__).parents[3] / "recipes"


@cache
def beside() -> StandOffLayout:
    """A hose parallel to the low tube, 55 mm away, to the side and up."""
    return lay_out_stand_off(stand_off_recipe(carried=parallel(55.0, (0.0, 0.6, 0.8))))


@cache
def crossing() -> StandOffLayout:
    """A hose that crosses over the low tube."""
    return lay_out_stand_off(stand_off_recipe())


def rings(drawn: Drawn) -> list[tuple[Vec2, float]]:
    """Middle and radius of every many-cornered ring that is round."""
    found = []
    for item in drawn.items:
        if isinstance(item, Path) and item.pen is not None and len(item.points) > 30:
            points = np.asarray(item.points)
            middle = (points.min(axis=0) + points.max(axis=0)) / 2
            radii = np.linalg.norm(points - middle, axis=1)
            if np.ptp(radii) < 0.01 * radii.max():
                found.append(((float(middle[0]), float(middle[1])), float(radii.max())))
    return found


def test_tube_and_parallel_line_are_as_far_apart_and_as_thick_as_the_scale_says() -> None:
    layout = beside()
    drawn = pair_view(layout, BOX)
    tube = [ring for ring in rings(drawn) if ring[1] == pytest.approx(drawn.scale * LOW.od_mm / 2, rel=1e-3)]
    line = [ring for ring in rings(drawn) if ring[1] == pytest.approx(drawn.scale * 10.0, rel=1e-3)]
    assert tube
    assert line
    apart = min(math.dist(a[0], b[0]) for a in tube for b in line if math.dist(a[0], b[0]) > 1)
    assert apart == pytest.approx(drawn.scale * 55.0, rel=2e-3)


def test_the_view_is_that_of_somebody_who_looks_from_start_to_end() -> None:
    """The low tube runs along +x, z is up: who looks along it has -y on the right."""
    loop = viewed_along(beside())
    eye = pair_eye(loop)
    assert eye.up == pytest.approx((0.0, 0.0, 1.0))
    assert eye.right == pytest.approx((0.0, -1.0, 0.0))
    (x, y), drawn = eye.seen((250.0, 33.0, 44.0)), pair_view(beside(), BOX)
    assert (x, y) == pytest.approx((-33.0, 44.0))
    (tube,) = {r[0] for r in rings(drawn) if r[1] == pytest.approx(drawn.scale * LOW.od_mm / 2, rel=1e-3)}
    (line,) = {
        r[0] for r in rings(drawn) if r[1] == pytest.approx(drawn.scale * 10.0, rel=1e-3) and r[0] != tube
    }
    assert line[0] < tube[0]
    assert line[1] > tube[1]


def test_feet_point_in_the_view_where_the_clock_says() -> None:
    for layout in (beside(), crossing()):
        loop = viewed_along(layout)
        right, up = pair_eye(loop).way(tuple(feet_direction(loop)))  # type: ignore[arg-type]
        deg = math.degrees(math.atan2(right, up)) % 360
        assert deg == pytest.approx(independent_clock(loop, feet_direction(loop)), abs=1e-6)


@pytest.mark.parametrize("make", [beside, crossing])
def test_bolt_spacer_clamps_tube_and_line_are_named(make: object) -> None:
    drawn = pair_view(make(), BOX)  # type: ignore[operator]
    said = {item.text for item in drawn.items if isinstance(item, Text)}
    assert {"A1", "B1", "low", "oil hose", "nut", "12:00"} <= said
    assert any(text.startswith("bolt AN3-") for text in said)
    assert any(text.startswith("bushing S1") for text in said) == bool(make().bushings)  # type: ignore[operator]
    assert drawn.left == ()


def test_everything_of_a_pair_lies_in_its_box() -> None:
    for layout in (beside(), crossing()):
        drawn = pair_view(layout, BOX)
        assert drawn.high <= 100.0
        for item in drawn.items:
            points = item.points if isinstance(item, Path) else ()
            for x, y in points:
                assert BOX[0] - 1e-6 <= x <= BOX[2] + 1e-6
                assert -drawn.high - 1e-6 <= y <= 1e-6


@given(st.floats(25.0, 90.0), st.floats(0.0, 6.2), st.floats(8.0, 40.0))
@settings(deadline=None, max_examples=6)
def test_any_parallel_line_is_drawn(away: float, angle: float, od: float) -> None:
    line = parallel(away, (0.0, math.cos(angle), math.sin(angle)))
    layout = lay_out_stand_off(stand_off_recipe(carried=carried(**_of(line, od))))
    drawn = pair_view(layout, BOX)
    assert drawn.scale > 0
    assert any(isinstance(item, Text) and item.text == "A1" for item in drawn.items)


def _of(line: object, od: float) -> dict[str, object]:
    names = ("point", "to", "beside_mm", "toward")
    return {"od_mm": od} | {name: getattr(line, name) for name in names}


def test_holes_of_a_plan_are_the_layouts_to_scale_seen_from_the_component_side() -> None:
    layout = check_recipe(RECIPES / "coil-plate.toml").layout
    assert isinstance(layout, PlateLayout)
    drawn = plan_view(layout, BOX)
    circles = [item for item in drawn.items if isinstance(item, Circle)]
    assert len(circles) == len(layout.holes)
    first, origin = circles[0], layout.holes[0]
    for circle, hole in zip(circles, layout.holes, strict=True):
        x, y = (circle.centre[n] - first.centre[n] for n in (0, 1))
        u, v = (hole.at[n] - origin.at[n] for n in (0, 1))
        assert (x, y) == pytest.approx((drawn.scale * u, drawn.scale * v), abs=1e-9)
        assert circle.radius == pytest.approx(drawn.scale * hole.diameter_mm / 2)
    said = {item.text for item in drawn.items if isinstance(item, Text)}
    assert {hole.label for hole in layout.holes} <= said
    assert {f"tube {loop.tube}" for loop in layout.loops} <= said


@pytest.mark.parametrize("name", ["separator-bushings", "regulator-too-wide"])
def test_a_components_plan_shows_its_own_pattern_x_to_the_right(name: str) -> None:
    """Lugs as the recipe gives them, in the component's frame; tubes by projecting their ends on x and y."""
    layout = check_recipe(RECIPES / f"{name}.toml").layout
    assert isinstance(layout, BushingLayout)
    drawn = plan_view(layout, BOX)
    lugs = layout.recipe.asked(BushingJob).component.lugs
    circles = [item for item in drawn.items if isinstance(item, Circle)]
    assert len(circles) == len(lugs)
    shift = np.asarray(circles[0].centre) - drawn.scale * np.asarray(lugs[0].at)
    for circle, lug in zip(circles, lugs, strict=True):
        assert circle.centre == pytest.approx(tuple(shift + drawn.scale * np.asarray(lug.at)), abs=1e-6)
    x, y, out = (np.asarray(v) for v in (layout.frame.u, layout.frame.v, layout.frame.n))
    assert np.cross(x, y) == pytest.approx(out)
    axes = [item for item in drawn.items if isinstance(item, Path) and item.pen == AXIS]
    for name_, line in zip(dict.fromkeys(loop.tube for loop in layout.loops), axes, strict=True):
        direction = np.asarray(layout.recipe.structure.tube(name_).direction)
        wanted = np.array([direction @ x, direction @ y])
        seen = np.asarray(line.points[1]) - np.asarray(line.points[0])
        assert seen / np.linalg.norm(seen) == pytest.approx(wanted / np.linalg.norm(wanted), abs=1e-6)
    said = [item.text for item in drawn.items if isinstance(item, Text)]
    assert [f"hole {n}" in said for n in range(1, len(lugs) + 1)] == [True] * len(lugs)


@given(
    st.lists(st.tuples(st.floats(-9, 9), st.floats(-9, 9)), min_size=4, max_size=30, unique=True),
)
@settings(deadline=None, max_examples=60)
def test_hull_against_another_library(points: list[Vec2]) -> None:
    """Area by scipy's ConvexHull (Qhull)."""
    cloud = np.asarray(points)
    spread = np.linalg.svd(cloud - cloud.mean(axis=0), compute_uv=False)
    if spread[-1] < 1e-3:
        return
    ring = np.asarray(hull(points))
    x, y = ring[:, 0], ring[:, 1]
    area = 0.5 * float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))
    assert area == pytest.approx(ConvexHull(cloud).volume, rel=1e-6, abs=1e-6)


FRONT = Eye((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


def area(ring: tuple[Vec2, ...]) -> float:
    """Of a polygon, counter-clockwise positive (shoelace)."""
    return 0.5 * sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))


def test_silhouettes_have_the_areas_of_elementary_geometry() -> None:
    """Cylinder from the side 2 r l, from its end pi r^2; capsule 2 r l + pi r^2; box l w."""
    side = Cylinder((0.0, 0.0, 0.0), (0.0, 30.0, 0.0), 5.0)
    end = Cylinder((0.0, 0.0, 0.0), (0.0, 0.0, 30.0), 5.0)
    assert area(silhouette(side, FRONT)) == pytest.approx(300.0, rel=1e-2)
    assert area(silhouette(end, FRONT)) == pytest.approx(math.pi * 25, rel=4e-3)
    wire = Capsule((0.0, 0.0, 0.0), (0.0, 30.0, 0.0), 5.0)
    assert area(silhouette(wire, FRONT)) == pytest.approx(300.0 + math.pi * 25, rel=4e-3)
    block = Box((1.0, 2.0, 3.0), ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)), (3.0, 2.0, 1.0))
    assert area(silhouette(block, FRONT)) == pytest.approx(24.0)


@given(st.tuples(*(st.floats(-5, 5) for _ in range(3))).filter(lambda v: math.hypot(*v) > 0.1))
def test_two_directions_square_to_an_axis(axis: tuple[float, float, float]) -> None:
    a, b = square_to(axis)
    matrix = np.array([a, b, np.asarray(axis) / np.linalg.norm(axis)])
    assert matrix @ matrix.T == pytest.approx(np.eye(3), abs=1e-9)


def test_a_job_with_a_panel_is_seen_along_its_line() -> None:
    layout = check_recipe(RECIPES / "bundle-on-firewall.toml").layout
    assert isinstance(layout, StandOffLayout)
    drawn = pair_view(layout, BOX)
    said = {item.text for item in drawn.items if isinstance(item, Text)}
    assert {"firewall", "B1", layout.line.name} <= said
