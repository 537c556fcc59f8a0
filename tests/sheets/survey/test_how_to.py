"""What the how-to claims, worked out on its own: readings, sag, and the ± that its method gives."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from sheets.page_geometry import words
from sheets.survey.how_to_mount import INCH, MARKS, distances, plus_minus, rings
from sheets.survey.measured_mounts import mount

from clampwright.recipe.survey_file import read_survey_text
from clampwright.sheets.drawing import Item, Page, Path, Text
from clampwright.sheets.flow import Block
from clampwright.sheets.structure_eyes import oblique
from clampwright.sheets.survey_datum_picture import datum_picture
from clampwright.sheets.survey_form import survey_form
from clampwright.sheets.survey_pictures import (
    ring_picture,
    sag_and_hold_picture,
    strength_picture,
    three_ways_picture,
)
from clampwright.sheets.survey_typing import EXAMPLE, _Names, measured
from clampwright.structure.survey.model import OUTSIDE, Datum, Distance
from clampwright.structure.survey.solve import solve
from clampwright.trade.tables import rule

TAPE = INCH / 16
RADIUS = 0.375 * INCH
SAID = words(survey_form(None, (), "letter").pages).replace("\n", " ")
PICTURES = (ring_picture, three_ways_picture, strength_picture, sag_and_hold_picture, datum_picture)


def unit(v: np.ndarray) -> np.ndarray:  # type: ignore[type-arg]
    return v / np.linalg.norm(v)


def flank(c: np.ndarray, axis: np.ndarray, other: np.ndarray, like: np.ndarray) -> np.ndarray:  # type: ignore[type-arg]
    """Where a tape to `other` touches the side of a tube at its ring round c, on the side of `like`."""
    side = unit(np.cross(other - c, axis))
    return c + RADIUS * (side if side @ like >= 0 else -side)


def test_a_tape_laid_across_reads_centre_to_centre() -> None:
    """Derived: the sides stand square to the line of centres, so it reads sqrt(d² + |difference|²)."""
    rng = np.random.default_rng(3)
    most = 0.0
    for _ in range(3000):
        a, b = np.zeros(3), rng.uniform(10.0, 40.0) * INCH * unit(rng.normal(size=3))
        one = unit(rng.normal(size=3))
        two = unit(one + 0.5 * rng.normal(size=3))
        if min(np.linalg.norm(np.cross(unit(b), axis)) for axis in (one, two)) < 0.3:
            continue
        p = flank(a, one, b, np.cross(b, one))
        q = flank(b, two, a, p - a)
        read = float(np.linalg.norm(q - p))
        d = float(np.linalg.norm(b))
        assert read == pytest.approx(math.sqrt(d**2 + float(np.sum((q - b - p + a) ** 2))), abs=1e-9)
        assert read >= d - 1e-9
        if (q - b) @ (p - a) >= 0.5 * RADIUS**2:
            most = max(most, read - d)
    assert most <= rule("tape-across-reads-most").value
    assert f"{rule('tape-across-reads-most').value / INCH:.3f} in" in SAID


def test_a_tape_from_a_mark_to_a_tube_too() -> None:
    """r² / (2 d) of a 3/4 in tube at 10 in is 0.0070 in."""
    excess = math.hypot(10 * INCH, RADIUS) - 10 * INCH
    assert excess == pytest.approx(RADIUS**2 / (20 * INCH), rel=1e-3)
    assert excess <= rule("tape-across-reads-most").value


def walls(c: np.ndarray, axis: np.ndarray, way: np.ndarray, radius: float) -> tuple[float, float]:  # type: ignore[type-arg]
    """Where a line through an axis point c meets the tube's skin, by the quadratic of line and cylinder."""
    square = way - (way @ axis) * axis
    reach = radius / math.sqrt(float(square @ square))
    return -reach, reach


def test_half_of_outside_and_inside_is_the_centre_at_any_slant() -> None:
    rng = np.random.default_rng(8)
    for _ in range(200):
        a, b = rng.normal(size=3) * 200, rng.normal(size=3) * 200 + 400
        way, d = unit(b - a), float(np.linalg.norm(b - a))
        near_a, far_b = (
            walls(a, unit(rng.normal(size=3)), way, 9.5)[0],
            walls(b, unit(rng.normal(size=3)), way, 8.0)[1],
        )
        outside = d - near_a + far_b
        inside = d + near_a - far_b
        assert (outside + inside) / 2 == pytest.approx(d)
    assert "centre = (outside + inside) / 2, at any slant" in SAID


