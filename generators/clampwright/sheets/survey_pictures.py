"""Pictures of how to measure: a ring by paper, three ways to read a distance, strong and weak."""

from __future__ import annotations

from collections.abc import Sequence

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Circle, Item, Path, Pen, Text
from clampwright.sheets.flow import Block
from clampwright.sheets.ink import ACCENT, BLACK, GREY, PALE, SMALL, WHITE

_LINE, _THIN, _BOLD = Pen(0.3), Pen(0.18), Pen(0.6, ACCENT)
_DASH = Pen(0.18, GREY, (1.5, 1.0))
_AXIS = Pen(0.15, GREY, (4.0, 1.0, 0.8, 1.0))


def ring_picture(room: float) -> Block:
    """A strip of paper round a tube: square where its edges meet, skew where they pass each other."""
    half = room / 2
    return Block(
        28.0,
        (
            *_wrapped(0.0, half - 4.0, 0.0),
            *_wrapped(half + 2.0, half - 4.0, 4.5),
            *_words(
                (half / 2 - 2.0, -21.5), "edges meet: the ring is square", "pen along one edge, all round"
            ),
            *_words((1.5 * half, -21.5), "edges pass each other:", "skew, wrap it again", ACCENT),
        ),
    )


def three_ways_picture(room: float) -> Block:
    """Two tubes end on: tape laid across them, over both, and between both, with the formulas."""
    a, b, r, s = (16.0, -17.0), (room - 16.0, -17.0), 7.0, 5.5
    lay = a[1] + r
    items: list[Item] = [
        *_tube_end(a, r),
        *_tube_end(b, s),
        Path((a, b), _AXIS),
        Path(((a[0], lay + 1.6), (a[0], lay), (b[0], b[1] + s), (b[0], b[1] + s + 1.6)), _BOLD),
        Text((room / 2, lay + 1.5), "across: centre", SMALL, "middle", colour=ACCENT),
        *_measure(a[0] + r, b[0] - s, a[1] - 0.5, -20.5, "inside"),
        *_measure(a[0] - r, b[0] + s, a[1] - 8.5, -29.0, "outside"),
    ]
    said = (
        "centre = (outside + inside) / 2, at any slant",
        "square to both tubes: centre = outside - (OD one + OD other) / 2",
        "from a mark to a tube: centre = inside + OD / 2, square to it",
    )
    items += [Text((0.0, -34.5 - 3.2 * n), line, SMALL) for n, line in enumerate(said)]
    return Block(43.5, tuple(items))


def strength_picture(room: float) -> Block:
    """Three distances to a new point: from directions far apart, and from almost one plane."""
    half = room / 2
    strong = ((3.0, -19.0), (half - 18.0, -24.0), (half - 9.0, -12.0))
    flat = tuple((half + x, y) for x, y in ((4.0, -22.0), (half * 0.45, -23.5), (half - 8.0, -21.5)))
    return Block(
        39.0,
        (
            *_star(strong, (half / 2 - 3.0, -3.5)),
            *_star(flat, (half * 1.45, -18.0)),
            *_wobble((half * 1.45, -18.0)),
            *_words((half / 2 - 3.0, -31.0), "strong: new point N well out", "of the plane of the three"),
            *_words((half * 1.5, -31.0), "weak: N nearly in their plane;", "up and down it is loose", ACCENT),
        ),
    )


def sag_and_hold_picture(room: float) -> Block:
    """Holding the tape alone: its 1 in mark at the ring, its end held by a loop of cord."""
    y, left, right = -9.0, 12.0, room - 14.0
    items: list[Item] = [
        *_tube_end((left, y - 5.0), 5.0),
        *_tube_end((right, y - 5.0), 5.0),
        Path(((left - 8.0, y + 0.3), (right + 8.0, y + 0.3)), _BOLD),
        Text((left, y + 2.0), "1 in", SMALL, "middle", colour=ACCENT),
        Text((right, y + 2.0), "31-3/8", SMALL, "middle", colour=ACCENT),
        Text((room / 2, y + 2.0), "straight, touching nothing between", SMALL, "middle"),
        Text((room / 2, y - 4.0), "write 31-3/8; the distance is 30-3/8", SMALL, "middle"),
        Path(((left - 8.0, y + 0.3), (left - 8.0, y - 12.0)), _DASH),
        Text((left - 6.5, y - 13.0), "cord or masking tape pulls the end", SMALL, colour=GREY),
    ]
    items += [Path(((x, y - 1.2), (x, y + 1.4)), _LINE) for x in (left, right)]
    return Block(25.0, tuple(items))


