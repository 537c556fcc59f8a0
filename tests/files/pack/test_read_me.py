"""The read-me in words: what changes with what is packed, and that a failing check is seen first."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest
from files.pack.packed_bays import THREE, TOO_NARROW, bay, checked, told

from clampwright.files.pack.bay import Bay
from clampwright.files.pack.bay_cuts import bay_cuts
from clampwright.files.pack.contents import Contents
from clampwright.files.pack.parts_list import flat_size
from clampwright.files.pack.plain_text import box, columns, paragraph, plain, text_bytes
from clampwright.files.pack.read_me import read_me
from clampwright.files.pack.turned_parts import turnings
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.make import Checked
from clampwright.pack import bay_of
from clampwright.sheets.both_units import both
from clampwright.sheets.drawing import Text
from clampwright.sheets.shop.flat_tables import flat_tables
from clampwright.trade.sources import source


def text_of(of: Bay) -> str:
    """The read-me of a bay, before any file is made."""
    sheets = turnings(of)
    groups = tuple(group for sheet in sheets for group in sheet.groups)
    flat = tuple(part for job in of.jobs for part in flat_parts(job.layout))
    contents = Contents(of, flat, sheets, bay_cuts(of, groups), None, ())
    return read_me(contents).data.decode("ascii").replace("\r\n", "\n")


def flowed(text: str) -> str:
    """Without line breaks."""
    return re.sub(r"\s+", " ", text)


def test_quantities_count_sets() -> None:
    text = text_of(bay("coil-plate", quantity=3))
    assert re.search(r"(?m)^coil-plate-plate +3 ", text)
    assert "3 sets" in text


def test_pilots_are_told_where_there_are_any() -> None:
    with_pilots = flowed(text_of(bay("coil-plate")))
    (part,) = flat_parts(checked("coil-plate").layout)
    named = ", ".join(hole.label for hole in part.holes if hole.transferred)
    assert named
    assert f"coil-plate-plate: {named}." in with_pilots


def test_what_is_trimmed_is_not_to_be_shortened() -> None:
    text = flowed(text_of(bay("oil-hose-stand-off")))
    assert "T1 is made longer on purpose" in text
    assert "Are the holes" not in text, "nothing is cut from sheet"


def test_nothing_to_make() -> None:
    text = text_of(bay("plain-pair"))
    assert "Nothing is to be made" in text


@pytest.mark.parametrize(
    ("grain", "words"),
    [
        ("any", "Any way"),
        ("along", "long side along the rolling"),
        ("across", "long side across the rolling"),
    ],
)
def test_grain(grain: str, words: str) -> None:
    assert words in flowed(text_of(bay("coil-plate", grain=grain)))


def test_finish() -> None:
    assert "Finish: none is asked for" in flowed(text_of(bay(*THREE)))
    one, *others = (checked(name) for name in THREE)
    text = flowed(text_of(bay_of([told(one, finish="alodine"), *others])))
    assert re.search(r"Finish: .*coil-plate-plate.*: alodine", text)


@pytest.mark.parametrize(
    ("shop", "words"),
    [
        ({"tolerances": "inch"}, ".XXX +/- .005"),
        ({"tolerances": "m"}, "ISO 2768-m"),
        ({"projection": "first"}, "Projection: first angle"),
        ({"edge_break_mm": 0.5}, "Break sharp edges by 0.020 in (0.50 mm)"),
    ],
)
def test_what_the_shop_is_told(shop: dict[str, Any], words: str) -> None:
    assert words in flowed(text_of(bay("coil-plate", **shop)))


def test_a_failing_check_is_seen_first() -> None:
    of = bay(TOO_NARROW, THREE[2])
    lines = text_of(of).splitlines()
    assert lines[3] == "*" * 78
    assert "DO NOT MAKE" in lines[4]
    (job,) = of.failing
    text = re.sub(r"[\s*]+", " ", "\n".join(lines))
    for finding in job.failing:
        assert plain(finding.says) in text
    assert re.search(
        r"(?s)\ncoil-plate-too-narrow-plate +1 .*?DO NOT MAKE: A\s+CHECK\s+FAILS", "\n".join(lines)
    )
    assert not re.search(r"T1 [^\n]*\n[^\n]*DO NOT MAKE", "\n".join(lines)), "the hose's spacer is good"


def test_plain_text_is_ascii_and_within_its_width() -> None:
    told_words = "Ø 4.9 ± 0.1 mm at 90° × 2 — “quoted” 漢字 " * 9
    lines = [*paragraph(told_words, first="- "), *columns([("a", told_words)]), *box([told_words])]
    assert max(map(len, lines)) <= 78
    data = text_bytes(lines)
    assert data.decode("ascii").count("\r\n") == len(lines)
    assert "dia 4.9 +/- 0.1 mm at 90 deg x 2" in flowed(data.decode("ascii"))


def test_the_pilot_size_of_the_hole_table_is_there_and_solids_are_said_to_be_at_final_size() -> None:
    """What the read-me sends the shop to stands in the drawing's table: Ø and drill of the pilot."""
    said = flowed(text_of(bay("coil-plate")))
    assert "Leave those at the pilot size of the hole table" in said
    assert "the solids are at final size" in said
    (part,) = flat_parts(checked("coil-plate").layout)
    words = [
        item.text
        for block in flat_tables(part, "table", 150.0)
        for item in block.items
        if isinstance(item, Text)
    ]
    assert "pilot, drill #40" in words
    assert "0.098" in words


