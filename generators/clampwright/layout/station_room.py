"""Where along a tube a clamp may sit: clear of tube ends and welds."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from clampwright.layout.cannot import CannotLayOut
from clampwright.structure.tubes import Node, Tube
from clampwright.trade.tables import rule

Room = tuple[tuple[float, float], ...]
"""Stretches of a tube, as pairs of stations, that the middle of a clamp's band may lie in."""


def room(tube: Tube, nodes: Sequence[Node], band_mm: float, count: int = 1) -> Room:
    """Stretches of a tube for the middle of a band: rule `weld-distance-least` and half a band from nodes.

    Where a tube is too short for that, the band only keeps off the nodes; where even that leaves nothing,
    it only stays on the tube. The check of welds tells what is short then.

    Raises
    ------
    CannotLayOut
        The tube is shorter than the bands that it must carry.

    >>> tube = Tube("brace", (0.0, 0.0, 0.0), (200.0, 0.0, 0.0), 20.0)
    >>> ends = [Node("brace", 0.0, "end of the tube"), Node("brace", 200.0, "end of the tube")]
    >>> room(tube, ends, 12.0)
    ((26.0, 174.0),)
    """
    if count * band_mm > tube.length_mm:
        what = "one clamp band" if count == 1 else f"{count} clamp bands"
        raise CannotLayOut(
            f"{tube.name} is {tube.length_mm:.1f} mm long, too short for {what} of {band_mm:.1f} mm",
            "name a longer tube in clamps.on, or place fewer clamps on this one",
        )
    here = sorted(n.station_mm for n in nodes if n.tube == tube.name)
    stations = sorted({0.0, *here, tube.length_mm})
    keep = rule("weld-distance-least").value * tube.od_mm + band_mm / 2
    for distance, stops in ((keep, stations), (band_mm / 2, stations), (band_mm / 2, [0.0, tube.length_mm])):
        found = tuple((a + distance, b - distance) for a, b in pairwise(stops) if b - a >= 2 * distance)
        if found:
            return found
    return ((tube.length_mm / 2, tube.length_mm / 2),)
