"""Holes of a finished plate: whether they meet their bolts, and whether they are the right size."""

from __future__ import annotations

from functools import partial
from math import hypot

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.holes import window_of
from clampwright.checks.made_wording import Made, moved, toward
from clampwright.checks.wording import at_least, shown
from clampwright.layout.as_made import Culprit, GroupFit, HoleFit
from clampwright.layout.as_made_slips import taken_otherwise
from clampwright.layout.placed import PlateLayout
from clampwright.layout.slot import cover
from clampwright.trade.tables import rule

_meets = partial(Finding, "MADE-1", "finished holes meet their bolts", unit="mm")


def holes_meet(made: Made) -> tuple[Finding, ...]:
    """MADE-1: with the part shifted and turned the best way, every bolt goes through its hole."""
    layout = made.layout
    if not isinstance(layout, PlateLayout):
        return ()
    slip = taken_otherwise(layout, made.measured)
    return (
        *((_slipped(slip, made),) if slip else ()),
        *(_group(each, made) for each in made.fit.groups),
        *(_hole(each, made) for each in made.fit.holes),
    )


def _slipped(slip: str, made: Made) -> Finding:
    drawn = (
        {hole.label: hole.at for hole in made.layout.holes} if isinstance(made.layout, PlateLayout) else {}
    )
    worst = max(hypot(h.at[0] - drawn[h.label][0], h.at[1] - drawn[h.label][1]) for h in made.measured.holes)
    least = rule("made-slip-least")
    return _meets(
        where="measurements",
        verdict="fail",
        value=worst,
        limit=least.value,
        says=f"The holes lie up to {shown(worst, made.layout)} from where they are drawn. {slip}",
        change=(
            "Measure x from the left and y from the bottom edge, component side up: "
            f"hole {made.measured.holes[0].label} is drawn at "
            f"{' and '.join(shown(v, made.layout) for v in drawn[made.measured.holes[0].label])}."
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
    if group.spare_mm >= -SAME_MM:
        spare = f"the tightest of its holes has {shown(max(group.spare_mm, 0.0), made.layout)} to spare"
        if _tightest(group, made).transferred:
            spare += ", counting what a transfer in place makes up"
        before = f" ({_before(group, made)})" if way else ""
        return found(verdict="pass", says=f"{how}, {spare}{before}.", change="")
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
        ease = _round(hole, doubt - hole.spare_mm, made)
        change = f"Try the bolt in {hole.label}; where it binds, ease the hole {ease}."
        return found(
            verdict=made.doubtful,
            says=f"{says}. The holes are {made.measured_to()}{_bolts_place(hole, made)}.",
            change=change,
        )
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


def _round(hole: HoleFit, by_mm: float, made: Made) -> str:
    if not any(hole.way):
        return f"to {at_least(hole.diameter_mm + 2 * by_mm, made.layout)} at the most"
    return f"{toward((-hole.way[0], -hole.way[1]))}, by {at_least(by_mm, made.layout)} at the most"


def _eased(hole: HoleFit, made: Made) -> str:
    group = next(each for each in made.fit.groups if hole.label in each.holes)
    if group.left_out == hole.label:
        return opened(group, made)
    by = at_least(-hole.spare_mm, made.layout)
    return f"As {group.name} above; here by {by} {toward((-hole.way[0], -hole.way[1]))}."


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
        return found(verdict="pass", says=says, change="")
    if hole.off_mm <= hole.play_mm + SAME_MM:
        here = f"{far} from" if any(hole.way) else "right"
        says = f"{what} lies {here} where it is drawn; it is transferred in place ({plan})."
        return found(verdict="pass", says=says, change="")
    ease = _round(hole, hole.off_mm - hole.play_mm, made)
    try_it = f"Put the part on its other bolts and try {hole.label}; where it binds, ease it {ease}."
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
            "made-otherwise-share",
            "made-shift-told",
            "made-slide-most",
        ),
        sources=("floating-fastener",),
    ),
)
