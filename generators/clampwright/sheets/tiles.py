"""A drawing larger than a page, on several that share strips: where the seams go, marks, and the page map."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from clampwright.quantities import Vec2
from clampwright.sheets import collisions
from clampwright.sheets.drawing import Box, Circle, Item, Path, Pen, Text, box_path
from clampwright.sheets.ink import ACCENT, FINE, GREY, PALE, TRIM
from clampwright.sheets.labels import Room
from clampwright.sheets.lettering import corners, width

_MARK = 4.0
"""Arms of a registration mark."""

_TRIES = 60
_JOIN_SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.1, 0.9, 0.0, 1.0)


@dataclass(frozen=True, slots=True)
class Axis:
    """Windows along one direction: their length, and the start of each."""

    window: float
    overlap: float
    starts: tuple[float, ...]

    def seams(self) -> tuple[float, ...]:
        """Middle of each shared strip."""
        return tuple(start + self.overlap / 2 for start in self.starts[1:])


def axis(low: float, high: float, window: float, overlap: float, keep_off: Sequence[Vec2]) -> Axis:
    """Windows that cover low..high, with seams as far as may be from what to `keep_off` (middle, half size).

    n windows of length W with overlap s cover n (W - s) + s.

    Examples
    --------
    >>> cover = axis(0.0, 300.0, 180.0, 12.0, ())
    >>> len(cover.starts), cover.starts[0] <= 0.0, cover.starts[-1] + 180.0 >= 300.0
    (2, True, True)
    """
    step = window - overlap
    count = max(1, math.ceil((high - low - overlap - 1e-9) / step))
    slack = count * step + overlap - (high - low)
    shifts = [slack * n / _TRIES for n in range(_TRIES + 1)]

    def clearance(shift: float) -> float:
        seams = [low - shift + step * n + overlap / 2 for n in range(1, count)]
        return min((abs(seam - at) - half for seam in seams for at, half in keep_off), default=math.inf)

    best = max(shifts, key=lambda shift: (min(round(clearance(shift), 6), overlap), -abs(shift - slack / 2)))
    return Axis(window, overlap, tuple(low - best + step * n for n in range(count)))


@dataclass(frozen=True, slots=True)
class Tile:
    """One window on the whole drawing: column and row from the lower left, and its number."""

    column: int
    row: int
    box: Box
    number: int


@dataclass(frozen=True, slots=True)
class Mark:
    """A registration mark in the whole drawing, and the tiles that show it."""

    name: str
    at: Vec2


@dataclass(frozen=True, slots=True)
class Tiling:
    """Windows on the whole drawing; `across` and `along` are its two directions."""

    across: Axis
    along: Axis

    def tiles(self) -> tuple[Tile, ...]:
        """From the upper left, row by row, as one lays them on the bench."""
        rows, columns = len(self.along.starts), len(self.across.starts)
        order = [(column, row) for row in reversed(range(rows)) for column in range(columns)]
        return tuple(
            Tile(column, row, self._box(column, row), number) for number, (column, row) in enumerate(order)
        )

    def _box(self, column: int, row: int) -> Box:
        x, y = self.across.starts[column], self.along.starts[row]
        return x, y, x + self.across.window, y + self.along.window

    def neighbours(self, tile: Tile) -> tuple[tuple[str, Tile], ...]:
        """Tiles that join at the left, right, top and bottom."""
        steps = {"left": (-1, 0), "right": (1, 0), "bottom": (0, -1), "top": (0, 1)}
        by_place = {(other.column, other.row): other for other in self.tiles()}
        found = ((side, by_place.get((tile.column + a, tile.row + b))) for side, (a, b) in steps.items())
        return tuple((side, other) for side, other in found if other is not None)

    def marks(self, circles: Sequence[tuple[float, float, float]]) -> tuple[Mark, ...]:
        """Two marks on each seam of each pair of tiles, in the middle of the shared strip, off the holes."""
        spots: list[Vec2] = []
        for x in self.across.seams():
            for start in self.along.starts:
                spots += [(x, _clear_spot(start, self.along, share, x, circles, 1)) for share in (0.2, 0.8)]
        for y in self.along.seams():
            for start in self.across.starts:
                spots += [(_clear_spot(start, self.across, share, y, circles, 0), y) for share in (0.2, 0.8)]
        return tuple(Mark(f"R{number}", spot) for number, spot in enumerate(spots, 1))


def _clear_spot(
    start: float,
    way: Axis,
    share: float,
    other: float,
    circles: Sequence[tuple[float, float, float]],
    axis_: int,
) -> float:
    """A place near `share` of a window's own part of a seam, clear of the circles."""
    inner = way.window - 2 * way.overlap
    wanted = start + way.overlap + share * inner
    tries = sorted(
        (start + way.overlap + inner * n / 40 for n in range(3, 38)), key=lambda at: abs(at - wanted)
    )

    def clear(at: float) -> float:
        spot = (other, at) if axis_ == 1 else (at, other)
        return min((math.hypot(x - spot[0], y - spot[1]) - r for x, y, r in circles), default=math.inf)

    return next((at for at in tries if clear(at) > 2 * _MARK), max(tries, key=clear))


