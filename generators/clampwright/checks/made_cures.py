"""What makes finished holes meet their bolts: opened evenly, drilled out, or filed under a washer."""

from __future__ import annotations

import math
from itertools import product

from clampwright.checks.holes import window_of
from clampwright.checks.made_wording import Made
from clampwright.checks.wording import at_least, shown
from clampwright.layout.as_made import GroupFit, HoleFit
from clampwright.layout.slot import cover
from clampwright.quantities import Vec2, length_mm
from clampwright.trade.tables import rule

_STEP = {"mm": 0.01, "in": 0.001}
"""Last digit that is shown: people file to no less."""
_NEAR = 1e-6


def opened(group: GroupFit, made: Made) -> str:
    """Which hole is to blame and how far it is opened; or all that pinch, evenly."""
    holes = {hole.label: hole for hole in made.fit.holes}
    if group.left_out:
        rest = shown(max(group.culprits[0].others_spare_mm, 0.0), made.layout)
        return f"{_one_opened(holes[group.left_out], made)}; all others then have {rest} or more to spare."
    return _evenly([holes[label] for label in group.holes], -group.spare_mm, made)


def _evenly(holes: list[HoleFit], pinch_mm: float, made: Made) -> str:
    """Every hole that pinches at the best shift, by twice what the tightest lacks."""
    tight = [hole for hole in holes if hole.spare_mm < 0]
    wider = [_whole(hole.finished_mm + 2 * pinch_mm, made) for hole in tight]
    by = at_least(max(w - hole.finished_mm for w, hole in zip(wider, tight, strict=True)), made.layout)
    washer = "" if all(map(in_window, tight, wider)) else ", each under a washer that covers it"
    sizes = list(dict.fromkeys(shown(each, made.layout) for each in wider))
    to = sizes[0] if len(sizes) == 1 else f"{' and '.join(sizes)} as they are now"
    return (
        f"No single hole is to blame. Open each of {', '.join(hole.label for hole in tight)} by {by} of "
        f"diameter, to {to}{washer}; or make the part again."
    )


def _one_opened(hole: HoleFit, made: Made) -> str:
    """One hole opened for its bolt alone: drilled out within its window, else filed under a washer."""
    wider = _whole(hole.finished_mm + 2 * (hole.off_mm - hole.play_mm), made)
    if in_window(hole, wider):
        return f"Open hole {hole.label} to {shown(wider, made.layout)}"
    by = filed(hole.bolt_off, hole.play_mm, length_mm(_STEP[_units(made)], _units(made)))
    if by is None:
        return f"Open hole {hole.label} to {shown(wider, made.layout)}, under {washer_over(hole, wider)}"
    long = hole.finished_mm + math.hypot(*by)
    ways = [
        f"{shown(abs(value), made.layout)} toward the {plus if value > 0 else minus} edge"
        for value, plus, minus in ((by[0], "right", "left"), (by[1], "top", "bottom"))
        if value
    ]
    slot = f"a slot {shown(hole.finished_mm, made.layout)} x {at_least(long, made.layout)}"
    slanting = ", straight that way," if len(ways) > 1 else ""
    return f"File hole {hole.label} {' and '.join(ways)}{slanting} to {slot}, under {washer_over(hole, long)}"


def filed(bolt_off: Vec2, play_mm: float, step_mm: float) -> Vec2 | None:
    """How far a hole is filed in x and in y, in whole steps, so that its bolt passes; None: no slot does it.

    The slot is swept by the hole from where it is; the bolt passes where that comes to within the play of
    hole and bolt of it. The shortest such slot is taken.

    Parameters
    ----------
    bolt_off
        The bolt from the hole's middle.
    play_mm
        Half the difference of their diameters, and what the clamp's foot gives.
    step_mm
        What people measure in.

    Examples
    --------
    A bolt 1 mm to the right and 0.3 up of a hole that forgives 0.2:

    >>> filed((1.0, 0.3), 0.2, 0.1)
    (0.9, 0.2)
    >>> filed((1.0, 0.0), -0.1, 0.1) is None
    True
    """
    far = math.hypot(*bolt_off)
    if play_mm <= 0 or far <= play_mm:
        return None
    best = [value * (1 - play_mm / far) / step_mm for value in bolt_off]
    steps = [range(math.floor(value) - 1, math.ceil(value) + 2) for value in best]
    ends = sorted({(x * step_mm, y * step_mm) for x, y in product(*steps)}, key=lambda end: math.hypot(*end))
    found = next((end for end in ends if off_slot(bolt_off, end) <= play_mm - _NEAR), None)
    return None if found is None else (round(found[0], 9), round(found[1], 9))


def off_slot(bolt_off: Vec2, end: Vec2) -> float:
    """How far a bolt stays off the middle line of a slot from (0, 0) to `end`.

    >>> off_slot((3.0, 0.5), (2.0, 0.0)), off_slot((1.0, 0.5), (2.0, 0.0))
    (1.118033988749895, 0.5)
    """
    size = end[0] ** 2 + end[1] ** 2
    along = (bolt_off[0] * end[0] + bolt_off[1] * end[1]) / size if size else 0.0
    share = min(max(along, 0.0), 1.0)
    return math.hypot(bolt_off[0] - share * end[0], bolt_off[1] - share * end[1])


def washer_over(hole: HoleFit, opening_mm: float) -> str:
    """The large washer that covers an opening so long, in words."""
    large = cover(hole.fastener, hole.finished_mm, opening_mm)
    if large is not None:
        return f"a large washer {large.part}"
    return "a washer that covers it (none in the tables)"


def in_window(hole: HoleFit, wide_mm: float) -> bool:
    """Whether a hole of this diameter is still right for its bolt."""
    window = window_of(hole.fastener)
    return window is not None and wide_mm <= window.high_mm + rule("hole-size-tolerance").value


def _whole(mm: float, made: Made) -> float:
    """A length as it is shown, rounded up."""
    return length_mm(at_least(mm, made.layout))


def _units(made: Made) -> str:
    return made.layout.recipe.units
