"""Tables as CSV (RFC 4180, UTF-8) that no spreadsheet takes for formulas."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from clampwright.files.hardware_csv import as_text


def csv_bytes(columns: Sequence[str], rows: Iterable[dict[str, str]]) -> bytes:
    """The file; a cell that a row leaves out is empty.

    >>> csv_bytes(("part", "note"), [{"part": "=A1", "note": "-1.5"}])
    b"part,note\\r\\n'=A1,-1.5\\r\\n"
    """
    text = io.StringIO(newline="")
    lines = csv.DictWriter(text, columns, restval="")
    lines.writeheader()
    lines.writerows({key: _cell(value) for key, value in row.items()} for row in rows)
    return text.getvalue().encode("utf-8")


def _cell(text: str) -> str:
    """No formula; a number below zero is none."""
    try:
        float(text)
    except ValueError:
        return as_text(text)
    return text


def mm(value: float) -> str:
    """To a thousandth, nothing without a sign.

    >>> mm(12.70004), mm(-1e-9)
    ('12.700', '0.000')
    """
    text = f"{value:.3f}"
    return text.lstrip("-") if float(text) == 0 else text


def stands(failing: bool) -> str:
    """The cell that says whether a row may be worked from."""
    return "DO NOT MAKE: a check fails" if failing else "no check fails"
