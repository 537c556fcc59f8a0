"""Weight and centre of gravity of the plate and of what it carries."""

from __future__ import annotations

import math
from collections.abc import Sequence

from clampwright.layout.outline import Outline
from clampwright.layout.placed import Hole, PlacedComponent
from clampwright.quantities import Vec2, Vec3

CUBIC_METRES = 1e-9
"""In a cubic millimetre."""


def plate_area(outline: Outline, holes: Sequence[Hole]) -> tuple[float, Vec2]:
    """Area left by the holes, mm², and its centroid: A − Σ π d²/4, and moments likewise.

    >>> from clampwright.layout.outlines import rounded_rectangle
    >>> area, (u, v) = plate_area(rounded_rectangle((0.0, 0.0, 20.0, 10.0), 0.0), ())
    >>> area, round(u, 9), round(v, 9)
    (200.0, 10.0, 5.0)
    """
    whole, (u, v) = outline.area_mm2(), outline.centroid()
    cut = [(math.pi * h.diameter_mm**2 / 4, h.at) for h in holes]
    area = whole - math.fsum(a for a, _ in cut)
    return area, (
        (whole * u - math.fsum(a * at[0] for a, at in cut)) / area,
        (whole * v - math.fsum(a * at[1] for a, at in cut)) / area,
    )


def weigh(
    outline: Outline,
    holes: Sequence[Hole],
    thickness_mm: float,
    density_kg_m3: float,
    components: Sequence[PlacedComponent],
) -> tuple[float, float, Vec3]:
    """Mass of the plate, mass with its components, kg, and the centre of gravity of both together.

    The plate's own lies at half its thickness; a component's over its origin, `cg_height_mm` above the far
    face. Clamps and bolts are not counted.
    """
    area, (u, v) = plate_area(outline, holes)
    plate = area * thickness_mm * CUBIC_METRES * density_kg_m3
    parts = [(plate, (u, v, thickness_mm / 2))]
    parts += [(c.mass_kg, (c.at[0], c.at[1], thickness_mm + c.cg_height_mm)) for c in components]
    total = math.fsum(m for m, _ in parts)
    x, y, z = (math.fsum(m * at[i] for m, at in parts) / total for i in range(3))
    return plate, total, (x, y, z)
