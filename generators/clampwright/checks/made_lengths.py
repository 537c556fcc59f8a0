"""Finished bushings: length against its limits and its gap, and how the part comes to lie on its feet."""

from __future__ import annotations

import math
from functools import partial

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.made_wording import Made, told_apart
from clampwright.checks.wording import at_least, shown
from clampwright.layout.as_made import FootFit, LengthFit
from clampwright.layout.placed import PlateLayout
from clampwright.trade.tables import rule

_LEAN_TOLD = 0.05
"""Degrees: what is not 0.0 when it is told."""

_length = partial(Finding, "MADE-3", "finished bushing lengths", unit="mm")
_feet = partial(Finding, "MADE-7", "feet that carry", unit="mm")


def lengths(made: Made) -> tuple[Finding, ...]:
    """MADE-3: every finished bushing is within its limits, or fills its gap all the same."""
    return tuple(
        _left_long(each, made) if each.long_mm > 0 else _cut_to_length(each, made)
        for each in made.fit.lengths
    )


def _found(each: LengthFit, limit: float, made: Made) -> partial[Finding]:
    keys = ("bushing-tolerance", "gap-nothing", *(() if made.given else ("caliper-size-error",)))
    return partial(
        _length,
        where=f"{each.mark} at {', '.join(each.where)}",
        value=each.measured_mm,
        limit=limit,
        sources=tuple(dict.fromkeys(rule(key).source for key in keys)),
        plus_minus=made.size_error_mm,
    )


def _cut_to_length(each: LengthFit, made: Made) -> Finding:
    layout = made.layout
    over, under = each.measured_mm - each.high_mm, each.low_mm - each.measured_mm
    found = _found(each, each.high_mm if over >= under else each.low_mm, made)
    is_, low, high = told_apart((each.measured_mm, each.low_mm, each.high_mm), layout)
    says = f"{is_} long where {low} to {high} are drawn; {_left(each, made)}"
    off = max(over, under)
    if off <= min(SAME_MM, SAME_MM - made.size_error_mm):
        return found(verdict="pass", says=f"{says}.", change="")
    if off <= SAME_MM:
        says = f"{says}. Whether it is within them cannot be told: it is {made.sized_to()}."
        change = f"Measure {each.mark} with a micrometer, and state how well it measures (plus or minus)."
        return found(verdict="unknown", says=says, change=change)
    change = _to_length(each, over, made)
    if off <= made.size_error_mm + SAME_MM:
        says = f"{says}. It is {made.sized_to()}."
        return found(verdict="unknown", says=says, change=f"Measure {each.mark} with a micrometer. {change}")
    fills = abs(each.left_mm) <= each.allowed_mm + SAME_MM
    return found(verdict="caution" if fills else "fail", says=f"{says}.", change=change)


def _left(each: LengthFit, made: Made) -> str:
    left = shown(abs(each.left_mm), made.layout)
    if not any(sign in "123456789" for sign in left):
        return "it fills its gap"
    if abs(each.left_mm) <= each.allowed_mm + SAME_MM:
        return f"it fills its gap but for {left}" if each.left_mm > 0 else f"it fills its gap, {left} over"
    if each.left_mm > 0:
        return f"{left} of its gap are left, and the bolt is not to pull that closed"
    return f"it stands {left} higher than its gap"


def _to_length(each: LengthFit, over: float, made: Made) -> str:
    if over > 0:
        return f"Face {each.mark} down by {at_least(over, made.layout)}, square to its bore."
    left = each.left_mm if each.left_mm > 0 else each.planned_mm - each.measured_mm
    return f"Put a shim of {shown(left, made.layout)} on it, or make {each.mark} again."


def _left_long(each: LengthFit, made: Made) -> Finding:
    """A bushing that is trimmed to the gap found: only what is too short for the shortest gap is wrong."""
    layout = made.layout
    found = _found(each, each.measured_mm + each.left_mm - each.gap_doubt_mm, made)
    over = -each.left_mm
    if 0 <= over + each.gap_doubt_mm < made.size_error_mm - SAME_MM:
        long = shown(each.measured_mm, layout)
        says = f"{long} long. Whether it fills its gap cannot be told: it is {made.sized_to()}."
        return found(verdict="unknown", says=says, change=f"Measure {each.mark} with a micrometer.")
    here = f"{shown(each.measured_mm, layout)} long"
    if over > each.gap_doubt_mm + SAME_MM:
        says = f"{here}, {shown(over, layout)} longer than its gap as laid out: trim it to the gap found."
        return found(verdict="pass", says=says, change="")
    known = f"its gap is known to ± {shown(each.gap_doubt_mm, layout)}"
    if over >= -each.gap_doubt_mm - SAME_MM:
        way = f"{shown(abs(over), layout)} {'longer' if over > 0 else 'shorter'} than"
        way = "as long as" if abs(over) <= made.size_error_mm else way
        says = f"{here}, {way} its gap as laid out ({known}): right where it fills the gap found."
        return found(verdict="pass", says=says, change="")
    says = f"{here}, {shown(-over, layout)} shorter than its gap as laid out; {known}."
    short = at_least(-over - each.gap_doubt_mm, layout)
    change = (
        f"Measure the gap with the part on its other feet: it wants {short} or more of shim, or a new "
        f"{each.mark}."
    )
    return found(verdict="fail", says=says, change=change)


