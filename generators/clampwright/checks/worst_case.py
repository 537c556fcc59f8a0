"""Distances that are kept as measured but not at worst: how they are said, and what to measure again."""

from __future__ import annotations

from functools import partial
from math import sqrt

from clampwright.checks.asked import SAME_MM
from clampwright.checks.finding import Finding
from clampwright.checks.wording import at_least, at_most, shown
from clampwright.layout.clearance_known import Clear
from clampwright.layout.joined import Joined
from clampwright.trade.tables import rule

_SHOWN_MM = 0.005
"""Below this a ± shows as 0.00 mm."""


def sure(clear: Clear, layout: Joined) -> str:
    """A distance with its ±: "8.20 mm ± 1.50 mm"; alone where nothing moves one body against the other."""
    if clear.plus_minus_mm < _SHOWN_MM:
        return shown(clear.mm, layout)
    return f"{shown(clear.mm, layout)} ± {shown(clear.plus_minus_mm, layout)}"


def in_doubt(clear: Clear, limit_mm: float) -> bool:
    """Whether a distance that keeps its limit as measured may fall below it, or to a touch, at worst.

    >>> in_doubt(Clear(8.2, 1.5), 7.0), in_doubt(Clear(8.2, 1.5), 6.0), in_doubt(Clear(1.2, 1.5), 0.0)
    (True, False, True)
    """
    return clear.mm - clear.plus_minus_mm < limit_mm - SAME_MM


def doubtful(
    found: partial[Finding],
    says: str,
    clear: Clear,
    limit_mm: float,
    other_way: str,
    layout: Joined,
    need: str = "",
) -> Finding:
    """A caution: kept as measured, but not at worst.

    Parameters
    ----------
    found
        All of the finding but verdict and words.
    says
        The sentence of a pass, without its end.
    clear, limit_mm
        The distance, and what it must be.
    other_way
        What would help beside measuring again: "move the coil 1 mm away from it".
    layout
        Whose units are shown.
    need
        What is asked, a phrase to end on.
    """
    worst = at_most(clear.worst_mm, layout)
    least = f"could be as little as {worst} at worst" if clear.worst_mm > SAME_MM else "could touch at worst"
    ends = "".join(f"; {end}" for end in (need, clear.default) if end)
    return found(
        verdict="caution",
        says=f"{says}, and {least}{ends}.",
        change=f"{_again(clear, limit_mm, layout)}, or {other_way}.",
    )


def short_at_worst(clear: Clear, limit_mm: float, layout: Joined) -> str:
    """What a distance lacks at worst, rounded up."""
    return at_least(limit_mm - clear.mm + clear.plus_minus_mm, layout)


def _again(clear: Clear, limit_mm: float, layout: Joined) -> str:
    """What to measure again, and to what ± where the tubes are known by the recipe's measuring error."""
    if not clear.most_from.startswith("where "):
        return f"Measure {clear.most_from or 'where the clamps are'}"
    enough = None if layout.recipe.structure.uncertainty else _enough(clear, limit_mm, layout)
    within = "" if enough is None else f" to ± {at_most(enough, layout)}"
    return f"Measure again {clear.most_from}{within}"


def _enough(clear: Clear, limit_mm: float, layout: Joined) -> float | None:
    """Measuring error that would do; None where that is finer than calipers, or would not do alone."""
    rest = clear.plus_minus_mm**2 - clear.measured_mm**2
    left = (clear.mm - limit_mm) ** 2 - rest
    if left <= 0.0 or clear.measured_mm <= 0.0:
        return None
    enough = layout.recipe.measuring.error_mm * sqrt(left) / clear.measured_mm
    return enough if enough >= rule("caliper-error").value else None
