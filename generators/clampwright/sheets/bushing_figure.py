"""A bushing at true size: cut open along its axis, seen on its end, its length as a bar between two ticks."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.layout.bushing_parts import BushingPart
from clampwright.quantities import Vec2
from clampwright.sheets.both_units import both
from clampwright.sheets.drawing import Circle, Item, Path, Pen, Text, box_path, moved
from clampwright.sheets.ink import BLACK, BODY, CROSS, DATUM, FINE, GREY, OUTLINE, SMALL
from clampwright.sheets.lettering import width

BAR = 1.6
"""Height of the length bar."""
_HATCH, _HATCH_STEP = Pen(0.1, GREY), 1.5
_OVER = 2.0
"""How far centre lines run out."""
_TICK, _AIR, _BETWEEN = 3.0, 2.0, 9.0
_BROKEN, _BREAK = 70.0, 3.0
"""Length of a bushing that is drawn broken, and the gap at the break."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing that hangs from (0, 0) downwards and to the right."""

    items: tuple[Item, ...]
    wide: float
    high: float
    true_size: bool


def bushing_figure(part: BushingPart, units: str, room: float, what: str = "") -> Figure:
    """The bushing at 1:1; broken out, and marked so, where its length is more than `room` leaves.

    The section's end faces and the bar's ends lie exactly the finished length apart; `what` is said
    behind the length.
    """
    aside = 2 * _OVER + _BETWEEN + part.od_mm + _OVER
    true_size = part.length_mm + aside <= room
    long = part.length_mm if true_size else min(_BROKEN, room - aside)
    says = (
        f"{both(part.length_mm, units)} {what}".strip(),
        "" if true_size else "broken out: NOT TO SCALE along its length",
    )
    middle = -_OVER - part.od_mm / 2
    section = _section(part, long) if true_size else _broken(part, long)
    bar, drop = _length_bar(long, says, true_size=true_size)
    under = (_OVER, middle - part.od_mm / 2 - _AIR)
    end = (_OVER + long + _OVER + _BETWEEN + part.od_mm / 2, middle)
    items = (*moved(section, (_OVER, middle)), *moved(bar, under), *moved(_end_view(part), end))
    wide = max(long + aside, _OVER + max(width(text, BODY, True) for text in says))
    return Figure(items, wide, _OVER + part.od_mm + _AIR + drop, true_size)


def _section(part: BushingPart, long: float) -> list[Item]:
    """From x = 0 to `long`, the axis on y = 0."""
    outer, bore, c = part.od_mm / 2, part.id_mm / 2, part.chamfer_mm
    items: list[Item] = []
    for side in (1, -1):
        wall = (
            *((0.0, bore + c), (c, bore), (long - c, bore), (long, bore + c)),
            *((long, outer - c), (long - c, outer), (c, outer), (0.0, outer - c)),
        )
        items += _hatched(c, long - c, bore, outer, side)
        items.append(Path(tuple((x, side * y) for x, y in wall), OUTLINE, closed=True))
    items += [Path(((x, -bore - c), (x, bore + c)), OUTLINE) for x in (0.0, long)]
    items += [Path(((x, -bore), (x, bore)), FINE) for x in (c, long - c)]
    return [*items, Path(((-_OVER, 0.0), (long + _OVER, 0.0)), DATUM)]


def _hatched(x0: float, x1: float, low: float, high: float, side: int) -> list[Item]:
    """Lines at 45° over one wall, mirrored to the other side of the axis."""
    items: list[Item] = []
    start = x0 - (high - low) + _HATCH_STEP
    while start < x1:
        a, b = max(start, x0), min(start + high - low, x1)
        if b > a:
            ends = ((a, low + a - start), (b, low + b - start))
            items.append(Path(tuple((x, side * y) for x, y in ends), _HATCH))
        start += _HATCH_STEP
    return items


def _broken(part: BushingPart, long: float) -> list[Item]:
    """Both ends, with a break in the middle: outlines only."""
    outer, bore, c = part.od_mm / 2, part.id_mm / 2, part.chamfer_mm
    cut = (long - _BREAK) / 2
    items: list[Item] = []
    for at, way in ((0.0, 1), (long, -1)):
        for side in (1, -1):
            outside = ((cut, outer), (c, outer), (0.0, outer - c), (0.0, bore + c), (c, bore), (cut, bore))
            items.append(Path(tuple((at + way * x, side * y) for x, y in outside), OUTLINE))
        items.append(Path(((at, -bore - c), (at, bore + c)), OUTLINE))
        items.append(_zigzag(at + way * cut, outer))
    return [*items, Path(((-_OVER, 0.0), (long + _OVER, 0.0)), DATUM)]


def _zigzag(x: float, outer: float) -> Path:
    high = outer + 1.0
    shape = ((0.0, -high), (0.0, -1.6), (-1.3, -0.8), (1.3, 0.8), (0.0, 1.6), (0.0, high))
    return Path(tuple((x + dx, dy) for dx, dy in shape), FINE)


def _length_bar(long: float, says: tuple[str, str], *, true_size: bool) -> tuple[list[Item], float]:
    """Bar and ticks under the section, and how much room they take."""
    items: list[Item] = [Path(((x, 0.0), (x, -_TICK)), FINE) for x in (0.0, long)]
    top, low = -(_TICK - BAR) / 2, -(_TICK + BAR) / 2
    if true_size:
        items.append(box_path((0.0, low, long, top), None, BLACK))
    else:
        cut = (long - _BREAK) / 2
        items += [box_path((a, low, b, top), None, GREY) for a, b in ((0.0, cut), (long - cut, long))]
    y = -_TICK - BODY
    items.append(Text((0.0, y), says[0], BODY, bold=True))
    if says[1]:
        y -= BODY * 1.3
        items.append(Text((0.0, y), says[1], BODY, bold=True))
    return items, -y + SMALL * 0.3


def _end_view(part: BushingPart) -> list[Item]:
    outer, bore = part.od_mm / 2, part.id_mm / 2
    reach = outer + _OVER

    def line(a: Vec2, b: Vec2) -> Path:
        return Path((a, b), CROSS)

    return [
        Circle((0.0, 0.0), outer, OUTLINE),
        Circle((0.0, 0.0), bore, OUTLINE),
        line((-reach, 0.0), (reach, 0.0)),
        line((0.0, -reach), (0.0, reach)),
    ]
