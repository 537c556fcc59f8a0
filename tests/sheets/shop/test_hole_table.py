"""The hole table says what the shop makes: pilots at the pilot's size, limits where they belong."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from sheets.shop.told_parts import checked_plates, told

from clampwright.layout.shop.told import FlatPart, Limits, ToldHole
from clampwright.sheets.drawing import Text
from clampwright.sheets.shop.flat_drawing import flat_drawing
from clampwright.sheets.shop.flat_notes import notes
from clampwright.sheets.shop.flat_tables import flat_tables
from clampwright.sheets.shop.hole_groups import hole_groups
from clampwright.trade.holes import drill

HOLE = ToldHole("A1", (20.0, 20.0), 4.8514, "AN3", "clamp", "#11", "#40", Limits(0.0, 0.15, "w", "practice"))


def words(part: FlatPart) -> str:
    """All of its tables in the order of reading, words of a row one after the other."""
    texts, y = [], 0.0
    for block in flat_tables(part, "table", 150.0):
        texts += [(y + t.at[1], t.at[0], t.text) for t in block.items if isinstance(t, Text)]
        y -= block.height
    lines = sorted(texts, key=lambda text: (-round(text[0], 1), text[1]))
    return " ".join(" ".join(text for _, _, text in lines).split())


@pytest.mark.parametrize(
    ("units", "made", "final"),
    [("in", "0.098 2.49", "0.191 [4.85]"), ("mm", "2.49", "4.85")],
)
def test_a_piloted_group_has_its_pilots_diameter_and_says_who_opens_it(
    units: str, made: str, final: str
) -> None:
    """Drill #40 is .0980 in, 2.489 mm: ASME B94.11M."""
    said = words(told("coil-plate", units))
    assert f"1 6x {made} pilot, drill #40 AN3 clamp, component" in said
    assert f"Size 1: opened to {final} by the builder." in said
    assert said.count("opened to") == 1


def test_a_drill_named_by_number_has_its_size_in_full() -> None:
    """#30 is .1285 in."""
    hole = replace(HOLE, pilot="#30", transferred=True)
    part = replace(told("coil-plate"), holes=(hole,))
    assert "1x 0.1285 3.26 pilot, drill #30" in words(part)


def test_limits_of_the_final_size_are_not_said_of_holes_that_are_piloted() -> None:
    """Neither in the table nor in the notes; the same hole drilled now has them in both."""
    part = told("coil-plate")
    for transferred in (True, False):
        one = replace(part, holes=(replace(HOLE, transferred=transferred),))
        assert ("+0.006 0" in words(one).replace("\N{NO-BREAK SPACE}", " ")) is not transferred
        assert any("Ø0.191" in note for note in notes(one)) is not transferred


def test_make_names_the_drill_of_what_is_made() -> None:
    part = told("coil-plate")
    now = words(replace(part, holes=(HOLE,)))
    later = words(replace(part, holes=(replace(HOLE, transferred=True),)))
    assert "drill #11" in now
    assert "drill #40" not in now
    assert "pilot, drill #40" in later
    assert "drill #11" not in later


def test_groups_are_split_by_whether_they_are_piloted() -> None:
    groups = hole_groups([HOLE, replace(HOLE, label="B1", transferred=True)])
    assert [(group.number, group.labels) for group in groups] == [(1, "B1"), (2, "A1")]


def test_groups_are_split_by_the_limits_of_their_size() -> None:
    wider = Limits(0.1, 0.15, "w", "practice")
    groups = hole_groups([HOLE, replace(HOLE, label="A2", size=wider), replace(HOLE, label="A3")])
    assert sorted(group.labels for group in groups) == ["A1, A3", "A2"]


def test_the_plus_minus_column_is_that_of_the_place() -> None:
    """A place held to 0.09 and a size to 0.15 above: the row of A1 ends on the first."""
    placed = replace(HOLE, place=Limits(0.09, 0.09, "so that it fits", "play-left-over"))
    part = replace(told("coil-plate", "mm"), holes=(placed,))
    assert "A1 20.00 20.00 0.09 1" in words(part)


def test_a_place_that_stands_in_is_not_said_to_be_closer() -> None:
    stands = Limits(0.2, 0.2, "where ISO 2768-v gives none", "iso-2768-1")
    part = replace(told("coil-plate", "mm"), holes=(replace(HOLE, place=stands),))
    (note,) = [note for note in notes(part) if note.startswith("A1: X")]
    assert re.sub(r"\s", " ", note) == "A1: X and Y ±0.20, where ISO 2768-v gives none."


@pytest.mark.parametrize("name", sorted(checked_plates()))
def test_the_read_diameters_are_those_that_are_cut(name: str) -> None:
    """Count and Ø of each row, read from the page, against the holes as the layout and its plan have them."""
    part = told(name)
    page = flat_drawing(part, (), ()).pages[0]
    said = [item for item in page.items if isinstance(item, Text)]
    read = {}
    for count in (text for text in said if re.fullmatch(r"\d+x", text.text)):
        row = sorted((t for t in said if t.at[1] == count.at[1]), key=lambda t: t.at[0])
        size = row[row.index(count) + 1].text.replace("\N{NO-BREAK SPACE}", " ").split()[0]
        read[float(size)] = int(count.text[:-1])
    cut: dict[float, int] = {}
    for hole in part.holes:
        wide = drill(hole.pilot).diameter_mm if hole.transferred else hole.diameter_mm
        size_in = next(size for size in read if abs(size - wide / 25.4) < 0.0006)
        cut[size_in] = cut.get(size_in, 0) + 1
    assert cut == read
