"""Layouts whose tubes are exactly where they were measured, for tests of limits."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from clampwright.layout.drifts import Drifts, drifts_from
from clampwright.layout.joined import Joined
from clampwright.layout.settled import Settled
from clampwright.structure.uncertainty import Uncertainty


def still(layout: Joined) -> Drifts:
    """The drifts of a layout where nothing errs."""
    names = layout.recipe.structure.names
    sure = Uncertainty(names, ((0.0,),) * 6 * len(names), "by hand")
    clamps = {loop.label: np.zeros((6, 1)) for loop in layout.loops}
    return replace(drifts_from(Settled(sure, 1, np.zeros((6, 1)), clamps), layout), own_mm=0.0)
