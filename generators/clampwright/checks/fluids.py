"""Fluids: what can wet the clamps against what is known against their cushions."""

from __future__ import annotations

from functools import partial

from clampwright.checks.asked import Check
from clampwright.checks.clamp_kinds import clamp_kinds
from clampwright.checks.finding import Finding
from clampwright.checks.wording import warm
from clampwright.layout.joined import Joined
from clampwright.layout.said import named_list
from clampwright.trade.clamps import LoopClamp
from clampwright.trade.cushions import (
    clamp_code_for,
    cushion_objections,
    fluid_names,
    objection_sources,
    objection_verdict,
)

CUSHIONS = ("ms21919-article", "ms21919-sheet")
"""Sources of what is known against cushions."""

ASSUMED, PURPOSE = ("assumed",), ("ms21919-sheet",)
"""Sources where no fluid is named: that there is none is assumed, or the recipe says so."""

_fluids = partial(Finding, "CLAMP-7", "cushion and fluids")


def cushion_fluids(layout: Joined) -> tuple[Finding, ...]:
    """CLAMP-7: nothing is known against any cushion in the fluids that can wet it."""
    return tuple(_wetted(c, layout) for c in clamp_kinds(layout))


def _wetted(clamp: LoopClamp, layout: Joined) -> Finding:
    fluids = layout.recipe.zone.fluids
    objections = cushion_objections(clamp.code, fluids)
    made = partial(_fluids, where=clamp.part, value=float(len(objections)), limit=0.0, unit="objections")
    if not fluids:
        return _dry(made, clamp, layout)
    verdict = objection_verdict(clamp.code, fluids)
    if verdict == "pass":
        says = f"Nothing is known against {clamp.cushion} where {_wet(fluids)} can wet it."
        return made(verdict=verdict, says=says, change="", sources=CUSHIONS)
    sources = objection_sources(clamp.code, fluids)
    says = f"{'; '.join(objections).capitalize()}."
    change = _other_cushion(clamp, layout)
    return made(verdict=verdict, says=says, change=change, sources=sources)


def _wet(fluids: tuple[str, ...]) -> str:
    return named_list(tuple("hydraulic fluid" if name == "hydraulic" else name for name in fluids))


def _other_cushion(clamp: LoopClamp, layout: Joined) -> str:
    zone = layout.recipe.zone
    wet = _wet(zone.fluids)
    better = clamp_code_for(zone.temperature_c, zone.fluids)
    if not cushion_objections(better, zone.fluids):
        return f"Take {clamp.part.replace(clamp.code, better)}, or keep {wet} away from it."
    heat = warm(zone.temperature_c, layout)
    if objection_verdict(clamp.code, zone.fluids) == "caution":
        return f"No better cushion in the tables at {heat}: wipe {wet} off, and look at it every inspection."
    return f"No cushion in the tables stands {wet} at {heat}: keep it off the clamps."


def _dry(made: partial[Finding], clamp: LoopClamp, layout: Joined) -> Finding:
    """No fluid is named: a pass where the recipe says so, unknown where it says nothing."""
    if not any("fluids" in key for key, _ in layout.recipe.assumed):
        says = f"By the recipe no fluid can wet the cushion ({clamp.cushion})."
        return made(verdict="pass", says=says, change="", sources=PURPOSE)
    says = f"The recipe does not say which fluids can wet the cushion ({clamp.cushion}); none was assumed."
    known = ", ".join(fluid_names())
    change = f"Say what can drip or spray on it: fluids = [] for nothing, or any of {known}."
    return made(verdict="unknown", says=says, change=change, sources=ASSUMED)


CHECKS = (
    Check(
        "CLAMP-7",
        "cushion and fluids",
        "The fluids that can wet the clamps against what is known to attack each cushion.",
        cushion_fluids,
        sources=(*CUSHIONS, *ASSUMED),
    ),
)
