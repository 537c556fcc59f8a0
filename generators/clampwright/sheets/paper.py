"""Papers, and the part of them that a printer reaches."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Box
from clampwright.trade.tables import rule

NAMES = {"letter": "Letter", "a4": "A4"}
"""Papers by the word that a recipe uses, and as people write them."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper, upright, and the box within its printable border."""

    name: str
    width_mm: float
    height_mm: float
    frame: Box


def paper(name: str, stretch: Vec2 = (1.0, 1.0)) -> Paper:
    """The paper by its name; its frame is smaller where the page is drawn stretched.

    Raises
    ------
    KeyError
        For a paper the tables do not know.

    Examples
    --------
    >>> paper("a4").frame
    (8.0, 8.0, 202.0, 289.0)
    """
    wide, high = (rule(f"paper-{name}-{side}").value for side in ("width", "height"))
    margin = rule("template-margin").value
    x = wide / 2 - (wide / 2 - margin) / max(1.0, stretch[0])
    y = high / 2 - (high / 2 - margin) / max(1.0, stretch[1])
    return Paper(NAMES[name], wide, high, (x, y, wide - x, high - y))
