"""What of a layout's parts can be measured when they are finished, and how it is drawn."""

from __future__ import annotations

from clampwright.layout.cut_long import as_marked, left_long
from clampwright.layout.joined import Joined
from clampwright.layout.placed import PlateLayout
from clampwright.recipe.measured_model import Drawn, DrawnHole, DrawnLength


def drawn(layout: Joined) -> Drawn:
    """Holes from the datum edges, bushings by their marks and as they are cut, the plate's thickness."""
    plate = layout if isinstance(layout, PlateLayout) else None
    holes = plate.holes if plate is not None else ()
    return Drawn(
        name=layout.recipe.name,
        units=layout.recipe.units,
        holes=tuple(DrawnHole(hole.label, hole.at, hole.diameter_mm) for hole in holes),
        lengths=_lengths(layout),
        thickness_mm=None if plate is None else plate.thickness_mm,
    )


def _lengths(layout: Joined) -> tuple[DrawnLength, ...]:
    made = []
    for part in as_marked(layout):
        longer = left_long(part, layout.known_to, layout.recipe.units)
        cut = part.length_mm + longer.longer_mm
        made.append(DrawnLength(part.mark, cut, part.quantity, part.length_mm if longer.long else None))
    return tuple(made)
