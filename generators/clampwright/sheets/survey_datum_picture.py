"""The picture of the datum: three marks on the firewall, and the axes that they fix."""

from __future__ import annotations

import math
from collections.abc import Iterator

from clampwright.quantities import Vec2, Vec3
from clampwright.sheets.drawing import Circle, Item, Path, Pen, Text
from clampwright.sheets.flow import Block
from clampwright.sheets.ink import ACCENT, BLACK, GREY, PALE, SMALL, WHITE
from clampwright.sheets.structure_eyes import oblique

_WALL = ((0, 0), (90, 0), (90, 50), (74, 62), (16, 62), (0, 50))
_MARKS = ((8.0, 7.0), (82.0, 7.0), (45.0, 51.0))
"""y and z of the origin, of the mark that y runs through and of the third one."""

NAME_MOST = 8.0
"""Width that the name of a mark may have, mm."""

_REACH = {"x": 34.0, "y": 42.0, "z": 24.0}
_LETTERS = {"x": (-1.2, -4.2), "y": (-1.0, -4.2), "z": (-3.6, -1.0)}
_SIDE = oblique(-30.0, 20.0)


def datum_picture(room: float, names: tuple[str, str, str] = ("F1", "F2", "F3")) -> Block:
    """The firewall seen from +x, +y and above: x comes forward, y runs to the right, z up.

    Drawn with the projection of the pictures of structures, so that its axes are right-handed as theirs.
    """
    scale = min(0.62, (room - 8.0) / 115.0)
    corners = [_SIDE.eye.seen((0.0, y, z)) for y, z in _WALL]
    corners.append(_SIDE.eye.seen(_along("x")))
    left, top = min(x for x, _ in corners), max(y for _, y in corners)
    right, low = max(x for x, _ in corners), min(y for _, y in corners)
    aside = (room - scale * (right - left)) / 2

    def page(point: Vec3) -> Vec2:
        x, y = _SIDE.eye.seen(point)
        return aside + scale * (x - left), scale * (y - top) - 2.0

    wall = tuple(page((0.0, y, z)) for y, z in _WALL)
    marks = [page((0.0, *at)) for at in _MARKS]
    items: list[Item] = [Path(wall, Pen(0.3), closed=True, fill=PALE)]
    items.append(Path(tuple(marks), Pen(0.18, GREY, (1.5, 1.0)), closed=True))
    for letter in "xyz":
        items += _axis(letter, marks[0], page(_along(letter)))
    for name, at in zip(names, marks, strict=True):
        items += _mark(name, at)
    high = scale * (top - low) + 9.0
    said = "firewall, seen from +x, +y and above"
    return Block(high + 2.0, (*items, Text((room / 2, -high), said, SMALL, "middle", colour=GREY)))


def _along(letter: str) -> Vec3:
    y, z = _MARKS[0]
    reach = _REACH[letter]
    return {"x": (reach, y, z), "y": (0.0, y + reach, z), "z": (0.0, y, z + reach)}[letter]


def _axis(letter: str, foot: Vec2, tip: Vec2) -> Iterator[Item]:
    long = math.dist(foot, tip)
    way = ((tip[0] - foot[0]) / long, (tip[1] - foot[1]) / long)
    back = (tip[0] - 2.2 * way[0], tip[1] - 2.2 * way[1])
    barbs = (
        (back[0] - 0.6 * way[1], back[1] + 0.6 * way[0]),
        (back[0] + 0.6 * way[1], back[1] - 0.6 * way[0]),
    )
    yield Path((foot, back), Pen(0.45))
    yield Path((tip, *barbs), None, closed=True, fill=BLACK)
    shift = _LETTERS[letter]
    yield Text((tip[0] + shift[0], tip[1] + shift[1]), letter, 2.8, bold=True)


def _mark(name: str, at: Vec2) -> Iterator[Item]:
    x, y = at
    yield Circle(at, 1.0, Pen(0.18), WHITE)
    yield Path(((x - 1.7, y), (x + 1.7, y)), Pen(0.2, ACCENT))
    yield Path(((x, y - 1.7), (x, y + 1.7)), Pen(0.2, ACCENT))
    yield Text((x + 1.8, y + 1.2), name, SMALL, bold=True)
