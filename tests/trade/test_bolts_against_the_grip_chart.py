"""AN bolts against a printed bolt grip chart, part numbers worked in hardware notes, and ISO tables.

Grip chart: printed in a kit manual and, with the same figures, in a builders' reference (grip ±.016, length
+.031 -.016 in). It rounds to three decimals, so a cell must lie within half a thousandth.
"""

from __future__ import annotations

from itertools import pairwise

import pytest

from clampwright.trade.bolts import NoSuchBolt, bolt, bolt_by_dash, bolt_by_part, bolt_lengths, bolt_names

CHART = {
    # dash: (AN3 grip, length, AN4 grip, length, AN5 grip, length, AN6 grip, length), inches as printed
    3: (0.063, 0.469, 0.063, 0.469, None, None, None, None),
    4: (0.125, 0.531, 0.063, 0.531, 0.063, 0.594, None, None),
    5: (0.250, 0.656, 0.188, 0.656, 0.188, 0.719, 0.063, 0.703),
    6: (0.375, 0.781, 0.313, 0.781, 0.313, 0.844, 0.188, 0.828),
    7: (0.500, 0.906, 0.438, 0.906, 0.438, 0.969, 0.313, 0.953),
    10: (0.625, 1.031, 0.563, 1.031, 0.563, 1.094, 0.438, 1.078),
    11: (0.750, 1.156, 0.688, 1.156, 0.688, 1.219, 0.563, 1.203),
    12: (0.875, 1.281, 0.813, 1.281, 0.813, 1.344, 0.688, 1.328),
    13: (1.000, 1.406, 0.938, 1.406, 0.938, 1.469, 0.813, 1.453),
    14: (1.125, 1.531, 1.063, 1.531, 1.063, 1.594, 0.938, 1.578),
}
"""The length of AN5-10 is 1.094; one copy of the chart prints 1.064, off the line of all its neighbours."""

CELLS = [
    (name, dash, row[2 * column], row[2 * column + 1])
    for dash, row in CHART.items()
    for column, name in enumerate(("AN3", "AN4", "AN5", "AN6"))
    if row[2 * column] is not None
]


@pytest.mark.parametrize(("name", "dash", "grip", "length"), CELLS)
def test_grip_chart(name: str, dash: int, grip: float, length: float) -> None:
    found = bolt_by_dash(name, dash)
    assert found.grip_mm / 25.4 == pytest.approx(grip, abs=0.00051)
    assert found.length_mm / 25.4 == pytest.approx(length, abs=0.00051)


def test_worked_part_numbers() -> None:
    """A bolt chart prints AN3-4A .531 and AN3-14A 1.531 long; a hardware note AN4-15A, grip 1 3/16,
    AN6-20, grip 1 7/16, and AN5-27A, grip 2 7/16."""
    assert bolt_by_part("AN3-4A").length_mm == pytest.approx(0.53125 * 25.4, abs=1e-9)
    assert bolt_by_part("AN3-14A").length_mm == pytest.approx(1.53125 * 25.4, abs=1e-9)
    assert bolt_by_part("AN4-15A").grip_mm == pytest.approx((1 + 3 / 16) * 25.4, abs=1e-9)
    assert bolt_by_part("AN6-20A").grip_mm == pytest.approx((1 + 7 / 16) * 25.4, abs=1e-9)
    assert bolt_by_part("AN5-27A").grip_mm == pytest.approx((2 + 7 / 16) * 25.4, abs=1e-9)


@pytest.mark.parametrize("name", ["AN3", "AN4", "AN5", "AN6"])
@pytest.mark.parametrize("dash", [8, 9, 18, 19, 28, 29])
def test_dashes_that_cannot_exist(name: str, dash: int) -> None:
    """The dash counts inches and eighths: -7 is followed by -10, and -17 by -20."""
    with pytest.raises(NoSuchBolt, match=r"inches and eighths.*nearest AN\d-\d+A and AN\d-\d+A"):
        bolt_by_dash(name, dash)


def test_refusals_name_the_nearest() -> None:
    with pytest.raises(NoSuchBolt, match=r"nearest AN3-7A and AN3-10A"):
        bolt_by_dash("AN3", 9)
    with pytest.raises(NoSuchBolt, match=r"known from AN6-5A"):
        bolt_by_dash("AN6", 4)
    with pytest.raises(NoSuchBolt, match="did you mean AN3"):
        bolt("AN33")
    with pytest.raises(NoSuchBolt, match="usual lengths; nearest M5x25 and M5x30"):
        bolt_by_dash("M5", 27)
    with pytest.raises(NoSuchBolt, match="written like"):
        bolt_by_part("a bolt")


