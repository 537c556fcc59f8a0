"""The read-me in words: what changes with what is packed, and that a failing check is seen first."""

from __future__ import annotations

import re
from typing import Any

import pytest
from files.pack.packed_bays import THREE, TOO_NARROW, bay, checked, told

from clampwright.files.pack.bay import Bay
from clampwright.files.pack.bay_cuts import bay_cuts
from clampwright.files.pack.contents import Contents
from clampwright.files.pack.plain_text import box, columns, paragraph, plain, text_bytes
from clampwright.files.pack.read_me import read_me
from clampwright.files.pack.turned_parts import turnings
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.pack import bay_of


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
