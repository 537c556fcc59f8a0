"""Heat and fluids: what nuts and cushions stand, against the zone."""

from __future__ import annotations

from functools import partial

from clampwright.checks.asked import Check
from clampwright.checks.finding import Finding
from clampwright.checks.stacks import bolted
from clampwright.checks.wording import listed, warm
from clampwright.layout.placed import PlateLayout
from clampwright.trade.clamps import LoopClamp
from clampwright.trade.cushions import (
    clamp_code_for,
    code_row,
    cushion_objections,
    fluid_names,
    objection_sources,
)
from clampwright.trade.hardware import Nut, nut_for
from clampwright.trade.tables import Rule, rule

CUSHIONS = ("ms21919-article", "ms21919-sheet")
"""Sources of what is known against cushions."""

KNOCK_DOWN = "aluminium-knock-down"
"""Source of the sheet materials' temperature limits."""

_ZONE_RULES = ("temperature-ahead-of-firewall", "temperature-behind-firewall")

_nut = partial(Finding, "NUT-1", "nut temperature")
_cushion = partial(Finding, "CLAMP-6", "cushion temperature")
_fluids = partial(Finding, "CLAMP-7", "cushion and fluids")
_plate = partial(Finding, "SHEET-3", "plate temperature")


def zone_is_assumed(layout: PlateLayout) -> bool:
    """Whether the zone's temperature is a default."""
    return any("temperature" in key for key, _ in layout.recipe.assumed)


def nut_temperature(layout: PlateLayout) -> tuple[Finding, ...]:
    """NUT-1: every nut of the layout stands the zone's temperature."""
    kinds = {b.stack.nut.part: b.stack.nut for b in bolted(layout)}
    return tuple(_nut_in_zone(nut, layout) for nut in kinds.values())


def _nut_in_zone(nut: Nut, layout: PlateLayout) -> Finding:
    zone = layout.recipe.zone.temperature_c
    other = nut_for(nut.bolt, zone)
    better = f"Take {other.part}, good for {warm(other.max_temperature_c, layout)}."
    if other.max_temperature_c < zone:
        better = f"Shield or move it: no nut in the tables stands {warm(zone, layout)}."
    return _stands(
        _nut,
        nut.part,
        f"{nut.part} ({nut.locking})",
        nut.max_temperature_c,
        nut.temperature_source or nut.source,
        better,
        layout,
    )


def cushion_temperature(layout: PlateLayout) -> tuple[Finding, ...]:
    """CLAMP-6: every cushion of the layout stands the zone's temperature."""
    return tuple(_cushion_in_zone(c, layout) for c in _kinds(layout))


def _kinds(layout: PlateLayout) -> tuple[LoopClamp, ...]:
    return tuple({c.clamp.part: c.clamp for c in layout.clamps}.values())


def _cushion_in_zone(clamp: LoopClamp, layout: PlateLayout) -> Finding:
    zone = layout.recipe.zone
    code = clamp_code_for(zone.temperature_c, zone.fluids)
    better = f"Take {clamp.part.replace(clamp.code, code)} for {warm(zone.temperature_c, layout)}."
    if code_row(code).number("max_temperature") < zone.temperature_c:
        better = f"Shield or move it: no cushion in the tables stands {warm(zone.temperature_c, layout)}."
    name = f"{clamp.part} ({clamp.cushion} on {clamp.band})"
    return _stands(
        _cushion,
        clamp.part,
        name,
        clamp.max_temperature_c,
        clamp.temperature_source or clamp.source,
        better,
        layout,
    )


def _stands(
    found: partial[Finding], where: str, name: str, most: float, origin: str, better: str, layout: PlateLayout
) -> Finding:
    """A part that is good up to `most` degrees in the layout's zone."""
    zone = layout.recipe.zone.temperature_c
    made = partial(found, where=where, value=zone, limit=most, unit="degC")
    if zone > most:
        says = f"{name} is good for {warm(most, layout)} and the zone has {warm(zone, layout)}."
        return made(verdict="fail", says=says, change=better, sources=(origin,))
    says = f"{name} is good for {warm(most, layout)}; the zone has {warm(zone, layout)}."
    if not zone_is_assumed(layout):
        return made(verdict="pass", says=says, change="", sources=(origin,))
    change = (
        f'Measure the zone at full power on a hot day and write it: temperature = "{warm(zone, layout)}".'
    )
    says = says[:-1] + ", which is a default."
    return made(verdict="unknown", says=says, change=change, sources=(origin, _zone_rule(layout).source))


