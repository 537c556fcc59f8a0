"""A finished nest held against its own rules: margins, kerf, grain, every copy once. Exact on true arcs."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import combinations

import shapely

from clampwright.layout.outline import Outline
from clampwright.layout.shop.told import FlatPart
from clampwright.nesting.apart import apart
from clampwright.nesting.nested import Nest, NestedSheet, Stock
from clampwright.nesting.on_sheet import outline_on_sheet
from clampwright.nesting.shapes import holding
from clampwright.nesting.turns import turns

SAME_MM = 1e-6
"""Less than this too near is no fault."""
_SAME_TURN = 1e-9


def faults_of_nest(nest: Nest, parts: Sequence[FlatPart]) -> tuple[str, ...]:
    """Everything wrong with a nest, as sentences: a fault of this program where there is any."""
    return (
        *(fault for sheet in nest.sheets for fault in _sheet_faults(sheet)),
        *_count_faults(nest, parts),
    )


def layout_faults(stock: Stock, contours: Sequence[tuple[str, Outline]]) -> Iterator[str]:
    """Named contours nearer to each other than the kerf, or to the sheet's edges than the margin."""
    inner = (stock.margin_mm, stock.width_mm - stock.margin_mm, stock.length_mm - stock.margin_mm)
    for name, contour in contours:
        x0, y0, x1, y1 = contour.box()
        over = max(inner[0] - x0, inner[0] - y0, x1 - inner[1], y1 - inner[2])
        if over > SAME_MM:
            yield f"{name} is {over:.6f} mm over the margin"
    enough = stock.kerf_mm + 2 * SAME_MM
    for (name, one), (against, other) in combinations(contours, 2):
        between = apart(one, other, enough)
        if between < stock.kerf_mm - SAME_MM:
            yield f"{name} and {against} are {between:.6f} mm apart, not {stock.kerf_mm:g} mm"
        elif between == 0 and _overlap(one, other):
            yield f"{name} and {against} overlap"


def _overlap(one: Outline, other: Outline) -> bool:
    """Whether parts that may touch, as no kerf is kept, do more than that."""
    both = [shapely.Polygon(holding(outline)) for outline in (one, other)]
    return bool(both[0].intersection(both[1]).area > SAME_MM * both[0].length)


def _sheet_faults(sheet: NestedSheet) -> Iterator[str]:
    contours = [(f"{laid.part.number} copy {laid.copy}", outline_on_sheet(laid)) for laid in sheet.laid]
    yield from (f"sheet {sheet.number}: {fault}" for fault in layout_faults(sheet.stock, contours))
    for laid in sheet.laid:
        allowed = turns(laid.part).turns_rad
        if not any(_same_turn(laid.turn_rad, turn) for turn in allowed):
            yield f"sheet {sheet.number}: {laid.part.number} lies against its grain"
    end = max(contour.box()[3] for _, contour in contours)
    used = (end + sheet.stock.margin_mm) * sheet.stock.width_mm
    if not math.isclose(sheet.used_mm2, used, rel_tol=1e-9):
        yield f"sheet {sheet.number}: {sheet.used_mm2:.3f} mm2 in use, not {used:.3f} mm2"


def _count_faults(nest: Nest, parts: Sequence[FlatPart]) -> Iterator[str]:
    left = {number for number, _ in nest.left_out}
    wanted = Counter(
        (p.number, copy) for p in parts if p.number not in left for copy in range(1, p.quantity + 1)
    )
    laid = Counter((each.part.number, each.copy) for sheet in nest.sheets for each in sheet.laid)
    for number, copy in sorted((wanted - laid) + (laid - wanted)):
        yield f"{number} copy {copy} is laid {laid[number, copy]} times, not {wanted[number, copy]}"


def _same_turn(a: float, b: float) -> bool:
    return abs(math.remainder(a - b, 2 * math.pi)) < _SAME_TURN
