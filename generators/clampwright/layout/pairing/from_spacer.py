"""Where the line ends up when the spacer is given."""

from __future__ import annotations

import math
from dataclasses import replace

from clampwright.layout.pairing.closed import SIDES, Closed, Pair, closed
from clampwright.layout.pairing.on_panel import panel_places
from clampwright.layout.pairing.parallel_pair import lateral, parallel_places
from clampwright.layout.pairing.skew_pair import common_square, skew_places
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along, cross, dot, minus, turned_round
from clampwright.structure.surroundings import Panel
from clampwright.structure.tubes import Tube
from clampwright.trade.clamps import LoopClamp

_ROUNDS = 50
_CLOSE = 1e-10


def moved(line: Tube, by: Vec3) -> Tube:
    """The line shifted as it is.

    >>> moved(Tube("hose", (0, 0, 0), (9, 0, 0), 6.0), (0.0, 2.0, 0.0)).end
    (9.0, 2.0, 0.0)
    """
    return replace(line, start=along(line.start, (by, 1.0)), end=along(line.end, (by, 1.0)))


def skew_from_spacer(pair: Pair, spacer_mm: float, toward: Vec3 | None) -> tuple[Closed, ...]:
    """The places with the line moved along the common square until the spacer fits, sideways as it is.

    d = L + seat_A + seat_B along n = ± a × b, on the side that `toward` looks to (None: where the line is).

    >>> from clampwright.trade.clamps import loop_clamp
    >>> clamp = loop_clamp(19.05, "CH", reach_mm=20.0, seat_mm=13.0)
    >>> low = Tube("low", (0.0, 0.0, 0.0), (400.0, 0.0, 0.0), 19.05)
    >>> rough = Tube("over", (200.0, -100.0, 70.0), (200.0, 100.0, 70.0), 19.05)
    >>> skew_from_spacer(Pair(low, clamp, rough, clamp), 4.0, None)[0].line.start
    (200.0, -100.0, 30.0)
    """
    n, distance = common_square(pair.tube, pair.line)
    if toward is not None and dot(n, toward) < 0:
        n, distance = turned_round(n), -distance
    wanted = spacer_mm + pair.on_tube.seat_mm + pair.on_line.seat_mm
    return skew_places(replace(pair, line=moved(pair.line, along((0.0, 0.0, 0.0), (n, wanted - distance)))))


def skew_at_station(pair: Pair, spacer_mm: float, toward: Vec3, station_mm: float) -> tuple[Closed, ...]:
    """The places with the tube's clamp at a station: only the line's direction and side are known.

    Each choice of sides then has its own line, through h − turn_B reach_B (m × b) + (L + seat_A + seat_B) n.
    """
    n, _ = common_square(pair.tube, pair.line)
    n = n if dot(n, toward) > 0 else turned_round(n)
    return tuple(_at_station(pair, spacer_mm, n, station_mm, *turns) for turns in SIDES)


def _at_station(
    pair: Pair, spacer_mm: float, n: Vec3, station_mm: float, turn_tube: int, turn_line: int
) -> Closed:
    rough = closed(pair, n, station_mm, turn_tube, turn_line)
    b, out = pair.line.direction, cross(rough.own_axis_line, pair.line.direction)
    through = along(
        rough.foot,
        (n, spacer_mm + pair.on_line.seat_mm),
        (out, -turn_line * pair.on_line.reach_mm),
    )
    onto = dot(minus(pair.line.start, through), b)
    line = moved(pair.line, minus(along(through, (b, onto)), pair.line.start))
    return closed(replace(pair, line=line), n, station_mm, turn_tube, turn_line)


def parallel_from_spacer(pair: Pair, spacer_mm: float, side: Vec3, station_mm: float) -> tuple[Closed, ...]:
    """The places with the line on the given side, square to the tube, as far out as the spacer holds it.

    D = √((L + seat_A + seat_B)² + ℓ²), ℓ being the lateral of the two sides: each has its own line.

    >>> from clampwright.trade.clamps import loop_clamp
    >>> clamp = loop_clamp(19.05, "CH", reach_mm=20.0, seat_mm=13.0)
    >>> low = Tube("low", (0.0, 0.0, 0.0), (400.0, 0.0, 0.0), 19.05)
    >>> pair = Pair(low, clamp, low, clamp)
    >>> found = parallel_from_spacer(pair, 4.0, (0.0, 0.0, 1.0), 200.0)
    >>> [round(place.line.start[2], 6) for place in found]
    [50.0, 30.0, 30.0, 50.0]
    """
    found = (_at_distance(pair, spacer_mm, side, station_mm, *turns) for turns in SIDES)
    return tuple(place for place in found if place is not None)


def _at_distance(
    pair: Pair, spacer_mm: float, side: Vec3, station_mm: float, turn_tube: int, turn_line: int
) -> Closed | None:
    height = spacer_mm + pair.on_tube.seat_mm + pair.on_line.seat_mm
    distance = math.hypot(height, lateral(pair, turn_tube, turn_line))
    place = None
    for _ in range(_ROUNDS):
        there = replace(pair, line=_set_off(pair, side, distance, station_mm))
        place = next(
            (
                p
                for p in parallel_places(there, station_mm)
                if (p.turn_tube, p.turn_line) == (turn_tube, turn_line)
            ),
            None,
        )
        if place is None or abs(spacer_mm - place.spacer_mm) < _CLOSE:
            break
        distance += (spacer_mm - place.spacer_mm) * height / distance
    return place


def _set_off(pair: Pair, side: Vec3, distance: float, station_mm: float) -> Tube:
    """The line moved so that abreast of a station it is this far off the tube on this side."""
    a, b = pair.tube.direction, pair.line.direction
    here = pair.tube.point(station_mm)
    abreast = pair.line.point(dot(minus(here, pair.line.start), a) / dot(b, a))
    return moved(pair.line, minus(along(here, (side, distance)), abreast))


def panel_from_spacer(
    panel: Panel, line: Tube, clamp: LoopClamp, station_mm: float, spacer_mm: float
) -> tuple[Closed, ...]:
    """The places with the line moved square to the panel until the spacer fits; each has its own line."""
    rough = panel_places(panel, line, clamp, station_mm)
    lines = [moved(line, along((0.0, 0.0, 0.0), (panel.normal, spacer_mm - p.spacer_mm))) for p in rough]
    return tuple(panel_places(panel, each, clamp, station_mm)[i] for i, each in enumerate(lines))
