"""Surroundings: plate and components against tubes, loops and each other."""

from __future__ import annotations

from functools import partial
from itertools import combinations
from math import hypot, sqrt

from clampwright.checks.added import tube_bodies
from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.clash import components
from clampwright.checks.edges import inside_by
from clampwright.checks.finding import Finding
from clampwright.checks.room import Room, known, known_along, most_off, one_doubt, told
from clampwright.checks.wording import at_least, shown
from clampwright.checks.worst_case import doubtful, in_doubt, short_at_worst, sure
from clampwright.layout.bodies import clearance
from clampwright.layout.clash_bodies import plate_box, point
from clampwright.layout.clearance_known import Clear
from clampwright.layout.joined import Named
from clampwright.layout.joint_solids import loop_bodies
from clampwright.layout.placed import ClampPlace, Frame, PlateLayout
from clampwright.quantities import Vec2, Vec3
from clampwright.quantities.directions import along
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule

_plate = partial(Finding, "CLASH-2", "plate against tubes")
_loops = partial(Finding, "CLASH-3", "plate against loops")
_to_tubes = partial(Finding, "CLASH-4", "components against tubes")
_apart = partial(Finding, "CLASH-5", "components against each other")

_STEPS = 400
"""Places along a tube at which its distance to the plate is looked up."""
_STEP = 1e-4
"""Millimetres by which the slope of a distance is felt."""


def in_part(frame: Frame, place: Vec3) -> tuple[Vec2, float]:
    """A place of the world in the part's frame: (u, v) and height."""
    away = tuple(p - o for p, o in zip(place, frame.origin, strict=True))
    u, v, z = (sum(a * d for a, d in zip(away, axis, strict=True)) for axis in (frame.u, frame.v, frame.n))
    return (u, v), z


def plate_against_tubes(layout: PlateLayout) -> tuple[Finding, ...]:
    """CLASH-2: the plate, by its exact outline, stays clear of every tube that it is not clamped to.

    A tube that carries a clamp may come as near as its cushion lets it, but not touch.
    """
    plate = Named("plate", "plate", plate_box(layout.frame, layout.outline.box(), layout.thickness_mm))
    tubes, limit = tube_bodies(layout), rule("component-clearance").value
    by_box = [clearance(tube.body, plate.body) for tube in tubes]
    told_below = max(min(by_box, default=0.0), limit + 2.0 * most_off(layout))
    held, findings = {c.tube for c in layout.clamps}, []
    for tube, named, clear in zip(layout.recipe.structure.tubes, tubes, by_box, strict=True):
        least = 0.0 if tube.name in held else limit
        near = _plate_clear(tube, named, plate, least, layout) if clear <= told_below else Clear(clear)
        findings.append(_beside_plate(tube, near, least, layout))
    return telling(one_doubt(findings))


def _plate_clear(tube: Tube, named: Named, plate: Named, least: float, layout: PlateLayout) -> Clear:
    """By the box round the plate where that keeps its distance even at worst, else by the outline in it."""
    clear = known(named, plate, layout)
    if clear.mm >= rule("component-clearance").value and not in_doubt(clear, least):
        return clear
    nearer, place = tube_to_plate(tube, layout)
    return known_along(named, plate, nearer, (place, foot_on_plate(place, layout)), layout)


def tube_to_plate(tube: Tube, layout: PlateLayout) -> tuple[float, Vec3]:
    """Distance from a tube's surface to the plate, mm, looked up along its axis; and the place on the axis.

    ``hypot(outside the outline, above or below the plate) - od/2`` at each place; negative where they meet.
    """
    places = [tube.point(i * tube.length_mm / _STEPS) for i in range(_STEPS + 1)]
    clear, i = min((_to_plate(p, layout), i) for i, p in enumerate(places))
    return clear - tube.od_mm / 2, places[i]


def _to_plate(place: Vec3, layout: PlateLayout) -> float:
    at, z = in_part(layout.frame, place)
    level = max(z - layout.thickness_mm, -z, 0.0)
    return hypot(max(0.0, -inside_by(layout.outline, at)), level)


