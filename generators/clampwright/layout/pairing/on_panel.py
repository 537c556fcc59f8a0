"""Places for the bolt of one clamp that holds a line off a panel."""

from __future__ import annotations

from clampwright.layout.pairing.closed import Closed, held_at
from clampwright.quantities.directions import along, cross, dot, minus, square_part, turned_round, unit
from clampwright.structure.surroundings import Panel
from clampwright.structure.tubes import Tube
from clampwright.trade.clamps import LoopClamp


def face_distance(panel: Panel, line: Tube, station_mm: float) -> float:
    """Height of the line's axis over the panel's face, mm; negative behind it.

    >>> wall = Panel("firewall", (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 0.5, "304 stainless")
    >>> face_distance(wall, Tube("hose", (30.0, 0.0, 0.0), (30.0, 100.0, 0.0), 20.0), 50.0)
    30.0
    """
    return dot(minus(line.point(station_mm), panel.point), panel.normal)


def panel_places(panel: Panel, line: Tube, clamp: LoopClamp, station_mm: float) -> tuple[Closed, ...]:
    """Both places for the bolt at a station of the line: one to either side of it.

    The bolt stands square to the panel; L = (h − P)·n − seat / cos tilt, with h the clamp's hole at the
    height of the line's axis, P a point of the face and tilt the angle between line and panel.

    >>> from clampwright.trade.clamps import loop_clamp
    >>> clamp = loop_clamp(19.05, "CH", reach_mm=20.0, seat_mm=13.0)
    >>> wall = Panel("firewall", (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 0.5, "304 stainless")
    >>> hose = Tube("hose", (30.0, 0.0, 0.0), (30.0, 100.0, 0.0), 19.05)
    >>> [(p.foot, p.spacer_mm) for p in panel_places(wall, hose, clamp, 50.0)]
    [((0.0, 50.0, -20.0), 17.0), ((0.0, 50.0, 20.0), 17.0)]
    """
    return tuple(_place(panel, line, clamp, station_mm, turn) for turn in (1, -1))


def _place(panel: Panel, line: Tube, clamp: LoopClamp, station_mm: float, turn: int) -> Closed:
    n, b = panel.normal, line.direction
    own = turned_round(unit(square_part(n, b)))
    hole = along(line.point(station_mm), (unit(cross(own, b)), turn * clamp.reach_mm))
    foot = along(hole, (n, -dot(minus(hole, panel.point), n)))
    return held_at(foot, n, (line, clamp), turn, (0.0, 0))
