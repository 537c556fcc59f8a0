"""The stand-off: whether the two can be joined, how sure the line's thickness is, where else it is held."""

from __future__ import annotations

from functools import partial

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.naming_bodies import capital
from clampwright.checks.wording import at_least, shown, warm
from clampwright.layout.cut_long import longer_at
from clampwright.layout.how_sure import known_to
from clampwright.layout.known_to import KnownTo
from clampwright.layout.stand_off_placed import StandOffLayout, Wrap
from clampwright.recipe.stand_off_model import StandOffJob
from clampwright.trade.line_supports import support_spacing
from clampwright.trade.tables import load, rule

_joined = partial(Finding, "SPACER-1", "the bolt's place", unit="mm")
_thick = partial(Finding, "SPACER-2", "the line's thickness", unit="mm")
_length = partial(Finding, "SPACER-4", "the spacer's length", unit="mm")
_next = partial(Finding, "SPACER-3", "the line's next supports", unit="mm")


def joined(layout: StandOffLayout) -> tuple[Finding, ...]:
    """SPACER-1: the two clamps can be joined at the place that is laid out, and it keeps what is asked."""
    place, many = layout.place, len(layout.places)
    limit = -rule("gap-nothing").value
    found = partial(
        _joined,
        where=layout.joints[0].label if layout.joints else layout.line.name,
        value=place.spacer_mm,
        limit=limit,
        sources=(rule("gap-nothing").source,),
    )
    which = f"Place {place.number} of {many}"
    if place.spacer_mm >= limit - SAME_MM and not place.breaks:
        what = f"a spacer of {shown(place.spacer_mm, layout)}"
        if place.spacer_mm < rule("gap-nothing").value:
            what = "no spacer: the two lie on each other"
        return (found(verdict="pass", says=f"{which}: {what}.", change=""),)
    reasons = "; ".join(each.rstrip(".") for each in place.breaks)
    short = f"the two overlap by {shown(-place.spacer_mm, layout)} along the bolt"
    return (found(verdict="fail", says=f"{which}: {reasons or short}.", change=_elsewhere(layout)),)


def _elsewhere(layout: StandOffLayout) -> str:
    """Another place that fits, else what room is lacking."""
    fitting = [place for place in layout.places if place.fits]
    if fitting:
        return f"Take place {fitting[0].number}: {fitting[0].says}"
    short = layout.place.spacer_mm < -SAME_MM
    lacking = -layout.place.spacer_mm if short else rule("component-clearance").value
    return (
        f"None of the {len(layout.places)} places fits: lead {layout.line.name} {at_least(lacking, layout)} "
        "or more farther off, or move the clamp along its support."
    )


def thickness_known(layout: StandOffLayout) -> tuple[Finding, ...]:
    """SPACER-2: the line's thickness is measured, not reckoned; the tape under its clamp stands the place."""
    found = partial(_thick, where=layout.line.name, value=layout.line.od_mm)
    if layout.bundle is not None:
        says = (
            f"{layout.bundle.wires} wires reckoned to {shown(layout.bundle.od_mm, layout)} "
            f"({layout.bundle.how}): a tied bundle is never quite that."
        )
        change = (
            "Tie the bundle, measure it over its sleeve in two directions and write od; one clamp size is "
            f"{shown(rule('clamp-loop-over-most').value, layout)}."
        )
        sources = (layout.bundle.source,)
        return (found(verdict="unknown", limit=None, says=says, change=change, sources=sources),)
    wrap = layout.wrap
    if wrap is not None:
        return (_wrapped(found, wrap, layout),)
    loop = layout.loops[-1].clamp.loop_mm
    says = (
        f"{capital(layout.line.name)}: {shown(layout.line.od_mm, layout)} in a loop of {shown(loop, layout)}."
    )
    source = rule("clamp-loop-under-most").source
    return (found(verdict="pass", limit=loop, says=says, change="", sources=(source,)),)


def _wrapped(found: partial[Finding], wrap: Wrap, layout: StandOffLayout) -> Finding:
    tape = load("wrap_tapes").rows[0]
    zone, most = layout.recipe.zone, tape.number("max_temperature")
    loop = layout.loops[-1].clamp.loop_mm
    found = partial(found, limit=loop, sources=(wrap.source,))
    says = (
        f"{shown(wrap.thickness_mm, layout)} of {tape.text('name')} ({wrap.turns:.1f} layers) fill the loop "
        f"of {shown(loop, layout)} round {layout.line.name}"
    )
    if zone.temperature_c > most:
        change = f"Take a clamp of the line's own size: the tape serves up to {warm(most, layout)}."
        return found(verdict="fail", says=f"{says}; the zone is too hot for it.", change=change)
    if "fuel" in zone.fluids:
        size = shown(layout.line.od_mm, layout)
        change = f"Take a clamp of the line's own size, {size}, or a sleeve that stands fuel."
        return found(verdict="caution", says=f"{says}; fuel can wet it and swells it.", change=change)
    return found(verdict="pass", says=f"{says}.", change="")


