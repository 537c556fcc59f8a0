"""Hole windows and drills against TM 1-1520-240-BD, ISO 273, ASME B18.2.8 and the laws of the drill list."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.trade.bolts import bolt
from clampwright.trade.fasteners import fastener_names, nominal_mm, thread
from clampwright.trade.holes import Drill, drill, drills, hole_window, nearest_drill, pilot_drill
from clampwright.trade.sources import source
from clampwright.trade.tables import load


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("AN3", 0.191, 0.197), ("AN4", 0.250, 0.257), ("AN5", 0.3125, 0.3195), ("AN6", 0.375, 0.382)],
)
def test_windows_of_tm_1_1520_240_bd_para_2_6(name: str, low: float, high: float) -> None:
    window = hole_window(name)
    assert (window.low_mm, window.high_mm) == pytest.approx((low * 25.4, high * 25.4), abs=1e-12)
    assert source(window.source).status == "handbook"


@pytest.mark.parametrize(
    ("name", "inside", "outside"),
    [
        ("AN3", ["#11", "#10", "#9"], ["#12", "A", "3/16", "#8"]),
        ("AN4", ["1/4", "E", "F"], ["D", "G"]),
        ("AN5", ["5/16", "O"], ["N", "P"]),
        ("AN6", ["3/8", "V"], ["U", "W"]),
    ],
)
def test_which_drills_lie_inside_the_window(name: str, inside: list[str], outside: list[str]) -> None:
    """As listed with the windows; #12 (.189) lies below that of AN3 though people push bolts through it."""
    window = hole_window(name)
    assert all(window.low_mm <= drill(size).diameter_mm <= window.high_mm for size in inside)
    assert not any(window.low_mm <= drill(size).diameter_mm <= window.high_mm for size in outside)


def test_the_letter_rule_is_never_used_for_an3() -> None:
    """AC 43.13-1B 7-39, first lettered drill above nominal: A, .234 in, far too loose for AN3."""
    letters = [each for each in drills(metric=False) if each.size.isalpha()]
    first = next(each for each in letters if each.diameter_mm > bolt("AN3").nominal_mm)
    assert first.size == "A"
    assert first.diameter_mm == pytest.approx(0.234 * 25.4)
    assert hole_window("AN3").drill.diameter_mm < hole_window("AN3").high_mm < first.diameter_mm
    named = {each.size for name in fastener_names() for each in (hole_window(name).drill,)}
    assert not any(size.isalpha() for size in named)


@pytest.mark.parametrize(
    ("name", "fine", "medium"),
    [
        ("M3", 3.2, 3.4),
        ("M4", 4.3, 4.5),
        ("M5", 5.3, 5.5),
        ("M6", 6.4, 6.6),
        ("M8", 8.4, 9.0),
        ("M10", 10.5, 11.0),
    ],
)
def test_iso_273(name: str, fine: float, medium: float) -> None:
    """Medium is 6.6 for M6 and 3.4 for M3; other values circulate."""
    window = hole_window(name)
    assert (window.low_mm, window.high_mm, window.drill.diameter_mm) == (fine, medium, medium)


@pytest.mark.parametrize(("name", "normal"), [("#6", 0.1695), ("#8", 0.196), ("#10", 0.221)])
def test_asme_b18_2_8_normal_fit(name: str, normal: float) -> None:
    assert hole_window(name).drill.diameter_mm == pytest.approx(normal * 25.4, abs=1e-9)
    assert hole_window(name).high_mm == hole_window(name).drill.diameter_mm


@pytest.mark.parametrize("name", [*fastener_names()])
def test_every_window_clears_its_fastener_and_holds_its_drill(name: str) -> None:
    window = hole_window(name)
    assert nominal_mm(name) <= window.low_mm < window.high_mm < 1.25 * nominal_mm(name)
    assert window.low_mm <= window.drill.diameter_mm <= window.high_mm
    if name not in ("#6", "#8", "#10"):
        assert bolt(name).shank_max_mm < window.low_mm


@pytest.mark.parametrize(("size", "inches"), [("#5", 0.2055), ("#10", 0.1935), ("#18", 0.1695)])
def test_drills_whose_truncated_values_circulate(size: str, inches: float) -> None:
    assert drill(size).diameter_mm == pytest.approx(inches * 25.4, abs=1e-12)


@pytest.mark.parametrize(
    ("size", "inches"),
    [
        *(("#1", 0.228), ("#11", 0.191), ("#30", 0.1285), ("#40", 0.098), ("#60", 0.040), ("#80", 0.0135)),
        *(("A", 0.234), ("F", 0.257), ("L", 0.290), ("Z", 0.413)),
    ],
)
def test_drills_of_asme_b94_11m(size: str, inches: float) -> None:
    assert drill(size).diameter_mm == pytest.approx(inches * 25.4, abs=1e-12)