def test_sag_reads_too_much_as_said() -> None:
    """Length of a parabola that sags 1/2 in over 36 in, summed up in short pieces."""
    x = np.linspace(-18.0, 18.0, 20_001)
    y = 0.5 * (1.0 - (x / 18.0) ** 2)
    long = float(np.sum(np.hypot(np.diff(x), np.diff(y))))
    assert (long - 36.0) * INCH == pytest.approx(rule("tape-sag-example").value, abs=0.005)
    assert "A sag of 1/2 in in 36 in reads 0.0185 in (0.47 mm) too much" in SAID


def test_the_stated_plus_minus_is_that_of_the_example_mount() -> None:
    """Covariance of the example mount measured as the how-to says; the sheet rounds it up, to 0.1 mm."""
    points = rings()
    sure = plus_minus(points, distances(points), TAPE)
    worst = max(float(each.max()) for each in sure.values())
    stated = rule("survey-how-to-worst").value
    assert stated - 0.1 <= worst <= stated
    half = max(float(each.max()) for each in plus_minus(points, distances(points), TAPE / 2).values())
    assert half == pytest.approx(worst / 2)
    assert f"within ± {stated / INCH:.3f} in ({stated:.2f} mm) along each axis" in SAID
    assert "with a tape good to ± 1/16 in" in SAID


def test_every_ring_has_three_distances_and_a_spare() -> None:
    points = rings()
    pairs = distances(points)
    for name in points:
        if name not in MARKS:
            assert sum(name in pair for pair in pairs) >= 4 + 1


def test_monte_carlo_agrees_with_the_covariance() -> None:
    """Second route: 300 surveys with tape error, each solved by Gauss and Newton; the worst point."""
    points = rings()
    pairs = distances(points)
    sure = plus_minus(points, pairs, TAPE)
    worst = max(sure, key=lambda name: float(sure[name].max()))
    axis = int(np.argmax(sure[worst]))
    names = list(points)
    a, b = (np.array([names.index(pair[end]) for pair in pairs]) for end in (0, 1))
    true = np.array([points[name] for name in names])
    free = np.ones_like(true, dtype=bool)
    for mark, fixed in (("F1", (0, 1, 2)), ("F2", (0, 2)), ("F3", (0,))):
        free[names.index(mark), list(fixed)] = False
    exact = np.linalg.norm(true[b] - true[a], axis=1)
    rng = np.random.default_rng(11)
    errors = []
    for _ in range(300):
        read = exact + rng.normal(scale=TAPE / 1.96, size=len(pairs))
        at = true.copy()
        for _ in range(4):
            apart = at[b] - at[a]
            long = np.linalg.norm(apart, axis=1)
            jacobian = np.zeros((len(pairs), *true.shape))
            rows = np.arange(len(pairs))
            jacobian[rows, b] += apart / long[:, None]
            jacobian[rows, a] -= apart / long[:, None]
            step, *_ = np.linalg.lstsq(jacobian[:, free], read - long, rcond=None)
            at[free] += step
        errors.append(at[names.index(worst), axis] - true[names.index(worst), axis])
    assert 1.96 * float(np.std(errors)) == pytest.approx(float(sure[worst][axis]), rel=0.12)


def test_the_example_can_be_read() -> None:
    """The lines on the sheet are a survey file that the reader takes, the reading worked out."""
    survey = read_survey_text(EXAMPLE)
    first, *_, last = (m for m in survey.measurements if isinstance(m, Distance))
    assert first.value_mm == pytest.approx(((21 + 1 / 16 + 21 + 1 / 8) / 2 - 1) * INCH)
    assert (first.a, first.b) == ("F1", "A")
    assert last.how == OUTSIDE
    assert survey.datum.plane_axis == "z"
    for line in EXAMPLE.splitlines():
        assert line.strip() in SAID


@pytest.mark.parametrize(
    "words_said",
    [
        "The kit maker's drawings and instructions come first",
        "No centre punch, no scriber, no drill and no file on a tube",
        "AC 43.13-1B 8-49",
        "Ignition off, key out; treat the propeller as if it could fire",
        "common practice",
        "Computed, not tried on an aircraft",
        "the pilot's right is at your left",
        "clampwright survey solve FILE",
    ],
)
def test_cautions_and_sources_are_said(words_said: str) -> None:
    assert words_said in SAID


