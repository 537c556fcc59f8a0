"""How dimensions look: letters, arrow heads, gaps; mm on the paper, after ISO 129-1 and ISO 3098."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.recipe.model import Shop
from clampwright.sheets.drawing import Pen
from clampwright.sheets.shop.sizes import DrawingSheet

LETTER = 3.5
"""Letters of a dimension, of the em: capitals are 2.5 mm high."""
LABEL = 3.2
"""Letters of a hole's label."""
LEAST_LABEL = 2.5
"""Of one that finds no room otherwise."""
ARROW = 3.0
SLIM = 0.17
"""Half an arrow head's width over its length."""
GAP = 1.0
"""Between the part and its extension lines."""
OVER = 1.5
"""How far an extension line runs beyond its dimension line."""
AIR = 0.6
"""Least room between a text and anything else."""
CLOSE = 0.6
"""Between a dimension line and the text that stands on it."""
FIRST = 10.0
"""From a view to its nearest dimension line."""
LANE = 8.0
"""From one dimension line to the next."""
TAIL = 3.0
"""Of a dimension line beyond an arrow head that points inwards."""


@dataclass(frozen=True, slots=True)
class Style:
    """What differs from drawing to drawing.

    `upright`: every text reads from below and breaks its line (ASME Y14.5), instead of standing along it
    (ISO 129-1).
    """

    units: str
    upright: bool
    pen: Pen


def style_of(units: str, shop: Shop, sheet: DrawingSheet) -> Style:
    """The style that goes with a shop's sheets.

    >>> from clampwright.recipe.shop import usual_shop
    >>> from clampwright.sheets.shop.sizes import drawing_sheet
    >>> style_of("in", usual_shop("in"), drawing_sheet("B")).upright
    True
    """
    return Style(units, shop.drawing == "ansi", Pen(sheet.narrow_mm))
