"""Every clamp in plan: label, station, hole, foot side and height of its seat, before the plate is drawn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from clampwright.layout.clamps_wanted import ClampWanted
from clampwright.layout.drilled_holes import letters
from clampwright.layout.increment import to_nearest
from clampwright.layout.tube_lines import TubeLine, turns
from clampwright.quantities import Vec2


@dataclass(frozen=True, slots=True)
class ClampInPlan:
    """One clamp in plan and height, both counted from the lines' reference."""

    label: str
    wanted: ClampWanted
    line: TubeLine
    station_mm: float
    turn: int
    hole: Vec2
    seat_mm: float
    """Height of the foot's outer face at the bolt."""


def clamps_in_plan(
    chosen: Sequence[tuple[ClampWanted, float]], lines: Sequence[TubeLine]
) -> tuple[ClampInPlan, ...]:
    """The clamps, tube by tube in station order: A1, A2, B1, ...

    With c the tube's axis at the station, the hole lies at c + turn · reach · (m × a), m being the clamp's
    bolt direction and a the tube's.
    """
    found = []
    for i, (line, letter) in enumerate(zip(lines, letters(len(lines)), strict=True)):
        others = [o for j, o in enumerate(lines) if j != i]
        own = sorted(
            ((w, s) for w, s in chosen if w.tube == line.tube.name), key=lambda pair: (pair[1], pair[0].line)
        )
        for number, (wanted, station) in enumerate(own, start=1):
            found.append(_in_plan(f"{letter}{number}", wanted, line, station, others))
    return tuple(found)


def middle(clamps: Sequence[ClampInPlan]) -> Vec2:
    """Middle of the box round the clamp holes: where the recipe's own places count from."""
    us, vs = [c.hole[0] for c in clamps], [c.hole[1] for c in clamps]
    return (min(us) + max(us)) / 2, (min(vs) + max(vs)) / 2


def rounded_from(place: Vec2, datum: Vec2, increment: float) -> Vec2:
    """A place whose distances from the datum are rounded to the increment.

    >>> rounded_from((10.3, 4.9), (0.1, 0.1), 0.5)
    (10.1, 5.1)
    """
    u, v = (to_nearest(x - d, increment) + d for x, d in zip(place, datum, strict=True))
    return u, v


def _in_plan(
    label: str, wanted: ClampWanted, line: TubeLine, station: float, others: Sequence[TubeLine]
) -> ClampInPlan:
    inboard = int(turns(line, np.array(station), others))
    turn = inboard if wanted.side == "inboard" else -inboard
    u, v = line.plan(station)
    out = turn * wanted.clamp.reach_mm
    return ClampInPlan(
        label=label,
        wanted=wanted,
        line=line,
        station_mm=station,
        turn=turn,
        hole=(u + out * line.across[0], v + out * line.across[1]),
        seat_mm=line.seat_height(station, wanted.clamp.seat_mm),
    )
