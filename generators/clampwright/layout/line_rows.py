"""How sure a carried line's place is, from how the recipe says where it runs."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from clampwright.layout.inputs import Inputs
from clampwright.layout.own_causes import PLACE
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.quantities import Vec3
from clampwright.recipe.stand_off_model import StandOffJob
from clampwright.structure.tubes import Tube

Array = npt.NDArray[np.float64]


def line_ends(layout: StandOffLayout, given: Inputs, crosses: bool) -> Array:
    """What the inputs do to both ends of the line, shape (6, count).

    Two points: each errs in each coordinate by the measuring error. A point and a direction: the point does,
    and the direction is taken as said. A distance beside a tube: the line follows the tube, and errs by the
    measuring error square to it; beside a panel: along its normal. Where the spacer is given the line goes
    with the tube's clamp, but for one that was measured where it crosses.
    """
    job = layout.recipe.asked(StandOffJob)
    carried, line = job.carried, layout.line
    own = _own_place(layout, given)
    if layout.line_solved and not (crosses and carried.point is not None):
        return _with_support(layout, given)
    if carried.point is not None and carried.to is not None:
        second = np.array([given.own_row(PLACE, line.name, axis) for axis in (3, 4, 5)])
        return _stretched(line, carried.point, own, carried.to, second)
    if carried.point is not None and carried.beside_mm is None:
        return np.vstack([own, own])
    square = _square_to(layout)
    return _with_support(layout, given) + np.vstack([square @ own, square @ own])


def panel_shift(layout: StandOffLayout, given: Inputs) -> Array:
    """What the inputs do to the panel: its face errs along its normal, shape (3, count)."""
    if layout.panel is None:
        return np.zeros((3, given.count))
    n = np.array(layout.panel.normal)
    return np.outer(n, given.own_row(PLACE, layout.panel.name))


def _own_place(layout: StandOffLayout, given: Inputs) -> Array:
    return np.array([given.own_row(PLACE, layout.line.name, axis) for axis in range(3)])


def _square_to(layout: StandOffLayout) -> Array:
    """Onto what a distance from the support errs by."""
    if layout.panel is not None:
        n = np.array(layout.panel.normal)
        return np.outer(n, n)
    b = np.array(layout.line.direction)
    return np.eye(3) - np.outer(b, b)


def _with_support(layout: StandOffLayout, given: Inputs) -> Array:
    """The line as though it were part of the support: it keeps its place beside tube or panel."""
    job = layout.recipe.asked(StandOffJob)
    if job.tube is None:
        shift = panel_shift(layout, given)
        return np.vstack([shift, shift])
    tube = layout.recipe.structure.tube(job.tube)
    ends, a = given.ends(tube.name), np.array(tube.direction)
    turned = (np.eye(3) - np.outer(a, a)) @ (ends[3:] - ends[:3]) / tube.length_mm
    turn = np.cross(a, turned, axis=0)
    share = (tube.mark_mm or 0.0) / tube.length_mm
    pivot = np.array(tube.point(tube.mark_mm or 0.0))
    held = (1.0 - share) * ends[:3] + share * ends[3:] + np.outer(a, given.slip(tube.name))
    return np.vstack(
        [held + np.cross(turn, np.array(end) - pivot, axis=0) for end in (layout.line.start, layout.line.end)]
    )


def _stretched(line: Tube, one: Vec3, first: Array, other: Vec3, second: Array) -> Array:
    """Ends of a line of which two places were measured: they move as those two do."""
    run = np.array(other) - np.array(one)
    long = float(run @ run)
    shares = [float((np.array(end) - np.array(one)) @ run) / long for end in (line.start, line.end)]
    return np.vstack([(1.0 - share) * first + share * second for share in shares])
