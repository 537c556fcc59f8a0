"""How far an item of a page reaches, pens left out."""

from __future__ import annotations

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import ArcPath, Circle, Item, Text
from clampwright.sheets.lettering import corners


def reach(item: Item) -> tuple[Vec2, ...]:
    """Points between which an item lies: a chain's own, the corners of the box round anything else.

    An arc counts as its whole circle.

    Examples
    --------
    >>> reach(Circle((1.0, 2.0), 3.0))[::2]
    ((-2.0, -1.0), (4.0, 5.0))
    """
    if isinstance(item, Text):
        return corners(item)
    if isinstance(item, Circle | ArcPath):
        (x, y), r = item.centre, item.radius
        return (x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r)
    return item.points