def foot_on_plate(place: Vec3, layout: PlateLayout) -> Vec3:
    """The place of the plate that is nearest to a place outside it: by the slope of the distance."""
    (u, v), z = in_part(layout.frame, place)
    foot = min(max(z, 0.0), layout.thickness_mm)
    out = max(0.0, -inside_by(layout.outline, (u, v)))
    if out > 0.0:
        ahead = [inside_by(layout.outline, (u + du, v + dv)) for du, dv in ((_STEP, 0.0), (0.0, _STEP))]
        slope = [(each + out) / _STEP for each in ahead]
        size = hypot(*slope) or 1.0
        u, v = u + out * slope[0] / size, v + out * slope[1] / size
    return point(layout.frame, (u, v), foot)


def _beside_plate(tube: Tube, clear: Clear, least: float, layout: PlateLayout) -> Finding:
    limit = rule("component-clearance")
    found = partial(
        _plate,
        where=tube.name,
        value=clear.mm,
        limit=least,
        unit="mm",
        sources=(limit.source,),
        plus_minus=clear.plus_minus_mm,
    )
    if clear.mm >= least - SAME_MM and clear.mm > SAME_MM:
        says = f"The nearest tube, {tube.name}, is {sure(clear, layout)} from the plate"
        if in_doubt(clear, least):
            way = f"raise the plate: stand_off {short_at_worst(clear, least, layout)} more"
            return doubtful(found, says, clear, least, way, layout)
        return found(verdict="pass", says=f"{says}.", change="")
    more = at_least(max(least, limit.value) - clear.mm, layout)
    change = f"Raise the plate: stand_off {more} more, or cut it back."
    if clear.mm <= SAME_MM:
        return found(verdict="fail", says=f"The plate runs into tube {tube.name}.", change=change)
    says = f"The plate is only {sure(clear, layout)} from tube {tube.name}: it will wear it through."
    return found(verdict="caution", says=says, change=change)


def plate_against_loops(layout: PlateLayout) -> tuple[Finding, ...]:
    """CLASH-3: where the plate reaches over a clamp's loop, the loop does not stand higher than the foot."""
    return tuple(f for f in (_over_loop(c, layout) for c in layout.clamps) if f is not None)


def loop_rise(place: ClampPlace, layout: PlateLayout) -> float | None:
    """How far a loop reaches above the plate's near face, mm; None where the plate ends short of it.

    ``z + sqrt(R² - x²)`` with z the axis' height, R the loop's outside radius and x the distance from
    the axis, across, to the nearest metal (0 where the plate lies over the axis).
    """
    at, z = in_part(layout.frame, place.centre)
    across = max(0.0, -inside_by(layout.outline, at))
    radius = place.clamp.outside_radius_mm
    return None if across >= radius else z + sqrt(radius**2 - across**2)


def _over_loop(place: ClampPlace, layout: PlateLayout) -> Finding | None:
    rise = loop_rise(place, layout)
    if rise is None:
        return None
    most, doubt = rule("gap-nothing"), rule("reach-error-default")
    found = partial(
        _loops, where=place.label, value=rise, limit=most.value, unit="mm", sources=(most.source,)
    )
    if rise > most.value + SAME_MM:
        says = (
            f"The plate reaches over the loop of {place.label}, which stands {shown(rise, layout)} into it."
        )
        more = at_least(rise, layout)
        change = (
            f"Raise the plate: stand_off {more} more, or cut the plate back so that it ends beside the loop."
        )
        return found(verdict="fail", says=says, change=change)
    clear = _over(place, -rise, layout)
    says = f"The plate reaches over the loop and clears it by {sure(clear, layout)}"
    found = partial(found, plus_minus=clear.plus_minus_mm)
    if "seat" not in place.measured and -rise < doubt.value:
        change = (
            f"Measure the seat: {shown(place.clamp.seat_mm, layout)} was taken, as high as the loop. "
            "If it is less, the plate needs that much stand_off."
        )
        return found(verdict="unknown", says=f"{says}. It rests on a default seat.", change=change)
    if in_doubt(clear, -most.value):
        way = f"raise the plate: stand_off {short_at_worst(clear, 0.0, layout)} more"
        return doubtful(found, says, clear, -most.value, way, layout)
    return found(verdict="pass", says=f"{says}.", change="")


