"""Views and sections of solids whose pictures are known beforehand."""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path

import cadquery as cq
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from solids.hand_layout import hand_layout

from clampwright.layout.lay_out import lay_out
from clampwright.recipe.read import read
from clampwright.solids.bushing import bushing_shape
from clampwright.solids.measure import box_mm
from clampwright.solids.place import Place
from clampwright.solids.plate import plate
from clampwright.solids.shapes import Shape, cut, fuse, polygon, prism, ring
from clampwright.solids.shop_looks import ALONG_THE_BORE, END_ON, LOOKS
from clampwright.solids.shop_views import NoSection, bore_section, section_of, view_at, views_of
from clampwright.solids.view_lines import Chain, Edge, ViewArc, ViewLines

RECIPES = Path(__file__).parents[2] / "recipes"
ALL = tuple(LOOKS)


def block(x: float, y: float, z: float, at: tuple[float, float, float] = (0.0, 0.0, 0.0)) -> Shape:
    """A box from its lowest corner."""
    return prism(polygon([(0, 0), (x, 0), (x, y), (0, y)]), [], z, Place(at))


ANGLE = fuse(block(60, 40, 3), [block(3, 40, 30)])
"""An L: a base, and a wall along its left edge that rises towards the eye of the front view."""
POCKET = cut(block(50, 30, 10), [block(20, 10, 6, (10, 10, 4))])
"""A blind pocket from the front, 6 deep."""
PLATE = prism(
    polygon([(0, 0), (80, 0), (80, 50), (0, 50)]), [((10, 10), 5), ((40, 25), 12), ((70, 40), 4.9)], 3.2
)


def long(edges: tuple[Edge, ...]) -> float:
    """Length of edges together."""
    return math.fsum(
        math.radians(e.end_deg - e.start_deg) * e.radius
        if isinstance(e, ViewArc)
        else math.fsum(math.dist(a, b) for a, b in pairwise(e))
        for e in edges
    )


