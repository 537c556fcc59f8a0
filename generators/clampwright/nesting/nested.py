"""Flat parts laid out on stock sheets: which sheet, where on it, turned how far, and how full it gets."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.layout.shop.told import FlatPart
from clampwright.quantities import Vec2

BY_BOXES = "Laid by bounding boxes: the search for closer places broke off. Parts may go closer than this."
"""Said of stocks that `Nest.by_boxes` names."""
_QUARTERS = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))
_SAME_TURN = 1e-12


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
    """Where size, kerf and margin come from: a recipe's own words, or what is usual."""

    @property
    def words(self) -> str:
        """Material and thickness.

        >>> Stock("6061-T6", 1.6, 500.0, 1000.0, 1.0, 10.0).words
        '6061-T6, 1.6 mm'
        """
        return f"{self.material}, {self.thickness_mm:g} mm"


def turning(angle_rad: float) -> tuple[float, float]:
    """Cosine and sine of a turn; quarter turns without the last bits' dirt.

    >>> turning(math.pi / 2), turning(-math.pi)
    ((0.0, 1.0), (-1.0, 0.0))
    """
    quarters = angle_rad / (math.pi / 2)
    if abs(quarters - round(quarters)) < _SAME_TURN:
        return _QUARTERS[round(quarters) % 4]
    return math.cos(angle_rad), math.sin(angle_rad)


@dataclass(frozen=True, slots=True)
class Laid:
    """One piece on a sheet: turned about the part's datum corner, then moved there."""

    part: FlatPart
    copy: int
    """1, 2 ... of the part's quantity."""
    turn_rad: float
    at: Vec2
    """Where the part's datum corner comes to lie, from the sheet's lower left corner."""
    why: str = ""
    """What its grain asks for, in words; "" where it may lie any way."""

    def place(self, point: Vec2) -> Vec2:
        """A point of the part on the sheet."""
        c, s = turning(self.turn_rad)
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
class Filled:
    """All sheets of one stock together, beside what bounding boxes alone would give."""

    stock: Stock
    sheets: tuple[NestedSheet, ...]
    boxes: float
    """Utilisation with bounding boxes."""
    boxes_sheets: int

    @property
    def utilisation(self) -> float:
        """Area of parts over area used."""
        return sum(each.parts_mm2 for each in self.sheets) / sum(each.used_mm2 for each in self.sheets)


@dataclass(frozen=True, slots=True)
class Nest:
    """Every flat part on sheets, beside what bounding boxes alone would give."""

    sheets: tuple[NestedSheet, ...]
    baseline: tuple[tuple[str, float, int], ...]
    """For each stock (material and thickness in words): utilisation with bounding boxes, and sheets."""
    left_out: tuple[tuple[str, str], ...] = ()
    """(part number, why): larger than its sheet."""
    by_boxes: tuple[Stock, ...] = ()
    """Stocks whose parts lie as their bounding boxes, since the search for closer places broke off."""

    def by_stock(self) -> tuple[Filled, ...]:
        """The sheets of each stock, in the order of the baseline."""
        kinds = dict.fromkeys(sheet.stock for sheet in self.sheets)
        return tuple(
            Filled(stock, tuple(sheet for sheet in self.sheets if sheet.stock == stock), boxes, count)
            for stock, (_, boxes, count) in zip(kinds, self.baseline, strict=True)
        )
