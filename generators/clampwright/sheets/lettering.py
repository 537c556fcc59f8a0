"""Texts that fit: how wide a line is, and how to break or clean one."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterable, Iterator
from functools import cache, lru_cache
from itertools import islice

from clampwright.quantities import Vec2
from clampwright.sheets import letter_widths
from clampwright.sheets.drawing import Text

_BOUND = "\xa0"
_KEPT, _LONG = 8192, 200
"""How many widths are kept, of texts up to how many letters."""
_DOTS = "..."
_BREAKS = re.compile(" +")

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


CAPITAL = letter_widths.ASCENT / 1000
"""Height of a capital, of the letter size."""
DESCENDER = letter_widths.DESCENT / 1000
"""How far a descender reaches below the line, of the letter size."""


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


def width(text: str, size_mm: float, bold: bool = False) -> float:
    """Width of a printable text, mm.

    Examples
    --------
    >>> round(width("1:1", 10.0), 2)
    13.9
    """
    return (_kept_units if len(text) <= _LONG else _units)(text, bold) * size_mm / 1000


def _units(text: str, bold: bool) -> int:
    """Width in thousandths of the letter size."""
    widths = letter_widths.BOLD if bold else letter_widths.PLAIN
    return sum(widths[code - letter_widths.FIRST] for code in printable(text).encode("cp1252"))


_kept_units = lru_cache(_KEPT)(_units)


def _fit(text: str, room: float, size_mm: float, bold: bool, behind: str = "") -> int:
    """How many letters of a printable text fit, with what stands behind them."""
    units = _units(behind, bold)
    for count, sign in enumerate(text):
        units += _kept_units(sign, bold)
        if units * size_mm / 1000 > room:
            return count
    return len(text)


def bound(text: str) -> str:
    """The text with spaces at which `wrap` breaks no line: a size and its limits.

    Examples
    --------
    >>> wrap(f"bore {bound('4.85 +0.05 0')}", 22.0, 3.0)
    ('bore', '4.85 +0.05 0')
    """
    return text.replace(" ", _BOUND)


def wrap(text: str, room: float, size_mm: float, bold: bool = False) -> tuple[str, ...]:
    """The text in lines no wider than `room` mm; a word that is too long is broken.

    Examples
    --------
    >>> wrap("punch every centre lightly", 20.0, 3.0)
    ('punch every', 'centre lightly')
    """
    return tuple(_lines(text, room, size_mm, bold))


def first_lines(
    texts: Iterable[str], most: int, room: float, size_mm: float, bold: bool = False
) -> tuple[str, ...]:
    """The first lines of some texts, each wrapped; an empty text has none.

    Examples
    --------
    >>> first_lines(["punch every centre", "", "drill"], 2, 20.0, 3.0)
    ('punch every', 'centre')
    """
    lines = (line for text in texts if text for line in _lines(text, room, size_mm, bold))
    return tuple(islice(lines, most))


def _lines(text: str, room: float, size_mm: float, bold: bool) -> Iterator[str]:
    """One after the other, so that nobody waits for those that find no room."""
    line, told = "", False
    for word in _BREAKS.split(printable(text).strip(" ")):
        longer = f"{line} {word}" if line else word
        if width(longer, size_mm, bold) <= room:
            line = longer
            continue
        *whole, last = _broken(word, room, size_mm, bold)
        for each in (*([line] if line else []), *whole):
            yield each.replace(_BOUND, " ")
            told = True
        line = last
    if line or not told:
        yield line.replace(_BOUND, " ")


def _broken(word: str, room: float, size_mm: float, bold: bool) -> list[str]:
    """A word in pieces that fit; after a hyphen or a slash where that is near enough."""
    pieces = []
    while len(word) > 1 and (fit := _fit(word, room, size_mm, bold)) < len(word):
        cut = max(1, fit)
        soft = max(word.rfind("-", 0, cut), word.rfind("/", 0, cut)) + 1
        cut = word.rfind(_BOUND, 0, cut) + 1 or (soft if soft > cut // 2 else cut)
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
    if _fit(text, room, size_mm, bold) == len(text):
        return text
    return text[: _fit(text, room, size_mm, bold, _DOTS)] + _DOTS


def corners(text: Text) -> tuple[Vec2, Vec2, Vec2, Vec2]:
    """Corners of the box that a text fills, from the descenders' lower left, counter-clockwise."""
    wide = width(text.text, text.size_mm, text.bold)
    left = {"left": 0.0, "middle": -wide / 2, "right": -wide}[text.anchor]
    low, high = -DESCENDER * text.size_mm, CAPITAL * text.size_mm
    c, s = math.cos(math.radians(text.angle_deg)), math.sin(math.radians(text.angle_deg))
    x0, y0 = text.at

    def place(x: float, y: float) -> Vec2:
        return (x0 + c * x - s * y, y0 + s * x + c * y)

    right = left + wide
    return place(left, low), place(right, low), place(right, high), place(left, high)
