"""Bits and speeds for a drill in a garage (common practice)."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.trade.materials import material
from clampwright.trade.tables import load, rule


@dataclass(frozen=True, slots=True)
class Drilling:
    """How to drill one diameter in one material."""

    bit: str
    speed_rpm: int
    feed: str
    coolant: str
    source: str


def drilling(material_name: str, diameter_mm: float) -> Drilling:
    """Bit, speed and feed: n = 1000 v / (pi d), rounded down to a step and no faster than the drill turns.

    Raises
    ------
    LookupError
        Where the tables know no such material.

    Examples
    --------
    >>> drilling("304", 4.85).speed_rpm, drilling("6061-T6", 4.85).speed_rpm
    (550, 2500)
    """
    family = material(material_name).family
    row = next(row for row in load("drilling").rows if row.text("family") == family)
    step = rule("garage-drill-speed-step").value
    most = rule("garage-drill-speed-most").value
    speed = min(most, 1000 * row.number("speed") / (math.pi * diameter_mm))
    turns = max(1, math.floor(speed / step)) * step
    return Drilling(row.text("bit"), round(turns), row.text("feed"), row.text("coolant"), row.source())
