"""What a dimension without a tolerance of its own is held to in an ordinary shop: ISO 2768-1."""

from __future__ import annotations

from clampwright.trade.tables import load

CLASSES = {"f": "fine", "m": "medium", "c": "coarse", "v": "very_coarse"}
SOURCE = "iso-2768-1"


def general_tolerance_mm(length_mm: float, grade: str) -> float:
    """± of a linear size by ISO 2768-1, mm.

    Parameters
    ----------
    length_mm
        Nominal size, from 0.5 mm up to 4 m.
    grade
        "f", "m", "c" or "v".

    Raises
    ------
    LookupError
        The table gives nothing for that size and class.

    Examples
    --------
    >>> general_tolerance_mm(12.0, "m"), general_tolerance_mm(6.0, "m"), general_tolerance_mm(31.0, "f")
    (0.2, 0.1, 0.15)
    """
    for row in load("iso2768_1").rows:
        if length_mm <= row.number("up_to") and (length_mm > row.number("over") or length_mm == 0.5):
            found = row.maybe(CLASSES[grade])
            if found is not None:
                return found
    raise LookupError(f"ISO 2768-1 gives no deviation of class {grade} for {length_mm:g} mm")
