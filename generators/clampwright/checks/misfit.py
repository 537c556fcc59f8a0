"""Misfit: whether each mounting hole meets its clamp's bolt, as drawn and as the tubes may really be."""

from __future__ import annotations

from functools import partial
from math import hypot

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.naming_bodies import capital
from clampwright.checks.welds import band_to_node
from clampwright.checks.wording import at_least, shown
from clampwright.layout.bushing_placed import BushingLayout, HoleHeld
from clampwright.layout.how_sure import known_to
from clampwright.layout.known_to import KnownTo
from clampwright.layout.measure_again import cure
from clampwright.layout.placed import ClampPlace
from clampwright.layout.slot import opening_mm
from clampwright.recipe.bushing_model import BushingJob
from clampwright.structure.nodes import nodes
from clampwright.trade.bolts import bolt
from clampwright.trade.holes import hole_window
from clampwright.trade.tables import rule

_misfit = partial(Finding, "MISFIT-1", "mounting holes and bolts", unit="mm")
_breaks = partial(Finding, "MISFIT-2", "the component's place", unit="")
_IN_PLACE = "that trial decides"
_KEYS = ("caliper-error", "caliper-reach", "tape-least", "reach-error-default", "lug-slot-most")


def holes_meet(layout: BushingLayout) -> tuple[Finding, ...]:
    """MISFIT-1: the bolt's place stays within what hole and bolt forgive, also with the tubes' doubt added.

    The doubt is that of `layout.settling`: the component comes to lie where its bolts meet their holes best,
    and what they then still miss by is across their tubes. How far a clamp slides for that is held against
    the room that it has to the nearest weld.
    """
    places = dict(enumerate(layout.clamps, 1))
    sure = {each.clamp: each for each in known_to(layout)}
    return tuple(
        _meets(hole, places[hole.hole], sure[places[hole.hole].label], layout)
        for hole in layout.answer.holes
        if hole.hole in places
    )


def hole_mm(layout: BushingLayout) -> float:
    """Diameter of the component's holes: as measured, else the low end of the bolt's window."""
    job = layout.recipe.asked(BushingJob)
    given = job.component.hole_mm
    return given if given is not None else hole_window(job.fastener.bolt).low_mm


def _meets(hole: HoleHeld, place: ClampPlace, sure: KnownTo, layout: BushingLayout) -> Finding:
    off, allowed = hypot(*hole.misfit_mm), layout.answer.allowed_mm
    whole = off + sure.across_mm
    found = partial(
        _misfit,
        where=place.label,
        limit=allowed,
        sources=_sources(layout),
        plus_minus=sure.across_mm,
    )
    here = f"Hole {hole.hole}: the bolt of {place.label} comes {shown(off, layout)} from its middle"
    forgives = f"hole and bolt forgive {shown(allowed, layout)}"
    if off > allowed + SAME_MM:
        says = f"{here}; {forgives}."
        change = f"{_measure_first(off - allowed, layout)}{_opened(off - allowed, place, layout)}"
        return found(verdict="fail", value=off, says=says, change=change)
    doubtful = "caution" if sure.given else "unknown"
    if whole > allowed + SAME_MM:
        says = f"{here}; {forgives}, and the tubes {_known(sure, layout)}: it fits on paper only."
        change = (
            f"Try the fit on the tubes first. Where it binds, make {_slot(whole - allowed, place, layout)}. "
            f"{cure(sure, allowed - off, layout.recipe.units, 'To be sure of it beforehand', _IN_PLACE)}"
        )
        return found(verdict=doubtful, value=whole, says=says, change=change)
    says = f"{here}, ± {shown(sure.across_mm, layout)} as measured; {forgives}{_slides(sure, place, layout)}."
    room = _room(place, layout)
    if room is not None and sure.station_mm > room + SAME_MM:
        says += f" It is free to slide {shown(room, layout)} before it comes too near a weld or an end."
        change = (
            f"Try the fit on the tubes before anything is drilled or cut; or measure {place.tube} and the "
            "tubes beside it better."
        )
        return found(verdict=doubtful, value=whole, says=says, change=change)
    return found(verdict="pass", value=whole, says=says, change="")


def _slides(sure: KnownTo, place: ClampPlace, layout: BushingLayout) -> str:
    """How far its clamp may have to slide for that."""
    if sure.station_mm <= rule("gap-nothing").value:
        return ""
    slide = shown(sure.station_mm, layout)
    return f"; to get there its clamp may slide {slide} either way along {place.tube}"


def _known(sure: KnownTo, layout: BushingLayout) -> str:
    """How well the tubes are known, and what most of it comes from."""
    why = "" if sure.across_given else ", a default nobody measured"
    most = f", most of it from {sure.most_from}" if sure.most_from else ""
    return f"are known to ± {shown(sure.across_mm, layout)} across{why}{most}"


def _room(place: ClampPlace, layout: BushingLayout) -> float | None:
    """How far a clamp may slide before its band comes nearer to a weld or end than `weld-distance-least`."""
    on_it = [node for node in nodes(layout.recipe.structure) if node.tube == place.tube]
    if not on_it:
        return None
    od = layout.recipe.structure.tube(place.tube).od_mm
    least = rule("weld-distance-least").value * od
    return max(0.0, min(band_to_node(place, node) for node in on_it) - least)


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


def _sources(layout: BushingLayout) -> tuple[str, ...]:
    surveyed = layout.recipe.structure.uncertainty is not None
    keys = (*(("coverage-95",) if surveyed else ("measuring-error",)), *_KEYS)
    return tuple(dict.fromkeys(rule(key).source for key in keys))


CHECKS = (
    Check(
        "MISFIT-1",
        "mounting holes and bolts",
        "Distance of each clamp's bolt from its hole's middle, and ± of the tubes, against the play of both.",
        holes_meet,
        rules=("measuring-error", "coverage-95", *_KEYS, "weld-distance-least"),
    ),
    Check(
        "MISFIT-2",
        "the component's place",
        "What the chosen place of the component does not keep.",
        place_kept,
        sources=("assumed",),
    ),
)
