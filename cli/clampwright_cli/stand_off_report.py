"""What is particular to the report of a stand-off."""

from __future__ import annotations

import math

from clampwright.layout.from_mark import station_said
from clampwright.layout.stand_off_placed import BoltPlace, StandOffLayout
from clampwright.quantities import show_length
from clampwright.recipe.stand_off_model import StandOffJob
from clampwright.trade.tables import rule
from clampwright_cli.how_sure import how_sure
from clampwright_cli.joined_report import bushing_table, clamp_table, stacks
from clampwright_cli.table import table


def head(layout: StandOffLayout) -> list[str]:
    """The line, what holds it, how far off; the plain case in plain words."""
    units = layout.recipe.units
    lines = [f"{layout.line.name}, {show_length(layout.line.od_mm, units)} OD, on {_support(layout)}"]
    lines += [f"bundle of {layout.bundle.wires} wires: {layout.bundle.how}"] if layout.bundle else []
    lines.append(_spacer(layout))
    if layout.wrap is not None:
        thick, turns = show_length(layout.wrap.thickness_mm, units), layout.wrap.turns
        lines.append(f"wrap the line with {thick} of tape all round ({turns:.1f} layers) under its clamp")
    if layout.line_solved:
        lines.append(_run(layout))
    return lines


def _support(layout: StandOffLayout) -> str:
    units = layout.recipe.units
    distance, deg = show_length(layout.distance_mm, units), math.degrees(layout.crossing_rad)
    if layout.panel is not None:
        return f"panel {layout.panel.name}, its axis {distance} from the face"
    how = "parallel to it" if deg < rule("tubes-parallel-most").value else f"crossing it at {deg:.1f} deg"
    return f"tube {layout.recipe.asked(StandOffJob).tube}, {how}, axes {distance} apart"


def _spacer(layout: StandOffLayout) -> str:
    gap = layout.place.spacer_mm
    if gap < -rule("gap-nothing").value:
        return "the two cannot be joined this way"
    if gap <= rule("gap-nothing").value:
        return (
            "no spacer: the foot lies on the panel"
            if layout.panel
            else "no spacer: the clamps lie foot to foot"
        )
    between = "foot and panel" if layout.panel is not None else "the two clamps' feet"
    return f"spacer {show_length(gap, layout.recipe.units)} between {between}"


def _run(layout: StandOffLayout) -> str:
    units = layout.recipe.units
    start = ", ".join(show_length(value, units) for value in layout.line.start)
    end = ", ".join(show_length(value, units) for value in layout.line.end)
    return f"with that spacer the line's axis runs from {start} to {end}"


def body(layout: StandOffLayout) -> list[str]:
    """The clamps, the stack, the bushing, every place of the bolt."""
    return [
        clamp_table(layout),
        how_sure(layout),
        stacks(layout),
        bushing_table(layout, layout.cuts),
        _places(layout),
    ]


def _places(layout: StandOffLayout) -> str:
    built = f"place {layout.place.number} is laid out; place = 2 in [spacer] takes another"
    heads = ["place", "spacer", *_support_heads(layout), "on line", "clock", "axes apart", ""]
    return f"Places for the bolt, best first ({built})\n" + table(
        heads, [_place(place, layout) for place in layout.places]
    )


def _support_heads(layout: StandOffLayout) -> list[str]:
    return ["on tube", "clock"] if layout.panel is None else ["hole in panel at"]


def _place(place: BoltPlace, layout: StandOffLayout) -> list[str]:
    units = layout.recipe.units
    return [
        str(place.number),
        show_length(place.spacer_mm, units),
        *_on_support(place, layout),
        show_length(place.station_line_mm, units),
        f"{place.clock_line_deg:.0f} deg",
        show_length(place.distance_mm, units),
        "fits" if place.fits else "does not fit",
    ]


def _on_support(place: BoltPlace, layout: StandOffLayout) -> list[str]:
    units = layout.recipe.units
    if layout.panel is not None:
        half = place.spacer_mm / 2
        hole = (b - half * a for b, a in zip(place.bolt, place.axis, strict=True))
        return [", ".join(show_length(value, units) for value in hole)]
    tube = layout.recipe.structure.tube(layout.recipe.asked(StandOffJob).tube or "")
    return [station_said(tube, place.station_tube_mm, units), f"{place.clock_tube_deg:.0f} deg"]
