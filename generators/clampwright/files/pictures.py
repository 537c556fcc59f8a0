"""Pictures to look at: the part and the assembly with hidden lines removed, as SVG. Loads the CAD kernel."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from clampwright.files.svg import svg
from clampwright.files.written import Written
from clampwright.layout.placed import PlateLayout
from clampwright.sheets.picture import picture, view_strokes
from clampwright.solids.assembly import plate_of
from clampwright.solids.body import Body
from clampwright.solids.hidden import without_hidden
from clampwright.solids.views import draw, role_by_role, standard_looks


def pictures(layout: PlateLayout, bodies: Sequence[Body]) -> Iterator[Written]:
    """The part and the assembly at a slant.

    Parameters
    ----------
    layout : PlateLayout
        What the pictures are of.
    bodies : Sequence[Body]
        Its assembly.
    """
    name, look = layout.recipe.name, standard_looks(layout.frame)["oblique"]
    seen = role_by_role(without_hidden(bodies, layout, look))
    for word, shown in (("part", [plate_of(bodies)]), ("assembly", seen)):
        page = picture(f"{name}: {word}", view_strokes(draw(shown, look)))
        yield Written(f"{name}-{word}.svg", svg(page).encode(), f"Picture of the {word}")