def _wrapped(x: float, wide: float, skew: float) -> list[Item]:
    """A tube with a strip round it; `skew`: how far its edge has run along the tube in one turn."""
    top, low, left = -6.0, -16.0, x + wide * 0.42
    edge = ((left, top), (left + skew / 2, low))
    strip = (edge[0], (left + 7.0, top), (left + 7.0 + skew / 2, low), edge[1])
    items: list[Item] = [
        Path(((x, top), (x + wide, top)), _LINE),
        Path(((x, low), (x + wide, low)), _LINE),
        Path(((x, (top + low) / 2), (x + wide, (top + low) / 2)), _AXIS),
        Path(strip, _THIN, closed=True, fill=PALE),
    ]
    if skew:
        flap = (
            (left + skew, top + 0.0),
            (left + 7.0 + skew, top),
            (left + 8.2 + skew, top + 4.5),
            (left + 1.2 + skew, top + 4.5),
        )
        return [*items, Path(flap, _THIN, closed=True, fill=WHITE), Path(edge, _BOLD)]
    flap = ((left, top), (left + 7.0, top), (left + 7.0, top + 4.5), (left, top + 4.5))
    return [*items, Path(flap, _THIN, closed=True, fill=WHITE), Path(edge, _BOLD)]


def _tube_end(centre: Vec2, radius: float) -> list[Item]:
    x, y = centre
    arm = radius * 0.35
    return [
        Circle(centre, radius, _LINE, PALE),
        Path(((x - arm, y), (x + arm, y)), _THIN),
        Path(((x, y - arm), (x, y + arm)), _THIN),
    ]


def _measure(left: float, right: float, start: float, y: float, word: str) -> list[Item]:
    """A dimension line with its two witness lines."""
    items: list[Item] = [Path(((x, start), (x, y - 1.0)), _DASH) for x in (left, right)]
    items += [
        *_arrow((left, y), (-1.0, 0.0)),
        *_arrow((right, y), (1.0, 0.0)),
        Path(((left, y), (right, y)), _THIN),
    ]
    return [*items, Text(((left + right) / 2, y + 0.7), word, SMALL, "middle")]


def _arrow(tip: Vec2, way: Vec2) -> list[Item]:
    x, y = tip[0] - 2.0 * way[0], tip[1] - 2.0 * way[1]
    barbs = ((x - 0.5 * way[1], y + 0.5 * way[0]), (x + 0.5 * way[1], y - 0.5 * way[0]))
    return [Path((tip, *barbs), None, closed=True, fill=BLACK)]


def _star(known: Sequence[Vec2], new: Vec2) -> list[Item]:
    items: list[Item] = [Path(tuple(known), Pen(0.13, GREY), closed=True, fill=PALE)]
    items += [Path((point, new), _LINE) for point in known]
    for name, point in zip("ABC", known, strict=False):
        items += [Circle(point, 0.9, _THIN, WHITE), Text((point[0] + 1.5, point[1] - 3.2), name, SMALL)]
    return [*items, Circle(new, 1.1, None, ACCENT), Text((new[0] + 2.0, new[1] + 0.3), "N", SMALL, bold=True)]


def _wobble(at: Vec2) -> list[Item]:
    x, y = at
    line = Path(((x, y - 8.0), (x, y + 8.0)), Pen(0.3, ACCENT))
    tips = (((x, y + 9.0), (0.0, 1.0)), ((x, y - 9.0), (0.0, -1.0)))
    return [line, *(item for tip, way in tips for item in _arrow(tip, way))]


def _words(at: Vec2, first: str, second: str, colour: str = BLACK) -> list[Item]:
    return [
        Text((at[0], at[1] - 3.2 * n), line, SMALL, "middle", colour=colour)
        for n, line in enumerate((first, second))
    ]
