"""Nests whose best answer is known: by arithmetic, or by the geometry of the parts."""

from __future__ import annotations

import math

import pytest
from nesting.cut_parts import angle, disc, fine, hull, part, rectangle, rounded

from clampwright.layout.shop.told import Bend
from clampwright.nesting.nest import nest
from clampwright.nesting.proof import faults_of_nest


def used_length(sheet):
    return sheet.used_mm2 / sheet.stock.width_mm


@pytest.mark.parametrize("kerf", [0.0, 1.0, 2.5])
def test_identical_rectangles_fill_the_sheet_to_the_last_bit(kerf):
    """Arithmetic: 4 x 5 rectangles of 100 x 60 with their kerfs between are as wide and long as the room."""
    wide, long = 4 * 100 + 3 * kerf + 20, 5 * 60 + 4 * kerf + 20
    tile = part(
        "tile", rectangle(100, 60), 20, stock_sheet_mm=(wide, long), kerf_mm=kerf, edge_margin_mm=10.0
    )
    found = nest([tile])
    assert len(found.sheets) == 1
    assert len(found.sheets[0].laid) == 20
    assert used_length(found.sheets[0]) == pytest.approx(long, abs=2e-6)


def test_rectangles_without_kerf_or_margin_use_all_of_the_sheet():
    tile = part("tile", rectangle(76.2, 50.8), 32, stock_sheet_mm=(304.8, 406.4), kerf_mm=0, edge_margin_mm=0)
    found = nest([tile])
    assert [sheet.utilisation for sheet in found.sheets] == [pytest.approx(1.0, rel=1e-8)]


def test_guillotine_cuts_of_a_sheet_go_back_together():
    """A sheet of 200 x 300 cut into six rectangles by whole cuts: known to fit, 100 %."""
    sizes = ((200, 60), (80, 240), (120, 90), (50, 150), (70, 100), (70, 50))
    assert sum(w * h for w, h in sizes) == 200 * 300
    pieces = [
        part(f"p{k}", rectangle(*size), stock_sheet_mm=(200.0, 1000.0), kerf_mm=0.0, edge_margin_mm=0.0)
        for k, size in enumerate(sizes)
    ]
    found = nest(pieces)
    assert used_length(found.sheets[0]) == pytest.approx(300.0, abs=2e-6)


def test_two_angles_that_interlock_take_less_than_their_boxes():
    """Two L of 100 x 100 with legs of 40, one turned half round: 141 long with a kerf, boxes 201."""
    pair = part(
        "angle", angle(100, 100, 40), 2, stock_sheet_mm=(122.0, 1000.0), kerf_mm=1.0, edge_margin_mm=10.0
    )
    found = nest([pair])
    (sheet,) = found.sheets
    boxes = 10 + 100 + 1 + 100 + 10
    assert used_length(sheet) <= boxes - 59
    assert sheet.utilisation > found.baseline[0][1] * 1.3
    assert found.baseline[0][2] == 1
    first, second = (fine(laid) for laid in sheet.laid)
    assert first.distance(second) >= 1.0 - 2e-6


def test_discs_nestle_into_each_other():
    """Two rows of discs, the second in the hollows of the first: rows are sqrt(3)/2 of a pitch apart.

    Pitch 51 (diameter 50 and a kerf); a sheet 3 1/2 pitches wide between margins takes 3 a row.
    """
    room = 3.5 * 51 - 1 + 0.5
    discs = part("disc", disc(25), 6, stock_sheet_mm=(room + 20, 500.0), kerf_mm=1.0, edge_margin_mm=10.0)
    found = nest([discs])
    rows = 20 + 50 + 51 * math.sqrt(3) / 2
    assert used_length(found.sheets[0]) == pytest.approx(rows, abs=0.5)
    assert used_length(found.sheets[0]) >= rows - 1e-6


def test_one_part_lies_so_that_least_of_the_sheet_is_in_use():
    found = nest([part("long", rounded(300, 80, 5))])
    assert used_length(found.sheets[0]) == pytest.approx(80 + 2 * 10, abs=1e-6)


@pytest.mark.parametrize(("grain", "high"), [("along", 300.0), ("across", 80.0)])
def test_long_side_by_the_rolling_direction_as_asked(grain, high):
    found = nest([part("long", rounded(300, 80, 5), 3, grain=grain)])
    for laid in found.sheets[0].laid:
        box = fine(laid).bounds
        assert box[3] - box[1] == pytest.approx(high, abs=1e-4)
        assert f"long side {grain} the rolling direction" in laid.why


def bend(label, start, end):
    return Bend(label, start, end, math.pi / 2, "up", 3.2, 5.0)


def test_bends_lie_across_the_rolling_direction():
    """Common practice, no source: a bend line runs square to the rolling direction, the sheet's y."""
    upright = bend("B1", (60.0, 0.0), (60.0, 80.0))
    found = nest([part("bent", rounded(200, 80, 4), 4, bends=(upright,))])
    for laid in found.sheets[0].laid:
        ends = laid.place(upright.start), laid.place(upright.end)
        assert ends[0][1] == pytest.approx(ends[1][1], abs=1e-9)
        assert laid.why == "bends across the rolling direction"


def test_a_slanted_bend_turns_the_part_until_it_lies_across():
    slanted = bend("B1", (20.0, 0.0), (80.0, 60.0))
    (sheet,) = nest([part("bent", rounded(120, 90, 4), 2, bends=(slanted,))]).sheets
    for laid in sheet.laid:
        ends = laid.place(slanted.start), laid.place(slanted.end)
        assert ends[0][1] == pytest.approx(ends[1][1], abs=1e-9)


