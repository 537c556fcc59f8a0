"""The layout that bounding boxes alone give, which the nest is held against and falls back on."""

from __future__ import annotations

import math
from collections.abc import Sequence

from clampwright.layout.shop.told import FlatPart
from clampwright.nesting.boxes import packed
from clampwright.nesting.on_sheet import turned_box
from clampwright.nesting.placing import Room
from clampwright.nesting.turns import turns

Lay = tuple[int, float, float, float]
"""Which part, its turn, x and y of its datum within the margins."""
_SAME_MM, _SAME_TURN = 1e-6, 1e-9


def boxed_layout(
    room: Room, kerf_mm: float, parts: Sequence[FlatPart], pieces: Sequence[int]
) -> tuple[list[list[Lay]], tuple[int, float]]:
    """Sheets of parts laid as boxes, and their number and length in use within the margins, mm.

    A part lies at the first turn that it may have, or a quarter turn from it where it may lie so too.

    Parameters
    ----------
    room : Room
        The sheet within its margins.
    kerf_mm : float
        Least room between two parts.
    parts : Sequence[FlatPart]
        All of one material and thickness, each with room on the sheet.
    pieces : Sequence[int]
        For every copy, which of the parts it is.
    """
    ways = [_quarter_apart(turns(part).turns_rad) for part in parts]
    boxes = [[turned_box(part.outline, turn) for turn in way] for part, way in zip(parts, ways, strict=True)]
    sizes = [_fitting([(x1 - x0, y1 - y0) for x0, y0, x1, y1 in each], room) for each in boxes]
    found, count, length = packed(room, kerf_mm, [tuple(size for size, _ in sizes[k]) for k in pieces])
    sheets: list[list[Lay]] = [[] for _ in range(count)]
    numbers = {sheet: n for n, sheet in enumerate(sorted({box.sheet for box in found}))}
    for box in found:
        part = pieces[box.part]
        which = sizes[part][box.flipped][1]
        x0, y0, _, _ = boxes[part][which]
        sheets[numbers[box.sheet]].append((part, ways[part][which], box.x - x0, box.y - y0))
    return sheets, (count, length)


def _quarter_apart(turns_rad: Sequence[float]) -> tuple[float, ...]:
    first = turns_rad[0]
    across = (t for t in turns_rad if abs(abs(math.remainder(t - first, math.pi)) - math.pi / 2) < _SAME_TURN)
    return (first, *list(across)[:1])


def _fitting(sizes: Sequence[tuple[float, float]], room: Room) -> list[tuple[tuple[float, float], int]]:
    """Sizes that go on the sheet, with their place among the ways."""
    most = room.width_mm + _SAME_MM, room.length_mm + _SAME_MM
    return [(size, k) for k, size in enumerate(sizes) if size[0] <= most[0] and size[1] <= most[1]]
