"""Which ways a part may lie on a sheet: its grain, and bends across the rolling direction."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass

from clampwright.layout.shop.told import Bend, FlatPart

_QUARTER = math.pi / 2
_ANY = (0.0, _QUARTER, 2 * _QUARTER, 3 * _QUARTER)
_SAME_MM = 1e-6
_SAME_TURN = 1e-6
_ACROSS = math.cos(math.pi / 4)


@dataclass(frozen=True, slots=True)
class Turns:
    """Turns allowed, radians from 0 up to 2 pi, smallest first, and what asks for them ("" for nothing)."""

    turns_rad: tuple[float, ...]
    why: str


def turns(part: FlatPart) -> Turns:
    """How a part may be turned; it is never turned over, for its faces differ.

    The recipe's "along" or "across" lays the long side of the part's box by the rolling direction, which is
    the sheet's y. Where it asks for neither, bend lines lie across the rolling direction, the direction in
    which most of them run first: sheet cracks sooner where it is bent along the grain (common practice, no
    source). A flat part without either lies any way by quarter turns; finer turns, which lay another side
    of the part by the sheet's, were measured and for the same work packed no closer.
    """
    if part.shop.grain != "any":
        return _by_long_side(part)
    if part.bends:
        return _by_bends(part.bends)
    return Turns(_ANY, "")


def _by_long_side(part: FlatPart) -> Turns:
    x0, y0, x1, y1 = part.outline.box()
    wide, high = x1 - x0, y1 - y0
    asked = f"long side {part.shop.grain} the rolling direction, as the recipe asks"
    if abs(wide - high) <= _SAME_MM:
        return Turns(_ANY, f"{asked}; both sides are as long")
    upright = (high > wide) == (part.shop.grain == "along")
    allowed = _ANY[0::2] if upright else _ANY[1::2]
    return Turns(allowed, asked + _bends_along(part.bends, allowed[0]))


def _by_bends(bends: tuple[Bend, ...]) -> Turns:
    lengths: dict[float, float] = defaultdict(float)
    for bend in bends:
        same = (known for known in lengths if _parallel(known, _heading(bend)))
        lengths[next(same, _heading(bend))] += math.dist(bend.start, bend.end)
    most = max(lengths, key=lambda heading: (round(lengths[heading], 6), -heading))
    first = -most % math.pi
    allowed = (first, first + math.pi)
    return Turns(allowed, "bends across the rolling direction" + _bends_along(bends, first))


def _bends_along(bends: tuple[Bend, ...], turn: float) -> str:
    """Said of bends that come to lie nearer along the rolling direction than across it."""
    along = [bend.label for bend in bends if abs(math.cos(_heading(bend) + turn)) < _ACROSS]
    return f"; {', '.join(along)} along it: ask the shop" if along else ""


def _heading(bend: Bend) -> float:
    """Direction of a bend line, radians from 0 up to pi."""
    heading = math.atan2(bend.end[1] - bend.start[1], bend.end[0] - bend.start[0]) % math.pi
    return 0.0 if math.pi - heading < _SAME_TURN else heading


def _parallel(a: float, b: float) -> bool:
    return abs(math.remainder(a - b, math.pi)) < _SAME_TURN
