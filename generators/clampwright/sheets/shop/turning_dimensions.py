"""Dimensions round the section of a turned part: length below, outside at the left, bore by a leader."""

from __future__ import annotations

import math

from clampwright.quantities import Vec2
from clampwright.sheets import letter_widths
from clampwright.sheets.drawing import Dimension, Item, Path, Pen, Text
from clampwright.sheets.lettering import width
from clampwright.sheets.shop.dimensioning.linear import Length, linear, spots, text_size
from clampwright.sheets.shop.dimensioning.strokes import arrow
from clampwright.sheets.shop.dimensioning.style import ARROW, CLOSE, GAP, LETTER, OVER, TAIL, Style
from clampwright.sheets.shop.dimensioning.wording import Wording

LENGTH_OFF, OUTSIDE_OFF = 10.0, 11.0
"""From the part to the dimension line of its length, and of its outside diameter."""
BORE_OUT = 6.0
"""How far beyond the outside diameter the bore's leader bends."""

_ON = CLOSE + letter_widths.DESCENT / 1000 * LETTER
"""From a line to the foot of the letters that stand on it."""


def length_below(long: float, half: float, value: float, text: str, scale: float, style: Style) -> Dimension:
    """Of a section from x = 0 to `long` and from y = -`half`: its length."""
    told = Length("horizontal", ((0.0, -half), (long, -half)), value, Wording((text,)), scale)
    middle, *_, beyond = spots(told, style)
    fits = 0.0 < middle < long
    return linear(told, -half - LENGTH_OFF, middle if fits else beyond, style)


def outside_beside(half: float, value: float, words: Wording, scale: float, style: Style) -> Dimension:
    """Of a section from y = -`half` to `half` on the right of x = 0: its outside diameter.

    A text that is too long for its line stands beside it all the same, clear of the extension lines.
    """
    told = Length("vertical", ((0.0, -half), (0.0, half)), value, words, scale)
    off = OUTSIDE_OFF + (text_size(told.lines(style))[0] / 2 - ARROW if style.upright else 0.0)
    if next(spots(told, style)) == 0.0:
        return linear(told, off, 0.0, style)
    return _too_short(told, -OUTSIDE_OFF, style)


def outside_reach(half: float, words: Wording) -> float:
    """How far up and down from its middle `outside_beside` reaches at most."""
    return max(half + ARROW + TAIL, width(words.text, LETTER) / 2)


def _too_short(told: Length, x: float, style: Style) -> Dimension:
    """With the text outside the extension lines' ends: along the line, or on the left of it where upright."""
    half = told.span()[1]
    inside = 2 * half >= 3 * ARROW
    way, more = (-1.0, 0.0) if inside else (1.0, ARROW + TAIL)
    text, off = told.words.text, OVER + _ON
    said = (
        Text((x - off, -LETTER * 0.36), text, LETTER, "right")
        if style.upright
        else Text((x - off, 0.0), text, LETTER, "middle", 90.0)
    )
    strokes: tuple[Item, ...] = (
        *(Path(((-GAP, y), (x - OVER, y)), style.pen) for y in (-half, half)),
        Path(((x, -half - more), (x, half + more)), style.pen),
        arrow((x, -half), (0.0, way)),
        arrow((x, half), (0.0, -way)),
        said,
    )
    return Dimension("vertical", told.ends, told.value, text, told.scale, strokes)


def bore_led(
    centre: Vec2, radii: tuple[float, float], value: float, text: str, scale: float, pen: Pen
) -> Dimension:
    """A bore by a leader from its rim at 45 degrees to beyond the outside; `radii` of bore and outside."""
    way = (math.sqrt(0.5), math.sqrt(0.5))
    rim, bend = ((centre[0] + r * way[0], centre[1] + r * way[1]) for r in (radii[0], radii[1] + BORE_OUT))
    return Dimension("diameter", (centre, rim), value, text, scale, leader(rim, bend, text, pen))


def leader(tip: Vec2, bend: Vec2, text: str, pen: Pen) -> tuple[Item, ...]:
    """An arrow at a tip, its line to a bend, and from there to the right a shelf with a text on it."""
    long = math.dist(tip, bend)
    way = ((tip[0] - bend[0]) / long, (tip[1] - bend[1]) / long)
    end = (bend[0] + width(text, LETTER) + 2 * GAP, bend[1])
    return (
        Path((tip, bend, end), pen),
        arrow(tip, way),
        Text((bend[0] + GAP, bend[1] + _ON), text, LETTER),
    )
