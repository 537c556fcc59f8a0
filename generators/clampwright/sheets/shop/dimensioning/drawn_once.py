"""Extension lines that several dimensions share, drawn by the one whose line is longest."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Dimension, Item, Path

_SAME = 1e-6


def drawn_once(dimensions: Sequence[Dimension]) -> tuple[Dimension, ...]:
    """The dimensions in their order, none with an extension line where that of another lies.

    Examples
    --------
    >>> def down(x, low):
    ...     return Path(((x, 0.0), (x, low)))
    >>> ends = ((0.0, 0.0), (10.0, 0.0))
    >>> short = Dimension("horizontal", ends, 10.0, "10", 1.0, (down(0.0, -9.0), down(10.0, -9.0)))
    >>> long = Dimension("horizontal", ends, 20.0, "20", 1.0, (down(0.0, -17.0), down(20.0, -17.0)))
    >>> [len(each.strokes) for each in drawn_once([short, long])]
    [1, 2]
    """
    lines = [(n, each) for n, one in enumerate(dimensions) for each in _extensions(one)]
    lines.sort(key=lambda pair: -math.dist(*pair[1].points))
    kept: list[Path] = []
    instead: list[dict[int, Path | None]] = [{} for _ in dimensions]
    for n, one in lines:
        left = _uncovered(one, kept)
        if left is not None:
            kept.append(left)
        if left is not one:
            instead[n][id(one)] = left
    return tuple(_with(one, changed) for one, changed in zip(dimensions, instead, strict=True))


def _with(one: Dimension, instead: dict[int, Path | None]) -> Dimension:
    if not instead:
        return one
    strokes: list[Item] = []
    for stroke in one.strokes:
        new = instead.get(id(stroke), stroke) if isinstance(stroke, Path) else stroke
        if new is not None:
            strokes.append(new)
    return replace(one, strokes=tuple(strokes))


def _extensions(one: Dimension) -> list[Path]:
    """Straight lines of a length that run to no arrow head."""
    if one.kind not in ("horizontal", "vertical", "aligned"):
        return []
    paths = [each for each in one.strokes if isinstance(each, Path)]
    tips = [each.points[0] for each in paths if each.fill is not None]
    return [
        each
        for each in paths
        if each.fill is None
        and len(each.points) == 2
        and all(math.dist(end, tip) > _SAME for end in each.points for tip in tips)
    ]


def _uncovered(one: Path, others: Sequence[Path]) -> Path | None:
    """What of a line none of the others covers; None where nothing is left."""
    a, b = one.points
    long = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / long, (b[1] - a[1]) / long
    start, end = 0.0, long
    for other in others:
        spots = [
            ((x - a[0]) * ux + (y - a[1]) * uy, (y - a[1]) * ux - (x - a[0]) * uy) for x, y in other.points
        ]
        if any(abs(off) > _SAME for _, off in spots):
            continue
        low, high = sorted(along for along, _ in spots)
        if low <= start + _SAME:
            start = max(start, high)
        elif high >= end - _SAME:
            end = min(end, low)
    if end - start <= _SAME:
        return None
    if start <= _SAME and end >= long - _SAME:
        return one

    def at(along: float) -> Vec2:
        return a[0] + along * ux, a[1] + along * uy

    return replace(one, points=(at(start), at(end)))
