"""The form to fill in: nothing over anything, every point and tube on it, a box for every reading."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from sheets.page_geometry import outside, overlapping, texts, words
from sheets.survey.measured_mounts import mount, wanted

from clampwright.recipe.survey_fields import _DATUM, _MEASURED, _MORE_OF_A_POINT
from clampwright.sheets.drawing import Page, Path, Sheet
from clampwright.sheets.survey_boxes import Column, form_table
from clampwright.sheets.survey_form import survey_form
from clampwright.sheets.survey_sketch import scheme_places, survey_sketch
from clampwright.structure.survey.model import Datum, Side, Survey, SurveyPoint, SurveyTube
from clampwright.structure.survey.solved import Next

MOUNT = mount()
LONG = "the strut from the firewall's upper left corner to the ring below the left isolator"
BIG = Survey(
    "cage",
    "Каркас двигателя: forty tubes with long names",
    "mm",
    tuple(
        SurveyPoint(f"Punkt-{n}-größer", rough=(30.0 * n, 200.0 * (n % 3), 150.0 * (n % 2)))
        for n in range(41)
    ),
    tuple(SurveyTube(f"{LONG} {n}", f"Punkt-{n}-größer", f"Punkt-{n + 1}-größer", 19.05) for n in range(40)),
    (),
    Datum("Punkt-0-größer", "x", "Punkt-1-größer", level=True),
)
LONG_NEXT = Next("A", "B", f"A-B, outside of {LONG}", f"Makes {LONG} fast against turning about itself.", 2.0)


def forms(paper: str) -> dict[str, Sheet]:
    return {
        "blank": survey_form(None, (), paper),
        "mount": survey_form(MOUNT, wanted(MOUNT), paper),
        "nothing wanted": survey_form(MOUNT, (), paper),
        "scheme": survey_form(mount("mm", rough=False), wanted(MOUNT)[:5], paper),
        "forty": survey_form(BIG, (LONG_NEXT,) * 30, paper),
    }


FORMS = {paper: forms(paper) for paper in ("letter", "a4")}


@pytest.mark.parametrize("paper", FORMS)
@pytest.mark.parametrize("name", FORMS["a4"])
def test_nothing_lies_over_anything(name: str, paper: str) -> None:
    for page in FORMS[paper][name].pages:
        assert outside(page, 8.0) == []
        assert overlapping(page) == []


@pytest.mark.parametrize("paper", FORMS)
def test_sizes_are_those_of_the_papers(paper: str) -> None:
    """ISO 216 and the letter size of North America."""
    size = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}[paper]
    assert {(page.width_mm, page.height_mm) for page in FORMS[paper]["mount"].pages} == {size}


def ticks(pages: tuple[Page, ...]) -> int:
    """Empty squares of 3.5 to 4 mm on the pages of the form itself."""
    return sum(
        isinstance(item, Path)
        and item.closed
        and item.fill is None
        and len(item.points) == 4
        and square(item, 3.4, 4.1)
        for page in pages
        if page.title.startswith("MEASURING")
        for item in page.items
    )


def square(path: Path, least: float, most: float) -> bool:
    wide, high = np.ptp(np.array(path.points), axis=0)
    return bool(abs(wide - high) < 1e-6 and least <= wide <= most)


def test_every_measurement_wanted_has_a_tick_and_its_number() -> None:
    form = FORMS["a4"]["mount"]
    said = [text.text for page in form.pages for text in texts(page)]
    assert ticks(form.pages) == len(wanted(MOUNT))
    for number, each in enumerate(wanted(MOUNT), 1):
        assert said.count(each.what) == 1
        assert str(number) in said
    order = [said.index(each.what) for each in wanted(MOUNT)]
    assert order == sorted(order)


def test_every_point_and_tube_is_on_the_sketch() -> None:
    first = [text.text for text in texts(FORMS["a4"]["mount"].pages[0])]
    sketch = survey_sketch(MOUNT, (0.0, -96.0, 194.0, 0.0))
    drawn = {item.text for item in sketch.drawn.items if hasattr(item, "text")}
    assert not sketch.scheme
    assert sketch.drawn.left == ()
    assert {point.name for point in MOUNT.points} <= drawn
    assert {tube.name for tube in MOUNT.tubes} <= drawn
    assert drawn <= set(first)


def test_without_places_it_says_that_it_is_a_scheme() -> None:
    said = words(FORMS["a4"]["scheme"].pages)
    assert "A scheme: which points the tubes and measurements join" in said
    assert "A scheme" not in words(FORMS["a4"]["mount"].pages)


def test_places_known_better_take_the_place_of_none() -> None:
    bare = mount(rough=False)
    places = {point.name: point.rough for point in MOUNT.points if point.rough is not None}
    assert survey_sketch(bare, (0.0, -96.0, 194.0, 0.0), places) == survey_sketch(
        MOUNT, (0.0, -96.0, 194.0, 0.0)
    )


def test_a_scheme_keeps_points_apart_and_is_the_same_twice() -> None:
    bare = replace(mount(rough=False), measurements=())
    places = scheme_places(bare, {})
    at = np.array(list(places.values()))
    apart = np.linalg.norm(at[:, None] - at[None], axis=2) + np.eye(len(at))
    assert apart.min() > 0.05 * np.ptp(at, axis=0).max()
    assert places == scheme_places(bare, {})


def test_inches_have_fraction_bars_and_millimetres_none() -> None:
    row = [Column("reading", 1.0, "length")]
    inch, metric = (form_table(row, [[""]], 30.0, units)[1] for units in ("in", "mm"))
    assert (
        sum(isinstance(item, Path) for item in inch.items)
        == sum(isinstance(i, Path) for i in metric.items) + 1
    )


def test_lengths_in_the_file_are_in_both_units() -> None:
    assert "0.750 in (19.05 mm)" in words(FORMS["letter"]["mount"].pages)
    assert "19.05 mm (0.750 in)" in words(FORMS["letter"]["scheme"].pages)


def test_the_datum_and_the_handedness_are_said() -> None:
    said = words(FORMS["a4"]["mount"].pages).replace("\n", " ")
    assert "origin F1; y runs from it through F2; z lies in the plane of F3" in said
    assert "y runs to your right as you stand before the nose looking aft" in said


def test_a_blank_form_asks_for_everything() -> None:
    said = words(FORMS["a4"]["blank"].pages)
    for word in (
        "units",
        "measured by",
        "date",
        "tape held at",
        "datum: origin",
        "Tubes",
        "Distances",
        "slope or angle, first",
        "by eye: x, y, z (rough)",
        "Which side",
        "left and right are meant",
    ):
        assert word in said
    assert ticks(FORMS["a4"]["blank"].pages) == 0


def test_nothing_more_is_needed_only_where_that_is_known() -> None:
    sure = words(survey_form(MOUNT, (), "a4", rigid=True).pages).replace("\n", " ")
    assert "Nothing more is needed; a spare or two never hurt." in sure
    unsure = words(FORMS["a4"]["nothing wanted"].pages).replace("\n", " ")
    assert "Nothing more is needed" not in unsure
    assert "What to measure, in this order" not in unsure
    assert "Others that you took" in unsure


def test_a_form_goes_by_the_survey_s_name_whatever_was_typed_in_since() -> None:
    """The digest changes with every reading: paper and file would no longer match."""
    later = replace(MOUNT, digest="another")
    assert survey_form(later, (), "a4") == FORMS["a4"]["nothing wanted"]
    said = [text.text for text in texts(FORMS["a4"]["mount"].pages[0])]
    assert said.count("oddlark-mount") == 2
    assert MOUNT.digest not in words(FORMS["a4"]["mount"].pages)


def test_sides_and_places_by_eye_that_are_known_stand_in_their_boxes() -> None:
    survey = replace(MOUNT, sides=(Side("B", (1.0, 0.0, 0.0), "F1"), Side("K", (0.0, 0.0, -1.0), "A")))
    said = [text.text for page in survey_form(survey, (), "letter").pages for text in texts(page)]
    for row in (["B", "+x of", "F1"], ["K", "-z of", "A"]):
        at = said.index(row[1])
        assert said[at - 1 : at + 2] == row
    x, y, z = MOUNT.points[0].rough or (0.0, 0.0, 0.0)
    assert f"{x / 25.4:.1f}, {y / 25.4:.1f}, {z / 25.4:.1f} in" in said


@pytest.mark.parametrize(
    "key", ["heights", "levels", "plumb", "offsets", "slopes", "angles", "sides", "rough"]
)
def test_what_is_no_distance_is_explained_with_its_key(key: str) -> None:
    """Each key of the survey file for it stands beside its explanation, and is one that the reader knows."""
    known = {field.key for table in (_MEASURED, _DATUM, _MORE_OF_A_POINT) for field in table.fields}
    assert key in known
    for name in ("blank", "mount"):
        assert re.search(rf"\b{key}\b", words(FORMS["letter"][name].pages).replace("\n", " "))


def test_the_same_form_twice() -> None:
    assert forms("a4") == FORMS["a4"]
