"""Misfit: whether each mounting hole meets its clamp's bolt, as drawn and as the tubes may really be."""

from __future__ import annotations

from functools import partial
from math import hypot

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.naming_bodies import capital
from clampwright.checks.wording import at_least, shown
from clampwright.layout.bushing_placed import BushingLayout, HoleHeld
from clampwright.layout.fit_up import across_tubes_mm, reach_error_mm, reference_tube
from clampwright.layout.placed import ClampPlace
from clampwright.layout.slot import opening_mm
from clampwright.recipe.bushing_model import BushingJob
from clampwright.trade.bolts import bolt
from clampwright.trade.holes import hole_window
from clampwright.trade.tables import rule

_misfit = partial(Finding, "MISFIT-1", "mounting holes and bolts", unit="mm")
_breaks = partial(Finding, "MISFIT-2", "the component's place", unit="")
_KEYS = ("measuring-error", "caliper-error", "reach-error-default", "lug-slot-most")


def holes_meet(layout: BushingLayout) -> tuple[Finding, ...]:
    """MISFIT-1: the bolt's place stays within what hole and bolt forgive, also with the tubes' doubt added.

    The doubt is that of `layout.fit_up`: none along the reference tube, whose clamps slide to their holes;
    √2 times the measuring error from another tube, and the reaches'.
    """
    places = dict(enumerate(layout.clamps, 1))
    return tuple(
        _meets(hole, places[hole.hole], layout) for hole in layout.answer.holes if hole.hole in places
    )


def doubt_mm(place: ClampPlace, layout: BushingLayout) -> float:
    """± of where a clamp's bolt comes against the component's pattern, mm (95 %)."""
    tube = reference_tube(layout.clamps)
    first = next(clamp for clamp in layout.clamps if clamp.tube == tube)
    reach = 0.0 if place is first else reach_error_mm(place, first)
    if place.tube == tube:
        return reach
    return across_tubes_mm(layout.recipe.measuring.error_mm, 0.0, reach)


def hole_mm(layout: BushingLayout) -> float:
    """Diameter of the component's holes: as measured, else the low end of the bolt's window."""
    job = layout.recipe.asked(BushingJob)
    given = job.component.hole_mm
    return given if given is not None else hole_window(job.fastener.bolt).low_mm


def _meets(hole: HoleHeld, place: ClampPlace, layout: BushingLayout) -> Finding:
    off, allowed = hypot(*hole.misfit_mm), layout.answer.allowed_mm
    found = partial(_misfit, where=place.label, limit=allowed, sources=_sources())
    here = f"Hole {hole.hole}: the bolt of {place.label} comes {shown(off, layout)} from its middle"
    forgives = f"hole and bolt forgive {shown(allowed, layout)}"
    if off > allowed + SAME_MM:
        says = f"{here}; {forgives}."
        change = f"{_measure_first(off - allowed, layout)}{_opened(off - allowed, place, layout)}"
        return found(verdict="fail", value=off, says=says, change=change)
    doubt = doubt_mm(place, layout)
    whole = off + doubt
    given = layout.recipe.measuring.given
    if whole > allowed + SAME_MM:
        why = "" if given else ", a default nobody measured"
        says = (
            f"{here}; {forgives}, and the tubes are measured to ± {shown(doubt, layout)} across{why}: "
            "it fits on paper only."
        )
        over = across_tubes_mm(layout.recipe.measuring.error_mm, 0.0) + rule("bushing-trim").value
        change = (
            f"Try the fit on the tubes first: cut the bushings {at_least(over, layout)} longer than listed "
            f"and trim them there. Where it binds, make {_slot(whole - allowed, place, layout)}."
        )
        verdict = "caution" if given else "unknown"
        return found(verdict=verdict, value=whole, says=says, change=change)
    says = f"{here}, ± {shown(doubt, layout)} as measured; {forgives}."
    return found(verdict="pass", value=whole, says=says, change="")


def _measure_first(lacking_mm: float, layout: BushingLayout) -> str:
    """What to measure where nobody gave the size of the component's holes."""
    if layout.recipe.asked(BushingJob).component.hole_mm is not None:
        return ""
    taken = hole_mm(layout)
    return (
        f"Measure the holes in its lugs and write hole: {shown(taken, layout)} was taken, "
        f"{at_least(taken + 2 * lacking_mm, layout)} would do. Or: "
    )


def _opened(lacking_mm: float, place: ClampPlace, layout: BushingLayout) -> str:
    """The slot that would do, as long as it leaves a lug."""
    size, most = bolt(place.stack.bolt), rule("lug-slot-most")
    opening = opening_mm(hole_mm(layout), lacking_mm)
    if opening <= most.value * size.nominal_mm:
        return f"Make {_slot(lacking_mm, place, layout)}."
    return (
        f"A slot would have to be {at_least(opening, layout)} long, more than {most.value:g} bolt diameters: "
        "it leaves hardly a lug. Take what else would do (MISFIT-2)."
    )


def _slot(lacking_mm: float, place: ClampPlace, layout: BushingLayout) -> str:
    """How large the hole has to become."""
    size = bolt(place.stack.bolt).name
    opening = opening_mm(hole_mm(layout), lacking_mm)
    return f"the hole for {size} a slot {at_least(opening, layout)} long, square to {place.tube}"


def place_kept(layout: BushingLayout) -> tuple[Finding, ...]:
    """MISFIT-2: the component's place keeps all that was asked: misfit, tilt, welds, clamps on the tubes."""
    name = layout.recipe.asked(BushingJob).component.name
    found = partial(_breaks, where=name, limit=0.0, sources=("assumed",))
    broken = layout.answer.breaks
    if not broken:
        count = f"{layout.fitting} of {layout.examined} ways to hold it fit"
        says = f"It fits ({count}): {_sentence(layout.answer.says)}"
        return (found(verdict="pass", value=0.0, says=says, change=""),)
    count = f"{len(broken)} thing{'s are' if len(broken) > 1 else ' is'} not kept"
    says = f"{count}: {'; '.join(each.rstrip('.') for each in broken)}."
    return (found(verdict="fail", value=float(len(broken)), says=says, change=_remedies(layout)),)


def _sentence(text: str) -> str:
    return capital(text if text.endswith(".") else f"{text}.")


def _remedies(layout: BushingLayout) -> str:
    """Everything that would help; without a remedy, more freedom for the component."""
    if layout.remedies:
        first, *rest = (_sentence(each.says) for each in layout.remedies)
        return " ".join([first, *(f"Or: {each}" for each in rest)])
    within = layout.recipe.asked(BushingJob).pose.within_mm
    free = shown(within, layout) if within is not None else "0"
    return f"Let the component move farther from its place (within is {free} now), or allow more tubes."


def _sources() -> tuple[str, ...]:
    return tuple(dict.fromkeys(rule(key).source for key in _KEYS))


CHECKS = (
    Check(
        "MISFIT-1",
        "mounting holes and bolts",
        "Distance of each clamp's bolt from its hole's middle, and ± of the tubes, against the play of both.",
        holes_meet,
        rules=(*_KEYS, "bushing-trim"),
    ),
    Check(
        "MISFIT-2",
        "the component's place",
        "What the chosen place of the component does not keep.",
        place_kept,
        sources=("assumed",),
    ),
)
