"""Labels one under the other: each as near its target as the others let it."""

from __future__ import annotations

from collections.abc import Sequence


def spread(targets: Sequence[float], heights: Sequence[float], low: float, high: float) -> tuple[float, ...]:
    """Middles of labels of some heights, from the top, near their targets, none over another.

    The least sum of squared distances between middle and target, in the order given (pool adjacent
    violators), within low..high where all of them fit in there.

    Examples
    --------
    >>> spread((10.0, 10.0), (2.0, 2.0), 0.0, 20.0)
    (11.0, 9.0)
    >>> spread((19.5, 3.0), (2.0, 2.0), 0.0, 20.0)
    (19.0, 3.0)
    """
    depths = [sum(heights[:n]) + height / 2 for n, height in enumerate(heights)]
    raised = [target + depth for target, depth in zip(targets, depths, strict=True)]
    pools: list[tuple[float, int]] = []
    for value in raised:
        pool = (value, 1)
        while pools and pools[-1][0] < pool[0]:
            mean, count = pools.pop()
            pool = ((mean * count + pool[0] * pool[1]) / (count + pool[1]), count + pool[1])
        pools.append(pool)
    level = [min(max(mean, low + sum(heights)), high) for mean, count in pools for _ in range(count)]
    return tuple(value - depth for value, depth in zip(level, depths, strict=True))
