"""Many gaps, few lengths of bushing: which made length and which washers fill each gap."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from itertools import combinations_with_replacement

from clampwright.layout.packing import flat_washers
from clampwright.trade.hardware import Washer
from clampwright.trade.tables import rule

Washers = tuple[Washer, ...]
Cost = tuple[int, int, int, int]
"""Made lengths, washers, sum of what is left in nanometres, sum of the lengths in steps."""

_SAME_MM = 1e-6
_NANOMETRES = 1_000_000


@dataclass(frozen=True, slots=True)
class Way:
    """One way to fill a gap: a bushing of `steps` increments under some washers; lengths in mm."""

    steps: int
    washers: Washers
    left_mm: float
    """Gap less bushing less washers."""

    @property
    def cost(self) -> Cost:
        """What it costs in a made length that is already there."""
        return (0, len(self.washers), round(abs(self.left_mm) * _NANOMETRES), 0)


def washer_sets(bolt: str) -> tuple[Washers, ...]:
    """Every choice of up to `gap-washers-most` thin and regular washers, none first.

    Examples
    --------
    >>> [[washer.part for washer in each] for each in washer_sets("AN3")][:3]
    [[], ['AN960-10L'], ['AN960-10']]
    """
    most, flat = int(rule("gap-washers-most").value), flat_washers(bolt)
    return tuple(each for count in range(most + 1) for each in combinations_with_replacement(flat, count))


def ways(gap_mm: float, allowed: Sequence[Washers], step_mm: float) -> dict[int, Way]:
    """The best way to fill a gap with each made length that leaves no more than `gap-nothing` either way.

    A length is the best one where it needs the fewest washers, and then leaves least. The gap's own
    length, rounded to the step, is always among them while no washer at all is allowed.

    Parameters
    ----------
    gap_mm
        Length that the geometry asks for.
    allowed
        Sets of washers that may lie on the bushing.
    step_mm
        Increment of made lengths.

    Returns
    -------
    dict
        Steps of the made length to the way.

    Examples
    --------
    >>> sorted(ways(12.77, [()], 0.127)), sorted(ways(12.75, [()], 0.1))
    ([100, 101], [127, 128])
    """
    tolerance, least = rule("gap-nothing").value + _SAME_MM, rule("bushing-least").value - _SAME_MM
    found: dict[int, Way] = {}
    for washers in allowed:
        rest = gap_mm - sum(washer.thickness_mm for washer in washers)
        low = math.ceil(max(rest - tolerance, least) / step_mm - _SAME_MM)
        steps = set(range(low, math.floor((rest + tolerance) / step_mm) + 1))
        steps |= set() if washers else {max(1, round(gap_mm / step_mm))}
        for each in steps:
            way = Way(each, washers, rest - each * step_mm)
            if each not in found or way.cost < found[each].cost:
                found[each] = way
    return found


def fewest_lengths(choices: Sequence[dict[int, Way]]) -> tuple[Way, ...]:
    """One way a gap, so that the made lengths are as few as can be, then the washers, then what is left.

    Exact for up to `bushing-gaps-exact` gaps that differ; more are cut into runs of neighbours.

    Parameters
    ----------
    choices
        For each gap its ways, as `ways` gives them; none empty.

    Examples
    --------
    >>> found = fewest_lengths([ways(10.03, [()], 0.1), ways(10.11, [()], 0.1), ways(14.0, [()], 0.1)])
    >>> [way.steps for way in found]
    [101, 101, 140]
    """
    most = int(rule("bushing-gaps-exact").value)
    kinds = sorted({tuple(sorted(each.items())) for each in choices}, key=lambda kind: kind[0][0])
    lots = {kind: [dict(kind)] * sum(tuple(sorted(c.items())) == kind for c in choices) for kind in kinds}
    taken: dict[tuple[tuple[int, Way], ...], Way] = {}
    for start in range(0, len(kinds), most):
        run = kinds[start : start + most]
        ways_taken = _exact([(dict(kind), len(lots[kind])) for kind in run])
        taken |= dict(zip(run, ways_taken, strict=True))
    return tuple(taken[tuple(sorted(each.items()))] for each in choices)


def _exact(run: Sequence[tuple[dict[int, Way], int]]) -> list[Way]:
    """The cheapest lengths for a run of (ways, how many such gaps): subsets of gaps, smallest first."""
    lengths = sorted({steps for found, _ in run for steps in found})
    reach = {s: sum(1 << i for i, (found, _) in enumerate(run) if s in found) for s in lengths}
    price = [{s: tuple(x * many for x in way.cost) for s, way in found.items()} for found, many in run]

    @cache
    def group(steps: int, gaps: int) -> Cost:
        rows = [price[i][steps] for i in _bits(gaps)]
        return (1, sum(r[1] for r in rows), sum(r[2] for r in rows), steps)

    @cache
    def best(gaps: int) -> tuple[Cost, tuple[tuple[int, int], ...]]:
        if not gaps:
            return (0, 0, 0, 0), ()
        first = gaps & -gaps
        found = []
        for steps in run[first.bit_length() - 1][0]:
            others = reach[steps] & gaps & ~first
            for more in _subsets(others):
                cost, taken = best(gaps & ~first & ~more)
                own = group(steps, first | more)
                found.append((_sum(own, cost), ((steps, first | more), *taken)))
        return min(found)

    _, taken = best((1 << len(run)) - 1)
    return [run[i][0][next(s for s, gaps in taken if gaps >> i & 1)] for i in range(len(run))]


def _sum(a: Cost, b: Cost) -> Cost:
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3])


def _bits(gaps: int) -> list[int]:
    return [i for i in range(gaps.bit_length()) if gaps >> i & 1]


def _subsets(gaps: int) -> list[int]:
    """Every subset, the whole first, none last."""
    found, each = [], gaps
    while True:
        found.append(each)
        if not each:
            return found
        each = (each - 1) & gaps
