"""Heat: whether the zone's temperature is known, and whether nuts, cushions and plate stand it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from clampwright.checks.asked import Check
from clampwright.checks.clamp_kinds import clamp_kinds
from clampwright.checks.finding import Finding
from clampwright.checks.wording import warm
from clampwright.layout.joined import Joined
from clampwright.layout.placed import PlateLayout
from clampwright.trade.clamps import LoopClamp
from clampwright.trade.cushions import clamp_code_for, code_row
from clampwright.trade.hardware import Nut, nut_for
from clampwright.trade.tables import Rule, rule

KNOCK_DOWN = "aluminium-knock-down"
"""Source of the sheet materials' temperature limits."""

_ZONE_RULES = ("temperature-ahead-of-firewall", "temperature-behind-firewall")
_NUTS = ("insert-nut-250f", "all-metal-nut-450f", "iso-2320")
_CUSHIONS = ("ms21919-article", "ms21919-article-doubtful")

_zone = partial(Finding, "ZONE-1", "zone temperature")
_nut = partial(Finding, "NUT-1", "nut temperature")
_cushion = partial(Finding, "CLAMP-6", "cushion temperature")
_plate = partial(Finding, "SHEET-3", "plate temperature")


@dataclass(frozen=True, slots=True)
class Stands:
    """Something that heat ends: where it is, what it is, and up to which temperature it serves."""

    where: str
    what: str
    most_c: float
    source: str


def zone_is_assumed(layout: Joined) -> bool:
    """Whether the zone's temperature is a default."""
    return any("temperature" in key for key, _ in layout.recipe.assumed)


def zone_temperature(layout: Joined) -> tuple[Finding, ...]:
    """ZONE-1: the zone's temperature is the builder's own, not a default; and what the parts serve up to."""
    zone = layout.recipe.zone.temperature_c
    parts = (*_nuts(layout), *_cushions(layout), *_sheet(layout))
    weakest = min(parts, key=lambda part: part.most_c)
    serve = f"what is chosen serves up to {warm(weakest.most_c, layout)} ({weakest.where})"
    found = partial(_zone, where="zone", value=zone, limit=None, unit="degC")
    if not zone_is_assumed(layout):
        says = f"The recipe gives the zone {warm(zone, layout)}; {serve}."
        return (found(verdict="pass", says=says, change="", sources=(weakest.source,)),)
    where = "ahead of" if layout.recipe.zone.ahead_of_firewall else "behind"
    says = (
        f"The recipe does not say how hot the zone gets: {warm(zone, layout)} was assumed {where} the "
        f"firewall; {serve}."
    )
    unit = "degF" if layout.recipe.units == "in" else "degC"
    change = (
        "Measure the zone at full power on a hot day, and after the engine is shut down, and write what you "
        f'read: temperature = "... {unit}".'
    )
    sources = (_zone_rule(layout).source, weakest.source)
    return (found(verdict="unknown", says=says, change=change, sources=tuple(dict.fromkeys(sources))),)


def _zone_rule(layout: Joined) -> Rule:
    ahead, behind = _ZONE_RULES
    return rule(ahead if layout.recipe.zone.ahead_of_firewall else behind)


def nut_temperature(layout: Joined) -> tuple[Finding, ...]:
    """NUT-1: every nut of the layout stands the zone's temperature."""
    kinds = _nut_kinds(layout)
    return tuple(
        _judged(_nut, part, _other_nut(nut, layout), layout)
        for part, nut in zip(_nuts(layout), kinds, strict=True)
    )


def _nut_kinds(layout: Joined) -> tuple[Nut, ...]:
    return tuple({b.stack.nut.part: b.stack.nut for b in layout.joints}.values())


def _nuts(layout: Joined) -> tuple[Stands, ...]:
    return tuple(
        Stands(nut.part, f"{nut.locking} lock", nut.max_temperature_c, nut.temperature_source or nut.source)
        for nut in _nut_kinds(layout)
    )


