"""A line on a tube or panel: two clamps, or one, on a bolt that follows them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import numpy.typing as npt

from clampwright.layout.clamp_rows import Body, ClampRows, Linear, clamp_rows, clamp_twist
from clampwright.layout.in_turn import Condition, condition, in_turn
from clampwright.layout.inputs import Inputs, inputs
from clampwright.layout.line_rows import line_ends, panel_shift
from clampwright.layout.on_feet import body_of
from clampwright.layout.own_causes import clamp_causes, place_causes
from clampwright.layout.pairing.parallel_pair import nearly_parallel
from clampwright.layout.pairing.skew_pair import common_square
from clampwright.layout.settling import Settling
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.layout.tubes_known import tubes_known
from clampwright.quantities.directions import dot
from clampwright.recipe.stand_off_model import StandOffJob
from clampwright.structure.tubes import Tube
from clampwright.structure.uncertainty import coverage

Array = npt.NDArray[np.float64]

_SQUARE = 1e-9
"""How far the cosine of bolt and common square may be off 1: only the layout's own arithmetic."""


def crosses(layout: StandOffLayout) -> bool:
    """Whether tube and line were laid out as crossing, not side by side."""
    job = layout.recipe.asked(StandOffJob)
    if job.tube is None:
        return False
    tube = layout.recipe.structure.tube(job.tube)
    if nearly_parallel(tube, layout.line):
        return False
    square, _ = common_square(tube, layout.line)
    return abs(dot(square, layout.place.axis)) > 1.0 - _SQUARE


def settle_pair(layout: StandOffLayout) -> Settling:
    """A stand-off."""
    job, measuring = layout.recipe.asked(StandOffJob), layout.recipe.measuring
    tube = None if job.tube is None else layout.recipe.structure.tube(job.tube)
    own = [*clamp_causes(layout.loops, coverage())]
    places = {layout.line.name: 6} if layout.panel is None else {layout.line.name: 6, layout.panel.name: 1}
    for name, axes in places.items():
        own += place_causes(name, measuring.error_mm, measuring.given, coverage(), axes)
    given = inputs([] if tube is None else [tube], own)
    n = np.array(layout.place.axis)
    body = replace(body_of(layout.loops, n), origin=np.array(layout.place.bolt))
    ends = line_ends(layout, given, crosses(layout))
    on_line = clamp_rows(layout.loops[-1], _whole(layout.line), ends, -n, body, given, along_bolt=True)
    if tube is None:
        return _on_panel(layout, given, body, on_line, ends)
    on_tube = clamp_rows(layout.loops[0], tube, given.ends(tube.name), n, body, given, along_bolt=True)
    twists = in_turn(_conditions(layout, on_tube, on_line, body), given.count)
    spacer = (on_tube.gap + on_line.gap).after(twists)
    return _settling(layout, given, body, (on_tube, on_line), twists, spacer, ends)


def _whole(line: Tube) -> Tube:
    """A line has no mark: its stations count from its first point."""
    return replace(line, mark_mm=None)


def _conditions(
    layout: StandOffLayout, on_tube: ClampRows, on_line: ClampRows, body: Body
) -> list[Condition]:
    square = on_tube.tilt.times(body.radius_mm)
    fourth = on_line.tilt.times(body.radius_mm) if crosses(layout) else on_tube.station
    return [condition((square, fourth, on_tube.across, on_line.across))]


def _on_panel(layout: StandOffLayout, given: Inputs, body: Body, on_line: ClampRows, ends: Array) -> Settling:
    """The bolt stays square to the panel, at the line's station."""
    n = body.n
    v = on_line.axes[2]
    still = [Linear(body.turning(way) * body.radius_mm, np.zeros(given.count)) for way in (v, np.cross(n, v))]
    twists = in_turn([condition((*still, on_line.across, on_line.station))], given.count)
    height = Linear(body.along(body.origin, n), -n @ panel_shift(layout, given))
    spacer = (height + on_line.gap).after(twists)
    return _settling(layout, given, body, (on_line,), twists, spacer, ends)


def _settling(
    layout: StandOffLayout,
    given: Inputs,
    body: Body,
    rows: tuple[ClampRows, ...],
    twists: Array,
    spacer: Array,
    ends: Array,
) -> Settling:
    labels = [loop.label for loop in layout.loops]
    each = dict(zip(labels, rows, strict=True))
    length = layout.line.length_mm
    part, gap = _line_twist(layout.line, ends, length), spacer
    clamps = {label: clamp_twist(row, body, twists) for label, row in each.items()}
    if layout.line_solved and spacer.any():
        back = np.vstack([np.zeros((3, given.count)), -np.outer(body.n, spacer)])
        part, clamps[labels[-1]], gap = part + back, clamps[labels[-1]] + back, np.zeros(given.count)
    across = {label: row.across.after(twists) for label, row in each.items()}
    if layout.panel is not None:
        across = {labels[0]: rows[0].axes[2] @ rows[0].centre}
    return Settling(
        sure=tubes_known(layout.recipe),
        inputs=given,
        part=part,
        clamps=clamps,
        centres={label: row.centre for label, row in each.items()},
        across=across,
        station={label: row.station.after(twists) for label, row in each.items()},
        gap=dict.fromkeys(labels, gap),
    )


def _line_twist(line: Tube, ends: Array, length: float) -> Array:
    """The line as a body: it follows both its ends and does not turn about itself."""
    b = np.array(line.direction)
    turned = (np.eye(3) - np.outer(b, b)) @ (ends[3:] - ends[:3]) / length
    turn = np.cross(b, turned, axis=0)
    return np.vstack([turn, ends[:3] - np.cross(turn, np.array(line.start), axis=0)])
