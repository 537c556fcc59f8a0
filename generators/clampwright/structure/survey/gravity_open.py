"""Readings taken against gravity that are too few to say which way is up: set aside where the tape holds."""

from __future__ import annotations

from dataclasses import replace

from clampwright.structure.survey.model import Survey
from clampwright.structure.survey.residuals import finds_up, uses_up
from clampwright.structure.survey.wording import listed, name_of


def without_gravity(survey: Survey) -> Survey | None:
    """The survey without what was taken by level or plumb; None where nothing is left or z is plumb."""
    if not finds_up(survey):
        return None
    kept = tuple(m for m in survey.measurements if not uses_up(m))
    return replace(survey, measurements=kept) if kept else None


def set_aside(survey: Survey) -> str:
    """That readings against gravity play no part, and what would make them count.

    >>> from clampwright.structure.survey.model import Along, Datum
    >>> datum = Datum("A", "x", "B", False, "y", "C")
    >>> height = Along("A", "D", "z", 30.0, 2.0, plumb=True)
    >>> set_aside(Survey("s", "", "mm", (), (), (height,), datum)).partition(":")[0]
    'Set aside'
    """
    told = [name_of(m) for m in survey.measurements if uses_up(m)]
    another = "a second one" if len(told) == 1 else "another one"
    return (
        f"Set aside: {listed(told)}, as gravity's direction can still turn and nothing else needs it. "
        f"{another.capitalize()} not along the same line would settle it, or level = true in the datum if z "
        "is plumb."
    )
