"""Files of the parts of a component on bushings and of a stand-off: STEP and STL. Loads the CAD kernel."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from clampwright.files.made_bushings import bushing_solids
from clampwright.files.solid_files import assembly_file
from clampwright.files.written import Written
from clampwright.layout.joined import Joined
from clampwright.solids.body import Body


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
    NotWatertight, NotAsMade
        Where a file does not come out as it must: then no file should be kept.
    """
    name = layout.recipe.name
    yield from bushing_solids(layout, verdict)
    yield assembly_file(name, "the bushings", bodies, verdict)
