"""Pages of the template: Letter 215.9 x 279.4 (ANSI Y14.1), A4 210 x 297 (ISO 216); four is assumed.

The room that bars and title block take is held against the sheet itself.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import LAYOUT, rectangle
from checks.findings_of import of

from clampwright.checks.finding import Finding
from clampwright.checks.template import page_count, pages_needed
from clampwright.sheets.template import TITLE, template

FAILING = Finding(
    "EDGE-1", "edge distance", "A1", "fail", 1.2, 1.5, "e/D", "Too near.", "Move it.", ("assumed",)
)


@pytest.mark.parametrize(
    ("long", "short", "paper", "pages"),
    [
        (
            224.0,
            183.399,
            "letter",
            1,
        ),  # 279.4 - 16 - 11.5 - 22.9 = 229.0 by 215.9 - 16 - 11.5 = 188.4, less 5
        (224.1, 183.3, "letter", 2),
        (224.0, 183.5, "letter", 2),
        (241.6, 177.5, "a4", 1),  # 297 - 50.4 = 246.6 by 210 - 27.5 = 182.5, less 5
        (241.6, 177.6, "a4", 2),
        (428.0, 170.4, "letter", 2),  # 2 x 229 - 12 - 18 of room round it
        (428.1, 170.4, "letter", 3),
        (600.0, 500.0, "a4", 9),  # 618 by 518 less 12: 2.6 of 246.6 - 12 by 3.0 of 182.5 - 12
    ],
)
def test_pages_by_hand(long, short, paper, pages):
    """8 mm of border all round, 12 mm shared: n pages hold n(W - 12) + 12."""
    assert pages_needed(long, short, paper) == pages


SIZES = [
    (120.0, 80.0),
    (215.0, 180.0),
    (224.5, 160.0),
    (241.0, 170.0),
    (260.0, 190.0),
    (330.0, 215.0),
    (450.0, 300.0),
]


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize(("long", "short"), SIZES)
@pytest.mark.parametrize("findings", [(), (FAILING,)], ids=["clean", "failing"])
def test_as_many_pages_as_the_sheet_draws_the_part_on(long, short, paper, findings):
    """The count against the pages of the real sheet that are at 1:1."""
    sheet = template(replace(LAYOUT, outline=rectangle(long, short)), findings, paper)
    drawn = [page for page in sheet.pages if page.title.startswith(TITLE)]
    assert pages_needed(long, short, paper, failing=bool(findings)) == len(drawn)


def test_a_page_for_each_paper_the_recipe_names():
    small = replace(LAYOUT, outline=rectangle(200.0, 160.0))
    assert [f.where for f in page_count(small)] == ["template on Letter", "template on A4"]
    assert {f.verdict for f in page_count(small)} == {"pass"}


def test_the_warning_of_a_failing_check_may_take_another_page():
    """224 + 5 = 229.0 fits above the bars, but not with 11.2 mm of warning."""
    found = of(page_count(replace(LAYOUT, outline=rectangle(224.0, 180.0))), "template on Letter")
    assert found.value == 1.0
    assert "take 1 page of Letter (2 while a check fails, for the warning takes room)" in found.says


def test_a_large_plate_is_a_caution():
    found = of(page_count(replace(LAYOUT, outline=rectangle(600.0, 500.0))), "template on A4")
    assert (found.verdict, found.value, found.limit) == ("caution", 9.0, 4.0)
    assert "4" in found.change


def test_more_plate_never_takes_fewer_pages():
    counts = [pages_needed(100.0 + 25.0 * i, 80.0 + 20.0 * i, "letter") for i in range(40)]
    assert counts == sorted(counts)
