"""Bushings: bore and wall, the pressure on their ends, and whether their material stands the place."""

from __future__ import annotations

from functools import partial

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.bushed import Bushed, bushed
from clampwright.checks.finding import Finding
from clampwright.checks.forces import area, pressure
from clampwright.checks.preload import RULES, preload, ring_mm2
from clampwright.checks.temperature import zone_is_assumed
from clampwright.checks.wording import at_least, at_most, shown, warm
from clampwright.layout.bushing_parts import BushingPart
from clampwright.layout.joined import Joined, Loop
from clampwright.trade.pressed import Pressed, pressed
from clampwright.trade.tables import rule
from clampwright.trade.tube_stock import bushing_material

_made = partial(Finding, "BUSH-1", "bushing bore and wall", unit="mm")
_pressure = partial(Finding, "BUSH-2", "pressure on bushing and seat", unit="MPa")
_place = partial(Finding, "BUSH-4", "bushing material and heat", unit="degC")

_WINDOW = ("bushing-bore-over-shank", "bushing-bore-over-nominal")


def bore_and_wall(layout: Joined) -> tuple[Finding, ...]:
    """BUSH-1: every bushing goes over its bolt without rattling, and its wall is not too thin to make."""
    return tuple(_bored(part, layout) for part in layout.bushings)


def _bored(part: BushingPart, layout: Joined) -> Finding:
    least = rule("bushing-wall-least")
    low, high = part.id_window_mm
    wall = (part.od_mm - part.id_mm) / 2
    sources = tuple(dict.fromkeys((least.source, *(rule(key).source for key in _WINDOW))))
    found = partial(_made, where=part.mark, sources=sources)
    bore = shown(part.id_mm, layout)
    if not low - SAME_MM <= part.id_mm <= high + SAME_MM:
        limit = low if part.id_mm < low else high
        why = "does not go over" if part.id_mm < low else "rattles on"
        says = f"A bore of {bore} {why} {part.bolt}."
        change = f"Bore it {at_least(low, layout)} to {at_most(high, layout)}."
        return found(verdict="fail", value=part.id_mm, limit=limit, says=says, change=change)
    says = f"Bore {bore} for {part.bolt}, wall {shown(wall, layout)}."
    found = partial(found, value=wall, limit=least.value)
    if wall >= least.value - SAME_MM:
        return found(verdict="pass", says=says, change="")
    od = at_least(part.id_mm + 2 * least.value, layout)
    return found(verdict="caution", says=f"{says[:-1]}: thin.", change=f"Take an outside diameter of {od}.")


def seat_pressure(layout: Joined) -> tuple[Finding, ...]:
    """BUSH-2: what the bolt's pull presses on a bushing's ends, against bushing and the seats beside it."""
    return tuple(_pressed(one, layout) for one in bushed(layout))


def _pressed(one: Bushed, layout: Joined) -> Finding:
    found = partial(_pressure, where=one.joint.label)
    pull = preload(one.joint.stack)
    seats = _seats(one, layout)
    if pull is None or not seats:
        what = f"the torque of {one.joint.stack.nut.part}" if pull is None else "its material"
        says = f"How hard this bushing is pressed is not known: no document in the tables gives {what}."
        change = (
            f"Ask for it; the bushing's end has {area(ring_mm2(one.od_mm, one.id_mm), layout)} to bear on."
        )
        found = partial(found, sources=(rule("nut-factor").source,))
        return found(verdict="unknown", value=None, limit=None, says=says, change=change)
    name, weakest = min(seats, key=lambda pair: pair[1].fcy_mpa or 0.0)
    most = weakest.fcy_mpa or 0.0
    end = ring_mm2(one.od_mm, one.id_mm, rule("bushing-chamfer").value)
    usual, worst = pull.high / end, pull.most / end
    sources = tuple(dict.fromkeys((weakest.source, *(rule(key).source for key in RULES))))
    found = partial(found, value=worst, limit=most, sources=sources)
    says = (
        f"Tightened, the bolt presses {pressure(usual, layout)} on the bushing's end, "
        f"{pressure(worst, layout)} with its scatter; {name} ({weakest.name}) bears {pressure(most, layout)}"
    )
    says += "; the lug's metal is not known." if _on_lug(one) else "."
    if worst <= most:
        return found(verdict="pass", says=says, change="")
    need = f"an end of {area(pull.most / most, layout)} (now {area(end, layout)})"
    change = f"Give it {need}: a larger outside diameter, or a washer between."
    return found(verdict="fail" if usual > most else "caution", says=says, change=change)


