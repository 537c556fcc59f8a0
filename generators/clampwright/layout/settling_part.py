"""Plate and component: one rigid part on clamps of several tubes."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.clamp_rows import Body, ClampRows, clamp_rows, clamp_twist, shifted
from clampwright.layout.in_turn import in_turn
from clampwright.layout.inputs import Inputs, inputs
from clampwright.layout.on_feet import body_of, component_conditions, plate_conditions
from clampwright.layout.own_causes import PLACE, ROUNDED, OwnCause, clamp_causes, place_causes, rounded_causes
from clampwright.layout.placed import ClampPlace, Frame, PlateLayout
from clampwright.layout.settling import Settling
from clampwright.layout.tubes_known import tubes_known
from clampwright.recipe.bushing_model import BushingJob
from clampwright.recipe.model import PlateJob, Recipe
from clampwright.structure.uncertainty import Uncertainty, coverage

Array = npt.NDArray[np.float64]


def settle_plate(layout: PlateLayout) -> Settling:
    """An accessory plate."""
    increment = layout.recipe.asked(PlateJob).plate.round_to_mm
    own = (*clamp_causes(layout.clamps, coverage()), *rounded_causes(layout.clamps, increment))
    sure, given, body, rows = _on_clamps(layout.recipe, layout.clamps, layout.frame, own)
    rows = [_rounded(clamp, row, layout.frame, given) for clamp, row in zip(layout.clamps, rows, strict=True)]
    twists = in_turn(plate_conditions(layout.clamps, rows), given.count)
    return _settling(layout.clamps, sure, given, body, rows, twists)


def settle_component(layout: BushingLayout) -> Settling:
    """A component on bushings."""
    job, measuring = layout.recipe.asked(BushingJob), layout.recipe.measuring
    own = tuple(clamp_causes(layout.clamps, coverage()))
    name = job.component.name
    if job.pose.fixed:
        own = (*own, *place_causes(name, measuring.error_mm, measuring.given, coverage()))
    sure, given, body, rows = _on_clamps(layout.recipe, layout.clamps, layout.frame, own)
    if job.pose.fixed:
        placed = np.array([given.own_row(PLACE, name, axis) for axis in range(3)])
        twists = body.twists(np.vstack([np.zeros((3, given.count)), placed]))
    else:
        twists = in_turn(component_conditions(layout.clamps, rows), given.count)
    return _settling(layout.clamps, sure, given, body, rows, twists)


def _on_clamps(
    recipe: Recipe, clamps: Sequence[ClampPlace], frame: Frame, own: Sequence[OwnCause]
) -> tuple[Uncertainty, Inputs, Body, list[ClampRows]]:
    tubes = [recipe.structure.tube(clamp.tube) for clamp in clamps]
    sure, given, n = tubes_known(recipe), inputs(tubes, own), np.array(frame.n)
    body = body_of(clamps, n)
    rows = [
        clamp_rows(clamp, tube, given.ends(tube.name), n, body, given)
        for clamp, tube in zip(clamps, tubes, strict=True)
    ]
    return sure, given, body, rows


def _rounded(clamp: ClampPlace, rows: ClampRows, frame: Frame, given: Inputs) -> ClampRows:
    """The clamp's figures with its hole where rounding puts it."""
    for axis, way in enumerate((frame.u, frame.v)):
        rows = shifted(rows, way, given.own_row(ROUNDED, clamp.label, axis))
    return rows


def _settling(
    clamps: Sequence[ClampPlace],
    sure: Uncertainty,
    given: Inputs,
    body: Body,
    rows: Sequence[ClampRows],
    twists: Array,
) -> Settling:
    each = {clamp.label: row for clamp, row in zip(clamps, rows, strict=True)}
    return Settling(
        sure=sure,
        inputs=given,
        part=body.world(twists),
        clamps={label: clamp_twist(row, body, twists) for label, row in each.items()},
        centres={label: row.centre for label, row in each.items()},
        across={label: row.across.after(twists) for label, row in each.items()},
        station={label: row.station.after(twists) for label, row in each.items()},
        gap={label: row.gap.after(twists) for label, row in each.items()},
    )
