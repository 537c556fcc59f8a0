"""The bushings under a plate as parts to be made."""

from __future__ import annotations

from clampwright.layout.bushing_parts import BushingPart
from clampwright.layout.placed import PlateLayout


def plate_bushings(layout: PlateLayout) -> tuple[BushingPart, ...]:
    """Bushings under the plate, one a length."""
    raise NotImplementedError
