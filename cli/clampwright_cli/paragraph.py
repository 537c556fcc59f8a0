"""Text wrapped to the terminal."""

from __future__ import annotations

import shutil
import sys
import textwrap

WIDEST, NARROWEST = 100, 60


def width() -> int:
    """Columns of the terminal, within reason; the widest in a pipe."""
    if not sys.stdout.isatty():
        return WIDEST
    return max(NARROWEST, min(WIDEST, shutil.get_terminal_size().columns))


def paragraph(first: str, text: str, indent: int = 4) -> str:
    """`first` and then `text`, wrapped, later lines indented."""
    body = textwrap.fill(text, width() - indent, break_long_words=False, break_on_hyphens=False)
    return first + body.replace("\n", "\n" + " " * indent)
