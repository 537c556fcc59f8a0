"""What X and Y of a flat pattern count from: arrows from the corner, and lines where there is no edge."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from math import atan2, dist

from clampwright.layout.shop.told import FlatPart
from clampwright.sheets.drawing import Item, Path, Text
from clampwright.sheets.lettering import CAPITAL
from clampwright.sheets.shop.dimensioning.linear import Length
from clampwright.sheets.shop.dimensioning.strokes import arrow
from clampwright.sheets.shop.dimensioning.style import AIR, ARROW, GAP, LETTER
from clampwright.sheets.shop.dimensioning.wording import angle, length
from clampwright.sheets.shop.drawn_view import DrawnView
from clampwright.sheets.shop.outline_told import circle, datum_sides, farthest
from clampwright.sheets.shop.view_items import centre_pen

_DATUM_OFF, _DATUM_LONG = 4.5, 9.0
_MOST_LONGER = 60


def datum_arrows(drawn: DrawnView, across: Sequence[Length], along: Sequence[Length]) -> tuple[Item, ...]:
    """Arrows from the corner that X and Y count from, marked between the lines that will come."""
    x, y, _, _ = drawn.box()
    off, pen, half = _DATUM_OFF, drawn.style.pen, LETTER * CAPITAL / 2
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


def datum_lines(drawn: DrawnView, part: FlatPart, *, down: bool) -> tuple[Item, ...]:
    """Dash-dot lines at x = 0 and y = 0 where no straight edge lies there, drawn on beyond the part.

    They begin at the farthest points, from which the lines of dimensions run the other way; of a round part,
    which has none of these, they run both ways (`down`).
    """
    x0, y0, x1, y1 = drawn.box()
    left = drawn.point(farthest(part.outline, (-1.0, 0.0), (0.0, -1.0)))
    low = drawn.point(farthest(part.outline, (0.0, -1.0), (-1.0, 0.0)))
    pen, more, edges = centre_pen(drawn.sheet), _DATUM_OFF + ARROW, datum_sides(part.outline)
    lines: list[Item] = []
    if not edges[0]:
        lines.append(Path(((x0, y0 - more if down else left[1] + GAP), (x0, y1 + more)), pen))
    if not edges[1]:
        lines.append(Path(((x0 - more if down else low[0] + GAP, y0), (x1 + more, y0)), pen))
    return tuple(lines)


def counts_from(part: FlatPart) -> str:
    """What X and Y count from, in a sentence."""
    edges = datum_sides(part.outline)
    if all(edges):
        return "X and Y count from the datum edges, the left and the lower one."
    if circle(part.outline) is not None:
        return (
            "X and Y count from the tangents at the left and at the bottom, the dash-dot lines: the lower "
            "left corner of the box round the part, not a point of it."
        )
    if any(edges):
        x = "the left edge" if edges[0] else "the leftmost point, the dash-dot line"
        y = "the lower edge" if edges[1] else "the lowest point, the dash-dot line"
        return f"X counts from {x}; Y from {y}."
    return (
        "X and Y count from the lower left corner of the box round the part (dash-dot lines); no edge lies "
        "there."
    )


def set_up_on(part: FlatPart) -> str:
    """On which two holes a part without datum edges is set up to be measured; "" where it needs none."""
    holes = [hole for hole in part.holes if hole.pilot or not hole.transferred]
    if all(datum_sides(part.outline)) or len(holes) < 2:
        return ""
    one, two = max(combinations(holes, 2), key=lambda pair: dist(pair[0].at, pair[1].at))
    apart = length(dist(one.at, two.at), part.units).text
    (ax, ay), (bx, by) = one.at, two.at
    turn = angle(atan2(by - ay, bx - ax)).text
    return (
        f"To inspect, set up on {one.label} and {two.label}, the holes farthest apart: {apart} between "
        f"centres, the line from {one.label} to {two.label} {turn} from X."
    )
