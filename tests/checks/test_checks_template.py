"""Pages of the template: Letter 215.9 x 279.4 (ANSI Y14.1), A4 210 x 297 (ISO 216); four is assumed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import LAYOUT, rectangle
from checks.findings_of import of

from clampwright.checks.template import page_count, pages_needed


@pytest.mark.parametrize(
    ("long", "short", "paper", "pages"),
    [
        (224.0, 184.376, "letter", 1),
        (263.4, 199.9, "letter", 1),  # 279.4 - 16 by 215.9 - 16, exactly
        (263.5, 199.9, "letter", 2),
        (281.0, 194.0, "a4", 1),  # 297 - 16 by 210 - 16
        (281.0, 194.1, "a4", 2),
        (514.8, 199.9, "letter", 2),  # 2 x 263.4 - 12
        (514.9, 199.9, "letter", 3),
        (600.0, 500.0, "a4", 8),  # upright 269 + 269 + 269 by 182 x 3: 3 x 3; sideways 4 x 2
    ],
)
def test_pages_by_hand(long, short, paper, pages):
    """8 mm of border all round, 12 mm shared: n pages hold n(W - 12) + 12."""
    assert pages_needed(long, short, paper) == pages


def test_a_page_for_each_paper_the_recipe_names():
    assert [f.where for f in page_count(LAYOUT)] == ["template on Letter", "template on A4"]
    assert {f.verdict for f in page_count(LAYOUT)} == {"pass"}


def test_a_large_plate_is_a_caution():
    found = of(page_count(replace(LAYOUT, outline=rectangle(600.0, 500.0))), "template on A4")
    assert (found.verdict, found.value, found.limit) == ("caution", 8.0, 4.0)
    assert "4" in found.change


def test_more_plate_never_takes_fewer_pages():
    counts = [pages_needed(100.0 + 25.0 * i, 80.0 + 20.0 * i, "letter") for i in range(40)]
    assert counts == sorted(counts)
