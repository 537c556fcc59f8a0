"""Bars to measure a print by: 100 mm and 4 in, both ways, and a scale as long as the sheet allows."""

from __future__ import annotations

import math
from dataclasses import replace

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Item, Path, Text, box_path, moved
from clampwright.sheets.ink import BLACK, FINE
from clampwright.trade.tables import rule

STRIP = 10.5
"""Width of the strip that a pair of bars takes."""

_METRIC = (5.2, 6.8)
_INCH = (3.0, 4.6)
_SIZE = 2.25


def bars(corner: Vec2, across: float, along: float) -> tuple[Item, ...]:
    """The bars across from `corner` to the right and along it upwards, `across` and `along` mm of room.

    The solid bars are exactly 100 mm and 4 in long, from edge to edge.
    """
    x, y = corner
    level = _strip("across", across - STRIP)
    upright = [_turned(item) for item in _strip("along", along - STRIP)]
    return (*moved(level, (x + STRIP, y)), *moved(upright, (x + STRIP, y + STRIP)))


def _strip(way: str, room: float) -> list[Item]:
    """A strip from x = 0 to the right, y from 0 to STRIP."""
    metric, inch = rule("bar-metric").value, rule("bar-inch").value
    end = 10 * math.floor((room - 3) / 10)
    items: list[Item] = [
        box_path((0.0, _METRIC[0], metric, _METRIC[1]), None, BLACK),
        box_path((0.0, _INCH[0], inch, _INCH[1]), None, BLACK),
        Text((0.0, 7.5), "0", _SIZE),
        Text((metric / 2, 7.5), f"100 mm bar, {way}", _SIZE, "middle", bold=True),
        Text((metric, 7.5), "100", _SIZE, "right"),
        Text((0.0, 0.8), "0", _SIZE),
        Text((inch / 2, 0.8), f"4 in bar, {way} (101.6 mm)", _SIZE, "middle", bold=True),
        Text((inch, 0.8), "4 in", _SIZE, "right"),
    ]
    if end <= metric:
        return items
    items.append(Path(((metric, _METRIC[0]), (float(end), _METRIC[0])), FINE))
    for tick in range(int(metric) + 10, end + 1, 10):
        high = _METRIC[1] if tick % 50 and tick != end else 7.2
        items.append(Path(((tick, _METRIC[0]), (tick, high)), FINE))
    marks = {tick for tick in range(150, end + 1, 50) if end - tick >= 20} | {end}
    items += [Text((float(tick), 7.7), str(tick), _SIZE, "middle") for tick in sorted(marks)]
    return items


def _turned(item: Item) -> Item:
    """A quarter turn counter-clockwise about (0, 0): the strip's upper edge comes to the left."""
    if isinstance(item, Path):
        return replace(item, points=tuple((-y, x) for x, y in item.points))
    assert isinstance(item, Text)
    return replace(item, at=(-item.at[1], item.at[0]), angle_deg=90.0)