def _on_lug(one: Bushed) -> bool:
    return any(item.name == "component lug" for item in one.neighbours)


def _seats(one: Bushed, layout: Joined) -> list[tuple[str, Pressed]]:
    """The bushing itself, then the clamp feet that it bears on, where their strength is known."""
    loops = {loop.label: loop for loop in layout.loops}
    feet: list[Loop] = []
    if any(item.name == "clamp feet" for item in one.neighbours):
        feet = [loops[label] for label in one.joint.clamps if label in loops]
    own = pressed(one.part.material) if one.part is not None else None
    named = [("the bushing", own), *(("the clamp's foot", pressed(f.clamp.band)) for f in feet)]
    if own is None:
        return []
    return [(name, metal) for name, metal in named if metal is not None and metal.fcy_mpa is not None]


def material_in_place(layout: Joined) -> tuple[Finding, ...]:
    """BUSH-4: every bushing's material stands the zone's temperature; no plastic ahead of the firewall."""
    return tuple(_stands(part, layout) for part in layout.bushings)


def _stands(part: BushingPart, layout: Joined) -> Finding:
    zone = layout.recipe.zone
    material = bushing_material(part.material)
    found = partial(
        _place,
        where=part.mark,
        value=zone.temperature_c,
        limit=part.max_temperature_c,
        sources=(material.max_temperature_source,),
    )
    better = _hotter(zone.temperature_c, layout)
    if material.family == "plastic" and zone.ahead_of_firewall:
        says = f"{part.material.capitalize()} ahead of the firewall creeps under its bolt, and burns."
        return found(verdict="fail", says=says, change=better)
    says = f"{part.material} is good for {warm(part.max_temperature_c, layout)} in the zone"
    assumed = zone_is_assumed(layout)
    says += f" that {'is assumed to have' if assumed else 'has'} {warm(zone.temperature_c, layout)}."
    if zone.temperature_c > part.max_temperature_c:
        return found(verdict="fail", says=says, change=better)
    if assumed:
        return found(verdict="unknown", says=says, change="See ZONE-1.")
    return found(verdict="pass", says=says, change="")


def _hotter(temperature_c: float, layout: Joined) -> str:
    name = "6061-T6" if temperature_c <= rule("packing-aluminium-most").value else "304 stainless"
    most = bushing_material(name).max_temperature_c
    return f"Make it of {name}, good for {warm(most, layout)}."


CHECKS = (
    Check(
        "BUSH-1",
        "bushing bore and wall",
        "Bore of each bushing against its bolt's window, and its wall against the thinnest.",
        bore_and_wall,
        rules=("bushing-wall-least", *_WINDOW),
    ),
    Check(
        "BUSH-2",
        "pressure on bushing and seat",
        "Pull of the bolt at the top of its torque, with its scatter, over the bushing's end face.",
        seat_pressure,
        rules=(*RULES, "bushing-chamfer"),
        sources=("mil-hdbk-5j", "ams-sheet", "acetal-sheet"),
    ),
    Check(
        "BUSH-4",
        "bushing material and heat",
        "Temperature of the zone against each bushing's material; plastic ahead of the firewall fails.",
        material_in_place,
        rules=("packing-aluminium-most",),
        sources=("aluminium-heat", "stainless-heat", "steel-heat", "acetal-sheet"),
    ),
)
