"""What a dimension says: count, sign, value, limits; of inches the millimetres too, in brackets."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.quantities import show_length
from clampwright.sheets.shop.size_words import limit_words
from clampwright.trade.limits import Limits


@dataclass(frozen=True, slots=True)
class Wording:
    """A dimension's text in lines that may stand one under the other or behind each other."""

    lines: tuple[str, ...]

    @property
    def text(self) -> str:
        """All of it in one line."""
        return " ".join(self.lines)

    def in_one(self) -> tuple[str, ...]:
        """As one line."""
        return (self.text,)


def plain(mm: float, units: str) -> str:
    """A length as a drawing prints it: no idle zeros of millimetres, three decimals of an inch.

    A fourth decimal of an inch where the value ends there: a drill's size.

    Examples
    --------
    >>> plain(76.2, "mm"), plain(120.0, "mm"), plain(19.05, "in"), plain(4.9149, "in")
    ('76.2', '120', '0.750', '0.1935')
    """
    said = show_length(mm, units).removesuffix(units).strip()
    return said.rstrip("0").rstrip(".") if units == "mm" else said


def length(mm: float, units: str, *, sign: str = "", count: int = 1, limits: Limits | None = None) -> Wording:
    """Wording of a length, diameter ("Ø") or radius ("R").

    Examples
    --------
    >>> length(76.2, "in").text, length(6.35, "mm", sign="R", count=4).text
    ('3.000 [76.2]', '4x R6.35')
    >>> length(4.85, "mm", sign="Ø", count=8, limits=Limits(0.0, 0.05, "", "assumed")).text
    '8x Ø4.85 +0.05 0'
    """
    many = f"{count}x " if count > 1 else ""
    first = f"{many}{sign}{plain(mm, units)} {limit_words(limits, units)}".strip()
    if units == "mm":
        return Wording((first,))
    metric = f"{plain(mm, 'mm')} {limit_words(limits, 'mm')}".strip()
    return Wording((first, f"[{metric}]"))


def angle(rad: float) -> Wording:
    """Wording of an angle.

    >>> angle(math.pi / 2).text, angle(math.radians(22.5)).text
    ('90°', '22.5°')
    """
    return Wording((f"{f'{math.degrees(rad):.2f}'.rstrip('0').rstrip('.')}°",))