def next_supports(layout: StandOffLayout) -> tuple[Finding, ...]:
    """SPACER-3: the supports before and after this one are no farther away than the line's own rule."""
    carried = layout.recipe.asked(StandOffJob).carried
    spacing = support_spacing(carried.what, layout.line.od_mm)
    found = partial(_next, where=layout.line.name, limit=spacing.most_mm, sources=(spacing.source,))
    most = shown(spacing.most_mm, layout)
    if carried.next_supports_mm is None:
        free = f"a {carried.what} may run {most} free"
        says = f"The recipe does not say where else {carried.name} is held; {free}."
        change = f"Measure to the supports before and after this one and write next_supports: {most} at most."
        return (found(verdict="unknown", value=None, says=says, change=change),)
    before, after = carried.next_supports_mm
    farther = max(before, after)
    says = (
        f"{capital(carried.name)} is held {shown(before, layout)} before and {shown(after, layout)} after "
        f"this clamp; a {carried.what} may run {most} free; its bends are not judged."
    )
    if farther <= spacing.most_mm + SAME_MM:
        return (found(verdict="pass", value=farther, says=says, change=""),)
    change = f"Add a support so that none is farther than {most} from the next."
    return (found(verdict="caution", value=farther, says=says, change=change),)


def length_known(layout: StandOffLayout) -> tuple[Finding, ...]:
    """SPACER-4: the spacer as long as the places of tube and line are known, or the line gives to it."""
    limit = rule("bushing-tolerance")
    carried = layout.recipe.asked(StandOffJob).carried
    found = partial(_length, where=layout.line.name, limit=limit.value)
    if layout.line_solved:
        says = f"The spacer is given; {carried.name} runs where it puts it."
        return (found(verdict="pass", value=0.0, says=says, change="", sources=(limit.source,)),)
    sure = known_to(layout)[-1]
    off = sure.gap_mm
    found = partial(found, value=off, plus_minus=off, sources=_origins(layout))
    why = "" if sure.gap_given else " (a default nobody measured is in it)"
    if carried.what != "tube":
        says = (
            f"{capital(carried.name)} gives: with the spacer as laid out it may run {shown(off, layout)} "
            f"from where it was measured{why}."
        )
        return (found(verdict="pass", says=says, change=""),)
    says = (
        f"The gap between the feet is known to ± {shown(off, layout)}{why}, most of it from "
        f"{sure.gap_most_from}, and a rigid {carried.what} does not give; a spacer is cut to "
        f"± {shown(limit.value, layout)}."
    )
    if off <= limit.value + SAME_MM:
        return (found(verdict="pass" if sure.gap_given else "unknown", says=says, change=_said(sure)),)
    longer = longer_at(sure.clamp, layout.bushings, known_to(layout), layout.recipe.units)
    change = (
        f"Cut the spacer {shown(longer, layout)} longer than listed, measure the gap with both clamps "
        "closed, and trim it to that."
    )
    return (found(verdict="caution", says=says, change=change),)


def _said(sure: KnownTo) -> str:
    return "" if sure.gap_given else f"Measure {sure.gap_most_from}, and write it."


def _origins(layout: StandOffLayout) -> tuple[str, ...]:
    keys = ("measuring-error", "reach-error-default", "caliper-error", "bushing-tolerance")
    surveyed = ("coverage-95",) if layout.recipe.structure.uncertainty is not None else ()
    return tuple(dict.fromkeys(rule(key).source for key in (*surveyed, *keys)))


CHECKS = (
    Check(
        "SPACER-1",
        "the bolt's place",
        "Length left for the spacer at the chosen place, and what the place does not keep.",
        joined,
        rules=("gap-nothing", "component-clearance"),
    ),
    Check(
        "SPACER-2",
        "the line's thickness",
        "Whether the line's thickness was measured, and whether the tape round it stands heat and fuel.",
        thickness_known,
        rules=("clamp-loop-over-most", "clamp-loop-under-most"),
        sources=("silicone-tape",),
    ),
    Check(
        "SPACER-3",
        "the line's next supports",
        "Distance to the supports before and after, against the most for that sort of line.",
        next_supports,
        rules=("support-spacing-most", "hose-support-spacing-most"),
        sources=("mil-h-8891a-recalled",),
    ),
    Check(
        "SPACER-4",
        "the spacer's length",
        "± of the gap between the feet, from how tube, line and clamps were measured, against what a spacer "
        "is cut to.",
        length_known,
        rules=(
            "measuring-error",
            "reach-error-default",
            "caliper-error",
            "coverage-95",
            "bushing-tolerance",
            "bushing-trim",
        ),
    ),
)
