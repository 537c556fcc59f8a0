"""Cutting: least hole and least corner of a jet, contours that meet; common practice, no source."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import HOLE, LAYOUT, LONG, polygon, rectangle, with_hole
from checks.findings_of import of, verdicts

from clampwright.checks.cutting import contours_apart, crossing, inside_corners, smallest_hole
from clampwright.layout.placed import PlateLayout


def test_a_good_plate_cuts_well(layout: PlateLayout) -> None:
    assert verdicts((*smallest_hole(layout), *contours_apart(layout))) == {"pass"}
    assert inside_corners(layout) == ()
    assert crossing(layout) == ()


@pytest.mark.parametrize(
    ("thick", "verdict"), [(4.8, "pass"), (HOLE, "pass"), (4.9, "caution"), (6.35, "caution")]
)
def test_a_hole_smaller_than_the_sheet_is_thick_is_a_caution(thick: float, verdict: str) -> None:
    (found,) = smallest_hole(replace(LAYOUT, thickness_mm=thick))
    assert (found.verdict, found.value) == (verdict, pytest.approx(HOLE / thick))
    assert ("drill its 4.85 mm by hand" in found.change) == (verdict == "caution")


def test_a_sharp_inside_corner_is_a_caution() -> None:
    dented = polygon((0.0, 0.0), (150.0, 0.0), (150.0, 100.0), (75.0, 95.0), (0.0, 100.0))
    (found,) = inside_corners(replace(LAYOUT, outline=dented))
    assert (found.verdict, found.value, found.limit) == ("caution", 0.0, 0.8)
    assert "0.80 mm" in found.change


def test_the_least_metal_is_told(layout: PlateLayout) -> None:
    """C1 to L1: hypot(38.1, 25.4) - 20 - 4.8514/2 = 23.4; the clamps' holes to the edge: 12 - 4.8514/2."""
    (found,) = contours_apart(layout)
    assert found.value == pytest.approx(12.0 - HOLE / 2)
    assert "9.57 mm" in found.says


@pytest.mark.parametrize(
    ("at", "said"),
    [
        ((2.0, 90.0), "hole A1 crosses the edge by 0.43 mm"),  # 4.8514/2 - 2
        ((HOLE / 2, 90.0), "hole A1 touches the edge"),
        ((-20.0, 90.0), "hole A1 lies outside the plate"),
        ((12.0 + 200.0 - 4.0, 12.0), "holes A1 and A2 overlap by 0.85 mm"),  # 4.8514 - 4
        ((12.0 + 200.0 - HOLE, 12.0), "holes A1 and A2 touch"),
    ],
)
def test_contours_that_meet_make_no_part(at: tuple[float, float], said: str) -> None:
    layout = with_hole("A1", at=at)
    assert crossing(layout) == (said,)
    (found,) = contours_apart(layout)
    assert (found.verdict, found.where) == ("fail", "A1/A2" if "A2" in said else "A1")
    assert found.says == f"{said[0].upper()}{said[1:]}: no part can be cut like this."


def test_a_crossing_is_told_how_far_to_move() -> None:
    """Overlap 0.8514 and a sheet's thickness of 2.286 between them: 3.137 mm."""
    found = of(contours_apart(with_hole("A1", at=(208.0, 12.0))), "A1/A2")
    assert "Move A1 and A2 3.14 mm apart" in found.change
    inward = of(contours_apart(with_hole("A1", at=(2.0, 90.0))), "A1")
    assert "by 2.72 mm" in inward.change  # 0.4257 + 2.286


def test_every_meeting_is_told() -> None:
    narrow = replace(LAYOUT, outline=rectangle(LONG, 12.0, 1.0))
    assert len(crossing(narrow)) >= 4
    assert len(contours_apart(narrow)) == len(crossing(narrow))
    assert verdicts(contours_apart(narrow)) == {"fail"}


def test_a_plate_without_holes_is_no_error() -> None:
    bare = replace(LAYOUT, holes=())
    assert (smallest_hole(bare), contours_apart(bare), crossing(bare)) == ((), (), ())
