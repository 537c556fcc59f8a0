"""The plate: its outline with every hole in it, extruded once."""

from __future__ import annotations

import math

from clampwright.layout.placed import PlateLayout
from clampwright.solids.measure import volume_mm3
from clampwright.solids.shapes import NotASolid, Shape, prism

SAME_SHARE = 1e-9
"""Relative difference allowed between the solid's volume and its closed form."""


def plate(layout: PlateLayout) -> Shape:
    """The finished plate in the part's own frame: near face at z = 0, holes at final size.

    Volume = (area of the outline - sum of pi d^2/4) * thickness.

    Raises
    ------
    NotASolid
        Unless one valid solid of that volume comes out: holes that meet, cross the edge or lie outside
        give none, and the kernel does not always say so.
    """
    holes = [(hole.at, hole.diameter_mm) for hole in layout.holes]
    made = prism(layout.outline, holes, layout.thickness_mm)
    solids = len(made.Solids())
    if solids != 1 or not made.isValid():
        raise NotASolid(
            f"outline and holes give {solids} solids, or one with a fault, and not one whole plate"
        )
    wanted, found = plate_volume_mm3(layout), volume_mm3(made)
    if not math.isclose(found, wanted, rel_tol=SAME_SHARE):
        raise NotASolid(
            f"the plate would hold {found:.6f} mm3 where outline less holes makes {wanted:.6f} mm3"
        )
    return made


def plate_volume_mm3(layout: PlateLayout) -> float:
    """Closed form: (area of the outline - sum of pi d^2/4) * thickness."""
    holes = math.fsum(math.pi * hole.diameter_mm**2 / 4 for hole in layout.holes)
    return (layout.outline.area_mm2() - holes) * layout.thickness_mm
