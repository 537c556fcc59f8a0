"""What a dimension says: count, sign, value, limits; of inches the millimetres too, in brackets."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.sheets.figures import distance
from clampwright.sheets.shop.size_words import toleranced
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

    A half goes away from zero. A size with limits of its own may say a fourth: `sized`.

    Examples
    --------
    >>> plain(76.2, "mm"), plain(120.0, "mm"), plain(19.05, "in"), plain(223.8375, "in")
    ('76.2', '120', '0.750', '8.813')
    """
    said = distance(mm, units)
    return said.rstrip("0").rstrip(".") if units == "mm" else said


def sized(mm: float, limits: Limits | None, units: str) -> str:
    """A size with its own limits where it has any, all with the same decimals: a drill's size in full.

    Examples
    --------
    >>> sized(4.9149, Limits(0.0, 0.1016, "", "assumed"), "in"), sized(5.0, None, "mm")
    ('0.1935 +0.0040 0', '5')
    """
    return plain(mm, units) if limits is None else toleranced(mm, limits, units)


def length(
    mm: float,
    units: str,
    *,
    sign: str = "",
    count: int = 1,
    limits: Limits | None = None,
    most: bool = False,
) -> Wording:
    """Wording of a length, diameter ("Ø") or radius ("R"); `most`: it is the largest that will do.

    Examples
    --------
    >>> length(76.2, "in").text, length(6.35, "mm", sign="R", count=4).text
    ('3.000 [76.2]', '4x R6.35')
    >>> length(4.85, "mm", sign="Ø", count=8, limits=Limits(0.0, 0.05, "", "assumed")).text
    '8x Ø4.85 +0.05 0'
    >>> length(0.3, "mm", sign="R", count=4, most=True).text
    '4x R0.3 max'
    """
    many = f"{count}x " if count > 1 else ""
    first = f"{many}{sign}{sized(mm, limits, units)}{' max' if most else ''}"
    if units == "mm":
        return Wording((first,))
    return Wording((first, f"[{sized(mm, limits, 'mm')}]"))


def angle(rad: float) -> Wording:
    """Wording of an angle.

    >>> angle(math.pi / 2).text, angle(math.radians(22.5)).text
    ('90°', '22.5°')
    """
    return Wording((f"{f'{math.degrees(rad):.2f}'.rstrip('0').rstrip('.')}°",))
