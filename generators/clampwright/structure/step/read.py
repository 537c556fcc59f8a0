"""The tubes in a STEP file."""

from __future__ import annotations

from pathlib import Path

from clampwright.structure.found import Found
from clampwright.structure.step.header import looked_at
from clampwright.structure.step.own_process import asked_apart


def tubes_in_step(path: Path, *, units: str = "mm") -> Found:
    """Every straight round tube in a STEP file, longest first, in millimetres.

    A tube is a cylinder seen from outside with skin nearly all round over most of its length. Its ends are
    the farthest points of its skin along its axis: the tips of a cope. Its start is the end with the lesser
    coordinate along the world axis that it runs most along. A drawing is not the metal: what is read is
    exact, and says nothing of how the tubes were welded.

    Parameters
    ----------
    path : Path
        The file.
    units : str
        "mm" or "in": what lengths are said in, in doubts and in why something was not taken.

    Raises
    ------
    NotReadable
        No such file, no STEP file, broken, nothing solid in it, or a mesh.

    Notes
    -----
    It is read in a process of its own: there are broken files that the CAD kernel breaks down on.
    """
    looked_at(path)
    return asked_apart(path, units)
