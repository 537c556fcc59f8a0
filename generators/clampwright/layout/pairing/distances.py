"""How far off the line runs: from the tube's axis, or from the panel's face."""

from __future__ import annotations

import math

from clampwright.layout.pairing.closed import Closed
from clampwright.layout.pairing.parallel_pair import nearly_parallel
from clampwright.layout.pairing.site import Site
from clampwright.quantities.directions import dot, minus, square_part

_SQUARE = 1e-9
"""Radians of tilt up to which the bolt is square to both axes, as it is where they cross."""


def distance(place: Closed, site: Site) -> float:
    """Distance of the line's axis from the tube's, abreast of the clamp where they are parallel; or from
    the panel's face."""
    return math.hypot(*_out_and_aside(place, site))


def distance_without_gap(place: Closed, site: Site) -> float:
    """The same with the line moved along the bolt until foot lies on foot: to the side of the bolt it stays
    where it is, so √((height − spacer)² + aside²)."""
    height, aside = _out_and_aside(place, site)
    return math.hypot(height - place.spacer_mm, aside)


def _out_and_aside(place: Closed, site: Site) -> tuple[float, float]:
    """Where the line's axis lies: along the bolt, and square to it."""
    n, there = place.axis, place.line.point(place.station_line_mm)
    if site.tube is None:
        return dot(minus(there, place.foot), n), 0.0
    if place.tilt_rad < _SQUARE and not nearly_parallel(site.tube, place.line):
        return dot(minus(there, site.tube.start), n), 0.0
    here = site.tube.point(place.station_tube_mm)
    a, b = site.tube.direction, place.line.direction
    abreast = place.line.point(place.station_line_mm + dot(minus(here, there), a) / dot(a, b))
    apart = square_part(minus(abreast, here), a)
    height = dot(apart, n)
    return height, math.sqrt(max(dot(apart, apart) - height * height, 0.0))
