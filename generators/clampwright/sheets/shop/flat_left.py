"""Says which holes carry no label in a view, for want of room."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from clampwright.sheets.drawing import Item, Text
from clampwright.sheets.flow import LEADING
from clampwright.sheets.ink import BODY
from clampwright.sheets.lettering import wrap
from clampwright.sheets.shop.dimensioning.lanes import NoRoom
from clampwright.sheets.shop.dimensioning.room import Room
from clampwright.sheets.shop.dimensioning.style import AIR

_WIDE, _STEP = 70.0, 4.0


def without_labels(left: Sequence[str], room: Room) -> tuple[Item, ...]:
    """Lines that name what has no label, where they touch nothing: as far up and left as that goes.

    Raises
    ------
    NoRoom
        Where there is no such place.
    """
    if not left:
        return ()
    x0, y0, x1, y1 = room.window
    lines = wrap(f"No room for the labels {', '.join(left)}: find them by X and Y.", _WIDE, BODY)
    high = BODY * LEADING * len(lines)
    x = np.arange(x0 + AIR, x1 - _WIDE, _STEP)
    for y in np.arange(y1 - high - AIR, y0, -_STEP):
        low = np.full(len(x), y)
        free = np.flatnonzero(room.free(np.stack([x, low, x + _WIDE, low + high], axis=1)))
        if len(free):
            at, top = float(x[free[0]]), float(y) + high
            return tuple(
                Text((at, top - BODY * (0.8 + LEADING * n)), line, BODY) for n, line in enumerate(lines)
            )
    raise NoRoom("no place to say which labels are left out")
