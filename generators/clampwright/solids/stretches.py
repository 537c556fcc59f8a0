"""Stretches along a line or round a circle: joined, and taken from each other."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

Stretch = tuple[float, float]
"""From and to, the second not below the first."""


def joined(stretches: Iterable[Stretch], slack: float) -> list[Stretch]:
    """Stretches that overlap, or are no farther apart than `slack`, as one; in order.

    >>> joined([(4.0, 6.0), (0.0, 2.0), (1.0, 3.0)], 0.1)
    [(0.0, 3.0), (4.0, 6.0)]
    """
    found: list[Stretch] = []
    for low, high in sorted(stretches):
        if found and low <= found[-1][1] + slack:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found


def less(stretches: Iterable[Stretch], taken: Sequence[Stretch], slack: float) -> list[Stretch]:
    """What of the stretches none of `taken` covers; rests no longer than `slack` are dropped.

    >>> less([(0.0, 10.0)], [(2.0, 3.0), (9.95, 12.0)], 0.1)
    [(0.0, 2.0), (3.0, 9.95)]
    """
    left = list(stretches)
    for low, high in taken:
        left = [
            part
            for start, end in left
            for part in ((start, min(end, low)), (max(start, high), end))
            if part[1] - part[0] > slack
        ]
    return [part for part in left if part[1] - part[0] > slack]
