"""Files of the parts of a component on bushings and of a stand-off: STEP and STL. Loads the CAD kernel."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from clampwright.files.parts import assembly_file, solid_files, warning
from clampwright.files.written import Written
from clampwright.layout.bushing_parts import BushingPart
from clampwright.layout.joined import Joined
from clampwright.solids.body import Body
from clampwright.solids.bushing import bushing_body


def joined_part_files(layout: Joined, bodies: Sequence[Body], verdict: str = "pass") -> Iterator[Written]:
    """Each bushing that is to be made, under its mark, then the assembly; as they are made.

    Parameters
    ----------
    layout : Joined
        What is to be made.
    bodies : Sequence[Body]
        Its assembly, from `joined_assembly`.
    verdict : str
        Of the checks. Where one fails every file says inside that it is not to be made.

    Raises
    ------
    NotWatertight
        Where a mesh does not come out as it must: then no file should be kept.
    """
    name = layout.recipe.name
    for part in layout.bushings:
        about = about_bushing(part) + warning(verdict)
        yield from solid_files(bushing_body(part), f"{name}-bushing-{part.mark}", about)
    yield assembly_file(name, "the bushings", bodies, verdict)


def about_bushing(part: BushingPart) -> str:
    """A bushing in a few words: mark, sizes in mm, material, how many and for which clamps."""
    where = " ".join(fill.where for fill in part.fills)
    size = f"{part.od_mm:g} x {part.id_mm:g} x {part.length_mm:g} mm"
    return f"Bushing {part.mark}, {size}, {part.material}, {part.quantity} off, for {where}"
