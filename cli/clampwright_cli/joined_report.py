"""Tables that the reports of a component on bushings and of a stand-off share."""

from __future__ import annotations

import math
from collections.abc import Sequence

from clampwright.layout.bushing_parts import BushingPart, CutList, MadeUp
from clampwright.layout.clock import clock_of
from clampwright.layout.cut_long import as_marked, as_sawn
from clampwright.layout.from_mark import station_said
from clampwright.layout.joined import Joined, Loop, line_named
from clampwright.layout.placed import Stack
from clampwright.quantities import show_length
from clampwright_cli.stack_text import stack_text
from clampwright_cli.table import table


def clamp_table(layout: Joined) -> str:
    """Where every clamp goes: tube, station, clock."""
    heads = ["clamp", "on", "station", "clock", "part", "tilt", "bolt"]
    zero = sorted({clock_of(loop).zero_is for loop in layout.loops})
    how = f"clock: from the {' or the '.join(zero)} of the tube, clockwise looking from its start to its end"
    return f"Clamps ({how})\n" + table(heads, [_row(loop, layout) for loop in layout.loops])


def _row(loop: Loop, layout: Joined) -> list[str]:
    where = clock_of(loop)
    stack = next((j.stack for j in layout.joints if loop.label in j.clamps), None)
    return [
        loop.label,
        loop.tube,
        station_said(line_named(loop.tube, layout), loop.station_mm, layout.recipe.units),
        f"{where.hours} ({where.deg:.0f} deg)",
        loop.clamp.part,
        f"{math.degrees(loop.tilt_rad):.1f} deg",
        bolt_of(stack),
    ]


def bolt_of(stack: Stack | None) -> str:
    """The bolt chosen for a stack."""
    return stack.chosen.length.part if stack is not None and stack.chosen is not None else "not known"


def bushing_table(layout: Joined, cuts: CutList) -> str:
    """The bushings to make, and what fills which gap with which washers; "" where there are none."""
    if not layout.bushings:
        return ""
    return bushings_text(as_marked(layout), as_sawn(layout, cuts), layout.recipe.units)


def bushings_text(parts: Sequence[BushingPart], cuts: CutList, units: str) -> str:
    """The same for bushings that no layout has."""
    heads = ["mark", "make", "length", "OD x bore", "from", "fills"]
    rows = [_bushing_row(part, units) for part in parts]
    lines = ["Bushings to make", table(heads, rows)]
    lines += [f"  needs {show_length(length, units)} of {stock}" for stock, length in cuts.needed_mm]
    return "\n".join(lines)


def _bushing_row(part: BushingPart, units: str) -> list[str]:
    sizes = f"{show_length(part.od_mm, units)} x {show_length(part.id_mm, units)}"
    fills = "; ".join(_fill(fill, units) for fill in part.fills)
    length = show_length(part.length_mm, units)
    return [part.mark, str(part.quantity), length, sizes, part.stock, fills]


def _fill(fill: MadeUp, units: str) -> str:
    washers = [name for name, _ in fill.washers]
    made_up = "".join(f" + {washers.count(name)} x {name}" for name in dict.fromkeys(washers))
    return f"{fill.where} ({show_length(fill.gap_mm, units)}){made_up}"


def stacks(layout: Joined) -> str:
    """Every different stack from head to nut, with the joints that have it."""
    units = layout.recipe.units
    texts: dict[str, list[str]] = {}
    for joint in layout.joints:
        texts.setdefault(stack_text(joint.stack, units), []).append(joint.label)
    made = (f"{', '.join(labels)}: {text}".replace("\n", "\n  ") for text, labels in texts.items())
    return "Stacks\n  " + "\n  ".join(made)
