"""Holes of a finished plate: whether they meet their bolts, and whether they are the right size."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import partial
from math import hypot

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.holes import window_of
from clampwright.checks.made_cures import in_window, opened, washer_over
from clampwright.checks.made_wording import Made, moved, toward
from clampwright.checks.wording import at_least, at_most, shown
from clampwright.layout.as_made import GroupFit, HoleFit
from clampwright.layout.as_made_slips import fits_turned, taken_otherwise, turned_far
from clampwright.layout.placed import PlateLayout
from clampwright.trade.tables import rule

_meets = partial(Finding, "MADE-1", "finished holes meet their bolts", unit="mm")


def holes_meet(made: Made) -> tuple[Finding, ...]:
    """MADE-1: with the part shifted and turned the best way, every bolt goes through its hole."""
    layout = made.layout
    if not isinstance(layout, PlateLayout):
        return ()
    found = (
        *(_group(each, made) for each in made.fit.groups),
        *(_hole(each, made) for each in made.fit.holes),
    )
    slip = taken_otherwise(layout, made.measured) or fits_turned(made.fit.groups)
    if not slip:
        return found
    again = "Measure {} again first, as measurements above says: nothing is to be cut for these figures."
    return (
        _slipped(slip, made),
        *(
            replace(each, change=again.format(each.where)) if each.verdict == "fail" else each
            for each in found
        ),
    )


def _slipped(slip: str, made: Made) -> Finding:
    drawn = (
        {hole.label: hole.at for hole in made.layout.holes} if isinstance(made.layout, PlateLayout) else {}
    )
    far = max(made.measured.holes, key=lambda hole: math.dist(hole.at, drawn[hole.label]))
    worst = math.dist(far.at, drawn[far.label])
    least = rule("made-slip-least")
    return _meets(
        where="measurements",
        verdict="fail",
        value=worst,
        limit=least.value,
        says=f"The holes lie up to {shown(worst, made.layout)} from where they are drawn. {slip}",
        change=(
            "Measure x from the left and y from the bottom edge, component side up: "
            f"hole {far.label} is drawn at {' and '.join(shown(v, made.layout) for v in drawn[far.label])}."
        ),
        sources=(least.source,),
    )


def _sources(made: Made) -> tuple[str, ...]:
    error = () if made.given else (rule("caliper-error").source,)
    return ("floating-fastener", *error)


def _group(group: GroupFit, made: Made) -> Finding:
    found = partial(
        _meets,
        where=group.name,
        value=group.spare_mm,
        limit=0.0,
        sources=_sources(made),
        plus_minus=made.error_mm,
    )
    way = moved(group, made.layout)
    on = "the plate on its clamps" if group.name == "the clamps" else f"{group.name} on the plate"
    how = f"With {on} {way}" if way else f"With {on} as drawn"
    if turned_far(group):
        how, way = f"As if measured turned by {abs(math.degrees(group.turn_rad)):.0f}°", ""
    if group.spare_mm >= -SAME_MM:
        spare = f"the tightest of its holes has {shown(max(group.spare_mm, 0.0), made.layout)} to spare"
        if _tightest(group, made).transferred:
            spare += ", counting what a transfer in place makes up"
        before = f" ({_before(group, made)})" if way else ""
        says = f"{how}, {spare}{before}"
        if group.spare_mm >= made.error_mm - SAME_MM:
            return found(verdict="pass", says=f"{says}.", change="")
        says = f"{says}. Whether they meet cannot be told: the holes are {made.measured_to()}."
        change = "Try all its bolts at once by hand before any is drawn up, or measure the holes better."
        return found(verdict="unknown", says=says, change=change)
    by = shown(-group.spare_mm, made.layout)
    blame = f": hole {group.left_out} is to blame" if group.left_out else ""
    says = f"However it is shifted and turned, some bolt pinches by {by} or more{blame}."
    return found(verdict="fail", says=says, change=opened(group, made))


def _tightest(group: GroupFit, made: Made) -> HoleFit:
    return min((h for h in made.fit.holes if h.label in group.holes), key=lambda hole: hole.spare_mm)


def _before(group: GroupFit, made: Made) -> str:
    if group.before_mm >= 0:
        return f"{shown(group.before_mm, made.layout)} as drawn"
    return f"as drawn it would pinch by {shown(-group.before_mm, made.layout)}"


def _hole(hole: HoleFit, made: Made) -> Finding:
    if hole.transferred:
        return _transferred(hole, made)
    doubt = hypot(made.error_mm, hole.doubt_mm)
    found = partial(
        _meets,
        where=hole.label,
        value=hole.off_mm,
        limit=hole.allowed_mm,
        sources=_sources(made),
        plus_minus=doubt,
    )
    says = f"{_off(hole, made)}; {_forgiven(hole, made)}"
    if hole.spare_mm < -SAME_MM:
        return found(verdict="fail", says=f"{says}: it pinches.", change=_eased(hole, made))
    far = _slides_far(hole, made)
    if far:
        change = (
            f"Try it with {hole.label}'s clamp slid there before anything is drilled: "
            f"{shown(abs(hole.slides_mm), made.layout)} along its tube."
        )
        return found(verdict="caution", says=f"{says}.{far}", change=change)
    if hole.spare_mm < doubt - SAME_MM:
        ease = _ease(hole, doubt - hole.spare_mm, made)
        change = f"Try the bolt in {hole.label}; where it binds, {ease}."
        tell = hole.spare_mm >= made.error_mm - SAME_MM
        cannot = "" if tell else " Whether it passes cannot be told:"
        how = f"{'The' if tell else 'the'} holes are {made.measured_to()}{_bolts_place(hole, made)}"
        says = f"{says}.{cannot} {how}."
        return found(verdict="caution" if tell else "unknown", says=says, change=change)
    return found(verdict="pass", says=f"{says}.", change="")


def _off(hole: HoleFit, made: Made) -> str:
    slid = ""
    if abs(hole.slides_mm) >= rule("made-shift-told").value:
        slid = f", its clamp slid {shown(abs(hole.slides_mm), made.layout)} along its tube"
    if not any(hole.way):
        return f"Its bolt comes to the middle of hole {hole.label}{slid}"
    off, way = shown(hole.off_mm, made.layout), toward((-hole.way[0], -hole.way[1]))
    return f"Its bolt comes {off} off the middle of {hole.label}, {way}{slid}"


def _forgiven(hole: HoleFit, made: Made) -> str:
    size = "" if hole.sized else " with its hole as drawn"
    return f"hole and bolt forgive {shown(hole.play_mm, made.layout)}{size}"


def _bolts_place(hole: HoleFit, made: Made) -> str:
    if hole.doubt_mm <= SAME_MM:
        return ""
    return f", and the bolt's own place is known to ± {shown(hole.doubt_mm, made.layout)}"


def _ease(hole: HoleFit, by_mm: float, made: Made) -> str:
    """How a hole is eased, and how far: past its bolt's window only under a washer."""
    way = f" {toward(hole.bolt_off)}" if any(hole.way) else ""
    wide = hole.finished_mm + (by_mm if way else 2 * by_mm)
    if in_window(hole, wide):
        how = f", by {at_least(by_mm, made.layout)}" if way else f" to {at_least(wide, made.layout)}"
        return f"ease it{way}{how} at the most"
    window = window_of(hole.fastener)
    most = f", to {at_most(window.high_mm, made.layout)} at the most" if window is not None else ""
    return f"ease it{way}{most}; wider only under {washer_over(hole, wide)}"


