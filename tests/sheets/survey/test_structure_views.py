"""Pictures of structures from three sides: places by numbers, names that do not overlap, 95 % ellipses."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import chi2
from sheets.page_geometry import outside, overlapping, texts, words
from sheets.survey.measured_mounts import found, many, mount, solved

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Page, Path
from clampwright.sheets.ink import ACCENT, BLACK
from clampwright.sheets.silhouettes import Eye
from clampwright.sheets.structure_eyes import SIDES, oblique
from clampwright.sheets.structure_shapes import Spot, ellipse, half_length, placed
from clampwright.sheets.structure_sides import Thing, three_sides
from clampwright.sheets.structure_views import numbered_views, structure_views
from clampwright.structure.tubes import Structure, Tube
from clampwright.structure.uncertainty import independent
from clampwright.trade.tables import rule

CORNER = (40.0, -25.0, 10.0)
PLACES = (CORNER, (340.0, -25.0, 10.0), (40.0, 175.0, 10.0), (40.0, -25.0, 160.0))
CROSS = Structure(tuple(Tube(n, CORNER, p, 19.05) for n, p in zip("uvw", PLACES[1:], strict=True)))
MOUNT = solved(mount()).structure
assert MOUNT is not None
ODD = Structure(
    (
        Tube("obere Strebe links außen", (0.0, 0.0, 0.0), (300.0, 50.0, 20.0), 19.05),
        Tube("верхняя левая", (0.0, 100.0, 0.0), (300.0, 90.0, 20.0), 19.05),
        Tube(
            "upper tube on the pilot's left between firewall and ring",
            (0.0, 0.0, 90.0),
            (300.0, 9.0, 90.0),
            16.0,
        ),
    )
)
STRUCTURES = {
    "mount": MOUNT,
    "cross": CROSS,
    "odd names": ODD,
    "forty": many(40),
    "forty, long names": many(40, long=True),
    "flat": Structure(
        (
            Tube("a", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0), 19.0),
            Tube("b", (0.0, 90.0, 0.0), (500.0, 90.0, 0.0), 19.0),
        )
    ),
    "one upright": Structure((Tube("a", (0.0, 0.0, 0.0), (0.0, 0.0, 400.0), 19.0),)),
}


def dots(page: Page) -> list[Vec2]:
    """Middles of the small filled diamonds that stand for points, as drawn."""
    diamonds = [
        item for item in page.items if isinstance(item, Path) and item.fill == BLACK and len(item.points) == 4
    ]
    return [(sum(x for x, _ in d.points) / 4, sum(y for _, y in d.points) / 4) for d in diamonds]


def test_three_sides_are_drawn_to_one_scale_in_third_angle() -> None:
    """ISO 5456-2 (as recalled): over the view from one side stands that from above, beside it the next."""
    spots = [Spot(name, at) for name, at in zip("oxyz", PLACES, strict=True)]
    found_dots = dots(structure_views(CROSS, "mm", title="t", spots=spots))
    top, left, front = found_dots[:4], found_dots[4:8], found_dots[8:12]
    scale = (top[1][0] - top[0][0]) / 300.0
    assert scale > 0
    for view, (across, up) in zip((top, left, front), ((0, 1), (0, 2), (1, 2)), strict=True):
        for dot, place in zip(view, PLACES, strict=True):
            assert dot[0] - view[0][0] == pytest.approx(scale * (place[across] - CORNER[across]), abs=1e-6)
            assert dot[1] - view[0][1] == pytest.approx(scale * (place[up] - CORNER[up]), abs=1e-6)
    assert [dot[0] for dot in top] == pytest.approx([dot[0] for dot in left], abs=1e-6)
    assert [dot[1] for dot in left] == pytest.approx([dot[1] for dot in front], abs=1e-6)
    assert min(dot[1] for dot in top) > max(dot[1] for dot in left)
    assert min(dot[0] for dot in front) > max(dot[0] for dot in left)


def test_titles_say_where_the_eye_is() -> None:
    """Right x up points to whoever looks: a mirrored view would say the opposite side."""
    for side, (axis, sign) in zip(SIDES, ((2, 1.0), (1, -1.0), (0, 1.0)), strict=True):
        right, up = np.array(side.eye.right), np.array(side.eye.up)
        toward = np.zeros(3)
        toward[axis] = sign
        assert np.cross(right, up) == pytest.approx(toward)
        assert f"from {'+' if sign > 0 else '-'}{'xyz'[axis]}" in side.title
        assert right["xyz".index(side.right)] == 1.0
        assert up["xyz".index(side.up)] == 1.0


def test_sides_are_said_by_their_axes_alone() -> None:
    """Left and right are the pilot's in the trade, and a frame need not point forward."""
    said = [text.text for text in texts(structure_views(MOUNT, "in", title="t"))]
    for title in ("from +z, above", "from -y", "from +x", "at a slant, from +x, -y and above"):
        assert said.count(title) == 1
    legend = words((structure_views(MOUNT, "in", title="t"),)).replace("\n", " ")
    assert "y runs to your right as you stand before the nose looking aft" in legend
    assert "the pilot's right is at your left" in legend
    assert not [title for title in said if title.startswith(("from the ", "at a slant, from the "))]


