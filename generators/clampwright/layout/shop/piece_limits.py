"""How far a turned piece may be off: length, outside, bore, chamfer and squareness, each with its reason."""

from __future__ import annotations

from math import atan, degrees

from clampwright.layout.bushing_parts import BushingPart
from clampwright.quantities import show_length
from clampwright.recipe.model import Shop
from clampwright.trade.general_tolerances import general
from clampwright.trade.limits import Limits
from clampwright.trade.tables import rule

STACK = "so that the bolt draws no gap shut"
ENOUGH = "so that enough is left to trim"
SQUARE_SOURCE = "stack-counts-as-nothing"
_SAME_MM = 1e-9


def length_limits(part: BushingPart, shop: Shop, made_mm: float, *, long: bool) -> Limits:
    """Limits of a piece's length as made: the general tolerance where that is good enough.

    To length: no more than the layout allows a bushing (rule `bushing-tolerance`). Left long: no shorter
    than by what is left to spare over the longest gap (rule `bushing-trim`).
    """
    usual = general(shop, made_mm)
    if long:
        spare = rule("bushing-trim")
        return usual if usual.under_mm <= spare.value else _tighter(usual, spare.value, spare.source)
    under, over = part.tolerance_mm
    if usual.under_mm <= under + _SAME_MM and usual.over_mm <= over + _SAME_MM:
        return usual
    return Limits(
        min(under, usual.under_mm), min(over, usual.over_mm), STACK, rule("bushing-tolerance").source
    )


def finished_limits(part: BushingPart, shop: Shop) -> Limits:
    """Limits of the length that a piece is finished to, here or at the aircraft; every list says these."""
    return length_limits(part, shop, part.length_mm, long=False)


def _tighter(usual: Limits, under_mm: float, source: str) -> Limits:
    return Limits(under_mm, usual.over_mm, ENOUGH, source)


def od_limits(part: BushingPart, shop: Shop) -> Limits | None:
    """None where the outside is left as the stock is supplied, else the general tolerance."""
    turned_down = abs(part.stock_od_mm - part.od_mm) > rule("hole-size-tolerance").value
    return general(shop, part.od_mm) if turned_down else None


def bore_limits(part: BushingPart) -> Limits:
    """The window of bores that will do for the bolt, from the bore as drawn."""
    low, high = part.id_window_mm
    why = f"so that it slides over {part.bolt} and does not rattle"
    under, over = max(0.0, part.id_mm - low), max(0.0, high - part.id_mm)
    return Limits(under, over, why, rule("bushing-bore-over-shank").source)


def chamfer_limits(chamfer_mm: float) -> Limits:
    """Limits of the chamfer: below the size that ISO 2768-1 begins with, so that it must be told."""
    off = rule("bushing-chamfer-tolerance")
    return Limits(min(off.value, chamfer_mm), off.value, "no general tolerance holds so small", off.source)


def square_mm() -> float:
    """How far an end face may lean, measured across the outside diameter.

    Two faces that lean s each leave up to 2 s on one side of a seat; a stack counts no more than rule
    `gap-nothing` as nothing. A finer rule `bushing-square` goes first.

    >>> square_mm()
    0.05
    """
    return min(rule("bushing-square").value, rule("gap-nothing").value / 2)


def square_why(part: BushingPart, units: str) -> str:
    """What would come of faces that lean more: two of them open a seat, and rock the bolt's head.

    The head leans atan(2 s / outside diameter) at most.
    """
    both = 2 * square_mm()
    lean = degrees(atan(both / part.od_mm))
    return f"two faces open a seat by {show_length(both, units)} and rock the head {lean:.1f}° at most"


def trim_words(units: str) -> str:
    """What is said of a piece that is left long."""
    spare = show_length(rule("bushing-trim").value, units)
    return (
        f"Left long: {spare} over the longest gap to be expected. Trimmed at the aircraft to the gap found; "
        "both ends are square as delivered."
    )
