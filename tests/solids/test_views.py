"""Views: what an eye sees of simple bodies is known beforehand."""

from __future__ import annotations

import math
from collections import Counter
from itertools import pairwise

import pytest
from solids.hand_layout import HEIGHT, WIDTH, hand_layout

from clampwright.solids.assembly import assembly
from clampwright.solids.body import Body
from clampwright.solids.place import Place
from clampwright.solids.shapes import polygon, prism, ring
from clampwright.solids.views import Chain, draw, extent, look, role_by_role, standard_looks

FROM_ABOVE = look((0.0, 0.0, -1.0), (1.0, 0.0, 0.0))


def body(name: str, shape: object, place: Place | None = None) -> Body:
    """A body to look at."""
    return Body(name, name, "plate", shape, place or Place())


def length(chains: tuple[Chain, ...]) -> float:
    """Length of all chains together."""
    return sum(math.dist(a, b) for chain in chains for a, b in pairwise(chain))


BOX = prism(polygon([(0, 0), (30, 0), (30, 20), (0, 20)]), [], 5.0)


def test_a_box_from_above_is_its_rectangle() -> None:
    (seen,) = draw([body("box", BOX)], FROM_ABOVE)
    assert length(seen.seen) == pytest.approx(100.0, abs=1e-6)
    assert extent([seen]) == pytest.approx((0, 0, 30, 20), abs=1e-6)


def test_right_is_right_and_up_is_up() -> None:
    """From below with -x to the right the picture is mirrored; turned by a right angle x points up."""
    (below,) = draw([body("box", BOX)], look((0.0, 0.0, 1.0), (-1.0, 0.0, 0.0)))
    assert extent([below]) == pytest.approx((-30, 0, 0, 20), abs=1e-6)
    (turned,) = draw([body("box", BOX)], look((0.0, 0.0, -1.0), (0.0, -1.0, 0.0)))
    assert extent([turned]) == pytest.approx((-20, 0, 0, 30), abs=1e-6)


def test_a_disc_is_drawn_within_the_chord_error() -> None:
    (seen,) = draw([body("disc", ring(40.0, 0.0, 3.0))], FROM_ABOVE, chord_mm=0.01)
    radii = [math.hypot(*p) for chain in seen.seen for p in chain]
    assert max(abs(r - 20) for r in radii) < 1e-6
    middles = [
        math.hypot((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for chain in seen.seen for a, b in pairwise(chain)
    ]
    assert 20 - min(middles) < 0.05
    assert length(seen.seen) == pytest.approx(2 * math.pi * 20, rel=2e-3)


def test_what_lies_behind_is_hidden() -> None:
    small = prism(polygon([(10, 5), (20, 5), (20, 15), (10, 15)]), [], 1.0, Place((0.0, 0.0, -8.0)))
    behind, before = draw([body("small", small), body("box", BOX)], FROM_ABOVE, hidden=True)
    assert behind.seen == ()
    assert length(behind.hidden) >= 40 - 1e-6
    assert length(before.seen) == pytest.approx(100.0, abs=1e-6)


def test_a_hole_shows_what_is_under_it() -> None:
    lid = prism(
        polygon([(0, 0), (30, 0), (30, 20), (0, 20)]), [((15, 10), 12.0)], 2.0, Place((0.0, 0.0, 9.0))
    )
    under = prism(polygon([(14, 9), (16, 9), (16, 11), (14, 11)]), [], 2.0)
    shown, cover = draw([body("under", under), body("lid", lid)], FROM_ABOVE)
    assert length(shown.seen) == pytest.approx(8.0, abs=1e-6)
    assert length(cover.seen) == pytest.approx(100 + 12 * math.pi, rel=2e-3)


def test_the_far_face_view_is_the_template_s() -> None:
    layout = hand_layout()
    looks = standard_looks(layout.frame)
    drawn = {d.body: d for d in draw(assembly(layout), looks["far face"])}
    assert extent([drawn["plate coil-plate"]]) == pytest.approx((0, 0, WIDTH, HEIGHT), abs=1e-6)
    x0, y0, x1, y1 = extent([drawn["bolt A1"]])
    assert ((x0 + x1) / 2, (y0 + y1) / 2) == pytest.approx((15.0, 20.0), abs=1e-6)


@pytest.mark.parametrize("name", ["far face", "near face", "edge", "oblique"])
def test_every_standard_look_is_a_right_handed_frame(name: str) -> None:
    at = standard_looks(hand_layout().frame)[name]
    for axis in (at.x, at.y, at.z):
        assert math.hypot(*axis) == pytest.approx(1, abs=1e-12)
    assert sum(a * b for a, b in zip(at.x, at.z, strict=True)) == pytest.approx(0, abs=1e-12)


def test_bodies_of_one_role_drawn_as_one_show_the_same_edges() -> None:
    layout = hand_layout()
    bodies, at = assembly(layout), standard_looks(layout.frame)["oblique"]
    counts: Counter[str] = Counter()
    for d in draw(bodies, at):
        counts[d.ink] += len(d.seen)
    together = draw(role_by_role(bodies), at)
    assert {d.role for d in together} == {body.role for body in bodies}
    assert {d.ink: len(d.seen) for d in together} == counts
