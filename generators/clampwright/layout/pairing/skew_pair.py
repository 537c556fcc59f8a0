"""Places for the bolt of two clamps whose tube and line are not parallel."""

from __future__ import annotations

from clampwright.layout.pairing.closed import SIDES, Closed, Pair, closed
from clampwright.quantities import Vec3
from clampwright.quantities.directions import cross, dot, minus, turned_round, unit
from clampwright.structure.tubes import Tube


def common_square(tube: Tube, line: Tube) -> tuple[Vec3, float]:
    """Unit direction square to both axes, from the tube to the line, and the distance of the axes along it.

    n ∥ a × b, d = (B₀ − A₀)·n ≥ 0.

    >>> low = Tube("low", (0.0, 0.0, 0.0), (100.0, 0.0, 0.0), 20.0)
    >>> over = Tube("over", (0.0, 0.0, 30.0), (0.0, 100.0, 30.0), 20.0)
    >>> common_square(low, over)
    ((0.0, 0.0, 1.0), 30.0)
    """
    n = unit(cross(tube.direction, line.direction))
    distance = dot(minus(line.start, tube.start), n)
    return (n, distance) if distance >= 0 else (turned_round(n), -distance)


def skew_places(pair: Pair) -> tuple[Closed, ...]:
    """Every place for the bolt: one for each choice of sides, four in all.

    Seen along n, the bolt lies where a line beside the tube's axis at the tube's reach crosses a line
    beside the line's axis at the line's reach:
    s = [(B₀ − A₀)·(n × b) − turn_B reach_B − turn_A reach_A (a·b)] / (a·(n × b)).

    >>> from clampwright.trade.clamps import loop_clamp
    >>> clamp = loop_clamp(19.05, "CH", reach_mm=20.0, seat_mm=13.0)
    >>> low = Tube("low", (0.0, 0.0, 0.0), (400.0, 0.0, 0.0), 19.05)
    >>> over = Tube("over", (200.0, -100.0, 50.0), (200.0, 100.0, 50.0), 19.05)
    >>> [(round(p.station_tube_mm), round(p.spacer_mm)) for p in skew_places(Pair(low, clamp, over, clamp))]
    [(220, 24), (180, 24), (220, 24), (180, 24)]
    """
    n, _ = common_square(pair.tube, pair.line)
    return tuple(closed(pair, n, _station(pair, n, *turns), *turns) for turns in SIDES)


def _station(pair: Pair, n: Vec3, turn_tube: int, turn_line: int) -> float:
    a, b = pair.tube.direction, pair.line.direction
    across = cross(n, b)
    apart = dot(minus(pair.line.start, pair.tube.start), across)
    reaches = turn_line * pair.on_line.reach_mm + turn_tube * pair.on_tube.reach_mm * dot(a, b)
    return (apart - reaches) / dot(a, across)
