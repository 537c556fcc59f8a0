"""A survey's frame in words."""

from __future__ import annotations

from clampwright.structure.survey.model import Datum


def datum_words(datum: Datum) -> str:
    """What fixes the frame.

    >>> datum_words(Datum("F1", "y", "F2", plane_axis="z", in_plane="F3"))
    'origin F1; y runs from it through F2; z lies in the plane of F3, on its side.'
    >>> datum_words(Datum("F1", "y", "F2", level=True))
    'origin F1; z is plumb; y is level and runs toward F2.'
    """
    if datum.level:
        return f"origin {datum.origin}; z is plumb; {datum.axis} is level and runs toward {datum.through}."
    first = f"origin {datum.origin}; {datum.axis} runs from it through {datum.through}"
    if datum.plane_axis is None:
        return f"{first}."
    return f"{first}; {datum.plane_axis} lies in the plane of {datum.in_plane}, on its side."
