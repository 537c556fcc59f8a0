"""Words of drawings: nothing that matters is cut short, limits and what X and Y count from are said truly."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from itertools import combinations

import pytest
from sheets.shop.collisions_on_page import collisions
from sheets.shop.dimensions_true import untrue
from sheets.shop.told_parts import hand_made, told
from sheets.shop.turned_groups import group, sheet_of, texts_of

from clampwright.files.shop_drawings import turned_views
from clampwright.layout.outline import Outline
from clampwright.layout.outlines import filleted_polygon, rounded_hull, rounded_rectangle
from clampwright.layout.shop.told import FlatPart, Limits
from clampwright.recipe.shop import usual_shop
from clampwright.sheets.drawing import Circle, Path, Sheet, Text
from clampwright.sheets.lettering import bound, wrap
from clampwright.sheets.shop.block_words import flat_block
from clampwright.sheets.shop.flat_drawing import flat_drawing
from clampwright.sheets.shop.flat_notes import notes
from clampwright.sheets.shop.flat_tables import flat_tables
from clampwright.sheets.shop.outline_told import datum_sides
from clampwright.sheets.shop.stuff_words import material_words
from clampwright.sheets.shop.turning_sheet import TurningHead, turning_sheet
from clampwright.trade.materials import material
from clampwright.trade.sources import source
from clampwright.trade.tables import load, rule

LONG = (
    "etch and wash, conversion coat, one coat of two-part primer, then one coat of enamel in the colour of "
    "the cowling, baked"
)
SQUARE = rounded_rectangle((0.0, 0.0, 120.0, 80.0), 6.0)
ROUND = rounded_hull([((60.0, 60.0), 60.0)])
HULL = rounded_hull([((20.0, 40.0), 20.0), ((140.0, 25.0), 12.0), ((90.0, 120.0), 14.0)])
TRIANGLE = filleted_polygon([(0.0, 0.0), (150.0, 30.0), (60.0, 140.0)], 8.0)
WEDGE = filleted_polygon([(0.0, 0.0), (150.0, 0.0), (60.0, 110.0)], 8.0)
EDGELESS = {"round": ROUND, "hull": HULL, "triangle": TRIANGLE}
HOLES = [((50.0, 40.0), 4.9), ((70.0, 52.0), 4.9), ((61.0, 75.0), 6.5), ((84.0, 60.0), 6.5)]


def words_of(sheet: Sheet) -> str:
    """All texts of a sheet in the order in which they are drawn."""
    return " ".join(text.text for page in sheet.pages for text in texts_of(page))


def numbered(sheet: Sheet, number: int) -> str:
    """The words behind a note's number: lines below one another, up to the next number."""
    texts = [text for page in sheet.pages for text in texts_of(page)]
    start = max(n for n, text in enumerate(texts) if re.match(rf"{number}(\.|$)", text.text))
    found = []
    for text in texts[start:]:
        if found and re.match(rf"{number + 1}(\.|$)", text.text):
            break
        found.append(text.text)
    return " ".join(found)


def outlined(outline: Outline, units: str = "mm", standard: str = "iso") -> FlatPart:
    return hand_made(outline, HOLES, units, standard)


def with_finish(part: FlatPart, finish: str) -> FlatPart:
    return replace(part, shop=replace(part.shop, finish=finish))


@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_long_finish_stands_in_full_on_the_plate_drawing(units: str) -> None:
    assert len(LONG) == 120
    sheet = flat_drawing(
        with_finish(told("coil-plate", units, "iso" if units == "mm" else "ansi"), LONG), (), ()
    )
    see = re.search(r"Finish see note (\d+)", words_of(sheet))
    assert see
    assert f"Finish: {LONG}; sizes hold before it." in numbered(sheet, int(see[1]))
    assert "..." not in words_of(sheet)


def test_a_short_finish_stands_in_its_cell_and_in_a_note() -> None:
    sheet = flat_drawing(with_finish(outlined(SQUARE), "anodise, clear"), (), ())
    assert "Finish anodise, clear" in words_of(sheet)
    assert "Finish: anodise, clear; sizes hold before it." in words_of(sheet)
    assert "Finish:" not in words_of(flat_drawing(with_finish(outlined(SQUARE), ""), (), ()))


def test_a_long_finish_stands_in_full_on_the_turning_sheet() -> None:
    groups, shop = (group(1),), replace(usual_shop("mm"), finish=LONG)
    head = TurningHead("made-up-turning", "invented for a test", "0123456789abcdef", "mm")
    sheet = turning_sheet(groups, shop, head, (), turned_views(groups))
    see = re.search(r"Finish see note (\d+)", words_of(sheet))
    assert see
    assert f"Finish: {LONG}; sizes hold before it." in numbered(sheet, int(see[1]))


