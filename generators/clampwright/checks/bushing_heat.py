"""Heat in a bushed joint: a bushing that grows more than its bolt tightens the joint as the bay gets warm."""

from __future__ import annotations

from functools import partial

from clampwright.checks.asked import Check
from clampwright.checks.bushed import Bushed, bushed
from clampwright.checks.finding import Finding
from clampwright.checks.forces import area, force
from clampwright.checks.preload import (
    RULES,
    Preload,
    bolt_stiffness,
    gain_n,
    preload,
    ring_mm2,
    tensile_area_mm2,
)
from clampwright.checks.wording import warm
from clampwright.layout.joined import Joined
from clampwright.trade.pressed import Pressed, expansion_per_k, pressed
from clampwright.trade.tables import rule
from clampwright.trade.tube_stock import bushing_material

_heat = partial(Finding, "BUSH-5", "pull in the bolt with heat", unit="N")
_KEYS = (*RULES, "assembly-temperature", "bolt-preload-most", "expansion-alloy-steel")


def pull_with_heat(layout: Joined) -> tuple[Finding, ...]:
    """BUSH-5: tightened and warm, no bolt pulls harder than itself or its bushing bears.

    The bushing's growth over the bolt's adds ΔF = (α_s − α_b) L ΔT/(1/k_b + 1/k_s) to the preload.
    """
    return tuple(_warmed(one, layout) for one in bushed(layout))


def heat_gain_n(one: Bushed, metal: Pressed, family: str, warmer_k: float) -> float:
    """What heat adds to a bolt's pull, N; negative where the bushing grows less than the bolt."""
    over = expansion_per_k(family) - expansion_per_k("alloy steel")
    spacer = ring_mm2(one.od_mm, one.id_mm) * metal.elastic_mpa / one.length_mm
    return gain_n(over, one.length_mm, warmer_k, bolt_stiffness(one.joint.stack), spacer)


def _warmed(one: Bushed, layout: Joined) -> Finding:
    pull = preload(one.joint.stack)
    metal = pressed(one.part.material) if one.part is not None else None
    if pull is None or metal is None or metal.fcy_mpa is None or one.part is None:
        return _heat(
            where=one.joint.label,
            verdict="unknown",
            value=None,
            limit=None,
            says="What heat adds to this bolt's pull is not known: torque or material is not.",
            change="See TORQUE-1 and BUSH-2.",
            sources=_sources(),
        )
    family = bushing_material(one.part.material).family
    warmer = layout.recipe.zone.temperature_c - rule("assembly-temperature").value
    gain = heat_gain_n(one, metal, family, warmer)
    return _judged(one, pull, gain, metal, layout)


def _judged(one: Bushed, pull: Preload, gain: float, metal: Pressed, layout: Joined) -> Finding:
    steel = pressed("bolt steel")
    assert steel is not None
    assert metal.fcy_mpa is not None
    bolt_bears = rule("bolt-preload-most").value * steel.ftu_mpa * tensile_area_mm2(one.joint.stack.bolt)
    ring_bears = metal.fcy_mpa * ring_mm2(one.od_mm, one.id_mm, rule("bushing-chamfer").value)
    most, what = min((bolt_bears, "the bolt"), (ring_bears, f"the bushing ({metal.name})"))
    total = pull.most + max(0.0, gain)
    found = partial(_heat, where=one.joint.label, value=total, limit=most, sources=_sources(metal.source))
    zone = warm(layout.recipe.zone.temperature_c, layout)
    does = f"adds {force(gain, layout)}" if gain >= 0 else f"takes off {force(-gain, layout)}"
    says = (
        f"At {zone} the bushing {does} to the {force(pull.low, layout)} to {force(pull.high, layout)} that "
        f"tightening gives (up to {force(pull.most, layout)}); {what} bears {force(most, layout)}."
    )
    if gain < 0 and -gain > pull.least:
        least = force(pull.least, layout)
        change = f"Make the bushing of steel, or it hangs loose: {least} of pull may be all there is."
        return found(verdict="caution", says=says, change=change)
    if total <= most:
        return found(verdict="pass", says=says, change="")
    end = area(ring_mm2(one.od_mm, one.id_mm), layout)
    change = (
        f"Make it of stainless steel, which adds less, or give it an end larger than {end}; a seat that "
        "yields when warm is loose when cold."
    )
    return found(verdict="caution", says=says, change=change)


def _sources(*more: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*(rule(key).source for key in _KEYS), *more)))


CHECKS = (
    Check(
        "BUSH-5",
        "pull in the bolt with heat",
        "Preload with its scatter and what the bushing's expansion adds, against what bolt and bushing bear.",
        pull_with_heat,
        rules=(*_KEYS, "bushing-chamfer"),
        sources=("mil-hdbk-5j", "ams-sheet", "acetal-sheet", "mil-b-6812"),
    ),
)