def test_lengths_stand_in_the_unit_of_each_drawing_with_the_other_behind() -> None:
    """An inch plate beside a metric one, an inch bushing beside a metric one: 25.4 mm to the inch."""
    inch, metric = checked("coil-plate"), in_mm(checked("coil-plate"), "metric-plate")
    sizes = {}
    for part in (flat_parts(inch.layout)[0], flat_parts(metric.layout)[0]):
        sizes[part.units] = flat_size(part)
    number = r"([\d.]+)"
    first = re.fullmatch(rf"{number} x {number} in \({number} x {number} mm\)", sizes["in"])
    other = re.fullmatch(rf"{number} x {number} mm \({number} x {number} in\)", sizes["mm"])
    assert first
    assert other
    wide, high = (float(each) for each in first.groups()[:2])
    assert [float(each) for each in first.groups()[2:]] == pytest.approx(
        [wide * 25.4, high * 25.4], abs=0.013
    )
    assert first.groups() == (*other.groups()[2:], *other.groups()[:2])


def test_a_bushing_is_told_in_the_unit_of_its_turning_sheet() -> None:
    """A bay of an inch and a metric recipe has a turning sheet of each; 25.4 mm to the inch."""
    of = bay_of([checked("separator-bushings"), in_mm(checked("oil-hose-stand-off"), "metric-stand-off")])
    sheets = turnings(of)
    groups = tuple(group for sheet in sheets for group in sheet.groups)
    contents = Contents(of, (), sheets, bay_cuts(of, groups), None, ())
    units = {group.number: contents.units_of(group) for group in groups}
    assert set(units.values()) == {"in", "mm"}
    text = flowed(text_of(of))
    for group in groups:
        long = both(group.length_mm, units[group.number])
        assert re.search(rf"{group.number} \d+ Bushing, [^;]*? x {re.escape(long)} long", text)


def test_a_specification_from_memory_is_said_to_be_one() -> None:
    text = flowed(text_of(bay("coil-plate")))
    (part,) = flat_parts(checked("coil-plate").layout)
    assert source(part.specification_source).status == "memory"
    assert (
        f"{part.specification}, with certificate; specification recalled, confirm with the supplier" in text
    )


def in_mm(one: Checked, name: str) -> Checked:
    """The same recipe, told in millimetres under another name."""
    recipe: Any = one.layout.recipe
    layout: Any = replace(one.layout, recipe=replace(recipe, units="mm", name=name))
    return Checked(layout, one.findings)


def test_several_turning_sheets_are_counted_with_the_reason() -> None:
    one, *others = (checked(name) for name in THREE)
    text = flowed(text_of(bay_of([told(one, finish="alodine"), *others])))
    assert "a line each of 2 turning sheets" in text
    assert "whichever recipe they are for" not in text
    assert "whichever recipe they are for" in flowed(text_of(bay(*THREE)))


def test_of_nests_nothing_is_said_where_nothing_is_nested() -> None:
    text = flowed(text_of(bay("coil-plate")))
    assert "the nests leave" not in text
    assert "nested sheets are an offer" not in text


def test_an_edge_break_is_said_once_whatever_the_units() -> None:
    """0.5 mm told in inches by one and in millimetres by the other is one size."""
    of = bay_of(
        [
            told(checked("separator-bushings"), edge_break_mm=0.5),
            told(in_mm(checked("oil-hose-stand-off"), "metric-stand-off"), edge_break_mm=0.5),
        ]
    )
    said = re.search(r"Break sharp edges by (.*?) at most", flowed(text_of(of)))
    assert said
    assert "or" not in said[1].split()


def test_of_many_failing_checks_the_frame_tells_the_first() -> None:
    one = checked(TOO_NARROW)
    (first, *_) = (f for f in one.findings if f.verdict == "fail")
    many = tuple(replace(first, says=f"Too near, {n} of them.") for n in range(30))
    text = re.sub(r"[\s*]+", " ", text_of(bay_of([Checked(one.layout, many)])))
    assert text.count("Too near,") == 20
    assert "And 10 more: findings/findings.txt has them all." in text
    other = Checked(replaced_name(one, "second"), many)
    text = re.sub(r"[\s*]+", " ", text_of(bay_of([Checked(one.layout, many), other])))
    assert text.count("Too near,") == 20, "ten of each"
    assert len(re.findall(r"And \d+ more: findings/findings.txt", text)) == 2


def replaced_name(one: Checked, name: str) -> Any:
    """The same layout under another name."""
    layout: Any = one.layout
    return replace(layout, recipe=replace(layout.recipe, name=name))