def segments(edges: tuple[Edge, ...]) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Straight pieces, rounded, each from its lesser end."""
    chains = [e for e in edges if not isinstance(e, ViewArc)]
    pairs = [
        sorted((round(x, 6) + 0.0, round(y, 6) + 0.0) for x, y in ab) for e in chains for ab in pairwise(e)
    ]
    return sorted((a, b) for a, b in pairs)


def area(ring: Chain) -> float:
    """Signed area of a closed ring (shoelace)."""
    return math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(ring)) / 2


SOLIDS = {
    "angle": ANGLE,
    "pocket": POCKET,
    "plate": PLATE,
    "by hand": plate(hand_layout()),
    "coil plate": plate(lay_out(read(RECIPES / "coil-plate.toml"))),  # type: ignore[arg-type]
    "bushing": bushing_shape(31.0, 12.7, 5.0, 0.5),
}


@pytest.mark.parametrize("name", SOLIDS)
def test_extents_are_the_solid_s_box(name: str) -> None:
    low, high = box_mm(SOLIDS[name])
    corners = [(x, y, z) for x in (low[0], high[0]) for y in (low[1], high[1]) for z in (low[2], high[2])]
    for view in views_of(SOLIDS[name], ALL):
        points = [view.point(corner) for corner in corners]
        xs, ys = zip(*points, strict=True)
        # the kernel's box is 1e-7 larger than the solid on every side
        assert view.box() == pytest.approx((min(xs), min(ys), max(xs), max(ys)), abs=1e-6)


@pytest.mark.parametrize("name", ALL)
def test_looks_are_right_handed_and_square(name: str) -> None:
    at = LOOKS[name]
    assert math.isclose(math.hypot(*at.x), 1)
    assert math.isclose(math.hypot(*at.z), 1)
    assert sum(a * b for a, b in zip(at.x, at.z, strict=True)) == 0
    away = {"front": 2, "back": 2, "top": 1, "bottom": 1, "right": 0, "left": 0}[name]
    sign = 1 if name in ("front", "top", "right") else -1
    assert at.z[away] == sign
    upright = (0.0, 1.0, 0.0) if name not in ("top", "bottom") else (0.0, 0.0, -at.z[1])
    assert at.y == pytest.approx(upright)


def test_a_blind_pocket_is_hidden_from_the_sides_and_seen_from_the_front() -> None:
    """In the top view the pocket is three sides of a rectangle, 20 wide and 6 deep from the front face."""
    front, top, back = views_of(POCKET, ["front", "top", "back"])
    assert front.hidden == ()
    assert long(front.seen) == pytest.approx(2 * 80 + 2 * 30)
    assert segments(top.hidden) == [((10, -10), (10, -4)), ((10, -4), (30, -4)), ((30, -10), (30, -4))]
    assert long(top.seen) == pytest.approx(120)
    assert long(back.hidden) == pytest.approx(60)
    assert long(back.seen) == pytest.approx(160)


def test_the_wall_of_an_angle_shows_on_its_own_side() -> None:
    """The wall stands at the left and towards the eye of the front view: seen from the left it is a plain
    rectangle, from the right its edge over the base; in the top view it is on the left, towards the front."""
    front, top, right, left = views_of(ANGLE, ["front", "top", "right", "left"])
    assert ((3, 0), (3, 40)) in segments(front.seen)
    assert segments(left.seen) == [
        ((0, 0), (0, 40)),
        ((0, 0), (30, 0)),
        ((0, 40), (30, 40)),
        ((30, 0), (30, 40)),
    ]
    assert segments(left.hidden) == [((3, 0), (3, 40))]
    assert ((-3, 0), (-3, 40)) in segments(right.seen)
    assert right.hidden == ()
    assert segments(top.seen) == [
        *(((0, -30), (0, 0)), ((0, -30), (3, -30)), ((0, 0), (60, 0))),
        *(((3, -30), (3, -3)), ((3, -3), (60, -3)), ((60, -3), (60, 0))),
    ]
    assert top.hidden == ()


def test_circles_stay_circles_and_none_twice() -> None:
    (front,) = views_of(PLATE, ["front"])
    arcs = [edge for edge in front.seen if isinstance(edge, ViewArc)]
    assert [(round(a.centre[0], 9), round(a.centre[1], 9), a.radius) for a in arcs] == [
        *((10, 10, pytest.approx(2.5, abs=1e-9)), (40, 25, pytest.approx(6, abs=1e-9))),
        (70, 40, pytest.approx(2.45, abs=1e-9)),
    ]
    assert all((a.start_deg, a.end_deg) == (0.0, 360.0) for a in arcs)
    assert front.hidden == ()
    assert len(front.seen) == 4


def test_rounded_corners_stay_arcs_of_their_radius() -> None:
    made = cq.Workplane().box(60, 40, 3, centered=False).edges("|Z").fillet(7.5).val()
    front, top = views_of(made, ["front", "top"])
    arcs = {a.centre: a for a in front.seen if isinstance(a, ViewArc)}
    assert len(arcs) == 4
    assert len(front.seen) == 8
    for arc in arcs.values():
        assert arc.radius == pytest.approx(7.5, abs=1e-9)
        assert arc.end_deg - arc.start_deg == pytest.approx(90.0, abs=1e-6)
        outward = math.radians((arc.start_deg + arc.end_deg) / 2)
        assert math.copysign(1, math.cos(outward)) == math.copysign(1, arc.centre[0] - 30)
        assert math.copysign(1, math.sin(outward)) == math.copysign(1, arc.centre[1] - 20)
    # smooth edges between flats and corners are left out
    assert long(top.seen) == pytest.approx(2 * 63)
    (with_smooth,) = views_of(made, ["top"], smooth=True)
    assert long(with_smooth.seen) == pytest.approx(2 * 63 + 2 * 3)


def test_a_hole_from_the_edge_is_two_hidden_lines() -> None:
    (right,) = views_of(PLATE, ["right"])
    sides = [10 - 2.5, 10 + 2.5, 25 - 6, 25 + 6, 40 - 2.45, 40 + 2.45]
    assert segments(right.hidden) == [((-3.2, round(y, 6)), (0, round(y, 6))) for y in sides]


def test_nothing_lies_over_anything() -> None:
    for shape in SOLIDS.values():
        for view in views_of(shape, ALL):
            pieces = segments((*view.seen, *view.hidden))
            assert len(set(pieces)) == len(pieces)
            rounds = [e for e in (*view.seen, *view.hidden) if isinstance(e, ViewArc)]
            assert all(e.end_deg > e.start_deg for e in rounds)
            for n, (a, b) in enumerate(pieces):
                for c, d in pieces[n + 1 :]:
                    assert not _overlap(a, b, c, d), (view.name, a, b, c, d)


def _overlap(a: tuple[float, ...], b: tuple[float, ...], c: tuple[float, ...], d: tuple[float, ...]) -> bool:
    """Whether two straight pieces in one line share more than a point."""
    size = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / size, (b[1] - a[1]) / size
    off = [abs((p[1] - a[1]) * ux - (p[0] - a[0]) * uy) for p in (c, d)]
    if max(off) > 1e-4:
        return False
    s, t = sorted((p[0] - a[0]) * ux + (p[1] - a[1]) * uy for p in (c, d))
    return min(t, size) - max(s, 0.0) > 1e-4


def test_the_same_lines_every_time() -> None:
    for shape in (ANGLE, PLATE):
        assert views_of(shape, ALL) == views_of(shape, ALL)
    again = prism(
        polygon([(0, 0), (80, 0), (80, 50), (0, 50)]), [((70, 40), 4.9), ((40, 25), 12), ((10, 10), 5)], 3.2
    )
    for one, other in zip(views_of(again, ALL), views_of(PLATE, ALL), strict=True):
        assert segments(one.seen) == segments(other.seen)
        assert segments(one.hidden) == segments(other.hidden)


def test_a_view_of_no_name_is_refused() -> None:
    with pytest.raises(KeyError):
        views_of(PLATE, ["oblique"])


def _checked(view: ViewLines) -> float:
    """Area of the cut faces, each ring closed and the right way round."""
    for outer, *holes in view.cut:
        assert outer[0] == outer[-1] == min(outer)
        assert area(outer) > 0
        assert all(area(hole) < 0 and hole[0] == hole[-1] for hole in holes)
    return math.fsum(area(ring) for face in view.cut for ring in face)


@settings(deadline=None, max_examples=20)
@given(
    st.floats(4.0, 120.0),
    st.floats(3.0, 10.0),
    st.floats(0.9, 6.0),
    st.one_of(st.just(0.0), st.floats(0.05, 0.3)),
)
def test_section_of_a_bushing(length: float, bore: float, wall: float, chamfer: float) -> None:
    """Closed form: two walls, each less four corners of chamfer^2/2."""
    made = bushing_shape(length, bore + 2 * wall, bore, chamfer)
    view = bore_section(made)
    assert len(view.cut) == 2
    assert _checked(view) == pytest.approx(2 * (wall * length - 4 * chamfer**2 / 2), abs=1e-6)
    assert view.box() == pytest.approx((0, -bore / 2 - wall, length, bore / 2 + wall), abs=1e-6)
    assert view.hidden == ()


def test_lines_of_a_section_of_a_bushing() -> None:
    """Both walls' outlines, and behind them the rims of the bore and of its chamfer as level lines."""
    view = bore_section(bushing_shape(30.0, 12.0, 5.0, 0.5))
    wall = 2 * ((30 - 1) + (3.5 - 1) + 2 * 0.5 * math.sqrt(2))
    behind = 2 * (2 * 3.0) + 2 * (2 * 2.5)
    assert long(view.seen) == pytest.approx(2 * wall + behind)
    assert view.place == ALONG_THE_BORE
    end = view_at(bushing_shape(30.0, 12.0, 5.0, 0.5), END_ON, "end")
    assert sorted(e.radius for e in end.seen if isinstance(e, ViewArc)) == pytest.approx([2.5, 3, 5.5, 6])


