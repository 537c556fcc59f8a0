"""Long spacers: how slender they are, and the side load that opens their edge and leaves the bolt to bend."""

from __future__ import annotations

from functools import partial
from math import pi

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.bushed import Bushed, bushed
from clampwright.checks.finding import Finding
from clampwright.checks.forces import force
from clampwright.checks.preload import RULES, opening_moment_nmm, preload
from clampwright.checks.wording import at_most, shown
from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.joined import Joined
from clampwright.layout.placed import PlateLayout
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.recipe.bushing_model import BushingJob
from clampwright.recipe.stand_off_model import StandOffJob
from clampwright.trade.tables import rule

_long = partial(Finding, "BUSH-3", "long spacers")
_GRAVITY = 9.80665
_KEYS = (*RULES, "load-factor-most", "line-density", "support-spacing-most", "spacer-slender-most")


def side_load(layout: Joined) -> tuple[Finding, ...]:
    """BUSH-3: the weight on each bushing, times the greatest load factor, does not open the bushing's edge.

    A preloaded spacer bends like one piece with its bolt until the edge opens, at
    M = F (Do² + Di²)/(8 Do); then the bolt alone bends. M = V L/2 where the part stays parallel (several
    bolts), V times the distance from the line's axis to the far seat where it does not (one bolt).
    """
    return tuple(_loaded(one, layout) for one in bushed(layout))


def lever_mm(one: Bushed, layout: Joined) -> float:
    """Arm of the side load about the bushing's end, mm."""
    if isinstance(layout, StandOffLayout):
        return one.length_mm + layout.loops[-1].clamp.seat_mm
    return one.length_mm / 2


def weight_n(layout: Joined) -> float:
    """Weight that one bolt carries, N: an equal share of the part's, or the line's half way to its supports.

    A line's mass is not asked for: it is taken from its outside and rule `line-density`, over half of the
    distances to its next supports (rule `support-spacing-most` where the recipe gives none).
    """
    if isinstance(layout, StandOffLayout):
        given = layout.recipe.asked(StandOffJob).carried.next_supports_mm
        span = sum(given) / 2 if given is not None else rule("support-spacing-most").value
        volume = pi / 4 * layout.line.od_mm**2 * span * 1e-9
        return volume * rule("line-density").value * _GRAVITY
    if isinstance(layout, BushingLayout):
        mass = layout.recipe.asked(BushingJob).component.mass_kg
        return mass * _GRAVITY / max(1, len(layout.clamps))
    assert isinstance(layout, PlateLayout)
    return layout.total_mass_kg * _GRAVITY / max(1, len(layout.clamps))


def _loaded(one: Bushed, layout: Joined) -> Finding:
    found = partial(_long, where=one.joint.label, sources=_sources())
    factor = rule("load-factor-most").value
    asked = weight_n(layout) * factor
    pull = preload(one.joint.stack)
    slender, most = one.length_mm / one.od_mm, rule("spacer-slender-most").value
    tall = f"{shown(one.length_mm, layout)} long, {slender:.1f} times its outside diameter"
    if pull is None:
        says = f"Bushing {tall}; without a torque nobody can say what side load opens its edge."
        change = f"Ask for the torque: {force(asked, layout)} may come from the side."
        return found(verdict="unknown", value=None, limit=asked, unit="N", says=says, change=change)
    moment = opening_moment_nmm(pull.least, one.od_mm, one.id_mm)
    opens = moment / lever_mm(one, layout)
    says = (
        f"Bushing {tall}: a side load of {force(opens, layout)} opens its edge and leaves the bolt to bend; "
        f"{_share(layout)} at {factor:g} g is {force(asked, layout)}"
    )
    if opens < asked:
        length = at_most(max(0.0, one.length_mm - lever_mm(one, layout) + moment / asked), layout)
        if not isinstance(layout, StandOffLayout):
            length = at_most(2 * moment / asked, layout)
        change = f"Make it {length} or shorter, thicker than {shown(one.od_mm, layout)}, or add a support."
        return found(verdict="caution", value=opens, limit=asked, unit="N", says=f"{says}.", change=change)
    if slender > most + SAME_MM:
        od = shown(one.length_mm / most, layout)
        change = f"Make it {od} thick, or bring the two nearer: {at_most(most * one.od_mm, layout)} at most."
        says = f"{says}; it stands on its one bolt like a mast, and rocks."
        return found(verdict="caution", value=slender, limit=most, unit="length/OD", says=says, change=change)
    return found(verdict="pass", value=opens, limit=asked, unit="N", says=f"{says}.", change="")


def _share(layout: Joined) -> str:
    whole = isinstance(layout, StandOffLayout)
    return "the line's weight here (estimated)" if whole else "its share of the weight"


def _sources() -> tuple[str, ...]:
    return tuple(dict.fromkeys(rule(key).source for key in _KEYS))


CHECKS = (
    Check(
        "BUSH-3",
        "long spacers",
        "Side load that opens each bushing's edge, against its share of the weight at the greatest factor.",
        side_load,
        rules=_KEYS,
    ),
)