@pytest.mark.parametrize("name", ["AN7", "AN8"])
def test_lengths_that_no_document_gave(name: str) -> None:
    assert bolt_lengths(name) == ()
    with pytest.raises(NoSuchBolt, match="no document gave"):
        bolt_by_dash(name, 10)


@pytest.mark.parametrize("name", ["AN3", "AN4", "AN5", "AN6"])
def test_every_dash_of_the_law_is_there_once(name: str) -> None:
    dashes = [each.dash for each in bolt_lengths(name)]
    first = {"AN3": 3, "AN4": 3, "AN5": 4, "AN6": 5}[name]
    assert dashes == [10 * inch + eighth for inch in range(4) for eighth in range(8)][first:]


@pytest.mark.parametrize("name", bolt_names())
def test_lengths_rise_and_the_thread_is_long_enough_for_a_nut(name: str) -> None:
    lengths = bolt_lengths(name)
    for shorter, longer in pairwise(lengths):
        assert shorter.length_mm < longer.length_mm
        assert shorter.grip_mm <= longer.grip_mm
        assert shorter.mass_kg < longer.mass_kg
    for each in lengths:
        assert each.length_mm - each.grip_mm > 1.5 * bolt(name).nominal_mm
        assert bolt_by_part(each.part) == each


@pytest.mark.parametrize("name", ["AN3", "AN4", "AN5", "AN6"])
def test_thread_length_is_one_number_a_size(name: str) -> None:
    """Thread lengths .406 .469 .531 .641 in of weak secondary sources agree with the chart's difference.

    -3 is special: that of AN4 has less thread.
    """
    printed = {"AN3": 0.406, "AN4": 0.469, "AN5": 0.531, "AN6": 0.641}[name]
    for each in bolt_lengths(name):
        if each.dash == 3:
            continue
        assert (each.length_mm - each.grip_mm) / 25.4 == pytest.approx(printed, abs=0.0006)


@pytest.mark.parametrize("name", bolt_names())
def test_sizes_hold_together(name: str) -> None:
    size = bolt(name)
    assert size.shank_min_mm < size.shank_max_mm <= size.nominal_mm
    assert 0.02 * 25.4 < size.pitch_mm < 0.06 * 25.4
    assert 1.4 * size.nominal_mm < size.head_across_flats_mm < 2.1 * size.nominal_mm
    assert size.head_across_flats_mm * 2 / 3**0.5 < size.socket_od_mm < 2 * size.head_across_flats_mm
    assert 0.4 * size.nominal_mm < size.head_height_mm < 0.8 * size.nominal_mm


@pytest.mark.parametrize(
    ("name", "flats", "head", "thread_length", "shortest", "longest"),
    [
        ("M4", 7, 2.8, 14, 25, 40),
        ("M5", 8, 3.5, 16, 25, 50),
        ("M6", 10, 4, 18, 30, 60),
        ("M8", 13, 5.3, 22, 40, 80),
    ],
)
def test_iso_4014(
    name: str, flats: float, head: float, thread_length: float, shortest: int, longest: int
) -> None:
    """ISO 4014 as quoted in two open tables: s, k, thread length b, and the range with a shank."""
    assert (bolt(name).head_across_flats_mm, bolt(name).head_height_mm) == (flats, head)
    with_shank = [each for each in bolt_lengths(name) if each.grip_mm > 0]
    assert (with_shank[0].dash, with_shank[-1].dash) == (shortest, longest)
    assert all(each.length_mm - each.grip_mm == thread_length for each in with_shank)


def test_mass_of_a_bolt_by_hand() -> None:
    """AN3-10A: pi/4·.19²·1.03125 + sqrt(3)/2·.375²·.125 in³ of steel at .283 lb/in³ (derived)."""
    volume = 3.14159265 / 4 * 0.19**2 * 1.03125 + 0.8660254 * 0.375**2 * 0.125
    assert bolt_by_part("AN3-10A").mass_kg == pytest.approx(volume * 0.283 * 0.45359237, rel=1e-6)
