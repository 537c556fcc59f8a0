"""Places for the bolt of two clamps whose tube and line run side by side."""

from __future__ import annotations

import math

from clampwright.layout.pairing.closed import SIDES, Closed, Pair, closed
from clampwright.quantities import Vec3
from clampwright.quantities.directions import (
    along,
    cross,
    crossing,
    dot,
    minus,
    square_part,
    turned_round,
    unit,
)
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule

_ROUNDS = 30
_CLOSE = 1e-10
"""Millimetres to which both holes lie on one bolt."""


def beside(pair: Pair, station_mm: float) -> tuple[Vec3, float]:
    """Direction and distance of the line from the tube's axis, square to the tube at a station.

    Raises
    ------
    ZeroDivisionError
        The two axes meet there.

    >>> from clampwright.trade.clamps import loop_clamp
    >>> low, hose = Tube("low", (0, 0, 0), (100, 0, 0), 19.05), Tube("hose", (0, 3, 40), (100, 3, 40), 19.05)
    >>> clamp = loop_clamp(19.05, "CH")
    >>> beside(Pair(low, clamp, hose, clamp), 50.0)[1] == math.hypot(3.0, 40.0)
    True
    """
    a, b = pair.tube.direction, pair.line.direction
    here = pair.tube.point(station_mm)
    abreast = dot(minus(here, pair.line.start), a) / dot(b, a)
    away = square_part(minus(pair.line.point(abreast), here), a)
    return unit(away), math.sqrt(dot(away, away))


def nearly_parallel(tube: Tube, line: Tube) -> bool:
    """Whether the two are laid out as side by side: by rule `tubes-parallel-most`."""
    return crossing(tube.direction, line.direction) <= math.radians(rule("tubes-parallel-most").value)


def may_lie_beside(tube: Tube, line: Tube) -> bool:
    """Whether a clamp on the line could take their angle as tilt: by rule `tilt-fail`."""
    return crossing(tube.direction, line.direction) <= math.radians(rule("tilt-fail").value)


def lateral(pair: Pair, turn_tube: int, turn_line: int) -> float:
    """How far the line lies to the side of the bolt direction, with the sign of n × a, mm.

    turn_A reach_A + turn_B reach_B for axes that run the same way: with equal clamps 0 (both feet on one
    side) or both reaches (a loop to either side of the bolt).
    """
    way = math.copysign(1.0, dot(pair.tube.direction, pair.line.direction))
    return turn_tube * pair.on_tube.reach_mm + way * turn_line * pair.on_line.reach_mm


def parallel_places(pair: Pair, station_mm: float) -> tuple[Closed, ...]:
    """Every place for the bolt at a station of the tube: one for each choice of sides that there is.

    With D and e the distance and direction of the line from the tube and ℓ the lateral, the bolt leans
    from e by asin(ℓ/D) in the plane square to the tube, and L = √(D² − ℓ²) − seat_A − seat_B. Where ℓ > D
    there is no such place. A line that is not quite parallel is closed in by steps of the same formula, so
    that both holes lie on one bolt; its clamp is then tilted.

    >>> from clampwright.trade.clamps import loop_clamp
    >>> clamp = loop_clamp(19.05, "CH", reach_mm=20.0, seat_mm=13.0)
    >>> low = Tube("low", (0.0, 0.0, 0.0), (400.0, 0.0, 0.0), 19.05)
    >>> by = Tube("by", (0.0, 0.0, 50.0), (400.0, 0.0, 50.0), 19.05)
    >>> [round(p.spacer_mm, 6) for p in parallel_places(Pair(low, clamp, by, clamp), 200.0)]
    [4.0, 24.0, 24.0, 4.0]
    """
    found = (_place(pair, station_mm, *turns) for turns in SIDES)
    return tuple(place for place in found if place is not None)


def leaning(e: Vec3, a: Vec3, sideways: float, distance: float) -> Vec3 | None:
    """Bolt direction n, square to a, for which e·(n × a) = sideways / distance; None where there is none."""
    if abs(sideways) > distance or not distance:
        return None
    share = sideways / distance
    return unit(along((0.0, 0.0, 0.0), (e, math.sqrt(1.0 - share * share)), (cross(e, a), -share)))


def _place(pair: Pair, station_mm: float, turn_tube: int, turn_line: int) -> Closed | None:
    try:
        e, distance = beside(pair, station_mm)
    except ZeroDivisionError:
        return None
    sideways = lateral(pair, turn_tube, turn_line)
    for _ in range(_ROUNDS):
        n = leaning(e, pair.tube.direction, sideways, distance)
        off = 0.0 if n is None else _off(pair, n, station_mm, turn_tube, turn_line)
        if n is None or abs(off) < _CLOSE:
            return None if n is None else closed(pair, n, station_mm, turn_tube, turn_line)
        sideways += off
    return None


def _off(pair: Pair, n: Vec3, station_mm: float, turn_tube: int, turn_line: int) -> float:
    """How far the line's hole would lie from the bolt, with the sign of n × a, seen along n."""
    a, b = pair.tube.direction, pair.line.direction
    hole = along(pair.tube.point(station_mm), (cross(n, a), turn_tube * pair.on_tube.reach_mm))
    out = unit(cross(turned_round(n), b))
    at = along(pair.line.start, (out, turn_line * pair.on_line.reach_mm))
    way = math.copysign(1.0, dot(out, cross(n, a)))
    return way * dot(minus(hole, at), out)
