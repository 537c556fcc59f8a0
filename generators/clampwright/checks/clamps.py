"""Clamps on their tubes: size of the loop, tilt, and dimensions that nobody has measured."""

from __future__ import annotations

from functools import partial
from math import degrees, tan

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.wording import shown
from clampwright.layout.joined import Joined, Loop, line_named
from clampwright.layout.said import named_list
from clampwright.structure.tubes import Tube
from clampwright.trade.bolts import bolt
from clampwright.trade.clamps import dash_for
from clampwright.trade.tables import rule

_loop = partial(Finding, "CLAMP-1", "clamp size on the tube")
_tilt = partial(Finding, "CLAMP-4", "clamp tilt")
_dimensions = partial(Finding, "CLAMP-5", "clamp dimensions measured")

MEASURABLE = ("reach", "seat", "feet")


def tube_of(place: Loop, layout: Joined) -> Tube:
    """The tube, or the carried line, that a clamp sits on."""
    return line_named(place.tube, layout)


def loop_size(layout: Joined) -> tuple[Finding, ...]:
    """CLAMP-1: the loop is the tube's own size, or one size up and packed."""
    return tuple(_looped(c, layout) for c in layout.loops)


def _looped(place: Loop, layout: Joined) -> Finding:
    od = tube_of(place, layout).od_mm
    loop = place.clamp.loop_mm
    loose = loop - od
    bare, packed = rule("clamp-loop-under-most"), rule("clamp-loop-over-most")
    found = partial(_loop, where=place.label, value=loose, unit="mm")
    what = "a tube" if place.tube in layout.recipe.structure.names else f"the {place.tube}"
    sizes = f"Loop {shown(loop, layout)} (dash {place.clamp.dash}) on {what} of {shown(od, layout)}"
    other = dash_for(od)
    swap = f"Take dash {other}."
    if loose < -bare.value:
        says = f"{sizes}: too small by {shown(-loose, layout)}; the feet cannot close."
        return found(verdict="fail", limit=-bare.value, says=says, change=swap, sources=(bare.source,))
    if loose <= bare.value:
        return found(
            verdict="pass", limit=bare.value, says=f"{sizes}: it fits.", change="", sources=(bare.source,)
        )
    says = f"{sizes}: loose by {shown(loose, layout)}"
    if loose <= packed.value:
        change = f"Pack it with tape to {shown(loop, layout)} outside: {shown(loose / 2, layout)} all round."
        says = f"{says}; it needs tape under it."
        return found(verdict="caution", limit=bare.value, says=says, change=change, sources=(packed.source,))
    return found(
        verdict="fail",
        limit=packed.value,
        says=f"{says}; too much to pack with tape.",
        change=swap,
        sources=(packed.source,),
    )


def tilt(layout: Joined) -> tuple[Finding, ...]:
    """CLAMP-4: angle left between each clamp's bolt and the plate's normal."""
    return tuple(_tilted(c, layout) for c in layout.loops)


def _tilted(place: Loop, layout: Joined) -> Finding:
    flat, most = rule("tilt-caution"), rule("tilt-fail")
    angle = degrees(place.tilt_rad)
    wedge = place.clamp.band_width_mm * tan(abs(place.tilt_rad))
    found = partial(_tilt, where=place.label, value=angle, unit="deg")
    part = _met_by(place, layout)
    says = f"Foot and {part} are {angle:.1f}° out of flat: a wedge of {shown(wedge, layout)} across the band."
    if wedge < SAME_MM:
        says = f"The foot lies flat on the {part}."
    if angle <= flat.value:
        return found(verdict="pass", limit=flat.value, says=says, change="", sources=(flat.source,))
    if angle <= most.value:
        change = (
            f"Fit a tapered shim of {shown(wedge, layout)} under the foot; the bolt is not to pull it flat."
        )
        return found(verdict="caution", limit=flat.value, says=says, change=change, sources=(flat.source,))
    change = (
        f"Leave out the clamps on {place.tube}, or tilt the {part} to it: {most.value:g}° at the most may be "
        "left at any clamp."
    )
    return found(verdict="fail", limit=most.value, says=says, change=change, sources=(most.source,))


