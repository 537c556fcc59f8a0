"""Tubes as reference bodies: the outside only, and only the length that is near the part."""

from __future__ import annotations

import math
from collections.abc import Iterator

from clampwright.layout.placed import PlateLayout
from clampwright.quantities import Vec3
from clampwright.solids.body import Body
from clampwright.solids.place import Place, along, cross, place_of, unit
from clampwright.solids.shapes import Shape, ring
from clampwright.structure.tubes import Tube

SHOWN_PART_SIZES = 0.75
"""Tubes are shown within this many diagonals of the part's outline from its middle."""

SHOWN_DIAMETERS = 1.5
"""A tube that carries a clamp is shown at least this many diameters past its outermost clamps."""


def tube_bodies(layout: PlateLayout) -> Iterator[Body]:
    """The tubes near the part, each clipped; its name says from which station to which."""
    for tube in layout.recipe.structure.tubes:
        shown = shown_stations(tube, layout)
        if shown is not None:
            low, high = shown
            name = f"tube {tube.name}, outside only, station {low:.0f} to {high:.0f} mm"
            yield Body(
                name, f"tube {tube.name}", "tube", tube_shape(tube.od_mm, high - low), _place(tube, low)
            )


def tube_shape(od_mm: float, length_mm: float) -> Shape:
    """A solid cylinder along z: the wall is not known and nothing here depends on it."""
    return ring(od_mm, 0.0, length_mm)


def shown_stations(tube: Tube, layout: PlateLayout) -> tuple[float, float] | None:
    """The stretch of a tube that is shown, or None where it stays clear of the part."""
    length, axis = math.dist(tube.start, tube.end), _axis(tube)
    u0, v0, u1, v1 = layout.outline.box()
    middle = place_of(layout.frame).point(((u0 + u1) / 2, (v0 + v1) / 2, 0.0))
    reach = SHOWN_PART_SIZES * math.hypot(u1 - u0, v1 - v0)
    abreast = sum((m - s) * a for m, s, a in zip(middle, tube.start, axis, strict=True))
    off = math.dist(middle, along(tube.start, axis, abreast))
    ends = [c.station_mm for c in layout.clamps if c.tube == tube.name]
    spread = SHOWN_DIAMETERS * tube.od_mm
    wanted = [s + side * spread for s in ends for side in (-1, 1)]
    if off < reach:
        half = math.sqrt(reach**2 - off**2)
        wanted += [abreast - half, abreast + half]
    low, high = max(0.0, min(wanted, default=0.0)), min(length, max(wanted, default=0.0))
    return (low, high) if high - low > 1e-6 else None


def _axis(tube: Tube) -> Vec3:
    x, y, z = (e - s for s, e in zip(tube.start, tube.end, strict=True))
    return unit((x, y, z))


def _place(tube: Tube, station: float) -> Place:
    axis = _axis(tube)
    least = min(range(3), key=lambda k: abs(axis[k]))
    aside = (float(least == 0), float(least == 1), float(least == 2))
    return Place(along(tube.start, axis, station), unit(cross(axis, aside)), axis)
