"""Lengths: extension lines, a dimension line with arrow heads, the text on it, in it, or beyond its end."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

from clampwright.quantities import Vec2
from clampwright.sheets import letter_widths
from clampwright.sheets.drawing import Dimension, Path, Text
from clampwright.sheets.lettering import width
from clampwright.sheets.shop.dimensioning.strokes import Strokes, arrow, line
from clampwright.sheets.shop.dimensioning.style import ARROW, CLOSE, GAP, LETTER, OVER, TAIL, Style
from clampwright.sheets.shop.dimensioning.wording import Wording

LEADING = 1.15
_ASCENT, _DESCENT = letter_widths.ASCENT / 1000, letter_widths.DESCENT / 1000
_BESIDE = 1.0
"""Room along the line between an arrow head and a text."""


Kind = Literal["horizontal", "vertical", "aligned"]


@dataclass(frozen=True, slots=True)
class Length:
    """A length to be dimensioned: its two ends on the page, true size, words, scale of the view."""

    kind: Kind
    ends: tuple[Vec2, Vec2]
    value: float
    words: Wording
    scale: float
    clear: tuple[float, float] = (0.0, 0.0)
    """What the extension line at each end leaves out at its start: a hole and its centre line."""

    def along(self) -> Vec2:
        """Unit vector of the dimension line, the way that its text is read."""
        if self.kind != "aligned":
            return (1.0, 0.0) if self.kind == "horizontal" else (0.0, 1.0)
        (x0, y0), (x1, y1) = self.ends
        long = math.hypot(x1 - x0, y1 - y0)
        sign = -1.0 if (x1 - x0, y1 - y0) < (0.0, 0.0) else 1.0
        return sign * (x1 - x0) / long, sign * (y1 - y0) / long

    def span(self) -> tuple[float, float]:
        """Where the dimension line starts and ends along itself."""
        ux, uy = self.along()
        first, second = (x * ux + y * uy for x, y in self.ends)
        return min(first, second), max(first, second)

    def depths(self) -> tuple[float, float]:
        """How far the ends lie the way that is up for the text."""
        ux, uy = self.along()
        first, second = (y * ux - x * uy for x, y in self.ends)
        return first, second

    def lines(self, style: Style) -> tuple[str, ...]:
        """Its words as they stand: one under the other where they break an upright line."""
        return self.words.lines if style.upright and self.kind == "vertical" else self.words.in_one()

    def drawn(self, strokes: Strokes) -> Dimension:
        """The dimension that some strokes make of it."""
        return Dimension(self.kind, self.ends, self.value, self.words.text, self.scale, strokes.items())

    def half(self, style: Style) -> float:
        """Half of what the text takes along the dimension line."""
        wide, high = text_size(self.lines(style))
        if not style.upright:
            return wide / 2
        ux, uy = self.along()
        return (wide * abs(ux) + high * abs(uy)) / 2


def text_size(lines: tuple[str, ...]) -> tuple[float, float]:
    """Width and height of lines of a dimension."""
    wide = max(width(each, LETTER) for each in lines)
    return wide, LETTER * (_ASCENT + _DESCENT + LEADING * (len(lines) - 1))


def spots(length: Length, style: Style) -> Iterator[float]:
    """Places for the text's middle along the line, best first: in the middle, shifted, beyond either end."""
    low, high = length.span()
    half, need = length.half(style), ARROW + _BESIDE
    spare = (high - low) / 2 - half - need
    if spare >= 0:
        middle = (low + high) / 2
        yield from (middle + share * spare for share in (0.0, 0.5, -0.5, 1.0, -1.0))
    beyond = (0.0 if _heads_inside(length) else ARROW) + _BESIDE + 0.5 + half
    yield from (low - beyond, high + beyond)


