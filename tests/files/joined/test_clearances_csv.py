"""Clearances as CSV, read back by Python's own csv module."""

from __future__ import annotations

import csv
import io

from solids.joined.hand_component import hand_component

from clampwright.files.clearances_csv import COLUMNS, clearances_csv
from clampwright.layout.clearance_found import KEEP_OUT, OWN_STACK, STRUCTURE, Clearance

FOUND = (
    Clearance("clamp B1", "component separator", OWN_STACK, 0.0, 123.456, None),
    Clearance("=SUM(A1)", "tube low", STRUCTURE, 3.60680001, 0.0, 3.6068),
    Clearance("line hose", "keep-out exhaust", KEEP_OUT, 60.0, 0.0, 59.9, 50.0),
)


def rows() -> list[dict[str, str]]:
    """The lines by column."""
    file = clearances_csv(hand_component(), FOUND)
    assert file.name == "by-hand-clearances.csv"
    assert dict(file.facts) == {"pairs": 3}
    return list(csv.DictReader(io.StringIO(file.data.decode("utf-8"), newline="")))


def test_every_pair_has_its_numbers_to_a_micrometre() -> None:
    first, second, third = rows()
    assert list(first) == list(COLUMNS)
    assert (first["common_volume_mm3"], first["clearance_of_simple_bodies_mm"]) == ("123.5", "")
    assert (second["clearance_of_solids_mm"], second["clearance_of_simple_bodies_mm"]) == ("3.607", "3.607")
    assert (third["asked_mm"], third["kind"]) == ("50.000", KEEP_OUT)


def test_no_cell_is_a_formula() -> None:
    assert rows()[1]["one"] == "'=SUM(A1)"


def test_it_says_what_is_not_listed() -> None:
    about = clearances_csv(hand_component(), ()).about
    assert "6 mm" in about