def _zone_rule(layout: PlateLayout) -> Rule:
    ahead, behind = _ZONE_RULES
    return rule(ahead if layout.recipe.zone.ahead_of_firewall else behind)


def cushion_fluids(layout: PlateLayout) -> tuple[Finding, ...]:
    """CLAMP-7: nothing is known against any cushion in the fluids that can wet it."""
    return tuple(_wetted(c, layout) for c in _kinds(layout))


def _wetted(clamp: LoopClamp, layout: PlateLayout) -> Finding:
    zone = layout.recipe.zone
    objections = cushion_objections(clamp.code, zone.fluids)
    made = partial(_fluids, where=clamp.part, value=float(len(objections)), limit=0.0, unit="objections")
    if not zone.fluids:
        return _dry(made, clamp, layout)
    wet = _wet(zone.fluids)
    if not objections:
        says = f"Nothing is known against {clamp.cushion} where {wet} can wet it."
        return made(verdict="pass", says=says, change="", sources=CUSHIONS)
    sources = objection_sources(clamp.code, zone.fluids)
    says = f"{'; '.join(objections).capitalize()}."
    return made(verdict="fail", says=says, change=_other_cushion(clamp, wet, layout), sources=sources)


def _wet(fluids: tuple[str, ...]) -> str:
    return listed(tuple("hydraulic fluid" if name == "hydraulic" else name for name in fluids))


def _other_cushion(clamp: LoopClamp, wet: str, layout: PlateLayout) -> str:
    zone = layout.recipe.zone
    better = clamp_code_for(zone.temperature_c, zone.fluids)
    if cushion_objections(better, zone.fluids):
        heat = warm(zone.temperature_c, layout)
        return f"No cushion in the tables stands {wet} at {heat}: keep it off the clamps."
    return f"Take {clamp.part.replace(clamp.code, better)}, or keep {wet} away from it."


def _dry(made: partial[Finding], clamp: LoopClamp, layout: PlateLayout) -> Finding:
    """No fluid is named: a pass where the recipe says so, unknown where it says nothing."""
    says = f"No fluid is named that can wet the cushion ({clamp.cushion})."
    if not any("fluids" in key for key, _ in layout.recipe.assumed):
        return made(verdict="pass", says=says, change="", sources=CUSHIONS)
    known = ", ".join(fluid_names())
    change = f"Say what can drip or spray on it: fluids = [] for nothing, or any of {known}."
    return made(verdict="unknown", says=says, change=change, sources=CUSHIONS)


def plate_temperature(layout: PlateLayout) -> tuple[Finding, ...]:
    """SHEET-3: the plate's material keeps its strength at the zone's temperature (where a limit is known)."""
    metal = layout.material
    if metal.max_temperature_c is None:
        return ()
    zone = warm(layout.recipe.zone.temperature_c, layout)
    better = f"Shield the plate, or take a material that is good for {zone}, such as 4130 steel."
    return (_stands(_plate, "plate", metal.name, metal.max_temperature_c, KNOCK_DOWN, better, layout),)


CHECKS = (
    Check(
        "NUT-1",
        "nut temperature",
        "Temperature of the zone against what each lock nut's locking element stands.",
        nut_temperature,
        rules=_ZONE_RULES,
        sources=("insert-nut-250f", "all-metal-nut-450f", "iso-2320"),
    ),
    Check(
        "CLAMP-6",
        "cushion temperature",
        "Temperature of the zone against what each cushion stands.",
        cushion_temperature,
        rules=_ZONE_RULES,
        sources=("ms21919-article", "ms21919-article-doubtful"),
    ),
    Check(
        "CLAMP-7",
        "cushion and fluids",
        "The fluids that can wet the clamps against what is known to attack each cushion.",
        cushion_fluids,
        sources=CUSHIONS,
    ),
    Check(
        "SHEET-3",
        "plate temperature",
        "Temperature of the zone against the plate material's limit, where a document gives one.",
        plate_temperature,
        rules=_ZONE_RULES,
        sources=(KNOCK_DOWN,),
    ),
)
