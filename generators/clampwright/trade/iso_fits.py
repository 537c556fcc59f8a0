"""Tolerance classes of holes and shafts by ISO 286: H7 to H14 and h6 to h11, up to 30 mm."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.trade.tables import Row, load

_SAME_MM = 1e-9


@dataclass(frozen=True, slots=True)
class FitClass:
    """A class at one nominal size: how far below (negative) and above it the size may be, mm."""

    name: str
    lower_mm: float
    upper_mm: float
    source: str


def fit_class(name: str, nominal_mm: float) -> FitClass:
    """The limit deviations of a class at a nominal size.

    Parameters
    ----------
    name
        "H7" to "H14" for holes, "h6", "h7", "h8", "h9" or "h11" for shafts.
    nominal_mm
        Up to 30 mm; shafts over 3 up to 18 mm.

    Raises
    ------
    LookupError
        The table has not that class at that size.

    Examples
    --------
    >>> fit_class("H7", 10.0).upper_mm, fit_class("h9", 12.0).lower_mm
    (0.015, -0.043)
    """
    for row in load("iso286").rows:
        if row.text("name") == name and row.number("over") < nominal_mm <= row.number("up_to"):
            return _fit(row)
    raise LookupError(f"the table of ISO 286 has no {name} at {nominal_mm:g} mm")


def hole_classes(nominal_mm: float) -> tuple[FitClass, ...]:
    """The classes of a hole at a nominal size, finest first; none above the table.

    Examples
    --------
    >>> [each.name for each in hole_classes(5.0)]
    ['H7', 'H8', 'H9', 'H10', 'H11', 'H12', 'H13', 'H14']
    """
    rows = load("iso286").rows
    found = [
        _fit(row)
        for row in rows
        if row.text("name").startswith("H") and row.number("over") < nominal_mm <= row.number("up_to")
    ]
    return tuple(sorted(found, key=lambda each: each.upper_mm))


def hole_class(low_mm: float, high_mm: float, nominal_mm: float) -> FitClass | None:
    """The coarsest class whose whole zone lies within a hole's window; None where none does.

    Parameters
    ----------
    low_mm, high_mm
        Least and greatest diameter of the finished hole.
    nominal_mm
        Diameter that the drawing gives.

    Examples
    --------
    An AN3 hole of 0.191 in in its window of 0.191 to 0.197 in: 0.152 mm hold H12 (0.12) and not H13 (0.18).

    >>> found = hole_class(4.8514, 5.0038, 4.8514)
    >>> found is not None and found.name
    'H12'
    >>> hole_class(5.3, 5.5, 5.5) is None
    True
    """
    fitting = [
        each
        for each in hole_classes(nominal_mm)
        if nominal_mm + each.lower_mm >= low_mm - _SAME_MM
        and nominal_mm + each.upper_mm <= high_mm + _SAME_MM
    ]
    return fitting[-1] if fitting else None


def _fit(row: Row) -> FitClass:
    return FitClass(row.text("name"), row.number("lower"), row.number("upper"), row.source())
