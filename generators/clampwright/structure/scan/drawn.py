"""A mesh or points too smooth for a scan: a drawing, which says nothing of how the metal came out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from statistics import median_high

from clampwright.structure.found import FoundTube
from clampwright.structure.wording import show_small
from clampwright.trade.tables import rule


def is_drawing(residuals_mm: Sequence[float]) -> bool:
    """Whether most tubes of a file are smoother than any scan (rule `scan-drawing-residual`).

    Examples
    --------
    >>> is_drawing([1e-7, 2e-7, 0.4]), is_drawing([1e-7, 0.3]), is_drawing([])
    (True, False, False)
    """
    return bool(residuals_mm) and median_high(residuals_mm) < rule("scan-drawing-residual").value


def as_drawn(tube: FoundTube) -> FoundTube:
    """A tube of a drawing, without any ± of its own: as from a STEP file."""
    return replace(
        tube,
        od_plus_minus_mm=0.0,
        ends_plus_minus_mm=0.0,
        angle_plus_minus_rad=0.0,
        along_plus_minus_mm=(0.0, 0.0),
        spread_mm=(),
    )


def said_of_drawing(units: str) -> str:
    """What a person has to know of such a file."""
    least = show_small(rule("scan-drawing-residual").value, units)
    return (
        f"Its skin is smooth to less than {least}: this is a drawing, not a scan. The metal may differ: no ± "
        "comes from the file, and the recipe's measuring error has to stand."
    )
