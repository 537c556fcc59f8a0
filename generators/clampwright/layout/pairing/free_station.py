"""Stations to try for a line that runs beside its tube: where there is most room first."""

from __future__ import annotations

from clampwright.layout.pairing.site import Site
from clampwright.layout.station_room import room
from clampwright.quantities.directions import dot, minus
from clampwright.structure.tubes import Tube

_TRIES = 12
"""Stations tried to either side of the middle."""


def stations_to_try(site: Site, tube: Tube, line: Tube) -> tuple[float, ...]:
    """Stations of the tube, from the middle of its longest clear stretch outwards.

    Where the line's ends are known, only the stretch that lies abreast of it counts; where nothing of it is
    clear, the middle of what lies abreast is tried alone.
    """
    assert site.on_tube is not None
    low, high = _abreast(site, tube, line)
    clear = [(max(a, low), min(b, high)) for a, b in room(tube, site.welds, site.on_tube.band_width_mm)]
    clear = [(a, b) for a, b in clear if a <= b]
    if not clear:
        return (min(max((low + high) / 2, 0.0), tube.length_mm),)
    middle = _middle(*max(clear, key=lambda stretch: round(stretch[1] - stretch[0], 6)))
    tries = {middle}
    for a, b in clear:
        tries |= {a + (b - a) * i / (2 * _TRIES) for i in range(2 * _TRIES + 1)}
    return tuple(sorted(tries, key=lambda s: (round(abs(s - middle), 6), s)))


def _middle(a: float, b: float) -> float:
    return (a + b) / 2


def _abreast(site: Site, tube: Tube, line: Tube) -> tuple[float, float]:
    """Stretch of the tube that the line runs beside."""
    if not site.ends_known:
        return (0.0, tube.length_mm)
    half = site.on_line.band_width_mm / 2
    ends = sorted(dot(minus(p, tube.start), tube.direction) for p in (line.start, line.end))
    low, high = max(ends[0] + half, 0.0), min(ends[1] - half, tube.length_mm)
    return (low, high) if low <= high else (_middle(*ends), _middle(*ends))
