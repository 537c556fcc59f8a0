"""A layout of a tube, a part and a clamp whose drifts are given by hand."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from clampwright.layout.causes import Cause
from clampwright.layout.drift import Drift, of_tube, rigid
from clampwright.layout.drifts import Drifts
from clampwright.structure.tubes import Tube
from clampwright.structure.uncertainty import Uncertainty, coverage, independent

Array = npt.NDArray[np.float64]

TUBE = Tube("low", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0), 20.0)
ERROR = 1.5
"""± of every coordinate of both its ends, 95 %."""
SURE: Uncertainty = independent((TUBE,), ERROR, "by hand")


def still() -> Drift:
    """Of what does not move."""
    return rigid(np.zeros((6, SURE.causes)))


def drifts(part: Drift | None = None) -> Drifts:
    """The tube's ends err on their own; the part stands still, or goes as given."""
    tube = of_tube(TUBE, SURE, SURE.causes)
    return Drifts(
        part=part or still(),
        clamps={},
        tubes={"low": tube},
        owners={},
        ends={},
        own_mm=ERROR / coverage(),
        own_default="",
        causes=(Cause("where low is"),) * SURE.causes,
        most_mm=ERROR * 3**0.5,
        most_of={},
    )
