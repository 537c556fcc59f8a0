"""Flat parts laid out on stock sheets: which sheet, where on it, turned how far, and how full it gets."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.layout.shop.told import FlatPart
from clampwright.quantities import Vec2


@dataclass(frozen=True, slots=True)
class Stock:
    """A kind of stock sheet. The rolling direction runs along the length, which lies along y."""

    material: str
    thickness_mm: float
    width_mm: float
    length_mm: float
    kerf_mm: float
    """Least room between two parts."""
    margin_mm: float
    """Rim that no part comes into."""
    why: str = ""
    """Where the size comes from: a recipe's own words, or a usual sheet."""


@dataclass(frozen=True, slots=True)
class Laid:
    """One piece on a sheet: turned about the part's datum corner, then moved there."""

    part: FlatPart
    copy: int
    """1, 2 ... of the part's quantity."""
    turn_rad: float
    at: Vec2
    """Where the part's datum corner comes to lie, from the sheet's lower left corner."""

    def place(self, point: Vec2) -> Vec2:
        """A point of the part on the sheet."""
        c, s = math.cos(self.turn_rad), math.sin(self.turn_rad)
        return self.at[0] + c * point[0] - s * point[1], self.at[1] + s * point[0] + c * point[1]


@dataclass(frozen=True, slots=True)
class NestedSheet:
    """One stock sheet with what is cut from it."""

    number: int
    stock: Stock
    laid: tuple[Laid, ...]
    parts_mm2: float
    """Area of the parts on it, holes not taken off."""
    used_mm2: float
    """Of the sheet up to the last part's end, full width: what is cut off the stock."""

    @property
    def utilisation(self) -> float:
        """Area of parts over area used."""
        return self.parts_mm2 / self.used_mm2


@dataclass(frozen=True, slots=True)
class Nest:
    """Every flat part on sheets, beside what bounding boxes alone would give."""

    sheets: tuple[NestedSheet, ...]
    baseline: tuple[tuple[str, float, int], ...]
    """For each stock (material and thickness in words): utilisation with bounding boxes, and sheets."""
    left_out: tuple[tuple[str, str], ...] = ()
    """(part number, why): larger than its sheet."""
