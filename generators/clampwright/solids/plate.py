"""The plate: its outline with every hole in it, extruded once."""

from __future__ import annotations

from clampwright.layout.placed import PlateLayout
from clampwright.solids.shapes import Shape, prism


def plate(layout: PlateLayout) -> Shape:
    """The finished plate in the part's own frame: near face at z = 0, holes at final size.

    Volume = (area of the outline - sum of pi d^2/4) * thickness.
    """
    holes = [(hole.at, hole.diameter_mm) for hole in layout.holes]
    return prism(layout.outline, holes, layout.thickness_mm)
