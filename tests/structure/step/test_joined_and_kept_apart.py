"""What is one tube, what is two and what is none: bodies whose closed form is plain."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest
from structure.step.kernel_shapes import bar, box, cut, free_form, fused, moved, placed, together, written

from clampwright.structure.found import Found
from clampwright.structure.step.here import tubes_here
from clampwright.structure.step.read import tubes_in_step

_UP = ((0.0, 0.0, 0.0), (0.0, 0.0, 300.0))


def found_in(folder: Path, *shapes: Any) -> Found:
    return tubes_here(written(folder / "bodies.step", shapes))


def test_two_halves_are_one_tube(tmp_path: Path) -> None:
    """A body split lengthwise: two half-faces of one skin, in two solids."""
    whole = bar(*_UP, 20, 16)
    left, right = (cut(whole, box((x, -20, -1), (20, 40, 400))) for x in (0, -20))
    (one,) = found_in(tmp_path, left, right).tubes
    assert (one.tube.start, one.tube.end, one.tube.od_mm, one.bore_mm) == (*_UP, 20.0, 16.0)
    assert one.coverage_rad == pytest.approx(2 * math.pi, abs=1e-6)
    assert one.doubts == ()


@pytest.mark.parametrize(("covered_deg", "taken"), [(156.0, False), (240.0, False), (300.0, True)])
def test_skin_on_one_side_only_is_no_tube(tmp_path: Path, covered_deg: float, taken: bool) -> None:
    """A flat milled along a bar leaves skin for 360° - 2 acos(d/r); 156° is what a known decoy covers."""
    depth = 10 * math.cos(math.radians(360 - covered_deg) / 2)
    flat = cut(bar(*_UP, 20), box((depth, -20, -1), (40, 40, 400)))
    found = found_in(tmp_path, flat)
    if taken:
        (one,) = found.tubes
        assert math.degrees(one.coverage_rad) == pytest.approx(covered_deg, abs=0.01)
        assert one.doubts[0].startswith(f"Skin for {covered_deg:.0f}° round it")
    else:
        assert found.tubes == ()
        assert "skin on one side only" in found.not_taken[0].why


def test_skin_counts_once_where_a_body_is_there_twice(tmp_path: Path) -> None:
    half = cut(bar(*_UP, 20), box((0, -20, -1), (40, 40, 400)))
    assert found_in(tmp_path, half, placed(half, (0, 0, 0))).tubes == ()


def test_pieces_of_a_tube_are_not_added_up_along_it(tmp_path: Path) -> None:
    """Four quarter-round patches one above the other: 360° together, 90° at every station."""
    quarter = cut(cut(bar(*_UP, 20), box((0, -20, -1), (20, 40, 400))), box((-20, -20, -1), (40, 20, 400)))
    quarters = [moved(quarter, (0, 0, 300 * k), turn_rad=k * math.pi / 2) for k in range(4)]
    found = found_in(tmp_path, *quarters)
    assert found.tubes == ()
    assert "not round over most of its length" in found.not_taken[0].why


def test_equal_tubes_in_line_with_air_between_are_two(tmp_path: Path) -> None:
    low, high = bar((0, 0, 0), (0, 0, 100), 20), bar((0, 0, 130), (0, 0, 230), 20)
    found = found_in(tmp_path, together([low, high]))
    assert [(one.tube.start[2], one.tube.end[2]) for one in found.tubes] == [(0, 100), (130, 230)]


def test_equal_tubes_either_side_of_a_shaft_are_not_joined_by_its_thick_step(tmp_path: Path) -> None:
    thick = bar((0, 0, 100), (0, 0, 160), 40)
    shaft = fused(bar((0, 0, 0), (0, 0, 100), 20), thick, bar((0, 0, 160), (0, 0, 260), 20))
    found = found_in(tmp_path, shaft)
    assert [one.tube.od_mm for one in found.tubes] == [20.0, 20.0, 40.0]
    assert all("goes on about the axis with OD" in one.doubts[1] for one in found.tubes[2:])


def test_a_tube_through_a_welded_plate_is_one_and_asked_about(tmp_path: Path) -> None:
    plate = box((-50, -50, 150), (100, 100, 6))
    (one,) = found_in(tmp_path, fused(bar((0, 0, 0), (0, 0, 400), 25.4), plate)).tubes
    assert one.tube.length_mm == 400.0
    assert one.gaps_mm == ((150.0, 156.0),)
    assert one.doubts == (
        "No skin of its own from station 150.00 to 156.00 mm, and no tube there: what sits round it?",
    )


def test_different_diameters_on_one_axis_stay_apart(tmp_path: Path) -> None:
    """A sleeve on a tube: two tubes, and where the sleeve sits is said."""
    found = found_in(tmp_path, bar(*_UP, 20, 16), bar((0, 0, 100), (0, 0, 200), 22, 20))
    assert [(one.tube.od_mm, one.bore_mm) for one in found.tubes] == [(20.0, 16.0), (22.0, 20.0)]
    said = "Something round, OD up to 22.00 mm, lies about it from station 100.00 to 200.00 mm."
    assert [one.doubts for one in found.tubes] == [(said,), ()]


def test_a_cross_hole_is_no_bore_and_a_blind_one_neither(tmp_path: Path) -> None:
    drilled = cut(bar(*_UP, 20), bar((-20, 0, 150), (20, 0, 150), 8))
    (one,) = found_in(tmp_path, cut(drilled, bar((0, 0, 0), (0, 0, 60), 12))).tubes
    assert one.bore_mm is None
    assert one.doubts == ()


def test_a_mitred_end_counts_to_its_tip(tmp_path: Path) -> None:
    """Cut at angle m off square through the axis at 280 mm: the tip stands r tan m beyond."""
    away = moved(box((-100, -100, 0), (200, 200, 200)), (0, 0, 280), (1.0, 0.0, 0.0), 0.6)
    (one,) = found_in(tmp_path, cut(bar(*_UP, 20, 16), away)).tubes
    assert one.tube.end == pytest.approx((0.0, 0.0, 280 + 10 * math.tan(0.6)), abs=1e-9)
    assert one.copes_mm == pytest.approx((0.0, 20 * math.tan(0.6)), abs=0.01)


def test_cylinders_saved_as_b_splines(tmp_path: Path) -> None:
    """Every surface a B-spline, in place and placed elsewhere: the kernel recognises what they are."""
    start, end = (0.0, 0.0, 0.0), (300.0, 100.0, 50.0)
    soft = free_form(bar(start, end, 25.4, 22))
    path = written(tmp_path / "soft.step", [soft, placed(soft, (0, 200, 0), (1.0, 2.0, 3.0), 1.0)])
    assert "CYLINDRICAL_SURFACE" not in path.read_text()
    found = tubes_here(path)
    for one, other in zip(found.tubes, plain_twin(tmp_path).tubes, strict=True):
        assert one.tube.start == pytest.approx(other.tube.start, abs=1e-6)
        assert one.tube.end == pytest.approx(other.tube.end, abs=1e-6)
        assert (one.tube.od_mm, one.bore_mm) == pytest.approx((25.4, 22.0), abs=1e-9)
        assert one.coverage_rad == pytest.approx(2 * math.pi, abs=1e-6)
        assert one.doubts == ()


def plain_twin(folder: Path) -> Found:
    hard = bar((0, 0, 0), (300, 100, 50), 25.4, 22)
    return found_in(folder, hard, placed(hard, (0, 200, 0), (1.0, 2.0, 3.0), 1.0))


def test_a_coped_b_spline_tube(tmp_path: Path) -> None:
    """The cope's outline lies on a surface whose parameters are neither angle nor height."""
    away = bar((-50, 0, 300), (50, 0, 300), 31.75)
    (soft,) = found_in(tmp_path, cut(free_form(bar(*_UP, 25.4)), free_form(away))).tubes
    tip = 300 - math.sqrt(15.875**2 - 12.7**2)
    assert soft.tube.end == pytest.approx((0.0, 0.0, tip), abs=1e-4)
    assert soft.copes_mm[1] == pytest.approx(15.875 - 9.525, abs=0.01)


