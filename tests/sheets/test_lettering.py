"""Text widths against reportlab's metrics of the same fonts; breaking and cleaning by their own rules."""

from __future__ import annotations

import time
import tracemalloc

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reportlab.pdfbase.pdfmetrics import stringWidth

from clampwright.sheets.drawing import Text
from clampwright.sheets.lettering import corners, first_lines, printable, shortened, width, wrap

ANY_TEXT = st.text(max_size=60)
ROOM = st.floats(4.0, 120.0)


@pytest.mark.parametrize(("bold", "font"), [(False, "Helvetica"), (True, "Helvetica-Bold")])
def test_widths_are_those_of_reportlab(bold: bool, font: str) -> None:
    for code in [*range(32, 127), *range(161, 256)]:
        sign = bytes([code]).decode("cp1252")
        if sign != "\xad":
            assert width(sign, 1000.0, bold) == pytest.approx(stringWidth(sign, font, 1000.0)), sign


@given(ANY_TEXT)
def test_every_text_becomes_printable(text: str) -> None:
    clean = printable(text)
    clean.encode("cp1252")
    assert printable(clean) == clean
    assert "\n" not in clean
    assert "\t" not in clean


def test_what_the_trade_writes_stays_readable() -> None:
    assert printable("⌀ 4.9 ±0.1 °F, ½ × µm") == "Ø 4.9 ±0.1 °F, ½ × µm"
    assert printable("−3 ≤ x → y″") == '-3 <= x -> y"'


@given(ANY_TEXT, ROOM, st.booleans())
@settings(deadline=None)
def test_wrapped_lines_fit_and_keep_every_letter(text: str, room: float, bold: bool) -> None:
    lines = wrap(text, room, 3.0, bold)
    assert all(width(line, 3.0, bold) <= room + 1e-9 or len(line) == 1 for line in lines)
    assert "".join("".join(lines).split()) == "".join(printable(text).split())


@given(ANY_TEXT, st.floats(6.0, 120.0))
@settings(deadline=None)
def test_shortened_text_fits(text: str, room: float) -> None:
    assert width(shortened(text, room, 3.0), 3.0) <= room + 1e-9


def test_a_turned_text_stands_where_its_anchor_says() -> None:
    a, b, c, _ = corners(Text((10.0, 20.0), "abc", 2.0, "middle", 90.0))
    wide = stringWidth("abc", "Helvetica", 2.0)
    assert a == pytest.approx((10.0 + 0.207 * 2.0, 20.0 - wide / 2))
    assert b == pytest.approx((10.0 + 0.207 * 2.0, 20.0 + wide / 2))
    assert c == pytest.approx((10.0 - 0.718 * 2.0, 20.0 + wide / 2))


@given(st.text("abil WM-/.", max_size=90), st.floats(0.0, 60.0), st.booleans())
@settings(deadline=None)
def test_a_text_is_cut_where_dropping_letter_by_letter_would(text: str, room: float, bold: bool) -> None:
    """Against the plain way: letters go from the end until the rest and the dots fit."""
    plain = text
    if width(text, 3.0, bold) > room:
        while plain and width(f"{plain}...", 3.0, bold) > room:
            plain = plain[:-1]
        plain += "..."
    assert shortened(text, room, 3.0, bold) == plain


def test_a_very_long_text_costs_no_more_than_its_letters() -> None:
    """A million letters with 30 bytes kept for each would be seen; dropped one by one they took hours."""
    text = "BAY-2 at coil: loop of A1, " * 40_000
    shortened("warm", 9.0, 3.0)
    tracemalloc.start()
    began = time.process_time()
    assert shortened(text, 100.0, 3.2, True).endswith("...")
    assert len(first_lines([text], 3, 100.0, 3.2)) == 3
    assert wrap("x" * 20_000, 50.0, 3.0)
    assert time.process_time() - began < 5.0
    kept, _ = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert kept < 4_000_000