def _met_by(place: Loop, layout: Joined) -> str:
    """What the foot of a clamp lies on: the plate, the component's lug, the other foot, a spacer."""
    joint = next((j for j in layout.joints if place.label in j.clamps), None)
    names = [] if joint is None else [item.name for item in joint.stack.items]
    if "plate" in names:
        return "plate"
    if "component lug" in names:
        return "lug"
    return "panel" if "panel" in names else "other clamp"


def unmeasured(layout: Joined) -> tuple[Finding, ...]:
    """CLAMP-5: reach, seat and feet of every clamp were measured, not taken from the family's defaults."""
    return tuple(_measured(c, layout) for c in layout.loops)


def _measured(place: Loop, layout: Joined) -> Finding:
    missing = tuple(name for name in MEASURABLE if name not in place.measured)
    found = partial(
        _dimensions,
        where=place.label,
        value=float(len(MEASURABLE) - len(missing)),
        limit=float(len(MEASURABLE)),
        unit="measured",
        sources=_origins(missing, place),
    )
    if not missing:
        return found(verdict="pass", says="Reach, seat and feet are as measured.", change="")
    clamp = place.clamp
    values = {"reach": clamp.reach_mm, "seat": clamp.seat_mm, "feet": clamp.feet_mm}
    named = tuple(f"{name} {shown(values[name], layout)}" for name in missing)
    defaults = "a default" if len(missing) == 1 else "defaults"
    says = f"{named_list(named).capitalize()} of {clamp.part}: {defaults} that nobody measured."
    return found(verdict="unknown", says=says, change=_how(missing, place, layout))


def _bolt_of(place: Loop, layout: Joined) -> str:
    return next(joint.stack.bolt for joint in layout.joints if place.label in joint.clamps)


def _origins(missing: tuple[str, ...], place: Loop) -> tuple[str, ...]:
    """Where the defaults come from."""
    clamp = place.clamp
    origin = {"reach": clamp.source, "seat": clamp.seat_source, "feet": clamp.feet_source}
    return tuple(dict.fromkeys(origin[name] or clamp.source for name in missing or MEASURABLE))


def _how(missing: tuple[str, ...], place: Loop, layout: Joined) -> str:
    half_tube = tube_of(place, layout).od_mm / 2
    half_bolt = bolt(_bolt_of(place, layout)).nominal_mm / 2
    held = "tube" if place.tube in layout.recipe.structure.names else place.tube
    ways = {
        "reach": f"reach, over bolt and far side of the {held}, "
        f"less {shown(half_tube + half_bolt, layout)} (half the bolt and half the {held})",
        "seat": f"seat, from the foot's outer face to the far side of the {held}, "
        f"less {shown(half_tube, layout)} (half the {held})",
        "feet": "feet, over both feet squeezed together",
    }
    return f"Close one clamp on the {held} and measure with calipers: {'; '.join(ways[n] for n in missing)}."


CHECKS = (
    Check(
        "CLAMP-1",
        "clamp size on the tube",
        "Loop diameter less the tube's outside diameter: nothing for a bare tube, at most one size to pack.",
        loop_size,
        rules=("clamp-loop-under-most", "clamp-loop-over-most"),
    ),
    Check(
        "CLAMP-4",
        "clamp tilt",
        "Angle between the clamp's own bolt direction (square to its tube) and the plate's normal.",
        tilt,
        rules=("tilt-caution", "tilt-fail"),
    ),
    Check(
        "CLAMP-5",
        "clamp dimensions measured",
        "Which of reach, seat and feet rest on the family's defaults, and how to measure them.",
        unmeasured,
        sources=("clamp-by-sister", "clamp-by-sister-large", "clamp-seat-tangent", "clamp-feet-spacer"),
    ),
)