def test_a_short_hollow_one_may_be_a_bushing(tmp_path: Path) -> None:
    (one,) = found_in(tmp_path, bar((0, 0, 0), (0, 0, 30), 20, 10)).tubes
    assert one.doubts == ("Only 1.5 diameters long, a bushing or a boss?",)


def test_names_units_and_places_of_an_assembly(tmp_path: Path) -> None:
    """Named products in inches, one placed twice; each tube a key and a file name."""
    tube = bar(*_UP, 19.05, 16)
    named = {
        "Upper left": tube,
        "brace/42": bar((50, 0, 0), (50, 0, 250), 15.875),
        "SOLID": bar((90, 0, 0), (90, 0, 200), 12.7),
    }
    found = tubes_here(written(tmp_path / "named.step", named, unit="INCH"))
    assert found.unit == "in"
    assert [one.tube.name for one in found.tubes] == ["Upper-left", "brace-42", "tube-3"]
    assert [one.stock for one in found.tubes] == ["3/4 in", "5/8 in", "1/2 in"]
    assert [one.number for one in found.tubes] == [1, 2, 3]
    assert found.size_mm == pytest.approx((9.525 + 90 + 6.35, 19.05, 300.0), abs=1e-6)


def test_the_order_of_a_file_changes_nothing(tmp_path: Path) -> None:
    bars = [bar((x, 0, 0), (x, 20, 300 - x), 20, 16) for x in (0, 50, 100)]
    there, back = found_in(tmp_path, *bars), found_in(tmp_path, *reversed(bars))
    assert there == back


def test_sentences_in_inches(tmp_path: Path) -> None:
    """Every length in doubts and in why something was not taken is in the unit that is asked for."""
    plate, sleeve = box((-50, -50, 150), (100, 100, 6)), bar((0, 0, 100), (0, 0, 120), 40, 25.4)
    rough = bar((200, 0, 0), (200, 0, 20), 12.7)
    shapes = [
        fused(bar((0, 0, 0), (0, 0, 400), 25.4), plate),
        sleeve,
        rough,
        bar((300, 0, 0), (300, 0, 200), 90),
    ]
    path = written(tmp_path / "bodies.step", shapes)
    found = tubes_in_step(path, units="in")
    said = [doubt for one in found.tubes for doubt in one.doubts]
    said += [f"{one.what}: {one.why}" for one in found.not_taken]
    assert not any("mm" in sentence for sentence in said)
    for part in (
        "No skin of its own from station 5.906 to 6.142 in,",
        "Something round, OD up to 1.575 in, lies about it from station 3.937 to 4.724 in.",
        "OD 3.543 in is thicker than a tube of a recipe may be: is millimetre the right unit?",
        "1 × outside diameter 0.500 in: too short for a clamp to sit on: 0.787 in long, and a tube this",
        "is at least 0.984 in long",
    ):
        assert any(part in sentence for sentence in said), (part, said)
    metric = tubes_in_step(path)
    assert [one.tube for one in metric.tubes] == [one.tube for one in found.tubes]
    assert not any(" in," in doubt for one in metric.tubes for doubt in one.doubts)