def linear(length: Length, at: float, spot: float, style: Style) -> Dimension:
    """A length as a dimension, placed by hand: as `linear_strokes` draws it.

    Examples
    --------
    >>> from clampwright.sheets.drawing import Pen
    >>> length = Length("horizontal", ((0.0, 0.0), (40.0, 0.0)), 20.0, Wording(("20",)), 2.0)
    >>> linear(length, -10.0, 20.0, Style("mm", False, Pen())).text
    '20'
    """
    return length.drawn(linear_strokes(length, at, spot, style))


def linear_strokes(length: Length, at: float, spot: float, style: Style) -> Strokes:
    """A length's strokes: its line at `at`, the way that is up for its text; the text's middle at `spot`.

    Examples
    --------
    >>> from clampwright.sheets.drawing import Pen
    >>> length = Length("horizontal", ((0.0, 0.0), (40.0, 0.0)), 20.0, Wording(("20",)), 2.0)
    >>> drawn = linear_strokes(length, -10.0, 20.0, Style("mm", False, Pen()))
    >>> [text.at[0] for text in drawn.texts], len(drawn.heads), length.drawn(drawn).text
    ([20.0], 2, '20')
    """
    ux, uy = length.along()

    def place(t: float, d: float) -> Vec2:
        return t * ux - d * uy, t * uy + d * ux

    low, high = length.span()
    inside = _heads_inside(length) or low < spot < high
    sign = 1.0 if inside else -1.0
    heads = (
        arrow(place(low, at), (-sign * ux, -sign * uy)),
        arrow(place(high, at), (sign * ux, sign * uy)),
    )
    pieces = tuple(
        line(place(a, at), place(b, at), style.pen) for a, b in _pieces(length, spot, inside, style)
    )
    angle = 0.0 if style.upright else math.degrees(math.atan2(uy, ux))
    lines = length.lines(style)
    if style.upright:
        texts = stacked(lines, place(spot, at))
    else:
        texts = (Text(place(spot, at + CLOSE + _DESCENT * LETTER), lines[0], LETTER, "middle", angle),)
    return Strokes(tuple(_extensions(length, at, place, style)), pieces, heads, texts)


def stacked(lines: tuple[str, ...], middle: Vec2) -> tuple[Text, ...]:
    """Upright lines whose block has its middle at a point."""
    high = LETTER * (_ASCENT + _DESCENT + LEADING * (len(lines) - 1))
    first = middle[1] + high / 2 - _ASCENT * LETTER
    return tuple(
        Text((middle[0], first - n * LEADING * LETTER), each, LETTER, "middle")
        for n, each in enumerate(lines)
    )


def _heads_inside(length: Length) -> bool:
    low, high = length.span()
    return high - low >= 2 * ARROW + 1.0


def _pieces(length: Length, spot: float, inside: bool, style: Style) -> Iterator[tuple[float, float]]:
    """Pieces of the dimension line: broken by a text in it, drawn on under a text beyond it."""
    low, high = length.span()
    half, more = length.half(style), 0.0 if inside else ARROW + TAIL
    start, end = low - more, high + more
    if low < spot < high:
        if style.upright:
            yield from ((start, spot - half - CLOSE), (spot + half + CLOSE, end))
        else:
            yield start, end
        return
    reach = half + CLOSE if style.upright else -half
    if spot < low:
        start = spot + reach if style.upright else min(start, spot - half)
    else:
        end = spot - reach if style.upright else max(end, spot + half)
    if inside:
        yield start, end
    else:
        yield from ((start, low), (high, end))


def _extensions(
    length: Length, at: float, place: Callable[[float, float], Vec2], style: Style
) -> Iterator[Path]:
    ux, uy = length.along()
    for (x, y), depth, clear in zip(length.ends, length.depths(), length.clear, strict=True):
        way, leave = math.copysign(1.0, at - depth), GAP + clear
        if abs(at - depth) > leave:
            t = x * ux + y * uy
            yield line(place(t, depth + way * leave), place(t, at + way * OVER), style.pen)
