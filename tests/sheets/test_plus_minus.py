"""Every figure that a person marks, drills or cuts has the layout's own ± beside it, on both papers."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

import pytest
from sheets.known_plates import INCH, PLATE, REACH, on_tubes, surveyed, with_known
from sheets.page_geometry import outside, overlapping, texts, words
from sheets.sheet_plates import FAILING, FINE, plate

from clampwright.files.cut_list import cut_list_csv
from clampwright.layout.order_of_work import marks_of
from clampwright.layout.placed import PlateLayout
from clampwright.layout.plate_bushings import plate_cuts
from clampwright.recipe.model import Measuring
from clampwright.sheets.cut_sheet import cut_sheet
from clampwright.sheets.drawing import Sheet
from clampwright.sheets.drill_sheet import drill_sheet
from clampwright.sheets.figures import coordinate, distance, figure
from clampwright.sheets.installation_sheet import installation_sheet
from clampwright.sheets.plus_minus import where_from
from clampwright.sheets.template import template
from clampwright.sheets.tube_wraps import tube_wraps
from clampwright_cli.how_sure import how_sure

PAPERS = ["letter", "a4"]
Draw = Callable[..., Sheet]


def cut(layout: PlateLayout, findings: tuple, paper: str) -> Sheet:
    return cut_sheet(layout, plate_cuts(layout), findings, paper)


SHEETS: dict[str, Draw] = {
    "template": template,
    "drill sheet": drill_sheet,
    "cut sheet": cut,
    "installation sheet": installation_sheet,
    "tube wraps": tube_wraps,
}


def flat(sheet: Sheet) -> str:
    """All words in the order of drawing; words that were parted at a hyphen together again."""
    return re.sub(r"(?<=[a-z])- (?=[a-z])", "-", words(sheet.pages).replace("\n", " "))


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SHEETS)
@pytest.mark.parametrize("layout", [PLATE, INCH, surveyed(PLATE)], ids=["mm", "inch", "surveyed"])
def test_nothing_lies_over_anything(name: str, layout: PlateLayout, paper: str) -> None:
    for page in SHEETS[name](layout, FAILING, paper).pages:
        assert outside(page, 8.0) == []
        assert overlapping(page) == []


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SHEETS)
@pytest.mark.parametrize("layout", [PLATE, INCH], ids=["mm", "inch"])
def test_where_the_plus_minus_comes_from_stands_once_on_each_sheet(
    name: str, layout: PlateLayout, paper: str
) -> None:
    text = flat(SHEETS[name](layout, FINE, paper))
    assert text.count(where_from(layout)) == 1
    assert text.count("± at 95 %") == 1


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("layout", [PLATE, INCH], ids=["mm", "inch"])
def test_a_hole_s_row_says_how_far_its_clamp_s_bolt_may_come_from_it(layout: PlateLayout, paper: str) -> None:
    text, units = flat(template(layout, FINE, paper)), layout.recipe.units
    star = "*" if layout is INCH else ""
    assert "is as exact as it is drilled" in text
    holes = {hole.label: hole for hole in layout.holes}
    for each in layout.known_to:
        hole = holes[each.clamp]
        x, y = (coordinate(value, units) for value in hole.at)
        diameter = figure(hole.diameter_mm, units)
        row = f"{hole.label} {x} {y} #40 #11 {diameter} {distance(each.across_mm, units)}{star} AN3"
        assert row in text
    x, y = (coordinate(value, units) for value in holes["C1"].at)
    assert f"C1 {x} {y} #40 #9 {figure(holes['C1'].diameter_mm, units)} AN3 coil pack" in text


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", ["template", "installation sheet"])
@pytest.mark.parametrize("layout", [PLATE, INCH], ids=["mm", "inch"])
def test_stations_have_theirs(name: str, layout: PlateLayout, paper: str) -> None:
    text, units = flat(SHEETS[name](layout, FINE, paper)), layout.recipe.units
    star = "*" if layout is INCH else ""
    for clamp, each in zip(layout.clamps, layout.known_to, strict=True):
        station, unsure = (distance(mm, units) for mm in (clamp.station_mm, each.station_mm))
        assert f"{clamp.label} {clamp.tube} {station} {unsure}{star} " in text
    assert "A station is where to start" in text


@pytest.mark.parametrize("layout", [PLATE, INCH], ids=["mm", "inch"])
def test_installation_sheet_has_all_three_of_every_clamp(layout: PlateLayout) -> None:
    text, units = flat(installation_sheet(layout, FINE, "a4")), layout.recipe.units
    star, why = ("*", " (± a default nobody measured)") if layout is INCH else ("", "")
    for each in layout.known_to:
        along, across, gap = (distance(m, units) for m in (each.station_mm, each.across_mm, each.gap_mm))
        assert f"{each.clamp} {along}{star} {across}{star} {gap}{star}" in text
        assert (
            f"station ± {along} {units}{why}: where to start; its bolt ± {across} {units}{why} across "
            in text
        )


@pytest.mark.parametrize("layout", [PLATE, INCH], ids=["mm", "inch"])
def test_drill_sheet_s_clamps_have_theirs(layout: PlateLayout) -> None:
    text, units = flat(drill_sheet(layout, FINE, "a4")), layout.recipe.units
    star = "*" if layout is INCH else ""
    for clamp, each in zip(layout.clamps, layout.known_to, strict=True):
        where = f"{clamp.tube} at {figure(clamp.station_mm, units)} {units}"
        assert f"{where} ± {distance(each.station_mm, units)} {units}{star}, {clamp.side}" in text


def test_cut_sheet_by_hand() -> None:
    """B1 and B2: gaps of 6.5 ± 2.41 and ± 3.41 mm, bushings of 6.5 mm: 3.41 + 0.5 to spare, in tenths 4.0."""
    text = flat(cut(PLATE, FINE, "a4"))
    assert "B1 6.50 2.41 S1 6.50 4.00 none 0.00 ________" in text
    assert "B2 6.50 3.41 S1 6.50 4.00 none 0.00 ________" in text
    assert "Gap ± 3.41 mm: cut 4.00 mm longer, trim to the gap found" in text
    assert "Saw 11.00 mm (0.433 in), then face both ends square, trim at the fit" in text
    assert "2 x S1 at 11.00 mm" in text
    assert "What is cut longer fills the longest gap to be expected with 0.50 mm" in text
    assert "a seat nobody measured" not in text


def test_a_bushing_that_the_part_stands_on_is_cut_to_length_beside_one_that_is_not() -> None:
    stands, other = PLATE.known_to[2:]
    stands = replace(stands, gap_mm=0.0, carries=True)
    layout = replace(PLATE, known_to=(*PLATE.known_to[:2], stands, other))
    text = flat(cut(layout, FINE, "letter"))
    first, second = text.split("S1: make 1")[1].split("S1L: make 1, cut longer")
    assert "The part stands on it: cut to length Saw 7.00 mm (0.276 in), then face both ends square" in first
    assert "Fills B1" in first
    assert "longer" not in first
    assert "Gap ± 3.41 mm: cut 4.00 mm longer, trim to the gap found Saw 11.00 mm" in second
    assert "B1 6.50 - S1 6.50 - none 0.00 ________" in text
    assert "B2 6.50 3.41 S1L 6.50 4.00 none 0.00 ________" in text
    assert "1 x S1L at 11.00 mm, 1 x S1 at 7.00 mm" in text
    assert "S1 and S1L are listed with one length, but S1L is cut longer" in text
    assert "-: the part stands on that clamp or takes its place from it." in text


def test_a_bushing_has_one_mark_on_cut_sheet_installation_sheet_and_cut_list() -> None:
    stands, other = PLATE.known_to[2:]
    stands = replace(stands, gap_mm=0.0, carries=True)
    layout = replace(PLATE, known_to=(*PLATE.known_to[:2], stands, other))
    installed = flat(installation_sheet(layout, FINE, "letter"))
    assert "bushing S1, 6.50 mm" in installed
    assert "bushing S1L, 6.50 mm" in installed
    (long,) = [joint for joint in layout.joints if "B2" in joint.clamps]
    (short,) = [joint for joint in layout.joints if "B1" in joint.clamps]
    assert (marks_of(short, layout), marks_of(long, layout)) == (("S1",), ("S1L",))
    listed = cut_list_csv(layout, plate_cuts(layout)).data.decode()
    assert [row.split(",")[1] for row in listed.splitlines()[1:3]] == ["S1", "S1L"]
    assert "S1L: cut 4.00 mm longer for B2, trim to the gap found." in " ".join(how_sure(layout).split())


def test_a_gap_sure_enough_is_cut_to_length() -> None:
    sure = tuple(replace(each, gap_mm=0.08) for each in PLATE.known_to)
    text = flat(cut(replace(PLATE, known_to=sure), FINE, "a4"))
    assert "Gap ± 0.08 mm: cut to length" in text
    assert "longer, trim" not in text
    assert "What is cut longer" not in text
    assert "2 x S1 at 7.00 mm" in text


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("units", ["mm", "in"])
def test_wraps_and_the_next_mechanic_have_each_station_s(units: str, paper: str) -> None:
    layout = on_tubes(units=units)
    wraps, install = flat(tube_wraps(layout, FINE, paper)), flat(installation_sheet(layout, FINE, paper))
    for loop, each in zip(layout.loops, layout.known_to, strict=True):
        unsure = distance(each.station_mm, units)
        assert re.search(rf"{loop.label} at [^:]* ± {unsure} {units}: feet ", wraps)
        assert f"{loop.label} {loop.tube} {distance(loop.station_mm, units)} {unsure} " in install
    for sheet in (wraps, install):
        assert sheet.count(where_from(layout)) == 1
        assert sheet.count("A station is where to start") == 1


def test_a_recipe_s_error_is_said_to_be_given_or_a_default() -> None:
    said = where_from(PLATE)
    assert (
        said == "± at 95 %, from tubes measured to ± 1.50 mm in each coordinate: a default nobody measured."
    )
    given = replace(PLATE, recipe=replace(PLATE.recipe, measuring=Measuring(0.4, True)))
    assert (
        where_from(given)
        == "± at 95 %, from tubes measured to ± 0.40 mm in each coordinate: as the recipe says."
    )


def test_a_survey_is_named_and_what_is_not_measured_in_it() -> None:
    text = flat(drill_sheet(surveyed(PLATE), FINE, "a4"))
    assert "± at 95 %, from tape survey oddlark-mount, 31 measurements." in text
    assert "in each coordinate" not in text
    assert "31 measurements, in it a default nobody measured." in where_from(surveyed(PLATE, given=False))


@pytest.mark.parametrize("name", SHEETS)
def test_stars_only_where_a_default_stands_behind_it(name: str) -> None:
    text = flat(SHEETS[name](PLATE, FINE, "a4"))
    assert not re.search(r"\d\*", text)
    assert "*:" not in text
    star = flat(SHEETS[name](INCH, FINE, "a4"))
    assert re.search(r"\d\*|in\*", star)
    assert "*: ± a default nobody measured." in star
    assert f"Most of it: A1, A2, B1, B2, {REACH}." in star


def test_each_figure_has_its_own_star() -> None:
    """A gap that rests on a default leaves the station beside it as it is."""
    mixed = tuple(replace(each, gap_given=False) for each in PLATE.known_to)
    text = flat(installation_sheet(replace(PLATE, known_to=mixed), FINE, "a4"))
    assert "A1 1.21 0.31 0.41*" in text
    assert "gap ± 2.41 mm (± a default nobody measured): cut" in text
    assert "station ± 1.21 mm: where to start" in text


@pytest.mark.parametrize("name", SHEETS)
def test_a_layout_of_which_nothing_is_known_says_nothing(name: str) -> None:
    text = flat(SHEETS[name](plate(), FINE, "a4"))
    for word in ("± at 95 %", "± to its clamp", "where to start; ", "cut longer", "known to station"):
        assert word not in text


def test_a_clamp_of_which_nothing_is_known_beside_others_is_a_question() -> None:
    layout = replace(PLATE, known_to=PLATE.known_to[:3])
    text = flat(template(layout, FINE, "a4"))
    b2 = layout.clamps[3]
    assert f"B2 {b2.tube} {distance(b2.station_mm, 'mm')} ? " in text


def test_many_clamps_and_long_names_still_fit() -> None:
    long = with_known(plate(tubes=("diagonal-from-firewall-to-ring-left", "upper-left")), measured=False)
    for draw in SHEETS.values():
        for page in draw(long, FAILING, "letter").pages:
            assert outside(page, 8.0) == []
            assert overlapping(page) == []
            assert texts(page)
