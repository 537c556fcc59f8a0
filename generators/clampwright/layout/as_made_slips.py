"""Measured holes that were taken from other edges, with axes exchanged, or written under another's label."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from itertools import combinations

from clampwright.layout.placed import PlateLayout
from clampwright.quantities import Vec2
from clampwright.recipe.measured_model import MeasuredPart
from clampwright.trade.tables import rule

Taken = Callable[[float, float], Vec2]


def taken_otherwise(layout: PlateLayout, measured: MeasuredPart) -> str:
    """What was most likely done when the holes were measured, one sentence; "" where nothing points to it.

    Every hole is held against where it is drawn, as measured and as if taken from the other edges, with the
    axes exchanged, or with two labels exchanged.
    """
    drawn = {hole.label: hole.at for hole in layout.holes}
    found = {hole.label: hole.at for hole in measured.holes if hole.label in drawn}
    if not found:
        return ""
    worst = max(math.dist(at, drawn[label]) for label, at in found.items())
    if worst < rule("made-slip-least").value:
        return ""
    most = rule("made-otherwise-share").value * worst
    for said, taken in _ways(layout) if len(found) > 1 else ():
        if max(math.dist(taken(*at), drawn[label]) for label, at in found.items()) <= most:
            return said
    return next(_exchanged(found, drawn), "")


def _ways(layout: PlateLayout) -> Iterator[tuple[str, Taken]]:
    low_x, low_y, high_x, high_y = layout.outline.box()
    wide, tall = low_x + high_x, low_y + high_y
    yield "x and y seem to be exchanged.", lambda x, y: (y, x)
    yield (
        "x seems to be measured from the right edge, or the plate lay component side down.",
        lambda x, y: (wide - x, y),
    )
    yield "y seems to be measured from the top edge.", lambda x, y: (x, tall - y)
    yield "The plate seems to have lain upside down: turned half round.", lambda x, y: (wide - x, tall - y)
    yield "The plate seems to have lain turned a quarter clockwise.", lambda x, y: (wide - y, x)
    yield "The plate seems to have lain turned a quarter counter-clockwise.", lambda x, y: (y, tall - x)


def _exchanged(found: dict[str, Vec2], drawn: dict[str, Vec2]) -> Iterator[str]:
    share, least = rule("made-otherwise-share").value, rule("made-slip-least").value
    for one, other in combinations(found, 2):
        as_said = max(math.dist(found[one], drawn[one]), math.dist(found[other], drawn[other]))
        crossed = max(math.dist(found[one], drawn[other]), math.dist(found[other], drawn[one]))
        if as_said >= least and crossed <= share * as_said:
            yield f"{one} and {other} seem to be exchanged."