def mark_items(mark: Mark, at: Vec2) -> tuple[Item, ...]:
    """A registration mark on a page: cross, ring and name."""
    x, y = at
    return (
        Circle(at, _MARK * 0.5, FINE),
        Path(((x - _MARK, y), (x + _MARK, y)), FINE),
        Path(((x, y - _MARK), (x, y + _MARK)), FINE),
        Text((x + 0.7, y + _MARK * 0.5 + 0.9), mark.name, 2.25, bold=True),
    )


def mark_box(at: Vec2) -> Box:
    """What a mark and its name take."""
    reach = _MARK + 0.5
    return (
        at[0] - reach,
        at[1] - reach,
        at[0] + max(reach, 1.2 + width("R88", 2.25, True)),
        at[1] + reach + 1.0,
    )


def trim_lines(window: Box, overlap: float, sides: Sequence[tuple[str, int]]) -> tuple[Path, ...]:
    """On each joining side a line to cut or fold at, in the middle of the shared strip."""
    x0, y0, x1, y1 = window
    half = overlap / 2
    lines = {
        "left": ((x0 + half, y0), (x0 + half, y1)),
        "right": ((x1 - half, y0), (x1 - half, y1)),
        "bottom": ((x0, y0 + half), (x1, y0 + half)),
        "top": ((x0, y1 - half), (x1, y1 - half)),
    }
    return tuple(Path(lines[side], TRIM) for side, _ in sides)


def join_notes(
    room: Room, overlap: float, sides: Sequence[tuple[str, int]], first_page: int
) -> tuple[Text, ...]:
    """Outside each trim line, which page joins there; where no line runs if there is such a place.

    The boxes of the notes are added to `room`.
    """
    notes = []
    for side, number in sides:
        words = f"page {first_page + number} joins here"
        tries = [_join_note(words, room.window, overlap, side, share) for share in _JOIN_SHARES]
        boxes = [_box_of(text) for text in tries]
        array = np.asarray(boxes)
        cost = collisions.weight_crossed(array, room.lines, 0.5)
        cost += 1e3 * collisions.circles_hit(array, room.circles, 0.5)
        cost += 1e3 * collisions.boxes_hit(array, room.boxes, 0.5)
        best = int(np.argmin(np.round(cost, 6)))
        room.boxes.append(boxes[best])
        notes.append(tries[best])
    return tuple(notes)


def _join_note(words: str, window: Box, overlap: float, side: str, share: float) -> Text:
    x0, y0, x1, y1 = window
    inset, lower, ends = overlap / 4, 0.8, 2 * overlap
    x, y = x0 + ends + share * (x1 - x0 - 2 * ends), y0 + ends + share * (y1 - y0 - 2 * ends)
    at = {
        "left": (x0 + inset + lower, y),
        "right": (x1 - inset + lower, y),
        "bottom": (x, y0 + inset - lower),
        "top": (x, y1 - inset - lower),
    }[side]
    return Text(at, words, 2.25, "middle", 90.0 if side in ("left", "right") else 0.0, colour=GREY)


def _box_of(text: Text) -> Box:
    xs, ys = zip(*corners(text), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def page_map(
    tiling: Tiling,
    rings: Sequence[Sequence[Vec2]],
    box: Box,
    first_page: int,
    here: int | None,
    size_mm: float,
) -> tuple[Item, ...]:
    """The whole drawing small, with the windows and their page numbers; `here` is the tile in bold."""
    tiles = tiling.tiles()
    low = (min(tile.box[0] for tile in tiles), min(tile.box[1] for tile in tiles))
    high = (max(tile.box[2] for tile in tiles), max(tile.box[3] for tile in tiles))
    scale = min((box[2] - box[0]) / (high[0] - low[0]), (box[3] - box[1]) / (high[1] - low[1]))
    shift = (
        (box[0] + box[2] - scale * (low[0] + high[0])) / 2,
        (box[1] + box[3] - scale * (low[1] + high[1])) / 2,
    )

    def small(point: Vec2) -> Vec2:
        return shift[0] + scale * point[0], shift[1] + scale * point[1]

    items: list[Item] = []
    boxes = [(*small(tile.box[:2]), *small(tile.box[2:])) for tile in tiles]
    items += [box_path(boxes[n], None, PALE) for n, tile in enumerate(tiles) if tile.number == here]
    items += [Path(tuple(small(point) for point in ring), Pen(0.2), closed=True) for ring in rings]
    items += [box_path(each, Pen(0.13, GREY)) for each in boxes]
    for tile, (x0, y0, x1, y1) in zip(tiles, boxes, strict=True):
        spot = ((x0 + x1) / 2, (y0 + y1) / 2 - size_mm * 0.36)
        colour = ACCENT if tile.number == here else GREY
        items.append(Text(spot, str(first_page + tile.number), size_mm, "middle", bold=True, colour=colour))
    return tuple(items)
