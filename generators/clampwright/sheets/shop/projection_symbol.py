"""The symbol of the angle of projection: a cone cut off, lying, and its view from the left (ISO 5456-2)."""

from __future__ import annotations

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Circle, Item, Path, Pen, moved

CHAIN = (3.0, 0.8, 0.5, 0.8)
"""Dashes of the axes, mm: short, to suit the small symbol."""
_APART, _OVER = 1.0, 0.35
"""Room between the two views, and how far an axis runs on beyond them, of the symbol's module."""


def symbol_size(module_mm: float) -> Vec2:
    """Width and height of the symbol: the cone is two modules long and two high, its thin end one."""
    return module_mm * (4.0 + _APART + 2 * _OVER), module_mm * (2.0 + 2 * _OVER)


def projection_symbol(angle: str, at: Vec2, module_mm: float, wide: Pen, narrow: Pen) -> tuple[Item, ...]:
    """The symbol with its middle at a point.

    The cone's thin end is on its left. Its view from the left, two whole circles, stands on the left of it
    in the third angle (on the side that it is looked at from) and on the right of it in the first.

    Parameters
    ----------
    angle : str
        "third" or "first".
    at : Vec2
        Middle of the symbol, mm.
    module_mm : float
        Diameter of the thin end.
    wide, narrow : Pen
        For outlines and for axes.

    Examples
    --------
    >>> symbol = projection_symbol("third", (0.0, 0.0), 2.0, Pen(), Pen())
    >>> [(item.centre, item.radius) for item in symbol if isinstance(item, Circle)]
    [((-3.0, 0.0), 1.0), ((-3.0, 0.0), 2.0)]
    """
    m = module_mm
    off = m * (1.0 + _APART / 2)
    ends, side = (-off, off) if angle == "third" else (off, -off)
    axis = Pen(narrow.width_mm, narrow.colour, CHAIN)
    cone = ((side - m, -m / 2), (side - m, m / 2), (side + m, m), (side + m, -m))
    over = m * (1.0 + _OVER)
    items: list[Item] = [
        Path(cone, wide, closed=True),
        Circle((ends, 0.0), m / 2, wide),
        Circle((ends, 0.0), m, wide),
        Path(((side - over, 0.0), (side + over, 0.0)), axis),
        Path(((ends - over, 0.0), (ends + over, 0.0)), axis),
        Path(((ends, -over), (ends, over)), axis),
    ]
    return moved(items, at)
