"""The best fit of finished parts: holes on their bolts, bushings in their gaps, bolts in their stacks."""

from __future__ import annotations

import math

from clampwright.layout.as_made import BestFit, GroupFit
from clampwright.layout.as_made_drawn import drawn
from clampwright.layout.as_made_feet import fit_feet
from clampwright.layout.as_made_holes import CLAMPS, fit_holes
from clampwright.layout.as_made_lengths import fit_lengths
from clampwright.layout.as_made_stacks import fit_stacks
from clampwright.layout.joined import Joined
from clampwright.layout.placed import PlateLayout
from clampwright.recipe.measured_model import MeasuredPart

_NONE = GroupFit(CLAMPS, (0.0, 0.0), 0.0, (0.0, 0.0), math.inf, math.inf, ())


def best_fit(layout: Joined, measured: MeasuredPart) -> BestFit:
    """Shift and turn that leave the tightest hole the most room, and what the bushings leave of their gaps.

    Parameters
    ----------
    layout
        Of any kind; only a plate has holes of its own.
    measured
        Labels and marks have to be the layout's: the reader refuses others.

    Notes
    -----
    A bolt of shank F in holes H of both parts lets each hole stand (H - F)/2 off it: the floating fastener,
    H = F + T of ASME Y14.5, with T the diameter of the zone that a hole's axis may lie in.
    """
    holes, groups = fit_holes(layout, measured) if isinstance(layout, PlateLayout) else ((), ())
    lengths = fit_lengths(layout, measured)
    feet, lean = fit_feet(layout, lengths)
    clamps = next((group for group in groups if group.name == CLAMPS), _NONE)
    return BestFit(
        shift=clamps.shift,
        turn_rad=clamps.turn_rad,
        about=clamps.about,
        holes=holes,
        lengths=lengths,
        not_measured=_not_measured(layout, measured),
        before_mm=clamps.before_mm,
        groups=groups,
        feet=feet,
        lean_rad=lean,
        stacks=fit_stacks(layout, lengths, measured.thickness_mm),
        not_sized=tuple(hole.label for hole in holes if not hole.sized),
    )


def _not_measured(layout: Joined, measured: MeasuredPart) -> tuple[str, ...]:
    """Bolt holes without a place, then marks of which pieces are missing: "S1", "S1 (1 of 2 pieces)"."""
    found = {hole.label for hole in measured.holes}
    marks = [one.mark for one in measured.lengths]
    holes = layout.holes if isinstance(layout, PlateLayout) else ()
    open_ = [hole.label for hole in holes if hole.purpose != "lightening" and hole.label not in found]
    short = [
        (part.mark, have, part.quantity)
        for part in drawn(layout).lengths
        if (have := marks.count(part.mark)) < part.quantity
    ]
    return (*open_, *(f"{mark} ({have} of {all_} pieces)" if have else mark for mark, have, all_ in short))
