"""Two recipes of one bay against each other, where a pencil can follow: separator and hose by hand."""

from __future__ import annotations

from dataclasses import replace
from math import dist
from typing import Any

import pytest
from checks.joined.hand_layouts import BUSHED, CLAMP, HELD_OFF, ON_LINE, ON_TUBE, within

from clampwright.checks.all_checks import catalogue
from clampwright.checks.bay import CHECKS, bay, recipes_of
from clampwright.layout.bodies import Box
from clampwright.layout.known_to import KnownTo
from clampwright.structure.tubes import Tube
from clampwright.trade.sources import source
from clampwright.trade.tables import rule

AXES = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
BAND = CLAMP.band_width_mm
ROOM = rule("clamp-clearance").value
CENTRES = ((419.812, 0.0, 0.0), (300.0, 119.812, 60.0))
"""Of the pair of clamps on the hose, 100 mm farther along."""


def named(layout: Any, name: str) -> Any:
    """The layout under another name."""
    return replace(layout, recipe=replace(layout.recipe, name=name))


SEPARATOR = named(BUSHED, "separator")
HOSE = named(HELD_OFF, "hose")


def slid(station: float) -> Any:
    """The hose's pair with its clamp on the tube somewhere else."""
    return replace(HOSE, loops=(replace(ON_TUBE, station_mm=station, centre=(station, 0.0, 0.0)), ON_LINE))


def codes(found: Any, code: str) -> list[Any]:
    """The findings of one code."""
    return [finding for finding in found if finding.code == code]


def test_one_recipe_alone_has_nothing_to_meet() -> None:
    assert bay([SEPARATOR]) == ()


@pytest.mark.usefixtures("as_measured")
def test_clamps_on_one_tube_by_hand() -> None:
    """A2 of the separator sits at 280, A1 of the hose at 300 + its reach of 19.812: 39.812 less one band."""
    (found,) = codes(bay([SEPARATOR, HOSE]), "BAY-1")
    assert found.verdict == "pass"
    assert found.value == pytest.approx(39.812 - BAND)
    assert found.limit == ROOM
    assert recipes_of(found) == ("separator", "hose")
    assert found.where == "separator: A2 / hose: A1"


@pytest.mark.usefixtures("as_measured")
@pytest.mark.parametrize(
    ("beyond", "verdict"),
    [(-0.5, "fail"), (0.0, "fail"), (ROOM - 0.01, "caution"), (ROOM, "pass"), (ROOM + 9.0, "pass")],
)
def test_the_limit_between_two_bands(beyond: float, verdict: str) -> None:
    found = codes(bay([SEPARATOR, slid(280.0 + BAND + beyond)]), "BAY-1")
    assert found[0].verdict == verdict
    assert found[0].value == pytest.approx(beyond, abs=1e-9)
    assert bool(found[0].change) == (verdict != "pass")


@pytest.mark.usefixtures("as_measured")
def test_the_cure_cures() -> None:
    """What the finding says to slide by, in mm, slid by: then it passes."""
    (found,) = codes(bay([SEPARATOR, slid(285.0)]), "BAY-1")
    assert found.verdict == "fail"
    by = float(found.change.rsplit(" mm", 1)[0].rsplit(" ", 1)[1])
    (cured,) = codes(bay([SEPARATOR, slid(285.0 + by)]), "BAY-1")
    assert cured.verdict == "pass"


def test_what_is_unsure_is_a_caution() -> None:
    """Two stations known to ± 2 and ± 3 mm leave room for 5 mm less than laid out."""
    separator = replace(SEPARATOR, known_to=(KnownTo("A2", 2.0, 0.0, 0.0, True),))
    pair = replace(slid(280.0 + BAND + ROOM + 4.0), known_to=(KnownTo("A1", 3.0, 0.0, 0.0, True),))
    (found,) = codes(bay([separator, pair]), "BAY-1")
    assert (found.verdict, found.plus_minus) == ("caution", pytest.approx(5.0))
    (surer,) = codes(bay([separator, replace(pair, known_to=())]), "BAY-1")
    assert surer.verdict == "pass"


@pytest.mark.usefixtures("as_measured")
def test_a_box_and_a_hose_by_hand() -> None:
    """The hose of 19.05 along y at x = 300, z = 60; the separator's box ends at x = 270."""
    body = Box((240.0, 75.0, 60.0), AXES, (30.0, 40.0, 45.0))
    separator = replace(SEPARATOR, component=replace(SEPARATOR.component, body=body))
    found = codes(bay([separator, HOSE]), "BAY-2")
    assert [f.verdict for f in found] == ["pass"]
    wide = Box((240.0, 75.0, 60.0), AXES, (48.0, 40.0, 45.0))
    separator = replace(SEPARATOR, component=replace(SEPARATOR.component, body=wide))
    (near,) = (f for f in codes(bay([separator, HOSE]), "BAY-2") if f.where.endswith("hose: oil hose"))
    assert (near.verdict, near.value) == ("caution", pytest.approx(300.0 - 19.05 / 2 - 288.0))
    into = Box((240.0, 75.0, 60.0), AXES, (60.0, 40.0, 45.0))
    separator = replace(SEPARATOR, component=replace(SEPARATOR.component, body=into))
    failing = [f for f in codes(bay([separator, HOSE]), "BAY-2") if f.verdict == "fail"]
    assert any(f.where.startswith("separator: separator / hose: ") for f in failing)
    assert all(f.change and f.value == 0.0 for f in failing)