def test_bends_both_ways_put_the_longer_ones_across_and_say_so():
    bends = (bend("B1", (20.0, 0.0), (20.0, 80.0)), bend("B2", (0.0, 20.0), (200.0, 20.0)))
    (laid,) = nest([part("tray", rounded(200, 80, 4), bends=bends)]).sheets[0].laid
    assert laid.place(bends[1].start)[1] == pytest.approx(laid.place(bends[1].end)[1])
    assert laid.why == "bends across the rolling direction; B1 along it: ask the shop"


def test_what_the_recipe_asks_for_comes_before_the_bends():
    upright = bend("B1", (60.0, 0.0), (60.0, 80.0))
    (laid,) = nest([part("bent", rounded(200, 80, 4), bends=(upright,), grain="across")]).sheets[0].laid
    assert laid.why.endswith("as the recipe asks; B1 along it: ask the shop")


def test_a_part_larger_than_its_sheet_is_left_out_with_the_size_that_would_do():
    large = part("large", rounded(600, 700, 5), stock_sheet_mm=(500.0, 1000.0))
    found = nest([large, part("small", rectangle(50, 40))])
    ((number, why),) = found.left_out
    assert number == "large"
    assert "sheet of 500 x 1000 mm" in why
    assert "a sheet of 620 x 720 mm or more would do" in why
    assert [laid.part.number for sheet in found.sheets for laid in sheet.laid] == ["small"]
    assert faults_of_nest(found, [large, part("small", rectangle(50, 40))]) == ()


def test_a_part_that_fits_one_way_only_lies_that_way():
    tall = part("tall", rectangle(700, 300), stock_sheet_mm=(500.0, 1000.0))
    found = nest([tall])
    assert used_length(found.sheets[0]) == pytest.approx(720.0, abs=1e-6)


def test_materials_and_thicknesses_go_on_sheets_of_their_own():
    thin, thick = part("thin", rectangle(90, 40)), part("thick", rectangle(90, 40), thickness_mm=3.2)
    steel = part("steel", rectangle(90, 40), name="4130")
    found = nest([steel, thick, thin])
    kinds = [(sheet.stock.words, [laid.part.number for laid in sheet.laid]) for sheet in found.sheets]
    assert kinds == [
        ("4130, 1.6 mm", ["steel"]),
        ("6061-T6, 1.6 mm", ["thin"]),
        ("6061-T6, 3.2 mm", ["thick"]),
    ]
    assert [words for words, _, _ in found.baseline] == [words for words, _ in kinds]


def test_the_widest_kerf_and_margin_on_a_sheet_win_and_it_says_so():
    one = part("one", rectangle(90, 40), 2, kerf_mm=2.0, edge_margin_mm=5.0)
    two = part("two", rectangle(60, 40), 2, kerf_mm=0.5, edge_margin_mm=15.0)
    (sheet,) = nest([one, two]).sheets
    assert (sheet.stock.kerf_mm, sheet.stock.margin_mm) == (2.0, 15.0)
    assert "Kerf: the widest asked for, by one-recipe." in sheet.stock.why
    assert "Margin: the widest asked for, by two-recipe." in sheet.stock.why
    assert "a usual one, as no recipe gives one" in sheet.stock.why


def test_a_part_without_a_sheet_goes_on_that_of_the_others():
    asked = part("asked", rectangle(90, 40), stock_sheet_mm=(300.0, 600.0))
    (sheet,) = nest([asked, part("free", rectangle(90, 40))]).sheets
    assert (sheet.stock.width_mm, sheet.stock.length_mm) == (300.0, 600.0)
    assert "as asked-recipe asks" in sheet.stock.why


def test_more_than_one_sheet_where_one_is_full():
    """Arithmetic: 2 x 3 of 140 x 90 on 300 x 300 less 2 x 5 margin; seven need a second sheet."""
    tile = part(
        "tile", rectangle(140, 90), 7, stock_sheet_mm=(300.0, 300.0), edge_margin_mm=5.0, grain="across"
    )
    found = nest([tile])
    assert [len(sheet.laid) for sheet in found.sheets] == [6, 1]
    assert [sheet.number for sheet in found.sheets] == [1, 2]
    assert sorted(laid.copy for sheet in found.sheets for laid in sheet.laid) == [1, 2, 3, 4, 5, 6, 7]


def test_the_order_of_the_parts_makes_no_difference():
    parts = [
        part("a", angle(120, 90, 30, 4), 2),
        part("b", disc(30), 3),
        part("c", hull(((0.0, 0.0), 12.0), ((90.0, 10.0), 15.0), ((40.0, 60.0), 10.0))),
    ]
    assert nest(parts) == nest(parts[::-1])


def test_two_parts_of_one_number_are_refused():
    with pytest.raises(ValueError, match="same number: a"):
        nest([part("a", disc(10)), part("a", disc(20))])


def test_nothing_to_nest():
    found = nest([])
    assert (found.sheets, found.baseline, found.left_out) == ((), (), ())


def test_progress_is_told():
    told = []
    nest([part("angle", angle(120, 90, 30), 5), part("disc", disc(22), 4)], told.append)
    assert told[0] == "nesting 6061-T6, 1.6 mm: 9 pieces"
    assert told[-1].startswith("nested 6061-T6, 1.6 mm: 1 sheet, ")
