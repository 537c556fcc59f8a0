"""The order list as a spreadsheet reads it; torque against the published table."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest
from solids.hand_layout import hand_layout

from clampwright.files.hardware_csv import COLUMNS, hardware_csv
from clampwright.layout.placed import HardwareLine
from clampwright.quantities import inch_pounds
from clampwright.trade.hardware import nut, torque

LAYOUT = hand_layout()


def rows(lines: tuple[HardwareLine, ...]) -> list[dict[str, str]]:
    """The list as a spreadsheet reads it."""
    data = hardware_csv(replace(LAYOUT, hardware=lines)).data
    return list(csv.DictReader(io.StringIO(data.decode("utf-8"), newline="")))


def test_torque_of_an3_is_what_ac_43_13_1b_table_7_1_prints_in_inch_pounds() -> None:
    """AC 43.13-1B table 7-1: 10-32 in tension 20 to 25 in-lb."""
    window = torque("AN3", nut("MS21044", "AN3"))
    assert window is not None
    line = HardwareLine("MS21044N3", "nut", 4, (window.low_nm, window.high_nm), 0.003, "A1", window.source)
    (row,) = rows((line,))
    assert (row["torque_low_in_lb"], row["torque_high_in_lb"]) == ("20", "25")
    assert (row["torque_low_n_m"], row["torque_high_n_m"]) == ("2.26", "2.82")
    assert "running torque" in row["torque_note"]


def test_an_inch_pound_is_0_112985_newton_metres() -> None:
    """NIST SP 811 (2008) appendix B.9: pound-force inch, 1.129848 E-01 N m (from memory)."""
    assert inch_pounds(1.129848e-01) == pytest.approx(1, rel=1e-6)


def test_quantities_weights_and_sources() -> None:
    read = rows(LAYOUT.hardware)
    assert tuple(read[0]) == COLUMNS
    assert [(row["part"], row["quantity"]) for row in read] == [
        ("AN3-4A", "2"), ("MS21919WCH12", "4"), ("shim, stainless", "1"),
    ]  # fmt: skip
    assert (read[1]["mass_each_g"], read[1]["mass_total_g"]) == ("14.0", "56.0")
    assert read[2]["mass_each_g"] == read[2]["torque_low_n_m"] == read[2]["torque_note"] == ""
    assert all(row["source_status"] == "assumed" for row in read)


def test_commas_quotes_and_line_feeds_survive() -> None:
    line = HardwareLine('a "b", c', "two\nlines", 1, None, None, "Öl, A1", "assumed")
    (row,) = rows((line,))
    assert (row["part"], row["what"], row["where_used"]) == ('a "b", c', "two\nlines", "Öl, A1")


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)"])
def test_no_cell_becomes_a_formula(text: str) -> None:
    (row,) = rows((HardwareLine("p", text, 1, None, None, text, "assumed"),))
    assert row["what"] == row["where_used"] == f"'{text}"
