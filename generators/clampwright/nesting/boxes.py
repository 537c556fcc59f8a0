"""The baseline: every part as its bounding box, packed by rectpack, a general library for rectangles.

Rectpack is exact on whole numbers and the same every time; it fills bins and does not shorten them, so the
last one is shortened here until its boxes no longer fit.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product

import rectpack

from clampwright.nesting.placing import Room

_UNIT_MM = 1e-3
"""Sizes are rounded up to it."""
_ROOM_MM = 1e-7
_FILLERS = (rectpack.MaxRectsBssf, rectpack.MaxRectsBl, rectpack.SkylineBlWm)
_SORTS = (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE)
_HALVINGS = 8


@dataclass(frozen=True, slots=True)
class Boxed:
    """A part's box on a sheet; `flipped`: by its second size."""

    part: int
    sheet: int
    x: float
    y: float
    flipped: bool


Sizes = Sequence[tuple[tuple[float, float], ...]]
"""Of each part, width and height at one turn, or at two that are a quarter turn apart, mm."""
_Rect = tuple[int, int, int]


def packed(room: Room, kerf_mm: float, sizes: Sizes) -> tuple[tuple[Boxed, ...], int, float]:
    """Boxes on sheets, how many sheets, and the sum of lengths in use within the margins.

    Parts of one size lie as they must; where there are any, the others are tried lying and standing.

    >>> boxes, sheets, length = packed(Room(100.0, 200.0), 0.0, [((60.0, 40.0), (40.0, 60.0))] * 2)
    >>> len(boxes), sheets, length
    (2, 1, 60.0)
    """
    width, most = _down(room.width_mm + kerf_mm), _down(room.length_mm + kerf_mm)
    best: tuple[tuple[int, float], tuple[Boxed, ...]] | None = None
    for rects, turn in _ways(sizes, kerf_mm):
        for filler, sort in product(_FILLERS, _SORTS):
            found = _shortest(rects, (width, most), filler, sort, turn)
            if found is None:
                continue
            boxes = _boxes(found, kerf_mm, sizes)
            score = _length(boxes, sizes)
            if best is None or score < best[0]:
                best = score, boxes
    if best is None:
        raise ValueError("a box larger than its sheet")
    return best[1], *best[0]


def _ways(sizes: Sizes, kerf_mm: float) -> Iterable[tuple[list[_Rect], bool]]:
    """Rectangles with their kerf, and whether all may be turned."""
    first = [_rect(each[0], kerf_mm, k) for k, each in enumerate(sizes)]
    yield first, all(len(each) == 2 for each in sizes)
    lying = [_rect(max(each), kerf_mm, k) for k, each in enumerate(sizes)]
    standing = [_rect(min(each), kerf_mm, k) for k, each in enumerate(sizes)]
    yield from ((each, False) for each in (lying, standing) if each != first)


def _rect(size: tuple[float, float], kerf_mm: float, number: int) -> _Rect:
    return _up(size[0] + kerf_mm), _up(size[1] + kerf_mm), number


def _shortest(
    rects: list[_Rect], bin_size: tuple[int, int], filler: object, sort: object, turn: bool
) -> list[tuple[int, ...]] | None:
    """What rectpack makes of it, with the last sheet as short as halving finds."""
    width, most = bin_size
    found = _fill(rects, [(width, most)] * len(rects), filler, sort, turn)
    if found is None:
        return None
    whole = max(each[0] for each in found)
    good = _end(found, whole)
    bad = 0
    for _ in range(_HALVINGS):
        middle = (good + bad) // 2
        trial = _fill(rects, [(width, most)] * whole + [(width, middle)], filler, sort, turn)
        if trial is None:
            bad = middle
        else:
            found, good = trial, min(middle, _end(trial, whole))
    return found


def _end(found: Sequence[tuple[int, ...]], sheet: int) -> int:
    return max((y + high for on, _, y, _, high, _ in found if on == sheet), default=0)


def _fill(
    rects: list[_Rect], bins: list[tuple[int, int]], filler: object, sort: object, turn: bool
) -> list[tuple[int, ...]] | None:
    """(bin, x, y, width, height, number) of all rectangles; None where they do not all go in."""
    packer = rectpack.newPacker(
        bin_algo=rectpack.PackingBin.BFF, pack_algo=filler, sort_algo=sort, rotation=turn
    )
    for rect in rects:
        packer.add_rect(*rect)
    for each in bins:
        packer.add_bin(*each)
    packer.pack()
    found = packer.rect_list()
    return sorted((b, x, y, w, h, n) for b, x, y, w, h, n in found) if len(found) == len(rects) else None


def _boxes(found: Sequence[tuple[int, ...]], kerf_mm: float, sizes: Sizes) -> tuple[Boxed, ...]:
    return tuple(
        Boxed(number, sheet, x * _UNIT_MM, y * _UNIT_MM, _rect(sizes[number][0], kerf_mm, 0)[:2] != (w, h))
        for sheet, x, y, w, h, number in found
    )


def _length(boxes: Sequence[Boxed], sizes: Sizes) -> tuple[int, float]:
    ends: dict[int, float] = {}
    for box in boxes:
        end = box.y + sizes[box.part][box.flipped][1]
        ends[box.sheet] = max(ends.get(box.sheet, 0.0), end)
    return len(ends), math.fsum(ends.values())


def _up(mm: float) -> int:
    return math.ceil((mm - _ROOM_MM) / _UNIT_MM)


def _down(mm: float) -> int:
    return math.floor((mm + _ROOM_MM) / _UNIT_MM)
