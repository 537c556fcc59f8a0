"""Tubes and carried lines as reference bodies: the outside only, and only the length near the part."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from clampwright.layout.placed import PlateLayout
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along, cross, unit
from clampwright.solids.body import Body
from clampwright.solids.place import Place, place_of
from clampwright.solids.shapes import Shape, ring
from clampwright.structure.tubes import Tube

SHOWN_PART_SIZES = 0.75
"""Tubes are shown within this many diagonals of the part's outline from its middle."""

SHOWN_DIAMETERS = 1.5
"""A tube that carries a clamp is shown at least this many diameters past its outermost clamps."""


@dataclass(frozen=True, slots=True)
class Near:
    """A ball round the part, mm: what long things are shown within."""

    middle: Vec3
    reach_mm: float

    def stretch(self, start: Vec3, axis: Vec3, wider_mm: float = 0.0) -> tuple[float, float] | None:
        """First and last distance from `start` along a unit `axis` inside the ball; None: past it.

        >>> Near((50.0, 3.0, 0.0), 5.0).stretch((0.0, 0.0, 0.0), (1.0, 0.0, 0.0))
        (46.0, 54.0)
        """
        abreast = sum((m - s) * a for m, s, a in zip(self.middle, start, axis, strict=True))
        off, reach = math.dist(self.middle, along(start, (axis, abreast))), self.reach_mm + wider_mm
        if off >= reach:
            return None
        half = math.sqrt(reach**2 - off**2)
        return abreast - half, abreast + half


def tube_bodies(layout: PlateLayout) -> Iterator[Body]:
    """The tubes near a plate, each clipped; its name says from which station to which."""
    near = plate_near(layout)
    for tube in layout.recipe.structure.tubes:
        yield from tube_body(tube, near, [c.station_mm for c in layout.clamps if c.tube == tube.name])


def tube_body(
    tube: Tube, near: Near, clamps: Iterable[float], role: str = "tube", ends: bool = True
) -> Iterator[Body]:
    """One tube or line, clipped; nothing where it stays clear of the part.

    Parameters
    ----------
    tube : Tube
        The tube, or a line given like one.
    near : Near
        What it is shown within.
    clamps : Iterable[float]
        Stations of the clamps on it.
    role : str
        "tube" or "line".
    ends : bool
        Whether it ends at its two ends; a line goes on past the two points it is given by.
    """
    shown = stretch_shown(tube, near, clamps, ends)
    if shown is not None:
        low, high = shown
        name = f"{role} {tube.name}, outside only, station {low:.0f} to {high:.0f} mm"
        shape = tube_shape(tube.od_mm, high - low)
        yield Body(name, f"{role} {tube.name}", role, shape, tube_place(tube, low))


def tube_shape(od_mm: float, length_mm: float) -> Shape:
    """A solid cylinder along z: the wall is not known and nothing here depends on it."""
    return ring(od_mm, 0.0, length_mm)


def shown_stations(tube: Tube, layout: PlateLayout) -> tuple[float, float] | None:
    """The stretch of a tube that is shown with a plate, or None where it stays clear of it."""
    return stretch_shown(
        tube, plate_near(layout), [c.station_mm for c in layout.clamps if c.tube == tube.name]
    )


def plate_near(layout: PlateLayout) -> Near:
    """The ball round a plate."""
    u0, v0, u1, v1 = layout.outline.box()
    middle = place_of(layout.frame).point(((u0 + u1) / 2, (v0 + v1) / 2, 0.0))
    return Near(middle, SHOWN_PART_SIZES * math.hypot(u1 - u0, v1 - v0))


def stretch_shown(
    tube: Tube, near: Near, clamps: Iterable[float], ends: bool = True
) -> tuple[float, float] | None:
    """Stations between which a tube is shown: within the ball and past its clamps, but not past its ends."""
    length, spread = math.dist(tube.start, tube.end), SHOWN_DIAMETERS * tube.od_mm
    wanted = [s + side * spread for s in clamps for side in (-1, 1)]
    wanted += near.stretch(tube.start, axis_of(tube)) or ()
    if not wanted:
        return None
    low, high = min(wanted), max(wanted)
    if ends:
        low, high = max(0.0, low), min(length, high)
    return (low, high) if high - low > 1e-6 else None


def axis_of(tube: Tube) -> Vec3:
    """Unit vector from start to end."""
    x, y, z = (e - s for s, e in zip(tube.start, tube.end, strict=True))
    return unit((x, y, z))


def tube_place(tube: Tube, station: float) -> Place:
    """The frame of a tube's cylinder that begins at a station: z along the tube."""
    axis = axis_of(tube)
    least = min(range(3), key=lambda k: abs(axis[k]))
    aside = (float(least == 0), float(least == 1), float(least == 2))
    return Place(along(tube.start, (axis, station)), unit(cross(axis, aside)), axis)
