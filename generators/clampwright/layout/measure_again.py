"""What to measure again, and how well, before a hole forgives what is not known.

Only what a person can do is asked for: calipers as far as they reach, to `caliper-error`; a tape beyond that,
to no better than `tape-least`. Where neither is enough, that is said and no figure is asked for.
"""

from __future__ import annotations

import math

from clampwright.layout.from_mark import signed_from_mark
from clampwright.layout.increment import down_to
from clampwright.layout.known_to import Apart, KnownTo
from clampwright.quantities import length_mm, show_length
from clampwright.trade.tables import rule

_STEP = {"mm": 0.01, "in": 0.001}
"""What `show_length` shows last: what is asked for is rounded down to it."""


def cure(known: KnownTo, play_mm: float, units: str, purpose: str, instead: str = "") -> str:
    """What brings a clamp's bolt within the play of its hole, one sentence; "" where it is within.

    Reaches that nobody measured come first, then the distance between the two tubes abreast of the clamp.

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
    instead
        What is done where no measurement is enough; "" where that is said already.

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
    needed = None if apart is None else apart.needed_mm(across, play_mm)
    if apart is None or needed is None or needed < measured_to(apart.distance_mm):
        return f"{purpose}, no tape will do{f': {instead}' if instead else ''}."
    steps = " and ".join(filter(None, (first, _distance(apart, units))))
    how = "" if needed >= rule("tape-least").value else ", with calipers"
    return f"{purpose}, measure {steps} again to ± {_down(needed, units)}{how}."


def measured_to(distance_mm: float) -> float:
    """± (95 %) that a distance between tubes can be measured to: by calipers, by tape beyond their reach.

    >>> measured_to(100.0), measured_to(400.0)
    (0.15, 0.5)
    """
    near = distance_mm <= rule("caliper-reach").value
    return rule("caliper-error" if near else "tape-least").value


def _reaches_measured(known: KnownTo) -> tuple[float, str]:
    """± that is left with calipers on every reach, and the words for it; as it is where nothing is gained."""
    if not known.reach_mm:
        return known.across_mm, ""
    calipers = known.reach_mm * rule("caliper-error").value / rule("reach-error-default").value
    left = math.sqrt(max(0.0, known.across_mm**2 - known.reach_mm**2 + calipers**2))
    return left, "the clamps' reach with calipers"


def _distance(apart: Apart, units: str) -> str:
    return f"the distance between {apart.one} and {apart.other} {_place(apart, units)} of {apart.other}"


def _place(apart: Apart, units: str) -> str:
    """ "at station 6.859 in", or "at mark + 2.000 in" where the tube has a mark."""
    if apart.mark_mm is None:
        return f"at station {show_length(apart.station_mm, units)}"
    off = apart.station_mm - apart.mark_mm
    said = signed_from_mark(off, show_length(abs(off), units))
    return said if said.startswith("at ") else f"at {said}"


def _down(mm: float, units: str) -> str:
    """Rounded down to what is shown."""
    return show_length(down_to(mm, length_mm(_STEP[units], units)), units)