def test_a_long_specification_stands_in_a_note() -> None:
    spec = f"AMS 4027 or {'AMS-QQ-A-250/11 or ' * 12}equal"
    part = replace(outlined(SQUARE), specification=spec, specification_source="specification-titles")
    block = flat_block(part, (), "1:1")
    number = int(block.material.removeprefix("see note "))
    assert list(notes(part))[number - 1] == f"Material: 6061-T6 to {spec}, with certificate."


def test_a_long_stock_stands_in_the_table_of_the_turning_sheet() -> None:
    stock = f"tube 7/16 in x 0.120 in wall, {'seamless, drawn, stress relieved, ' * 3}6061-T6"
    sheet = sheet_of((group(1, stock=stock),))
    assert "Stock see table" in words_of(sheet)
    assert stock in words_of(sheet).replace("  ", " ")


def test_groups_of_several_materials_have_each_specification_in_a_note() -> None:
    other = replace(
        group(2, 20.0, stock="tube 1/2 in x 0.120 in wall, 4130"),
        material="4130",
        specification="AMS 6360",
        specification_source="specification-titles",
    )
    words = words_of(sheet_of((group(1), other)))
    assert re.search(r"Material see notes \d+ to \d+", words)
    assert "Material of T2: 4130 to AMS 6360, with certificate." in words


@pytest.mark.parametrize(
    "row", load("specifications").rows, ids=lambda row: f"{row.text('name')} {row.text('form')}"
)
def test_a_specification_from_memory_says_so(row: object) -> None:
    """sources.toml: status memory or assumed is never printed as a fact."""
    said = material_words(row.text("name"), row.text("specification"), row.source())  # type: ignore[attr-defined]
    unsure = source(row.source()).status in ("memory", "assumed")  # type: ignore[attr-defined]
    assert ("confirm with the supplier" in said) == unsure
    part = replace(
        outlined(SQUARE),
        material=material("6061-T6"),
        specification=row.text("specification"),  # type: ignore[attr-defined]
        specification_source=row.source(),  # type: ignore[attr-defined]
    )
    assert ("confirm with the supplier" in words_of(flat_drawing(part, (), ()))) == unsure


def test_the_width_of_the_title_block_does_not_claim_a_handbook() -> None:
    assert source(rule("title-block-width").source).status == "memory"


@pytest.mark.parametrize(("units", "standard"), [("mm", "iso"), ("in", "ansi")])
@pytest.mark.parametrize("name", EDGELESS)
@pytest.mark.parametrize("many", [False, True])
def test_no_datum_edge_is_claimed_where_there_is_none(
    name: str, units: str, standard: str, many: bool
) -> None:
    """By construction: no straight edge of these outlines lies along an axis."""
    part = outlined(EDGELESS[name], units, standard)
    part = with_place(part, 0.05) if many else part
    assert datum_sides(part.outline) == (False, False)
    sheet = flat_drawing(part, (), ())
    words = words_of(sheet)
    assert "datum edge" not in words
    assert "lower left corner of the box round the part" in words
    (page,) = sheet.pages
    assert dash_dotted(sheet) == {"x", "y"}
    assert collisions(page) == []
    assert untrue(page, units) == []


@pytest.mark.parametrize("name", EDGELESS)
def test_a_part_without_edges_is_set_up_on_the_holes_farthest_apart(name: str) -> None:
    """Closed form: the largest of the distances between all centres, worked out from the holes as given."""
    part = outlined(EDGELESS[name])
    far = {(a.label, b.label): math.dist(a.at, b.at) for a, b in combinations(part.holes, 2)}
    (one, two), apart = max(far.items(), key=lambda item: item[1])
    (said,) = [note for note in notes(part) if "set up on" in note]
    found = re.search(rf"set up on {one} and {two}, the holes farthest apart: ([\d.]+) between", said)
    assert found
    assert float(found[1]) == pytest.approx(apart, abs=0.00501)


def test_a_hole_that_is_not_there_yet_is_no_hole_to_set_up_on() -> None:
    part = outlined(TRIANGLE)
    far = [note for note in notes(part) if "set up on H1" in note]
    assert far
    first, *rest = part.holes
    moved = replace(part, holes=(replace(first, transferred=True, pilot=""), *rest))
    assert not any("set up on H1" in note for note in notes(moved))


def test_datum_edges_are_named_where_they_are() -> None:
    part = outlined(SQUARE)
    assert "X and Y count from the datum edges, the left and the lower one." in next(notes(part))
    assert not any("set up on" in note for note in notes(part))
    assert dash_dotted(flat_drawing(part, (), ())) == set()


def test_one_edge_alone_is_said_to_be_one() -> None:
    part = outlined(WEDGE)
    assert datum_sides(part.outline) == (False, True)
    assert "X counts from the leftmost point, the dash-dot line; Y from the lower edge." in next(notes(part))
    assert dash_dotted(flat_drawing(part, (), ())) == {"x"}


