"""Which stock sheet each part is cut from, and which parts are cut together."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from clampwright.layout.shop.told import FlatPart
from clampwright.nesting.nested import Stock
from clampwright.nesting.on_sheet import turned_box
from clampwright.nesting.turns import turns
from clampwright.quantities.kinds import INCH
from clampwright.trade.tables import rule

_SAME_MM = 1e-6
_THICKNESS_DECIMALS = 4
Size = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Together:
    """Parts of one material and thickness on one kind of sheet."""

    stock: Stock
    parts: tuple[FlatPart, ...]
    too_large: tuple[tuple[str, str], ...]
    """(part number, why) of those that go on no such sheet."""


def stocks(parts: Sequence[FlatPart]) -> tuple[Together, ...]:
    """The parts by material, thickness and sheet; in the order of their names.

    A part goes on the sheet that its recipe's [shop] gives, else the one that the recipe gives the part, with
    its long side for the rolling direction, else on the sheet of the others of its material, else on a
    usual one. Of parts on the same kind of sheet the widest kerf and the widest margin hold.
    """
    kinds: dict[tuple[str, float], list[FlatPart]] = defaultdict(list)
    for part in sorted(parts, key=lambda p: p.number):
        kinds[part.material.name, round(part.thickness_mm, _THICKNESS_DECIMALS)].append(part)
    return tuple(each for _, same in sorted(kinds.items(), key=lambda k: k[0]) for each in _by_sheet(same))


def _by_sheet(parts: Sequence[FlatPart]) -> list[Together]:
    asked = {part.number: _asked(part) for part in parts}
    given = sorted({size for size, _ in asked.values() if size is not None}, key=lambda s: (-s[0] * s[1], s))
    usual, usual_why = _usual(parts[0].units)
    common = given[0] if given else usual
    groups: dict[Size, list[FlatPart]] = defaultdict(list)
    for part in parts:
        groups[asked[part.number][0] or common].append(part)
    together = []
    for size, same in sorted(groups.items()):
        whys = {asked[part.number][1] for part in same} - {""}
        together.append(_together(size, ", ".join(sorted(whys)) or usual_why, same))
    return together


def _asked(part: FlatPart) -> tuple[Size | None, str]:
    if part.shop.stock_sheet_mm is not None:
        return part.shop.stock_sheet_mm, f"as {part.recipe} asks"
    if part.sheet_mm is not None:
        short, long = sorted(part.sheet_mm)
        return (short, long), f"the plate's own in {part.recipe}, rolling direction taken along its long side"
    return None, ""


def _usual(units: str) -> tuple[Size, str]:
    suffix = "" if units == "in" else "-metric"
    size = rule(f"stock-sheet-usual-width{suffix}").value, rule(f"stock-sheet-usual-length{suffix}").value
    return size, "a usual one, as no recipe gives one"


def _together(size: Size, why: str, parts: Sequence[FlatPart]) -> Together:
    kerf, margin = (max(getattr(p.shop, key) for p in parts) for key in ("kerf_mm", "edge_margin_mm"))
    why = f"Sheet: {why}."
    for name, most, key in (("Kerf", kerf, "kerf_mm"), ("Margin", margin, "edge_margin_mm")):
        if any(getattr(p.shop, key) < most - _SAME_MM for p in parts):
            by = next(p.recipe for p in parts if getattr(p.shop, key) >= most)
            why += f" {name}: the widest asked for, by {by}."
    first = parts[0]
    stock = Stock(first.material.name, first.thickness_mm, *size, kerf, margin, why)
    large = {part.number: words for part in parts if (words := _too_large(part, stock))}
    return Together(stock, tuple(p for p in parts if p.number not in large), tuple(large.items()))


def _too_large(part: FlatPart, stock: Stock) -> str:
    """Why a part does not go on a sheet, and which would do; "" where it does."""
    sizes = []
    for turn in turns(part).turns_rad:
        x0, y0, x1, y1 = turned_box(part.outline, turn)
        needed = x1 - x0 + 2 * stock.margin_mm, y1 - y0 + 2 * stock.margin_mm
        if needed[0] <= stock.width_mm + _SAME_MM and needed[1] <= stock.length_mm + _SAME_MM:
            return ""
        sizes.append(needed)
    have, need = sheet_words((stock.width_mm, stock.length_mm), part.units), min(sizes)
    grain = f" ({turns(part).why})" if turns(part).why else ""
    would = sheet_words(need, part.units, up=True)
    return f"larger than its sheet of {have} with its margin{grain}; a sheet of {would} or more would do"


def sheet_words(size: Size, units: str, *, up: bool = False) -> str:
    """Width and length; where `up` in whole millimetres or hundredths of an inch, never less than they are.

    >>> sheet_words((609.6, 1219.2), "in"), sheet_words((612.3, 720.0), "mm", up=True)
    ('24 x 48 in', '613 x 720 mm')
    """
    per, parts = (float(INCH), 100) if units == "in" else (1.0, 1)
    sides = [side / per * parts for side in size]
    shown = [math.ceil(side - _SAME_MM) if up else side for side in sides]
    return " x ".join(f"{round(side / parts, 3):.7g}" for side in shown) + f" {units}"
