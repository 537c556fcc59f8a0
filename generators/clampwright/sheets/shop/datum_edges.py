"""The datum edges of a flat pattern: arrows from the datum corner, marked X and Y."""

from __future__ import annotations

from collections.abc import Sequence

from clampwright.layout.shop.told import FlatPart
from clampwright.sheets.drawing import Item, Path, Text
from clampwright.sheets.shop.dimensioning.linear import Length
from clampwright.sheets.shop.dimensioning.strokes import arrow
from clampwright.sheets.shop.dimensioning.style import AIR, ARROW, GAP, LETTER
from clampwright.sheets.shop.drawn_view import DrawnView
from clampwright.sheets.shop.outline_told import farthest

_DATUM_OFF, _DATUM_LONG = 4.5, 9.0
_MOST_LONGER = 60


def datum_arrows(drawn: DrawnView, across: Sequence[Length], along: Sequence[Length]) -> tuple[Item, ...]:
    """Arrows from the datum corner along the datum edges, marked X and Y between the lines that will come."""
    x, y, _, _ = drawn.box()
    off, pen, half = _DATUM_OFF, drawn.style.pen, LETTER * 0.718 / 2
    right = _long_enough(x, [end[0] for one in across for end in one.ends])
    up = _long_enough(y, [end[1] for one in along for end in one.ends])
    return (
        Path(((x, y - off), (x + right, y - off)), pen),
        arrow((x + right, y - off), (1.0, 0.0)),
        Text((x + right + 1.0, y - off - half), "X", LETTER),
        Path(((x - off, y), (x - off, y + up)), pen),
        arrow((x - off, y + up), (0.0, 1.0)),
        Text((x - off, y + up + 1.3), "Y", LETTER, "middle"),
    )


def _long_enough(start: float, lines: Sequence[float]) -> float:
    """Length of an arrow behind whose head a letter meets none of some lines across it."""
    for n in range(_MOST_LONGER):
        low = start + _DATUM_LONG + n
        if all(line < low - AIR or line > low + LETTER + 1.0 + AIR for line in lines):
            return _DATUM_LONG + n
    return _DATUM_LONG


def datum_lines(drawn: DrawnView, part: FlatPart) -> tuple[Item, ...]:
    """The datum edges of a round part: lines at x = 0 and y = 0 through its farthest points."""
    x, y, _, _ = drawn.box()
    left = drawn.point(farthest(part.outline, (-1.0, 0.0), (0.0, -1.0)))
    low = drawn.point(farthest(part.outline, (0.0, -1.0), (-1.0, 0.0)))
    more = _DATUM_OFF + ARROW
    return (
        Path(((x, left[1] - GAP), (x, y - more)), drawn.style.pen),
        Path(((low[0] - GAP, y), (x - more, y)), drawn.style.pen),
    )