def test_section_of_a_plate_through_a_hole() -> None:
    at = Place((0.0, 25.0, 0.0), (1.0, 0.0, 0.0), (0.0, -1.0, 0.0))
    view = section_of(PLATE, at, "section B-B")
    assert len(view.cut) == 2
    assert _checked(view) == pytest.approx(3.2 * (80 - 12))
    assert view.box() == pytest.approx((0, 0, 80, 3.2))


def test_section_with_a_hole_in_its_face_and_what_lies_behind() -> None:
    """Cut square to a tube's axis: one face with a hole in it. What the eye is before is taken away."""
    made = fuse(ring(20.0, 8.0, 30.0), [block(40, 4, 5, (0, -2, 0))])
    made = cut(made, [ring(8.0, 0.0, 40.0)])
    view = section_of(made, Place((0.0, 0.0, 15.0)))
    assert [len(face) for face in view.cut] == [2]
    assert _checked(view) == pytest.approx(math.pi * (100 - 16), rel=1e-3)
    assert view.box()[2] == pytest.approx(40)
    above = section_of(made, Place((0.0, 0.0, 2.0), (1.0, 0.0, 0.0), (0.0, 0.0, -1.0)), hidden=True)
    assert above.box()[0] == pytest.approx(-10)


def test_a_plane_that_misses_makes_no_section() -> None:
    with pytest.raises(NoSection, match="section C-C: the plane does not cut the part"):
        section_of(PLATE, Place((0.0, 0.0, 99.0)), "section C-C")
