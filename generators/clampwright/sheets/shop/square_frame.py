"""The frame of a geometrical tolerance: squareness within a value to a datum, and the datum's own mark.

Symbols as ISO 1101 and ASME Y14.5 draw them, made of lines, so that no font is needed.
"""

from __future__ import annotations

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Item, Path, Pen, Text, box_path
from clampwright.sheets.ink import BLACK
from clampwright.sheets.lettering import CAPITAL, width
from clampwright.sheets.shop.dimensioning.style import LETTER

HIGH = 2 * LETTER
"""Height of a frame: twice the letters (ISO 7083)."""
_AIR = 1.2
_TRIANGLE, _STEM = 2.5, 2.0


def frame_width(value: str) -> float:
    """Width of the whole frame, mm."""
    return 2 * HIGH + width(value, LETTER) + 2 * _AIR


def square_frame(value: str, datum: str, at: Vec2, pen: Pen) -> tuple[Item, ...]:
    """A frame of three fields (squareness, value, datum), the middle of its right end at a point.

    Examples
    --------
    >>> items = square_frame("0.05", "A", (0.0, 0.0), Pen())
    >>> [item.text for item in items if isinstance(item, Text)]
    ['0.05', 'A']
    """
    right, middle = at
    left = right - frame_width(value)
    low, high = middle - HIGH / 2, middle + HIGH / 2
    first, second = left + HIGH, right - HIGH
    base = middle - LETTER * CAPITAL / 2
    foot, top, half = middle - HIGH * 0.25, middle + HIGH * 0.28, HIGH * 0.28
    upright = left + HIGH / 2
    return (
        box_path((left, low, right, high), pen),
        *(Path(((x, low), (x, high)), pen) for x in (first, second)),
        Path(((upright - half, foot), (upright + half, foot)), pen),
        Path(((upright, foot), (upright, top)), pen),
        Text(((first + second) / 2, base), value, LETTER, "middle"),
        Text((right - HIGH / 2, base), datum, LETTER, "middle"),
    )


def datum_mark(letter: str, at: Vec2, pen: Pen) -> tuple[Item, ...]:
    """A datum's mark that hangs from a line: filled triangle, stem, and the letter in its box."""
    x, y = at
    tip, top = y - _TRIANGLE * 0.87, y - _TRIANGLE - _STEM
    half = HIGH / 2
    return (
        Path(((x - _TRIANGLE / 2, y), (x + _TRIANGLE / 2, y), (x, tip)), None, closed=True, fill=BLACK),
        Path(((x, tip), (x, top)), pen),
        box_path((x - half, top - HIGH, x + half, top), pen),
        Text((x, top - half - LETTER * CAPITAL / 2), letter, LETTER, "middle"),
    )