@pytest.mark.parametrize("draw", PICTURES)
@pytest.mark.parametrize("room", [88.0, 93.0])
def test_pictures_keep_to_their_room(draw: object, room: float) -> None:
    block: Block = draw(room)  # type: ignore[operator]
    for item in block.items:
        for x, y in reach(item):
            assert -0.01 <= x <= room + 0.01
            assert -block.height <= y <= 0.01


def reach(item: Item) -> list[tuple[float, float]]:
    from sheets.page_geometry import extremes

    return extremes(item)


def test_the_datum_picture_is_right_handed() -> None:
    """The drawn axes are those of a view from x > 0, z > 0: x, y, z turn counter-clockwise as they must."""
    block = datum_picture(90.0)
    axes = [i for i in block.items if isinstance(i, Path) and i.pen is not None and i.pen.width_mm == 0.45]
    letters = [i.text for i in block.items if isinstance(i, Text) and i.text in "xyz"]
    assert letters == ["x", "y", "z"]
    way = [np.subtract(axis.points[1], axis.points[0]) for axis in axes]
    assert all(np.allclose(axis.points[0], axes[0].points[0]) for axis in axes)
    turns = [float(np.cross(way[n], way[(n + 1) % 3])) for n in range(3)]
    assert min(turns) > 0
    toward = oblique(-30.0, 20.0).toward
    assert min(toward[0], toward[1], toward[2]) > 0


def test_a_form_of_ones_own_speaks_of_ones_own_marks_and_rings() -> None:
    """Marks by other names, in mm; nothing of the marks and rings that the blank form makes up."""
    own = {"F1": "W1", "F2": "W2", "F3": "W3"}
    survey = mount("mm")
    points = tuple(replace(p, name=own.get(p.name, p.name)) for p in survey.points)
    named = replace(survey, points=points, measurements=(), datum=Datum("W1", "y", "W2", False, "z", "W3"))
    pages = survey_form(named, (), "letter").pages
    text = words(pages).replace("\n", " ")
    assert "Three datum marks on the firewall, W1, W2 and W3:" in text
    assert "W1 is its origin, W1 to W2 gives the direction of y, W3 says how" in text
    assert '["W1", "A", 511],' in text
    assert '["A", "B", 378],' in text
    assert "Held at 100 mm at W1, read at ring A: 610; from the other end 612. Their mean is 611" in text
    assert not [word for word in ("F1", "F2", "F3") if word in text.replace("F1, B", "").split()]
    drawn = [item.text for page in pages for item in page.items if isinstance(item, Text) and item.bold]
    assert {"W1", "W2", "W3"} <= set(drawn)


def test_the_rows_of_ones_own_example_can_be_read() -> None:
    for units in ("in", "mm"):
        rows = measured(_Names("F1", "F2", "A", "B", "C"), units)
        survey = read_survey_text(f"{EXAMPLE.split('[measured]')[0]}{rows}".replace('"in"', f'"{units}"'))
        first, second, along, across = (m for m in survey.measurements if isinstance(m, Distance))
        assert (first.a, first.b, second.a, along.b, across.b) == ("F1", "A", "F2", "B", "C")
        assert across.how == OUTSIDE
        assert first.value_mm == pytest.approx(
            ((21 + 1 / 16 + 21 + 1 / 8) / 2 - 1) * INCH if units == "in" else (610 + 612) / 2 - 100
        )


def test_a_level_survey_needs_two_marks_and_a_levelled_aircraft() -> None:
    survey = replace(mount(), datum=Datum("F1", "y", "F2", level=True))
    text = words(survey_form(survey, (), "a4").pages).replace("\n", " ")
    assert "Two datum marks, F1 and F2: side by side" in text
    assert "y runs level from it toward F2, z is plumb: the aircraft has to be levelled" in text
    assert "Three datum marks" not in text
    assert "firewall, seen from" not in text


def test_it_is_two_pages() -> None:
    for paper in ("letter", "a4"):
        pages: tuple[Page, ...] = survey_form(None, (), paper).pages
        assert sum(page.title.startswith("HOW TO MEASURE") for page in pages) == 2


def test_the_solver_of_surveys_states_the_same() -> None:
    """Third route: the project's own adjustment of the same measurements."""
    solved = solve(mount())
    own = max(float(each.max()) for each in plus_minus(rings(), distances(rings()), TAPE).values())
    assert solved.worst_mm == pytest.approx(own, rel=0.01)
