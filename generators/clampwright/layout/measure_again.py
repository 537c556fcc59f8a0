"""What to measure again, and how well, before a hole forgives what is not known."""

from __future__ import annotations

import math

from clampwright.layout.increment import down_to
from clampwright.layout.known_to import Apart, KnownTo
from clampwright.quantities import length_mm, show_length
from clampwright.trade.tables import rule

_STEP = {"mm": 0.01, "in": 0.001}
"""What `show_length` shows last: what is asked for is rounded down to it."""


def cure(known: KnownTo, play_mm: float, units: str, purpose: str) -> str:
    """What brings a clamp's bolt within the play of its hole, one sentence; "" where it is within.

    Reaches that nobody measured come first, then the distance between the two tubes abreast of the clamp.
    Where both together are not enough, what they leave.

    Parameters
    ----------
    known
        What the clamp is known to.
    play_mm
        ± that the hole forgives.
    units
        "mm" or "in", of the figures.
    purpose
        What it is for: "To drill it now".

    Examples
    --------
    Known to ± 2 mm, and the distance to ± √3 mm, with which it shares 3 mm². With play of 1.5 mm the distance
    has to be measured to ± 1.46 mm: 2² − 3²/(3 + 1.46²) = 1.5².

    >>> apart = Apart("low", "high", 250.0, 150.0, 3**0.5, 3.0)
    >>> cure(KnownTo("B1", 1.0, 2.0, 0.0, True, apart=apart), 1.5, "mm", "To drill it now")[72:]
    '0.00 mm of high again to ± 1.46 mm.'
    """
    if known.across_mm <= play_mm:
        return ""
    across, first = _reaches_measured(known)
    if across <= play_mm:
        return f"{purpose}, measure {first}."
    apart = known.apart
    least = rule("caliper-error").value
    again = "" if apart is None else _distance(apart, units)
    needed = None if apart is None else apart.needed_mm(across, play_mm)
    steps = " and ".join(filter(None, (first, again)))
    if needed is not None and needed >= least:
        return f"{purpose}, measure {steps} again to ± {_down(needed, units)}."
    left = across if apart is None else apart.left_mm(across, least)
    wanted = f"{purpose}, its place must be known to ± {_down(play_mm, units)}"
    if left > known.across_mm - rule("gap-nothing").value:
        return f"{wanted}."
    to = "" if apart is None else f" again to ± {show_length(least, units)}"
    return f"{wanted}; measuring {steps}{to} would leave ± {show_length(left, units)}."


def _reaches_measured(known: KnownTo) -> tuple[float, str]:
    """± that is left with calipers on every reach, and the words for it; as it is where nothing is gained."""
    if not known.reach_mm:
        return known.across_mm, ""
    calipers = known.reach_mm * rule("caliper-error").value / rule("reach-error-default").value
    left = math.sqrt(max(0.0, known.across_mm**2 - known.reach_mm**2 + calipers**2))
    return left, "the clamps' reach with calipers"


def _distance(apart: Apart, units: str) -> str:
    station = show_length(apart.station_mm, units)
    return f"the distance between {apart.one} and {apart.other} at station {station} of {apart.other}"


def _down(mm: float, units: str) -> str:
    """Rounded down to what is shown."""
    return show_length(down_to(mm, length_mm(_STEP[units], units)), units)
