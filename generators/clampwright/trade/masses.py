"""Masses of hardware from the volume of steel in it: nobody publishes them, an order list wants them."""

from __future__ import annotations

import math
from functools import cache

from clampwright.trade.tables import load, rule


def hexagon_mm2(across_flats_mm: float) -> float:
    """Area of a hexagon, sqrt(3)/2 s², by its width across flats.

    Examples
    --------
    >>> round(hexagon_mm2(10.0), 4)
    86.6025
    """
    return math.sqrt(3) / 2 * across_flats_mm**2


def disc_mm2(diameter_mm: float) -> float:
    """Area of a disc, pi d²/4.

    Examples
    --------
    >>> round(disc_mm2(2.0), 6)
    3.141593
    """
    return math.pi / 4 * diameter_mm**2


@cache
def steel_kg_mm3() -> float:
    """Density of bolt steel, from its row in the table of materials.

    Examples
    --------
    >>> round(steel_kg_mm3() * 1e9)
    7833
    """
    rows = load("materials").rows
    return next(row.number("density") for row in rows if row.text("form") == "bolt") * 1e-9


def bolt_kg(nominal_mm: float, length_mm: float, across_flats_mm: float, head_mm: float) -> float:
    """Mass of a hexagon bolt: a full cylinder under a full hexagon.

    Examples
    --------
    >>> round(bolt_kg(4.826, 19.84, 9.525, 3.175) * 1000, 1)
    4.8
    """
    volume = disc_mm2(nominal_mm) * length_mm + hexagon_mm2(across_flats_mm) * head_mm
    return volume * steel_kg_mm3()


def nut_kg(nominal_mm: float, across_flats_mm: float, height_mm: float | None) -> float:
    """Mass of a nut; where no height is known it is taken as a multiple of the bolt's diameter.

    Examples
    --------
    >>> round(nut_kg(4.826, 9.55, 6.325) * 1000, 1)
    3.0
    """
    high = rule("nut-height-for-mass").value * nominal_mm if height_mm is None else height_mm
    return (hexagon_mm2(across_flats_mm) - disc_mm2(nominal_mm)) * high * steel_kg_mm3()


def washer_kg(id_mm: float, od_mm: float, thickness_mm: float) -> float:
    """Mass of a flat steel washer.

    Examples
    --------
    >>> round(washer_kg(5.16, 11.13, 1.6) * 1000, 2)
    0.96
    """
    return (disc_mm2(od_mm) - disc_mm2(id_mm)) * thickness_mm * steel_kg_mm3()