def _eased(hole: HoleFit, made: Made) -> str:
    group = next(each for each in made.fit.groups if hole.label in each.holes)
    if group.left_out == hole.label:
        return opened(group, made)
    return f"As {group.name} above: here it lacks {at_least(-hole.spare_mm, made.layout)}."


def _slides_far(hole: HoleFit, made: Made) -> str:
    if hole.room_mm is None or abs(hole.slides_mm) <= hole.room_mm + made.error_mm:
        return ""
    return (
        f" Its clamp has to slide {shown(abs(hole.slides_mm), made.layout)} for that, where "
        f"{shown(hole.room_mm, made.layout)} are the most here."
    )


def _transferred(hole: HoleFit, made: Made) -> Finding:
    """A hole that is transferred in place may lie off its drawn place by as much as its bolt does."""
    found = partial(
        _meets,
        where=hole.label,
        value=hole.off_mm,
        limit=hole.allowed_mm,
        sources=_sources(made),
        plus_minus=made.error_mm,
    )
    what = f"pilot of {hole.label}" if hole.pilot else hole.label
    far = shown(hole.off_mm, made.layout)
    plan = f"its bolt's own place is known to ± {shown(hole.doubt_mm, made.layout)}"
    if hole.pilot and hole.off_mm <= hole.allowed_mm + SAME_MM:
        says = f"The {what} lies {far} from where it is drawn; it is opened where its bolt comes ({plan})."
        return _told(hole, says, found, made)
    if hole.off_mm <= hole.play_mm + SAME_MM:
        here = f"{far} from" if any(hole.way) else "right"
        says = f"{what} lies {here} where it is drawn; it is transferred in place ({plan})."
        return _told(hole, says, found, made)
    ease = _ease(hole, hole.off_mm - hole.play_mm, made)
    try_it = f"Put the part on its other bolts and try {hole.label}, {far} off; where it binds, {ease}."
    if hole.off_mm <= hole.allowed_mm + SAME_MM:
        says = (
            f"{what} lies {far} from where it is drawn, more than hole and bolt forgive "
            f"({shown(hole.play_mm, made.layout)}): right only if it was transferred in place ({plan})."
        )
        return found(verdict="caution", says=says, change=try_it)
    says = f"{what} lies {far} from where it is drawn: farther than a transfer explains, as {plan}."
    blamed = any(group.left_out == hole.label for group in made.fit.groups)
    change = f"Measure it again. {_eased(hole, made) if blamed else try_it}"
    return found(verdict="fail", says=says, change=change)


def _told(hole: HoleFit, says: str, found: partial[Finding], made: Made) -> Finding:
    """A pass, where what is spare is more than the ± that it was measured to."""
    if hole.spare_mm >= made.error_mm - SAME_MM:
        return found(verdict="pass", says=says, change="")
    says = f"{says} Whether its bolt passes cannot be told: the holes are {made.measured_to()}."
    change = f"Put the part on its other bolts and try {hole.label}, or measure the hole better."
    return found(verdict="unknown", says=says, change=change)


CHECKS = (
    Check(
        "MADE-1",
        "finished holes meet their bolts",
        "With the part as measured shifted and turned the best way: each hole's middle off its bolt, across "
        "its tube or on its component, against what hole and bolt forgive.",
        holes_meet,
        rules=(
            "caliper-error",
            "made-slip-least",
            "made-turned-least",
            "made-otherwise-share",
            "made-shift-told",
            "made-slide-most",
        ),
        sources=("floating-fastener",),
    ),
)
