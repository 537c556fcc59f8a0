"""From a layout on in a CadQuery script: plate or bushings as `Workplane`s, everything as an `Assembly`."""

from __future__ import annotations

from typing import Any

import cadquery as cq

from clampwright.layout.joined import Joined
from clampwright.layout.placed import PlateLayout
from clampwright.solids.assembly import part
from clampwright.solids.bushing import bushing_body
from clampwright.solids.exchange import gathered
from clampwright.solids.joined_assembly import joined_assembly


def workplane(layout: PlateLayout) -> Any:
    """The plate as a `cadquery.Workplane`, near face on the XY plane, datum corner at the origin, mm.

    What is added in a script is checked by nobody: no finding, template or order list knows of it.

    Parameters
    ----------
    layout : PlateLayout
        From `lay_out`.

    Examples
    --------
    A further hole, 2.5 mm in diameter, 5 mm to the left of the middle:

    >>> from clampwright.layout.lay_out import lay_out
    >>> from clampwright.recipe.read import read_text
    >>> from clampwright.recipe.starter import starter
    >>> plate = workplane(lay_out(read_text(starter("accessory plate", "bracket", "mm"))))
    >>> more = plate.faces(">Z").workplane(origin=plate.val().Center()).moveTo(-5, 0).hole(2.5)
    >>> len(more.faces("%CYLINDER").vals()) - len(plate.faces("%CYLINDER").vals())
    1
    """
    return cq.Workplane(part(layout).shape)


def bushing_workplanes(layout: Joined) -> dict[str, Any]:
    """Every bushing that has to be made as a `cadquery.Workplane`, by its mark, mm.

    It stands on the XY plane, its bore along z, its edges chamfered.

    Parameters
    ----------
    layout : Joined
        Of any kind, from its `lay_out`.

    Examples
    --------
    The bore of each opened to 5.5 mm:

    >>> from clampwright.layout.lay_out import lay_out
    >>> from clampwright.recipe.read import read_text
    >>> from clampwright.recipe.starter import starter
    >>> plain = lay_out(read_text(starter("accessory plate", "bracket", "mm")))
    >>> opened = [b.faces(">Z").workplane().hole(5.5) for b in bushing_workplanes(plain).values()]
    >>> len(opened) == len(plain.bushings)
    True
    """
    return {made.mark: cq.Workplane(bushing_body(made).shape) for made in layout.bushings}


def cq_assembly(layout: Joined) -> Any:
    """Every body where it sits in the world, as a `cadquery.Assembly` with names and colours.

    Names are those of the STEP assembly: "plate coil-plate", "clamp A1 band", "bolt A1", and so on.

    Parameters
    ----------
    layout : Joined
        Of any kind, from its `lay_out`.

    Examples
    --------
    >>> from clampwright.layout.lay_out import lay_out
    >>> from clampwright.recipe.read import read_text
    >>> from clampwright.recipe.starter import starter
    >>> whole = cq_assembly(lay_out(read_text(starter("accessory plate", "bracket", "mm"))))
    >>> [child.name for child in whole.children][:2]
    ['plate bracket', 'clamp A1 band']
    >>> whole["bolt A1"].color == cq.Color("#b3a369")
    True
    """
    bodies = joined_assembly(layout)
    return gathered(bodies, [body.name for body in bodies], layout.recipe.name, coloured=True)