def _over(place: ClampPlace, clear_mm: float, layout: PlateLayout) -> Clear:
    """What is free between a loop and the plate over it, along the plate's normal; 0 where they touch."""
    loop = loop_bodies(place)[0]
    top = along(place.centre, (layout.frame.n, place.clamp.outside_radius_mm))
    over = along(top, (layout.frame.n, clear_mm))
    plate = Named("plate", "plate", loop.body)
    return known_along(loop, plate, max(0.0, clear_mm), (top, over), layout)


def components_against_tubes(layout: PlateLayout) -> tuple[Finding, ...]:
    """CLASH-4: every component's body stays clear of every tube; the nearest for a pass."""
    tubes, limit = tube_bodies(layout), rule("component-clearance").value
    rooms = (Room(c, tubes, limit, partial(_beside_tube, c, layout)) for c in components(layout))
    return told(rooms, layout)


def _beside_tube(component: Named, layout: PlateLayout, other: Named | None, clear: Clear) -> Finding:
    what = other.what if other is not None else "the nearest tube"
    return _kept(_to_tubes, component.what, f"{component.what} and {what}", clear, layout)


def components_against_each_other(layout: PlateLayout) -> tuple[Finding, ...]:
    """CLASH-5: components' bodies stay clear of each other; the nearest two for a pass.

    No ± enters: both ride on the plate.
    """
    pairs = combinations(components(layout), 2)
    return telling(
        _kept(
            _apart, f"{a.what}/{b.what}", f"{a.what} and {b.what}", Clear(clearance(a.body, b.body)), layout
        )
        for a, b in pairs
    )


def _kept(made: partial[Finding], where: str, both: str, clear: Clear, layout: PlateLayout) -> Finding:
    """A clearance that a component has to keep."""
    limit = rule("component-clearance")
    found = partial(
        made,
        where=where,
        value=clear.mm,
        limit=limit.value,
        unit="mm",
        sources=(limit.source,),
        plus_minus=clear.plus_minus_mm,
    )
    if clear.mm >= limit.value - SAME_MM:
        says = f"{both} are {sure(clear, layout)} apart"
        if in_doubt(clear, limit.value):
            way = f"move them {short_at_worst(clear, limit.value, layout)} further apart"
            return doubtful(found, says, clear, limit.value, way, layout)
        return found(verdict="pass", says=f"{says}.", change="")
    change = (
        f"Move them {at_least(limit.value - clear.mm, layout)} further apart: {shown(limit.value, layout)} "
        "are to be clear."
    )
    if clear.mm <= SAME_MM:
        return found(verdict="fail", says=f"{both} run into each other.", change=change)
    return found(verdict="caution", says=f"{both} are only {sure(clear, layout)} apart.", change=change)


CHECKS = (
    Check(
        "CLASH-2",
        "plate against tubes",
        "Distance from the plate's exact outline to every tube; a tube it is clamped to must only not touch.",
        plate_against_tubes,
        rules=("component-clearance",),
    ),
    Check(
        "CLASH-3",
        "plate against loops",
        "How far each loop stands above its foot's face where the plate reaches over the loop.",
        plate_against_loops,
        rules=("gap-nothing", "reach-error-default"),
    ),
    Check(
        "CLASH-4",
        "components against tubes",
        "Distance from each component's body to the nearest tube; the least for a pass.",
        components_against_tubes,
        rules=("component-clearance",),
    ),
    Check(
        "CLASH-5",
        "components against each other",
        "Distance between the bodies of every two components; the least for a pass.",
        components_against_each_other,
        rules=("component-clearance",),
    ),
)