def with_place(part: FlatPart, off: float) -> FlatPart:
    """Its first hole held to a place: its holes then stand in the table."""
    first, *rest = part.holes
    held = replace(first, place=Limits(off, off, "so that it meets its bolt", "practice"))
    return replace(part, holes=(held, *rest))


def dash_dotted(sheet: Sheet) -> set[str]:
    """Axes along which a dash-dot line is drawn that is no centre line of a hole."""
    found = set()
    items = sheet.pages[0].items
    centres = [item.centre for item in items if isinstance(item, Circle)]
    for item in items:
        if isinstance(item, Path) and item.pen and len(item.pen.dash_mm) == 4 and len(item.points) == 2:
            for k, axis in enumerate("xy"):
                along = abs(item.points[0][k] - item.points[1][k]) < 1e-9
                if along and all(abs(item.points[0][k] - at[k]) > 1e-6 for at in centres):
                    found.add(axis)
    return found


def test_the_note_of_a_place_says_the_limits_of_the_place() -> None:
    """H1 is held to +0.10 0 in size, to ± 0.05 in place."""
    (said,) = [note for note in notes(with_place(outlined(SQUARE), 0.05)) if "so that it meets" in note]
    assert said.replace("\xa0", " ") == "H1: X and Y ±0.05, closer than general so that it meets its bolt."


@pytest.mark.parametrize(
    ("over", "how"), [(0.1, "closer than general"), (0.5, "instead of the general tolerance")]
)
def test_a_note_calls_limits_closer_only_where_they_are(over: float, how: str) -> None:
    """ISO 2768-m: ± 0.1 to 6 mm, a zone of 0.2."""
    part = outlined(SQUARE)
    size = Limits(0.0, over, "so that its bolt passes", "practice")
    holes = tuple(replace(hole, size=size, diameter_mm=4.9) for hole in part.holes)
    (said,) = [note for note in notes(replace(part, holes=holes)) if note.startswith("Ø")]
    assert f": {how} so that its bolt passes" in said


def test_limits_are_never_parted_from_their_size() -> None:
    said = bound("Ø4.85 +0.05 0")
    for room in range(24, 60):
        lines = wrap(f"here is {said}: closer than general", float(room), 3.0)
        assert sum("Ø4.85 +0.05 0" in line for line in lines) == 1
    part = outlined(SQUARE, "in", "ansi")
    for room in range(90, 140, 5):
        texts = [
            item.text
            for block in flat_tables(part, "table", float(room))
            for item in block.items
            if isinstance(item, Text)
        ]
        assert "0.193 +0.004 0" in texts


@pytest.mark.parametrize(
    ("drill", "said"), [("step drill", "cut or step drill"), ("#11", "drill #11"), ("", "cut")]
)
def test_a_step_drill_is_no_drill_size(drill: str, said: str) -> None:
    part = outlined(SQUARE)
    part = replace(part, holes=tuple(replace(hole, drill=drill) for hole in part.holes))
    texts = [
        item.text
        for block in flat_tables(part, "table", 120.0)
        for item in block.items
        if isinstance(item, Text)
    ]
    assert said in texts
    assert "drill step drill" not in texts


@pytest.mark.parametrize(
    ("outline", "said"),
    [
        (rounded_rectangle((0.0, 0.0, 120.0, 80.0), 0.4), "4x R0.4 max"),
        (rounded_rectangle((0.0, 0.0, 120.0, 80.0), 3.0), "4x R3"),
    ],
)
def test_a_radius_below_the_table_is_the_largest_that_will_do(outline: Outline, said: str) -> None:
    """ISO 2768-1, table 2, begins at 0.5 mm: below it the drawing must say the limit itself."""
    sheet = flat_drawing(outlined(outline), (), ())
    assert said in [each.text for page in sheet.pages for each in page.dimensions]
    assert "break 0.30 mm (0.012 in) at most" in words_of(sheet)


def test_an_outside_that_is_left_alone_is_as_supplied_and_one_turned_down_has_limits() -> None:
    turned = replace(group(1, 20.0, 10.0), make="rod", od=Limits(0.2, 0.2, "general tolerance", "iso-2768-1"))
    assert "10.00 as supplied" in words_of(sheet_of((group(1, 20.0, 10.0),)))
    words = words_of(sheet_of((turned,)))
    assert "Ø10.00 ±0.20" in words
    assert "as supplied" not in words.replace("stay as supplied", "")


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("grade", "fmcv")
def test_no_general_tolerance_is_parted_from_its_range(grade: str, units: str) -> None:
    part = outlined(SQUARE, units)
    part = replace(part, shop=replace(part.shop, tolerances=grade))
    (page,) = flat_drawing(part, (), ()).pages
    lines = [text.text for text in texts_of(page) if " to " in text.text and "±" in text.text]
    assert lines
    for line in lines:
        for each in line.rstrip(",").split(", "):
            assert re.fullmatch(r"± [\d.]+ (from|over) [\d.]+ to [\d.]+", each)
