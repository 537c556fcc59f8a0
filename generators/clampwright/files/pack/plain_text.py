"""Plain text that any editor and printer shows: ASCII, short lines, line ends of every system's editors."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from textwrap import wrap

WIDTH = 78
_SPOKEN = {
    "±": "+/-",
    "°": " deg",
    "Ø": "dia ",
    "⌀": "dia ",
    "×": "x",
    "–": "-",
    "—": "-",
    "−": "-",
    "²": "2",
    "³": "3",
    "µ": "u",
    "≤": "<=",
    "≥": ">=",
    "→": "->",
}


def plain(text: str) -> str:
    """The text in ASCII; a letter that has no plain form becomes "?".

    >>> plain("Ø 4.9 ± 0.1, 90°, 漢")
    'dia 4.9 +/- 0.1, 90 deg, ?'
    """
    spoken = "".join(_SPOKEN.get(sign, sign) for sign in text).replace("  ", " ")
    return spoken.encode("ascii", "replace").decode("ascii")


def text_bytes(lines: Iterable[str]) -> bytes:
    """The file."""
    return "".join(f"{plain_line(line)}\r\n" for line in lines).encode("ascii")


def plain_line(line: str) -> str:
    """A line in ASCII with its indent kept, nothing behind its last word.

    >>> plain_line("   ± 1  ")
    '   +/- 1'
    """
    bare = line.lstrip(" ")
    return (" " * (len(line) - len(bare)) + "".join(_kept(bare))).rstrip()


def _kept(text: str) -> Iterator[str]:
    """Columns stay where they are as long as there is nothing to spell out."""
    yield text if text.isascii() else plain(text)


def title(text: str, under: str = "-") -> Iterator[str]:
    """A heading with a line under it."""
    yield from ("", text, under * len(text))


def paragraph(text: str, indent: int = 0, first: str = "") -> Iterator[str]:
    """Wrapped text; `first` stands before its first line, the others hang two letters in behind it.

    >>> list(paragraph("Break all sharp edges.", first="- "))
    ['- Break all sharp edges.']
    """
    lead = " " * indent
    yield from wrap(
        plain(f"{first}{text}"),
        WIDTH,
        initial_indent=lead,
        subsequent_indent=lead + "  " * bool(first),
        break_long_words=False,
        break_on_hyphens=False,
    )


def columns(rows: Sequence[Sequence[str]], gap: int = 2) -> Iterator[str]:
    """A table: columns as wide as their longest cell; the last is wrapped within the page.

    >>> list(columns([("a", "1"), ("bcd", "2")]))
    ['a    1', 'bcd  2']
    """
    cells = [[plain(cell) for cell in row] for row in rows]
    wide = [max(map(len, column)) for column in list(zip(*cells, strict=True))[:-1]]
    for row in cells:
        start = "".join(cell.ljust(size + gap) for cell, size in zip(row, wide, strict=False))
        room = max(WIDTH - len(start), 20)
        lines = wrap(row[-1], room, break_long_words=False, break_on_hyphens=False) or [""]
        yield f"{start}{lines[0]}".rstrip()
        yield from (" " * len(start) + line for line in lines[1:])


def box(lines: Sequence[str]) -> Iterator[str]:
    """Lines in a frame of stars that nobody overlooks."""
    yield "*" * WIDTH
    for line in lines:
        for part in wrap(plain(line), WIDTH - 6) or [""]:
            yield f"*  {part.ljust(WIDTH - 6)}  *"
    yield "*" * WIDTH