def _other_nut(nut: Nut, layout: Joined) -> str:
    zone = layout.recipe.zone.temperature_c
    other = nut_for(nut.bolt, zone)
    if other.max_temperature_c < zone:
        return f"Shield or move it: no nut in the tables stands {warm(zone, layout)}."
    return f"Take {other.part}, good for {warm(other.max_temperature_c, layout)}."


def cushion_temperature(layout: Joined) -> tuple[Finding, ...]:
    """CLAMP-6: every cushion of the layout stands the zone's temperature."""
    return tuple(
        _judged(_cushion, part, _other_clamp(clamp, layout), layout)
        for part, clamp in zip(_cushions(layout), clamp_kinds(layout), strict=True)
    )


def _cushions(layout: Joined) -> tuple[Stands, ...]:
    return tuple(
        Stands(
            clamp.part,
            f"{clamp.cushion} on {clamp.band}",
            clamp.max_temperature_c,
            clamp.temperature_source or clamp.source,
        )
        for clamp in clamp_kinds(layout)
    )


def _other_clamp(clamp: LoopClamp, layout: Joined) -> str:
    zone = layout.recipe.zone
    code = clamp_code_for(zone.temperature_c, zone.fluids)
    if code_row(code).number("max_temperature") < zone.temperature_c:
        return f"Shield or move it: no cushion in the tables stands {warm(zone.temperature_c, layout)}."
    return f"Take {clamp.part.replace(clamp.code, code)} for {warm(zone.temperature_c, layout)}."


def plate_temperature(layout: Joined) -> tuple[Finding, ...]:
    """SHEET-3: the plate's material keeps its strength at the zone's temperature (where a limit is known)."""
    zone = warm(layout.recipe.zone.temperature_c, layout)
    better = f"Shield the plate, or take a material that is good for {zone}, such as 4130 steel."
    return tuple(_judged(_plate, part, better, layout) for part in _sheet(layout))


def _sheet(layout: Joined) -> tuple[Stands, ...]:
    if not isinstance(layout, PlateLayout):
        return ()
    metal = layout.material
    if metal.max_temperature_c is None:
        return ()
    return (Stands("plate", metal.name, metal.max_temperature_c, KNOCK_DOWN),)


def _judged(made: partial[Finding], part: Stands, better: str, layout: Joined) -> Finding:
    """A part in the layout's zone: a default temperature can fail it but not pass it."""
    zone = layout.recipe.zone.temperature_c
    assumed = zone_is_assumed(layout)
    sources = (part.source, _zone_rule(layout).source) if assumed else (part.source,)
    found = partial(
        made,
        where=part.where,
        value=zone,
        limit=part.most_c,
        unit="degC",
        sources=tuple(dict.fromkeys(sources)),
    )
    what = part.what[0].upper() + part.what[1:]
    has = "is assumed to have" if assumed else "has"
    says = f"{what} is good for {warm(part.most_c, layout)}; the zone {has} {warm(zone, layout)}"
    if zone > part.most_c:
        change = f"{better} First see ZONE-1: measure the zone." if assumed else better
        return found(verdict="fail", says=f"{says}.", change=change)
    if assumed:
        return found(verdict="unknown", says=f"{says}.", change="See ZONE-1.")
    return found(verdict="pass", says=f"{says}.", change="")


CHECKS = (
    Check(
        "ZONE-1",
        "zone temperature",
        "Whether the recipe gives the zone's temperature, and what nuts, cushions and plate serve up to.",
        zone_temperature,
        rules=_ZONE_RULES,
        sources=(*_NUTS, *_CUSHIONS, KNOCK_DOWN),
    ),
    Check(
        "NUT-1",
        "nut temperature",
        "Temperature of the zone against what each lock nut's locking element stands.",
        nut_temperature,
        rules=_ZONE_RULES,
        sources=_NUTS,
    ),
    Check(
        "CLAMP-6",
        "cushion temperature",
        "Temperature of the zone against what each cushion stands.",
        cushion_temperature,
        rules=_ZONE_RULES,
        sources=_CUSHIONS,
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