def test_a_line_that_two_recipes_hold_does_not_clash_with_itself() -> None:
    """The same hose, held again 100 mm on."""
    again = named(
        replace(
            HOSE,
            loops=tuple(
                replace(loop, station_mm=loop.station_mm + 100.0, centre=centre)
                for loop, centre in zip(
                    HOSE.loops, ((419.812, 0.0, 0.0), (300.0, 119.812, 60.0)), strict=True
                )
            ),
            joints=tuple(
                replace(j, head=(j.head[0] + 100.0, j.head[1] + 100.0, j.head[2])) for j in HOSE.joints
            ),
        ),
        "hose-again",
    )
    found = codes(bay([HOSE, again]), "BAY-2")
    assert not [f for f in found if "oil hose" in f.where and f.verdict == "fail"]


def test_recipes_on_other_tubes_are_not_known() -> None:
    elsewhere = within(HOSE, tubes=(Tube("other", (0.0, 0.0, 0.0), (9.0, 0.0, 0.0), 19.05),))
    found = bay([SEPARATOR, elsewhere])
    assert [(f.code, f.verdict, f.value) for f in found] == [("BAY-3", "unknown", None)]


def test_one_tube_in_two_places_is_not_known() -> None:
    """The high tube ends 3 mm higher and 4 mm farther in the other recipe: 5 mm."""
    tubes = tuple(
        replace(t, end=(t.end[0] + 4.0, t.end[1], t.end[2] + 3.0)) if t.name == "high" else t
        for t in HOSE.recipe.structure.tubes
    )
    found = bay([SEPARATOR, within(HOSE, tubes=tubes)])
    assert [(f.code, f.verdict) for f in found] == [("BAY-3", "unknown")]
    assert found[0].value == pytest.approx(5.0)


def test_the_order_of_recipes_changes_no_verdict() -> None:
    here, there = bay([SEPARATOR, HOSE]), bay([HOSE, SEPARATOR])
    assert sorted((f.code, f.verdict) for f in here) == sorted((f.code, f.verdict) for f in there)
    assert {f.code: f.value for f in here} == pytest.approx({f.code: f.value for f in there})


def test_the_family_stands_in_the_catalogue_with_its_sources() -> None:
    listed = {info.code: info for info in catalogue()}
    for one in CHECKS:
        assert listed[one.code].sources
        assert all(source(key).title for key in listed[one.code].sources)
    assert {f.code for f in bay([SEPARATOR, HOSE])} == {one.code for one in CHECKS}


def test_two_lines_of_one_name_but_another_diameter_are_two() -> None:
    """A hose of 19.05 mm where another recipe has one of 25.4 by the same name: they run into each other."""
    thick = named(replace(HOSE, line=replace(HOSE.line, od_mm=25.4)), "thick")
    failing = [f for f in codes(bay([HOSE, thick]), "BAY-2") if f.verdict == "fail"]
    assert any("oil hose" in f.where for f in failing)
    assert any("one course and one diameter" in f.change for f in failing)


def test_two_lines_of_one_name_on_another_axis_are_two() -> None:
    """0.6 of its own diameter to the side: both bodies overlap, and neither axis lies within the other."""
    aside = named(replace(HOSE, line=aslant(0.6 * HOSE.line.od_mm)), "aside")
    found = [f for f in codes(bay([HOSE, aside]), "BAY-2") if f.verdict == "fail"]
    assert any("oil hose" in f.where for f in found)


def test_clamps_of_two_recipes_on_one_line_are_told_along_it() -> None:
    """B1 of one on the hose at its middle, B1 of the other 5 mm along: bands of more than that overlap."""
    line = HOSE.line
    along = tuple((b - a) / dist(line.start, line.end) for a, b in zip(line.start, line.end, strict=True))
    centre = tuple(x + 5.0 * step for x, step in zip(ON_LINE.centre, along, strict=True))
    far = replace(ON_TUBE, station_mm=900.0, centre=(900.0, 0.0, 0.0))
    again = named(replace(HOSE, loops=(far, replace(ON_LINE, centre=centre))), "again")
    (failing,) = (f for f in codes(bay([HOSE, again]), "BAY-1") if f.verdict == "fail")
    assert failing.where == f"hose: {ON_LINE.label} / again: {ON_LINE.label}"
    assert failing.value == pytest.approx(5.0 - BAND)


def aslant(mm: float) -> Any:
    """The hose's line moved sideways, square to its own axis."""
    line = HOSE.line
    return replace(line, start=_up(line.start, mm), end=_up(line.end, mm))


def _up(point: Any, mm: float) -> Any:
    return (point[0], point[1], point[2] + mm)