def test_what_stands_at_the_right_of_the_view_from_x_is_at_the_pilots_left() -> None:
    """Of a frame with x forward and z up; the pilot looks along x, so that left is z cross x = y."""
    pilots_left = np.cross((0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
    front = SIDES[2]
    assert front.title == "from +x"
    assert np.array(front.eye.right) == pytest.approx(pilots_left)


def test_a_file_has_its_own_axes_and_no_way_up() -> None:
    said = words((numbered_views(found(8), "in"),)).replace("\n", " ")
    assert "The axes x, y and z are the file's own" in said
    for word in ("firewall", "nose", "above", "ellipse"):
        assert word not in said


def test_the_slanted_view_is_from_x_minus_y_and_above() -> None:
    toward = np.array(oblique().toward)
    assert np.linalg.norm(toward) == pytest.approx(1.0)
    assert toward[0] > 0 > toward[1]
    assert toward[2] > 0


@pytest.mark.parametrize("name", STRUCTURES)
def test_nothing_overlaps_and_nothing_leaves_the_page(name: str) -> None:
    page = structure_views(STRUCTURES[name], "in", title=name)
    assert outside(page, 5.0) == []
    assert overlapping(page) == []


@pytest.mark.parametrize("name", ["mount", "cross"])
def test_every_tube_is_named_in_every_view(name: str) -> None:
    structure = STRUCTURES[name]
    said = [text.text for text in texts(structure_views(structure, "in", title="t"))]
    for tube in structure.tubes:
        assert said.count(tube.name) == 4


@pytest.mark.parametrize("name", ["forty", "forty, long names", "odd names"])
def test_many_or_long_names_become_numbers_with_a_key(name: str) -> None:
    structure = STRUCTURES[name]
    page = structure_views(structure, "in", title="t")
    said = [text.text for text in texts(page)]
    for number, tube in enumerate(structure.tubes, 1):
        left = "No room" in words((page,))
        assert said.count(str(number)) in (4, 5) or left
        assert tube.name.split()[0].isascii() is False or tube.name in " ".join(said)


def test_letters_that_the_fonts_lack_leave_the_number() -> None:
    said = words((structure_views(ODD, "mm", title="t"),))
    assert "obere Strebe links außen" in said
    assert "???????" in said


def test_ellipse_holds_95_of_100() -> None:
    """A normal spread in a plane: half axes are sqrt(chi-square(2 degrees, 95 %)) deviations."""
    rng = np.random.default_rng(5)
    factor = rng.normal(size=(3, 7))
    eye = Eye((0.0, 0.0, 0.0), (0.6, 0.8, 0.0), (0.0, 0.0, 1.0))
    ring = np.array(ellipse(Spot("", (1.0, 2.0, 3.0), tuple(map(tuple, factor.tolist()))), eye))
    seen = np.array([eye.right, eye.up]) @ factor
    middle = np.array(eye.seen((1.0, 2.0, 3.0)))
    inverse = np.linalg.inv(seen @ seen.T)
    radii = np.einsum("ni,ij,nj->n", ring - middle, inverse, ring - middle)
    assert radii == pytest.approx(np.full(len(ring), chi2.ppf(0.95, 2)), rel=1e-5)
    drawn = rng.normal(size=(200_000, 7)) @ seen.T
    inside = np.einsum("ni,ij,nj->n", drawn, inverse, drawn) <= radii[0]
    assert inside.mean() == pytest.approx(0.95, abs=0.002)
    assert rule("coverage-95-plane").value == pytest.approx(math.sqrt(-2.0 * math.log(0.05)), abs=1e-6)


def test_plus_minus_of_one_coordinate_is_that_of_the_line() -> None:
    """On a line 95 % lie within 1.96 deviations, in a plane within 2.448: the ellipse is that much larger."""
    spot = placed("A", (0.0, 0.0, 0.0), (1.96, 0.0, 0.0))
    assert half_length(spot, SIDES[0].eye) == pytest.approx(2.447747, abs=1e-6)


def test_how_much_larger_the_ellipses_are_drawn_is_said() -> None:
    sure = independent(CROSS.tubes, 1.96, "by hand")
    page = structure_views(replace(CROSS, uncertainty=sure), "mm", title="t")
    rings = [i for i in page.items if isinstance(i, Path) and i.pen is not None and i.pen.colour == ACCENT]
    assert len(rings) == 4 * 3
    wide = max(x for x, _ in rings[0].points) - min(x for x, _ in rings[0].points)
    plain = structure_views(
        CROSS, "mm", title="t", spots=[Spot(n, p) for n, p in zip("oxyz", PLACES, strict=True)]
    )
    scale = (dots(plain)[1][0] - dots(plain)[0][0]) / 300.0
    times = wide / (2 * 2.447747 * scale)
    assert f"drawn {times:.0f} times as large as the tubes" in words((page,)).replace("\n", " ")
    assert round(times) > 1


def test_without_uncertainty_no_ellipse_is_drawn_or_spoken_of() -> None:
    sure = independent(CROSS.tubes, 1.96, "by hand")
    for page in (
        structure_views(CROSS, "mm", title="t"),
        structure_views(replace(CROSS, uncertainty=sure), "mm", title="t", uncertainty=False),
    ):
        assert not [i for i in page.items if isinstance(i, Path) and i.pen and i.pen.colour == ACCENT]
        assert "ellipses" not in words((page,))


def test_a_mark_is_a_tick_across_its_tube() -> None:
    marked = Structure((replace(CROSS.tubes[0], mark_mm=75.0), *CROSS.tubes[1:]))
    ticks = [
        i
        for i in structure_views(marked, "mm", title="t").items
        if isinstance(i, Path) and i.pen and i.pen.width_mm == 0.5
    ]
    upright = [t for t in ticks if abs(t.points[0][0] - t.points[1][0]) < 1e-9]
    assert len(upright) == 2
    ends = dots(structure_views(CROSS, "mm", title="t", spots=[Spot("o", CORNER), Spot("x", PLACES[1])]))
    assert upright[0].points[0][0] == pytest.approx(ends[0][0] + 0.25 * (ends[1][0] - ends[0][0]), abs=1e-6)


@pytest.mark.parametrize("count", [1, 8, 40])
def test_numbers_of_found_tubes_stand_in_every_view(count: int) -> None:
    page = numbered_views(found(count), "in")
    said = [text.text for text in texts(page)]
    if "No room" not in words((page,)):
        assert {said.count(str(number)) for number in range(1, count + 1)} <= {3, 4}
    assert overlapping(page) == []
    assert outside(page, 5.0) == []


def test_eight_found_tubes_have_room() -> None:
    assert "No room" not in words((numbered_views(found(8), "in"),))


def test_the_same_page_twice() -> None:
    assert structure_views(MOUNT, "in", title="t") == structure_views(
        solved(mount()).structure, "in", title="t"
    )  # type: ignore[arg-type]


def test_pictures_stay_in_their_room() -> None:
    sides = three_sides(Thing((), (Spot("lonely", (5.0, 5.0, 5.0)),)), (180.0, 150.0))
    assert sides.drawn.high <= 150.0
    assert sides.drawn.left == ()
