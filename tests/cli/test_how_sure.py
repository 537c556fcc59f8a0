"""The report's ±: every clamp's own, within a terminal's width."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from sheets.known_plates import INCH, PLATE, REACH, surveyed, with_known, with_marks

from clampwright.layout.cut_long import left_long
from clampwright.layout.joined import Joined
from clampwright.layout.kinds import Layout
from clampwright.layout.known_to import KnownTo
from clampwright.make import Checked, check_recipe
from clampwright.quantities import show_length
from clampwright.sheets.figures import distance
from clampwright.sheets.plus_minus import where_from
from clampwright_cli.how_sure import how_sure
from clampwright_cli.report import report

RECIPES = Path(__file__).parents[2] / "recipes"
NAMES = ["coil-plate", "separator-bushings", "oil-hose-stand-off", "bundle-on-firewall"]


@cache
def checked(name: str) -> Checked:
    return check_recipe(RECIPES / f"{name}.toml")


def known(layout: Layout) -> Layout:
    """A different ± at every clamp."""
    labels = [loop.label for loop in layout.loops]
    each = tuple(KnownTo(label, n + 1.2, n + 0.3, n + 0.4, True) for n, label in enumerate(labels))
    return replace(layout, known_to=each)


@pytest.mark.parametrize("name", NAMES)
def test_every_kind_s_report_has_each_clamp_s_plus_minus(name: str) -> None:
    layout = known(checked(name).layout)
    lines = report(Checked(layout, checked(name).findings), "usual").splitlines()
    at = lines.index("How sure these figures are")
    rows = [line.split() for line in lines[at:] if line]
    for each in layout.known_to:
        shown = [distance(mm, "in") for mm in (each.station_mm, each.across_mm, each.gap_mm)]
        assert [each.clamp, *shown] in rows


@pytest.mark.parametrize("name", NAMES)
def test_bushings_cut_long_are_named_with_their_length_more(name: str) -> None:
    layout = known(checked(name).layout)
    text = how_sure(layout)
    for part in layout.bushings:
        longer = left_long(part, layout.known_to, "in")
        assert longer.long
        more = show_length(longer.longer_mm, "in")
        assert f"{part.mark}: cut {more} longer for {', '.join(longer.long)}, trim to the gap found." in text


@pytest.mark.parametrize("layout", [PLATE, INCH, surveyed(PLATE), with_marks(INCH, 50.0)])
def test_no_wider_than_a_hundred(layout: Joined) -> None:
    text = how_sure(layout)
    assert max(len(line) for line in text.splitlines()) <= 100
    assert where_from(layout) in " ".join(text.split())


def test_clamps_that_are_as_sure_as_each_other_share_a_line() -> None:
    one = PLATE.known_to[0]
    same = tuple(replace(one, clamp=each.clamp) for each in PLATE.known_to)
    assert "\n  A1, A2, B1, B2  1.21" in how_sure(replace(PLATE, known_to=same))


def test_stars_where_a_default_stands_behind_it() -> None:
    assert "0.048*" in how_sure(INCH)
    assert f"Most of it: A1, A2, B1, B2, {REACH}." in " ".join(how_sure(INCH).split())
    assert "*" not in how_sure(PLATE)


def test_nothing_known_says_nothing() -> None:
    assert how_sure(replace(PLATE, known_to=())) == ""


@pytest.mark.parametrize("name", ["separator-bushings", "oil-hose-stand-off", "coil-plate"])
def test_the_tables_count_from_the_mark(name: str) -> None:
    plain = checked(name)
    layout = with_marks(plain.layout, 25.4)
    text = report(Checked(layout, plain.findings), "brief")
    loop = layout.loops[0]
    assert f"mark + {show_length(loop.station_mm - 25.4, 'in')}" in text
    row = next(line for line in text.splitlines() if line.startswith(f"  {loop.label} "))
    assert show_length(loop.station_mm, "in") not in row
    assert "count from the mark on the tube: mark + towards its end" in " ".join(text.split())


def test_a_mark_is_told_of_where_nothing_else_is_known() -> None:
    bare = with_marks(replace(PLATE, known_to=()), 50.0)
    assert " ".join(how_sure(bare).split()).startswith("Stations on lower-left and upper-left count from")


def test_with_known_gives_every_clamp_its_own() -> None:
    """The tests above would show nothing if all were alike."""
    assert len({each.station_mm for each in with_known(PLATE).known_to}) == len(PLATE.loops)
