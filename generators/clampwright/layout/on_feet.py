"""How a plate or component settles on its clamps: which feet it stands on, and in which order it is fixed."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from clampwright.layout.clamp_rows import Body, ClampRows, Linear
from clampwright.layout.in_turn import Condition, condition
from clampwright.layout.joined import Loop
from clampwright.layout.placed import ClampPlace
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]

_AS_FAR = 0.9
"""Share of the distance of the farthest foot at which another carries as well: the first of them does."""
_EVEN = 6
"""Decimals of a millimetre to which equal distances are equal, and the first counts."""


def reference_tube(clamps: Sequence[Loop]) -> str:
    """The tube with the most clamps, the first of several; "" without clamps."""
    counts = Counter(clamp.tube for clamp in clamps)
    return max(counts, key=lambda tube: counts[tube], default="")


def stands_on(clamps: Sequence[ClampPlace]) -> tuple[str, ...]:
    """Labels of the feet that carry the part on packing as listed: three, or all where there are fewer.

    The two of the reference tube that are farthest apart, then the first that is far off the line through
    both bolts, as far as any or nearly so. A rigid part on three feet does not rock, whatever their heights;
    under every other foot a gap is left as wide as the tubes are out.
    """
    if len(clamps) < 3:
        return tuple(clamp.label for clamp in clamps)
    first, second = _first_two(clamps)
    rest = [clamp for clamp in clamps if clamp is not first and clamp is not second]
    farthest = max(_off_line(clamp, first, second) for clamp in rest)
    if farthest <= parallel_least() * math.dist(first.at, second.at):
        return (first.label, second.label)
    third = next(c for c in rest if _off_line(c, first, second) >= _AS_FAR * farthest)
    return (first.label, second.label, third.label)


def parallel_least() -> float:
    """Sine of half the angle up to which tubes are laid out as parallel (rule `tubes-parallel-most`).

    What two tubes at that angle say of a movement along them: nothing that a measurement could bear.
    """
    return math.sin(math.radians(rule("tubes-parallel-most").value) / 2)


def plate_conditions(clamps: Sequence[ClampPlace], rows: Sequence[ClampRows]) -> list[Condition]:
    """As the drill sheet's order of work: on its feet, the reference tube's bolts in their holes, its first
    clamp at its station. Where the reference has one clamp only, the plate is turned about that until the
    other holes lie as near to their clamps, each at its station, as can be.
    """
    tube, least = reference_tube(clamps), parallel_least()
    pairs = list(zip(clamps, rows, strict=True))
    return [
        *_on_feet(clamps, rows),
        condition((r.across for c, r in pairs if c.tube == tube), least),
        _first_station(clamps, rows),
        condition(figure for r in rows for figure in (r.across, r.station)),
    ]


def component_conditions(clamps: Sequence[ClampPlace], rows: Sequence[ClampRows]) -> list[Condition]:
    """On its feet, all bolts together as near to their holes as may be, the first clamp at its station."""
    return [
        *_on_feet(clamps, rows),
        condition((r.across for r in rows), parallel_least()),
        _first_station(clamps, rows),
        condition(r.station for r in rows),
    ]


def body_of(clamps: Sequence[Loop], n: Array) -> Body:
    """The part as a body: turned about the middle of its clamps, with the radius that they lie at."""
    centres = np.array([clamp.centre for clamp in clamps])
    middle = centres.mean(axis=0)
    radius = float(np.sqrt(np.mean(np.sum((centres - middle) ** 2, axis=1))))
    return Body(n, middle, max(radius, clamps[0].clamp.reach_mm))


def _on_feet(clamps: Sequence[ClampPlace], rows: Sequence[ClampRows]) -> list[Condition]:
    """Gaps of the feet that carry it; where those are fewer than three, clamps as square as they can be."""
    carry = stands_on(clamps)
    gaps = condition(r.gap for c, r in zip(clamps, rows, strict=True) if c.label in carry)
    if len(carry) > 2:
        return [gaps]
    radius, least = body_of(clamps, np.zeros(3)).radius_mm, math.sin(math.radians(rule("tilt-fail").value))
    return [gaps, condition((r.tilt.times(radius) for r in rows), least)]


def _first_station(clamps: Sequence[ClampPlace], rows: Sequence[ClampRows]) -> Condition:
    tube = reference_tube(clamps)
    first: list[Linear] = [r.station for c, r in zip(clamps, rows, strict=True) if c.tube == tube][:1]
    return condition(first)


def _first_two(clamps: Sequence[ClampPlace]) -> tuple[ClampPlace, ClampPlace]:
    tube = reference_tube(clamps)
    own = sorted((c for c in clamps if c.tube == tube), key=lambda clamp: clamp.station_mm)
    if len(own) > 1:
        return own[0], own[-1]
    others = [clamp for clamp in clamps if clamp is not own[0]]
    return own[0], max(others, key=lambda clamp: round(math.dist(clamp.at, own[0].at), _EVEN))


def _off_line(clamp: ClampPlace, one: ClampPlace, other: ClampPlace) -> float:
    (x, y), (u, v) = clamp.at, one.at
    du, dv = other.at[0] - u, other.at[1] - v
    span = math.hypot(du, dv)
    return abs((x - u) * dv - (y - v) * du) / span if span else math.dist(clamp.at, one.at)
