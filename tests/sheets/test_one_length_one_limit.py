"""One length, one limit: cut sheet, cut list and turning sheet take it from one place."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest
from sheets.cut_layouts import Cutting, cutting
from sheets.page_geometry import words
from sheets.sheet_plates import FINE

from clampwright.files.cut_list import cut_list_csv
from clampwright.layout.known_to import KnownTo
from clampwright.layout.shop.turned import turned
from clampwright.sheets.cut_sheet import cut_sheet

KNOWN = (KnownTo("A1", 1.0, 0.0, 0.05, True), KnownTo("A2", 1.0, 0.0, 2.12, True))


def held(made: Cutting, grade: str) -> Cutting:
    return replace(made, recipe=replace(made.recipe, shop=replace(made.recipe.shop, tolerances=grade)))


def rows(made: Cutting) -> dict[str, dict[str, str]]:
    """Bushings of the cut list by mark."""
    data = cut_list_csv(made, made.cuts).data.decode("utf-8")  # type: ignore[arg-type]
    found = csv.DictReader(io.StringIO(data, newline=""))
    return {row["mark"]: row for row in found if row["line"] == "bushing"}


def said(made: Cutting) -> str:
    """The cut sheet in one line."""
    pages = cut_sheet(made, made.cuts, FINE, "a4").pages  # type: ignore[arg-type]
    return " ".join(words(pages).split())


@pytest.mark.parametrize(("grade", "off"), [("f", 0.05), ("m", 0.1), ("c", 0.1), ("v", 0.1), ("inch", 0.1)])
def test_a_short_stand_off_has_one_limit_everywhere(grade: str, off: float) -> None:
    """5.1 mm: ISO 2768-1 f is ± 0.05 up to 6 mm; every other class is wider than the 0.1 of the stack."""
    made = held(cutting([5.1]), grade)
    (group,) = turned([made])  # type: ignore[list-item]
    row = rows(made)["S1"]
    assert (group.length.under_mm, group.length.over_mm) == (off, off)
    assert (row["under_mm"], row["over_mm"]) == (f"{off:.3f}", f"{off:.3f}")
    assert (row["made_under_mm"], row["made_over_mm"]) == (f"{off:.3f}", f"{off:.3f}")
    assert f"± {off:.2f} mm" in said(made)


def test_what_is_first_made_and_what_it_is_trimmed_to_are_told_apart() -> None:
    """12.7 ± 2.12 and 0.5 to spare is 15.4: that is the turning sheet's, 12.7 what it is finished to."""
    made = replace(cutting([12.7, 12.7]), known_to=KNOWN)
    long = next(group for group in turned([made]) if group.trim)  # type: ignore[list-item]
    row, whole = rows(made)["S1L"], rows(made)["S1"]
    assert (
        (row["length_mm"], row["made_length_mm"])
        == ("12.700", f"{long.length_mm:.3f}")
        == ("12.700", "15.400")
    )
    assert (row["made_under_mm"], row["made_over_mm"]) == (
        f"{long.length.under_mm:.3f}",
        f"{long.length.over_mm:.3f}",
    )
    assert whole["made_length_mm"] == whole["length_mm"] == "12.700"
    text = said(made)
    assert "First made 15.4" in text
    assert text.count(" in) finished ") == 1, "under the figure of the one that is left long"
    assert "where the gap is as laid out" in text


def test_masses_are_of_the_length_that_they_name() -> None:
    made = replace(cutting([12.7, 12.7]), known_to=KNOWN)
    row = rows(made)["S1L"]
    long = next(group for group in turned([made]) if group.trim)  # type: ignore[list-item]
    assert float(row["made_mass_each_g"]) == pytest.approx(long.mass_each_kg * 1e3, abs=0.005)
    assert float(row["mass_each_g"]) == pytest.approx(long.mass_each_kg * 1e3 * 12.7 / 15.4, abs=0.005)


def test_the_note_of_outsides_goes_by_the_recipes_shop() -> None:
    """11.1 mm outside: ISO 2768-1 c is ± 0.5 from 6 to 30 mm."""
    assert "turned to ISO 2768-1 c (± 0.50 mm here)" in said(held(cutting([12.7]), "c"))
