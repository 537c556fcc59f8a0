"""Stations counted from a tube's mark: plain differences, with the way they run said in words."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from clampwright.layout.from_mark import from_mark_mm, mark_note, station_said
from clampwright.structure.tubes import Tube

BARE = Tube("upper-left", (0.0, 0.0, 0.0), (300.0, 400.0, 0.0), 19.05)
MARKED = replace(BARE, mark_mm=60.0)


@given(st.floats(-1000.0, 1000.0), st.floats(-1000.0, 1000.0))
def test_measured_from_the_mark_one_comes_to_the_same_point(mark: float, station: float) -> None:
    """The mark's point, moved along the tube by what is said, is the station's point."""
    tube = replace(BARE, mark_mm=mark)
    off = from_mark_mm(tube, station)
    assert off is not None
    reached = [p + off * a for p, a in zip(tube.point(mark), tube.direction, strict=True)]
    assert math.dist(reached, tube.point(station)) < 1e-9


@pytest.mark.parametrize(
    ("station", "units", "said"),
    [
        (86.68, "mm", "mark + 26.68 mm"),
        (33.32, "mm", "mark - 26.68 mm"),
        (60.0, "mm", "at the mark"),
        (60.004, "mm", "at the mark"),
        (59.996, "mm", "at the mark"),
        (59.994, "mm", "mark - 0.01 mm"),
        (110.8, "in", "mark + 2.000 in"),
        (-40.0, "in", "mark - 3.937 in"),
    ],
)
def test_the_short_words(station: float, units: str, said: str) -> None:
    assert station_said(MARKED, station, units) == said


def test_without_a_mark_it_counts_from_the_start() -> None:
    assert from_mark_mm(BARE, 86.68) is None
    assert station_said(BARE, 86.68, "mm") == "86.68 mm"
    assert mark_note([BARE]) == ""


def test_a_mark_at_the_start_is_a_mark() -> None:
    assert station_said(replace(BARE, mark_mm=0.0), 25.4, "in") == "mark + 1.000 in"


def test_the_note_names_the_marked_tubes_once() -> None:
    other = replace(MARKED, name="middle-left")
    note = mark_note([MARKED, BARE, other, MARKED])
    assert note.startswith("Stations on upper-left and middle-left count from the mark")
