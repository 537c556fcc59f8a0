"""The picture that shows how to measure a loop clamp: reach, seat and feet, seen along the tube."""

from __future__ import annotations

import math

from clampwright.quantities import Vec2, show_length
from clampwright.sheets.drawing import Circle, Item, Page, Path, Pen, Text
from clampwright.sheets.ink import ACCENT, GREY, PALE
from clampwright.trade.bolts import bolt
from clampwright.trade.clamps import LoopClamp

_SCALE = 3.0
_SIZE = (170.0, 140.0)
_AXIS: Vec2 = (64.0, 84.0)
_LINE = Pen(0.35)
_CENTRE = Pen(0.15, GREY, (5.0, 1.0, 0.8, 1.0))
_DIMENSION = Pen(0.25, ACCENT)
_LETTERS = 3.4
_NOTES = 2.9


def clamp_picture(clamp: LoopClamp, bolt_name: str, units: str) -> Page:
    """A clamp closed on its tube, three times its size, with the three dimensions and how to take them.

    Examples
    --------
    >>> from clampwright.trade.clamps import loop_clamp
    >>> page = clamp_picture(loop_clamp(19.05, "CH"), "AN3", "in")
    >>> [item.text for item in page.items if isinstance(item, Text)][0]
    'reach'
    """
    items = (*_clamp(clamp, bolt_name), *_dimensions(clamp), *_notes(clamp, bolt_name, units))
    texts = sorted((i for i in items if isinstance(i, Text)), key=lambda text: text.text != "reach")
    return Page(
        f"How to measure {clamp.part}", *_SIZE, (*(i for i in items if not isinstance(i, Text)), *texts)
    )


def _at(x_mm: float, y_mm: float) -> Vec2:
    return _AXIS[0] + _SCALE * x_mm, _AXIS[1] + _SCALE * y_mm


def _box(x0: float, y0: float, x1: float, y1: float, fill: str | None = None) -> Path:
    return Path((_at(x0, y0), _at(x1, y0), _at(x1, y1), _at(x0, y1)), _LINE, closed=True, fill=fill)


def _clamp(clamp: LoopClamp, bolt_name: str) -> list[Item]:
    outer, loop, end = clamp.outside_radius_mm, clamp.loop_mm / 2, clamp.reach_mm + clamp.foot_end_mm
    top, middle, low = clamp.seat_mm, clamp.seat_mm - clamp.feet_mm / 2, clamp.seat_mm - clamp.feet_mm
    half = bolt(bolt_name).nominal_mm / 2
    start = math.sqrt(max(outer**2 - low**2, 0.0)) if low < outer else 0.0
    reach = clamp.reach_mm
    return [
        Circle(_at(0, 0), _SCALE * outer, _LINE, PALE),
        Circle(_at(0, 0), _SCALE * loop, _LINE, "#ffffff"),
        Circle(_at(0, 0), _SCALE * loop * 0.88, Pen(0.2, GREY)),
        Path((_at(0, top), _at(end, top), _at(end, low), _at(start, low)), _LINE, fill=PALE),
        Path((_at(start, middle), _at(end, middle)), Pen(0.2)),
        _box(reach - half, low, reach + half, top, "#ffffff"),
        Path((_at(0, -outer - 4), _at(0, outer + 5)), _CENTRE),
        Path((_at(-outer - 3, 0), _at(outer + 3, 0)), _CENTRE),
        Path((_at(reach, -outer - 4), _at(reach, top + 5)), _CENTRE),
    ]


def _dimensions(clamp: LoopClamp) -> list[Item]:
    reach, seat, outer = clamp.reach_mm, clamp.seat_mm, clamp.outside_radius_mm
    end, low = clamp.reach_mm + clamp.foot_end_mm, clamp.seat_mm - clamp.feet_mm
    beside = end + 3.0
    return [
        *_measure(_at(0, -outer - 3), _at(reach, -outer - 3), "reach"),
        *_measure(_at(-outer - 2, 0), _at(-outer - 2, seat), "seat"),
        Path((_at(-outer - 3, seat), _at(0, seat)), Pen(0.15, ACCENT)),
        *_measure(_at(beside, low), _at(beside, seat), "feet"),
        Path((_at(end, low), _at(beside + 1, low)), Pen(0.15, ACCENT)),
        Path((_at(end, seat), _at(beside + 1, seat)), Pen(0.15, ACCENT)),
    ]


def _measure(a: Vec2, b: Vec2, name: str) -> list[Item]:
    """A dimension line with ticks; its name below a level line, beside an upright one."""
    level = abs(a[1] - b[1]) < 1e-9
    tick = (0.0, 1.2) if level else (1.2, 0.0)
    ticks = [Path(((x - tick[0], y - tick[1]), (x + tick[0], y + tick[1])), _DIMENSION) for x, y in (a, b)]
    middle = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
    if level:
        label = Text((middle[0], middle[1] - 4.6), name, _LETTERS, "middle", bold=True, colour=ACCENT)
    else:
        right = name == "feet"
        place = (middle[0] + (2.2 if right else -2.2), middle[1] - 1.2)
        label = Text(place, name, _LETTERS, "left" if right else "right", bold=True, colour=ACCENT)
    return [Path((a, b), _DIMENSION), *ticks, label]


def _notes(clamp: LoopClamp, bolt_name: str, units: str) -> list[Item]:
    tube, shank = clamp.loop_mm / 2, bolt(bolt_name).nominal_mm / 2
    lines = (
        f"Close the clamp on the tube with its bolt ({bolt_name}) and its nut finger tight,"
        " then with calipers:",
        f"reach: over the bolt and the far side of the tube, less {show_length(tube + shank, units)}"
        " (half the tube and half the bolt)",
        f"seat: from the foot's outer face to the far side of the tube, less {show_length(tube, units)}"
        " (half the tube)",
        "feet: over both feet, squeezed together",
        f"Shown: defaults for {clamp.part} on a tube of {show_length(clamp.loop_mm, units)};"
        " nobody measured them.",
    )
    return [Text((6.0, 22.0 - 4.2 * row), line, _NOTES, bold=not row) for row, line in enumerate(lines)]
