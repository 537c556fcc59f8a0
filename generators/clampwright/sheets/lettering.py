"""Texts that fit: how wide a line is, and how to break or clean one."""

from __future__ import annotations

import math
import unicodedata
from functools import cache

from clampwright.quantities import Vec2
from clampwright.sheets import letter_widths
from clampwright.sheets.drawing import Text

_SPOKEN = {
    "⌀": "Ø",
    "−": "-",
    "‐": "-",
    "‑": "-",
    "→": "->",
    "←": "<-",
    "≤": "<=",
    "≥": ">=",
    "≈": "about ",
    "″": '"',
    "′": "'",
    "μ": "µ",
    "Ω": "ohm",
    "\u2009": " ",
    "\u202f": " ",
}


def printable(text: str) -> str:
    """The text in the letters that the sheets' standard fonts have (WinAnsi).

    A letter with an accent the fonts lack loses the accent; any other letter becomes "?"; line breaks and
    control characters become spaces.

    Examples
    --------
    >>> printable("⌀ 4.9 → ±0.1 °C, ő and 漢")
    'Ø 4.9 -> ±0.1 °C, o and ?'
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(_letter(sign) for sign in text)


@cache
def _letter(sign: str) -> str:
    if sign in _SPOKEN:
        return _SPOKEN[sign]
    if not sign.isprintable() and sign != "\xa0":
        return " "
    if _code(sign) is not None:
        return sign
    bare = unicodedata.normalize("NFKD", sign)
    kept = "".join(part for part in bare if not unicodedata.combining(part))
    return kept if kept != sign and kept and all(_code(part) is not None for part in kept) else "?"


def _code(sign: str) -> int | None:
    try:
        return sign.encode("cp1252")[0]
    except UnicodeEncodeError:
        return None


@cache
def width(text: str, size_mm: float, bold: bool = False) -> float:
    """Width of a printable text, mm.

    Examples
    --------
    >>> round(width("1:1", 10.0), 2)
    13.9
    """
    widths = letter_widths.BOLD if bold else letter_widths.PLAIN
    codes = printable(text).encode("cp1252")
    return sum(widths[code - letter_widths.FIRST] for code in codes) * size_mm / 1000


def wrap(text: str, room: float, size_mm: float, bold: bool = False) -> tuple[str, ...]:
    """The text in lines no wider than `room` mm; a word that is too long is broken.

    Examples
    --------
    >>> wrap("punch every centre lightly", 20.0, 3.0)
    ('punch every', 'centre lightly')
    """
    lines: list[str] = []
    line = ""
    for word in printable(text).split():
        longer = f"{line} {word}" if line else word
        if width(longer, size_mm, bold) <= room:
            line = longer
            continue
        lines += [line] if line else []
        *whole, line = _broken(word, room, size_mm, bold)
        lines += whole
    return (*lines, line) if line or not lines else tuple(lines)


def _broken(word: str, room: float, size_mm: float, bold: bool) -> list[str]:
    """A word in pieces that fit; after a hyphen or a slash where that is near enough."""
    pieces = []
    while width(word, size_mm, bold) > room and len(word) > 1:
        cut = max(n for n in range(1, len(word)) if n == 1 or width(word[:n], size_mm, bold) <= room)
        soft = max(word.rfind("-", 0, cut), word.rfind("/", 0, cut)) + 1
        cut = soft if soft > cut // 2 else cut
        pieces.append(word[:cut])
        word = word[cut:]
    return [*pieces, word]


def shortened(text: str, room: float, size_mm: float, bold: bool = False) -> str:
    """The text, cut with "..." where it is wider than `room` mm.

    Examples
    --------
    >>> shortened("coil pack of the upper magneto", 20.0, 3.0)
    'coil pack of ...'
    """
    text = printable(text)
    if width(text, size_mm, bold) <= room:
        return text
    while text and width(text + "...", size_mm, bold) > room:
        text = text[:-1]
    return text + "..."


def corners(text: Text) -> tuple[Vec2, Vec2, Vec2, Vec2]:
    """Corners of the box that a text fills, from the descenders' lower left, counter-clockwise."""
    wide = width(text.text, text.size_mm, text.bold)
    left = {"left": 0.0, "middle": -wide / 2, "right": -wide}[text.anchor]
    low = -letter_widths.DESCENT * text.size_mm / 1000
    high = letter_widths.ASCENT * text.size_mm / 1000
    c, s = math.cos(math.radians(text.angle_deg)), math.sin(math.radians(text.angle_deg))
    x0, y0 = text.at

    def place(x: float, y: float) -> Vec2:
        return (x0 + c * x - s * y, y0 + s * x + c * y)

    right = left + wide
    return place(left, low), place(right, low), place(right, high), place(left, high)
