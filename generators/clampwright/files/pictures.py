"""Pictures to look at: the part and the assembly with hidden lines removed, as SVG. Loads the CAD kernel."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from clampwright.files.svg import svg
from clampwright.files.written import Written
from clampwright.layout.joined import Joined
from clampwright.layout.placed import PlateLayout
from clampwright.sheets.picture import picture, view_strokes
from clampwright.solids.assembly import plate_of
from clampwright.solids.body import Body
from clampwright.solids.hidden import without_hidden
from clampwright.solids.joint_look import joint_look
from clampwright.solids.place import Place
from clampwright.solids.views import draw, role_by_role, standard_looks


def pictures(layout: Joined, bodies: Sequence[Body]) -> Iterator[Written]:
    """The assembly at a slant, and of a plate the part too.

    Parameters
    ----------
    layout : Joined
        What the pictures are of.
    bodies : Sequence[Body]
        Its assembly.
    """
    name = layout.recipe.name
    if not isinstance(layout, PlateLayout):
        yield _drawn(name, "assembly", role_by_role(bodies), joint_look(layout))
        return
    look = standard_looks(layout.frame)["oblique"]
    yield _drawn(name, "part", [plate_of(bodies)], look)
    yield _drawn(name, "assembly", role_by_role(without_hidden(bodies, layout, look)), look)


def _drawn(name: str, word: str, bodies: Sequence[Body], look: Place) -> Written:
    page = picture(f"{name}: {word}", view_strokes(draw(bodies, look)))
    return Written(f"{name}-{word}.svg", svg(page).encode(), f"Picture of the {word}")