def feet(made: Made) -> tuple[Finding, ...]:
    """MADE-7: as made, the part lies on its feet without rocking; what is left under those that hang."""
    every = made.fit.feet
    if not any(foot.measured for foot in every):
        return ()
    found = partial(
        _feet,
        where="feet",
        limit=rule("gap-nothing").value,
        sources=tuple(
            dict.fromkeys(rule(key).source for key in ("gap-nothing", "gap-doubt-most", "tilt-caution"))
        ),
        plus_minus=made.error_mm,
    )
    worst = max(every, key=lambda foot: foot.gap_mm)
    part = "plate" if isinstance(made.layout, PlateLayout) else "component"
    says = _carried(every, worst, part, made)
    if worst.gap_mm <= rule("gap-nothing").value + SAME_MM:
        return (_leaning(found, worst, says, made),)
    change = _levelled(every, worst, made)
    verdict = "caution" if worst.gap_mm <= rule("gap-doubt-most").value + SAME_MM else "fail"
    return (found(verdict=verdict, value=worst.gap_mm, says=says, change=change),)


def _leaning(found: partial[Finding], worst: FootFit, says: str, made: Made) -> Finding:
    """A part without a gap under it, which may lean on feet of unequal height."""
    leans, most = math.degrees(made.fit.lean_rad), rule("tilt-caution").value
    if leans <= most:
        return found(verdict="pass", value=worst.gap_mm, says=says, change="")
    change = f"Bring all bushings within their limits (MADE-3): clamps may lean {most:g}°."
    return found(verdict="caution", value=worst.gap_mm, says=says, change=change)


def _carried(every: tuple[FootFit, ...], worst: FootFit, part: str, made: Made) -> str:
    taken = [foot.label for foot in every if not foot.measured]
    rest = f" ({', '.join(taken)} as drawn)" if taken else ""
    if worst.gap_mm <= rule("gap-nothing").value + SAME_MM:
        leans = math.degrees(made.fit.lean_rad)
        lean = f", leaning {leans:.1f}°" if leans >= _LEAN_TOLD else ""
        under = f"no more than {shown(worst.gap_mm, made.layout)} under any"
        return f"The {part} lies on its feet with {under}{lean}{rest}."
    always = [foot.label for foot in every if foot.gap_mm <= SAME_MM]
    rocks = [foot.label for foot in every if foot.carries and foot.gap_mm > SAME_MM]
    carry = f"It stands on {' and '.join(always)}" if always else "No foot always carries"
    rocking = f" and rocks between {' and '.join(rocks)}" if len(rocks) > 1 else ""
    gap = f"{shown(worst.gap_mm, made.layout)} are left under {worst.label}"
    return f"{carry}{rocking}: {gap}{rest}; the bolt would bend the {part} or its lugs down by that."


def _levelled(every: tuple[FootFit, ...], worst: FootFit, made: Made) -> str:
    """A shim under the lowest of the feet that hang."""
    foot = min((one for one in every if one.gap_mm > SAME_MM), key=lambda one: one.high_mm, default=worst)
    return (
        f"Bring all bushings within their limits first (MADE-3); what is then left, up to "
        f"{shown(foot.gap_mm, made.layout)}, is filled with a shim at {foot.label}."
    )


CHECKS = (
    Check(
        "MADE-3",
        "finished bushing lengths",
        "Measured length of each bushing against its limits, and what is then left of its gap.",
        lengths,
        rules=("bushing-tolerance", "gap-nothing", "caliper-size-error"),
    ),
)
FEET = (
    Check(
        "MADE-7",
        "feet that carry",
        "As made, gap under every foot of a part on three feet or more, in each way that it can come to lie.",
        feet,
        rules=("gap-nothing", "gap-doubt-most", "tilt-caution"),
    ),
)