def test_the_drill_list_is_complete() -> None:
    sizes = [each.size for each in drills()]
    assert len(sizes) == len(set(sizes)) == 80 + 26 + 64 + 121
    assert {f"#{n}" for n in range(1, 81)} | {chr(c) for c in range(ord("A"), ord("Z") + 1)} < set(sizes)


def test_fractions_are_n_over_64_exactly() -> None:
    whole = [each for each in drills(metric=False) if "/" in each.size or each.size == "1"]
    exact = [float(Fraction(n, 64) * Fraction(254, 10)) for n in range(1, 65)]
    assert [each.diameter_mm for each in whole] == exact
    for each in whole:
        top, _, bottom = each.size.partition("/")
        assert each.diameter_mm == pytest.approx(25.4 * int(top) / int(bottom or 1), abs=1e-12)


def test_numbers_fall_and_letters_rise() -> None:
    numbers = [drill(f"#{n}").diameter_mm for n in range(1, 81)]
    letters = [drill(chr(c)).diameter_mm for c in range(ord("A"), ord("Z") + 1)]
    assert numbers == sorted(numbers, reverse=True)
    assert len(set(numbers)) == 80
    assert letters == sorted(letters)
    assert numbers[0] < letters[0]


def test_inch_and_mm_columns_agree_to_their_rounding() -> None:
    """Handbooks print both; a slipped digit shows in one of them."""
    printed = [row for row in load("drills_inch").rows if row.cells["printed_mm"]]
    assert len(printed) == 60 + 26 + 32
    for row in printed:
        decimals = len(row.cells["printed_mm"].partition(".")[2])
        assert row.number("diameter") == pytest.approx(row.number("printed"), abs=0.51 * 10**-decimals)


def test_drills_rise_in_order() -> None:
    for each in (drills(), drills(metric=True), drills(metric=False)):
        diameters = [one.diameter_mm for one in each]
        assert diameters == sorted(diameters)
    assert drills(metric=True)[0].size == "1.0 mm"
    assert drills(metric=True)[-1].size == "13.0 mm"


@pytest.mark.parametrize(
    ("written", "size"),
    [
        ("f", "F"),
        (" #11 ", "#11"),
        ("No. 11", "#11"),
        ("letter F", "F"),
        ("3/16 in", "3/16"),
        ('3/16"', "3/16"),
        ("6.6mm", "6.6 mm"),
        ("6.60 mm", "6.6 mm"),
        ("7 mm", "7.0 mm"),
        ("# 40", "#40"),
    ],
)
def test_sizes_as_people_write_them(written: str, size: str) -> None:
    assert drill(written).size == size


@pytest.mark.parametrize(
    ("written", "hint"),
    [
        ("#11a", "#11"),
        ("6.64 mm", "nearest 6.6 mm"),
        ("3/17", "nearest #16"),
        ("#111", "#11"),
        ("0.1935", "nearest #10"),
    ],
)
def test_no_such_drill_names_the_nearest(written: str, hint: str) -> None:
    with pytest.raises(LookupError, match=hint):
        drill(written)


@settings(max_examples=200, deadline=None)
@given(st.text() | st.text("#0123456789/. mminABFZ", max_size=10))
def test_any_text_is_a_drill_or_a_lookup_error(text: str) -> None:
    outcome = _outcome(text)
    assert outcome.startswith("no drill") if isinstance(outcome, str) else outcome in drills()


def _outcome(text: str) -> Drill | str:
    try:
        return drill(text)
    except LookupError as error:
        return str(error)


@settings(max_examples=100, deadline=None)
@given(st.floats(0.1, 30.0), st.sampled_from([None, True, False]))
def test_no_drill_is_nearer_than_the_nearest(diameter: float, metric: bool | None) -> None:
    found = nearest_drill(diameter, metric)
    assert all(
        abs(found.diameter_mm - diameter) <= abs(each.diameter_mm - diameter) for each in drills(metric)
    )


def test_pilots_are_smaller_than_what_they_guide() -> None:
    """Common practice, no source: a pilot between a fifth and nine tenths of the final diameter."""
    for each in drills():
        if 2.0 < each.diameter_mm <= 25.4:
            assert (
                0.18 * each.diameter_mm < pilot_drill(each.diameter_mm).diameter_mm < 0.9 * each.diameter_mm
            )
    with pytest.raises(LookupError, match="drill it at once"):
        pilot_drill(1.0)
    with pytest.raises(LookupError, match="saw or jet"):
        pilot_drill(60.0)


def test_what_has_no_window() -> None:
    for name in ("AN9", "#4", "M7"):
        with pytest.raises(LookupError, match="no hole window"):
            hole_window(name)


def test_screw_sizes_by_asme_b1_1() -> None:
    """Diameter 0.060 + 0.013 n inch."""
    for number in (6, 8, 10):
        assert nominal_mm(f"#{number}") == pytest.approx((0.060 + 0.013 * number) * 25.4, abs=1e-12)
    assert [thread(name) for name in ("#6", "#8", "#10", "AN3")] == ["6-32", "8-32", "10-32", "10-32"]
