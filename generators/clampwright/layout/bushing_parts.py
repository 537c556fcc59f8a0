"""Bushings as parts to be made: their sizes, what they are made from, how many, and for which clamps."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class MadeUp:
    """How one gap is filled: the bushing's mark, and the washers on top of it that make up the rest."""

    where: str
    """Label of the clamp or joint."""
    gap_mm: float
    """Length that the geometry asks for."""
    washers: tuple[tuple[str, float], ...]
    """(part, thickness mm), one entry a washer."""
    left_mm: float
    """Gap less bushing less washers: positive where the stack is too short."""


@dataclass(frozen=True, slots=True)
class BushingPart:
    """One length of bushing, as it is to be made; lengths in mm."""

    mark: str
    """"S1", "S2" ...: shortest first."""
    length_mm: float
    tolerance_mm: tuple[float, float]
    """(under, over), both positive."""
    od_mm: float
    id_mm: float
    id_window_mm: tuple[float, float]
    """Least and largest bore that will do for the bolt."""
    bolt: str
    chamfer_mm: float
    material: str
    max_temperature_c: float
    make: str
    """"tube" (cut from stock tube) or "rod" (turned and bored)."""
    stock: str
    """What to buy, in words: "tube 7/16 in x 0.120 in wall, 6061-T6"."""
    stock_od_mm: float
    stock_wall_mm: float | None
    """None for rod."""
    quantity: int
    fills: tuple[MadeUp, ...]
    mass_each_kg: float
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Cut:
    """One piece cut from a bar."""

    mark: str
    length_mm: float
    """As cut: the finished length and what is left for facing both ends."""


@dataclass(frozen=True, slots=True)
class Bar:
    """One length of stock and what is cut from it, in order from its squared end."""

    stock: str
    length_mm: float
    kerf_mm: float
    cuts: tuple[Cut, ...]
    left_mm: float
    """What remains after the last cut."""


@dataclass(frozen=True, slots=True)
class CutList:
    """What to buy and cut for all bushings of a layout."""

    bars: tuple[Bar, ...]
    needed_mm: tuple[tuple[str, float], ...]
    """(stock, least length of it that is enough, kerfs and facing counted)."""


def chamfer_made(part: BushingPart) -> float:
    """The chamfer, or what a thin wall or a short length leaves room for: a third of it, mm."""
    wall = (part.od_mm - part.id_mm) / 2
    return min(part.chamfer_mm, wall / 3, part.length_mm / 3)


def bushing_volume_mm3(length_mm: float, od_mm: float, id_mm: float, chamfer_mm: float) -> float:
    """Closed form: the ring less four triangles of c by c carried round, their centroids c/3 in (Pappus).

    V = pi (R^2 - r^2) L - 2 pi c^2 (R - c/3) - 2 pi c^2 (r + c/3) = pi (R^2 - r^2) L - 2 pi c^2 (R + r).

    >>> round(bushing_volume_mm3(10.0, 12.0, 6.0, 0.0) / math.pi, 9)
    270.0
    """
    outer, inner = od_mm / 2, id_mm / 2
    whole = math.pi * (outer**2 - inner**2) * length_mm
    return whole - 2 * math.pi * chamfer_mm**2 * (outer + inner)
