"""STEP and STL of the bushings and spacers of a layout of any kind, as a shop makes them."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.files.solid_files import solid_files, warning
from clampwright.files.step_material import turned_material
from clampwright.files.written import Written
from clampwright.layout.bushing_parts import BushingPart
from clampwright.layout.cut_long import as_first_made, as_marked
from clampwright.layout.joined import Joined
from clampwright.solids.bushing import bushing_body


def bushing_solids(layout: Joined, verdict: str = "pass") -> Iterator[Written]:
    """Each bushing that is to be made, under its mark; one that is left long as long as it is first made.

    Parameters
    ----------
    layout : Joined
        What is to be made.
    verdict : str
        Of the checks. Where one fails every file says inside that it is not to be made.

    Raises
    ------
    NotWatertight, NotAsMade
        Where a file does not come out as it must: then no file should be kept.
    """
    for made, listed in zip(as_first_made(layout), as_marked(layout), strict=True):
        trimmed = f", left long: trimmed to its gap from {made.length_mm:g} mm"
        about = about_bushing(made) + (trimmed if made.length_mm != listed.length_mm else "")
        of = turned_material(made.material, made.make)
        name = f"{layout.recipe.name}-bushing-{made.mark}"
        yield from solid_files(bushing_body(made), name, about + warning(verdict), of)


def about_bushing(part: BushingPart) -> str:
    """A bushing in a few words: mark, sizes in mm, material, how many and for which clamps."""
    where = " ".join(fill.where for fill in part.fills)
    size = f"{part.od_mm:g} x {part.id_mm:g} x {part.length_mm:g} mm"
    return f"Bushing {part.mark}, {size}, {part.material}, {part.quantity} off, for {where}"
