"""The clamps of a place as loops: on the tube "A1", on the line "B1"."""

from __future__ import annotations

from clampwright.layout.joined import Loop
from clampwright.layout.pairing.closed import Closed
from clampwright.quantities import Vec3
from clampwright.structure.tubes import Tube
from clampwright.trade.clamps import LoopClamp


def loops_of(
    place: Closed, tube: Tube | None, on_tube: LoopClamp | None, on_line: LoopClamp, given: bool
) -> tuple[Loop, ...]:
    """The loop on the tube, where there is one, and the loop on the line."""
    of_line = _loop(
        "B1",
        place.line,
        place.station_line_mm,
        place.turn_line,
        on_line,
        place.own_axis_line,
        place.tilt_rad,
        False,
    )
    if tube is None or on_tube is None:
        return (of_line,)
    of_tube = _loop("A1", tube, place.station_tube_mm, place.turn_tube, on_tube, place.axis, 0.0, given)
    return (of_tube, of_line)


def side_word(turn: int) -> str:
    """Side of the bolt, seen against the clamp's bolt direction with the tube's start below.

    That the hole lies at turn · (n × a) makes +1 the left: with a up the page and n out of it, n × a points
    to the left.

    >>> side_word(1), side_word(-1)
    ('left', 'right')
    """
    return "left" if turn > 0 else "right"


def _loop(
    label: str,
    tube: Tube,
    station: float,
    turn: int,
    clamp: LoopClamp,
    axis: Vec3,
    tilt: float,
    given: bool,
) -> Loop:
    return Loop(
        label=label,
        tube=tube.name,
        station_mm=station,
        side=side_word(turn),
        turn=turn,
        clamp=clamp,
        centre=tube.point(station),
        axis=tube.direction,
        bolt_axis=axis,
        tilt_rad=tilt,
        station_given=given,
        measured=clamp.measured,
    )
