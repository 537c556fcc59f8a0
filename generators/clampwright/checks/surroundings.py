"""Surroundings: plate and components against tubes, loops and each other."""

from __future__ import annotations

from functools import partial
from itertools import combinations
from math import hypot, sqrt

from clampwright.checks.added import tube_bodies
from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.clash import components, nearest
from clampwright.checks.edges import inside_by
from clampwright.checks.finding import Finding
from clampwright.checks.wording import at_least, shown
from clampwright.layout.bodies import clearance
from clampwright.layout.clash_bodies import plate_box
from clampwright.layout.joined import Named
from clampwright.layout.placed import ClampPlace, Frame, PlateLayout
from clampwright.quantities import Vec2, Vec3
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule

_plate = partial(Finding, "CLASH-2", "plate against tubes")
_loops = partial(Finding, "CLASH-3", "plate against loops")
_to_tubes = partial(Finding, "CLASH-4", "components against tubes")
_apart = partial(Finding, "CLASH-5", "components against each other")

_STEPS = 400
"""Places along a tube at which its distance to the plate is looked up."""


def in_part(frame: Frame, place: Vec3) -> tuple[Vec2, float]:
    """A place of the world in the part's frame: (u, v) and height."""
    away = tuple(p - o for p, o in zip(place, frame.origin, strict=True))
    u, v, z = (sum(a * d for a, d in zip(away, axis, strict=True)) for axis in (frame.u, frame.v, frame.n))
    return (u, v), z


def plate_against_tubes(layout: PlateLayout) -> tuple[Finding, ...]:
    """CLASH-2: the plate, by its exact outline, stays clear of every tube that it is not clamped to.

    A tube that carries a clamp may come as near as its cushion lets it, but not touch.
    """
    box = plate_box(layout.frame, layout.outline.box(), layout.thickness_mm)
    limit = rule("component-clearance").value
    held = {c.tube for c in layout.clamps}
    findings = []
    for tube, named in zip(layout.recipe.structure.tubes, tube_bodies(layout), strict=True):
        clear = clearance(named.body, box)
        if clear < limit:
            clear = tube_to_plate(tube, layout)
        findings.append(_beside_plate(tube, clear, tube.name in held, layout))
    return telling(findings)


def tube_to_plate(tube: Tube, layout: PlateLayout) -> float:
    """Distance from a tube's surface to the plate, mm, looked up along its axis; negative where they meet.

    ``hypot(outside the outline, above or below the plate) - od/2`` at each place.
    """
    places = (tube.point(i * tube.length_mm / _STEPS) for i in range(_STEPS + 1))
    return min(_to_plate(p, layout) for p in places) - tube.od_mm / 2


def _to_plate(place: Vec3, layout: PlateLayout) -> float:
    at, z = in_part(layout.frame, place)
    level = max(z - layout.thickness_mm, -z, 0.0)
    return hypot(max(0.0, -inside_by(layout.outline, at)), level)


def _beside_plate(tube: Tube, clear: float, held: bool, layout: PlateLayout) -> Finding:
    limit = rule("component-clearance")
    least = 0.0 if held else limit.value
    found = partial(_plate, where=tube.name, value=clear, limit=least, unit="mm", sources=(limit.source,))
    if clear >= least - SAME_MM and clear > SAME_MM:
        says = f"The nearest tube, {tube.name}, is {shown(clear, layout)} from the plate."
        return found(verdict="pass", says=says, change="")
    more = at_least(max(least, limit.value) - clear, layout)
    change = f"Raise the plate: stand_off {more} more, or cut it back."
    if clear <= SAME_MM:
        return found(verdict="fail", says=f"The plate runs into tube {tube.name}.", change=change)
    says = f"The plate is only {shown(clear, layout)} from tube {tube.name}: it will wear it through."
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
    says = f"The plate reaches over the loop and clears it by {shown(max(0.0, -rise), layout)}."
    if "seat" in place.measured or -rise >= doubt.value:
        return found(verdict="pass", says=says, change="")
    change = (
        f"Measure the seat: {shown(place.clamp.seat_mm, layout)} was taken, as high as the loop. "
        "If it is less, the plate needs that much stand_off."
    )
    return found(verdict="unknown", says=f"{says} It rests on a default seat.", change=change)


def components_against_tubes(layout: PlateLayout) -> tuple[Finding, ...]:
    """CLASH-4: every component's body stays clear of every tube; the nearest for a pass."""
    tubes = tube_bodies(layout)
    return telling(_beside_tubes(c, tubes, layout) for c in components(layout))


def _beside_tubes(named: Named, tubes: tuple[Named, ...], layout: PlateLayout) -> Finding:
    other, clear = nearest(named.body, tubes)
    what = other.what if other is not None else "the nearest tube"
    return _kept(_to_tubes, named.what, f"{named.what} and {what}", clear, layout)


def components_against_each_other(layout: PlateLayout) -> tuple[Finding, ...]:
    """CLASH-5: components' bodies stay clear of each other; the nearest two for a pass."""
    pairs = combinations(components(layout), 2)
    return telling(
        _kept(_apart, f"{a.what}/{b.what}", f"{a.what} and {b.what}", clearance(a.body, b.body), layout)
        for a, b in pairs
    )


def _kept(made: partial[Finding], where: str, both: str, clear: float, layout: PlateLayout) -> Finding:
    """A clearance that a component has to keep."""
    limit = rule("component-clearance")
    found = partial(made, where=where, value=clear, limit=limit.value, unit="mm", sources=(limit.source,))
    if clear >= limit.value - SAME_MM:
        return found(verdict="pass", says=f"{both} are {shown(clear, layout)} apart.", change="")
    change = (
        f"Move them {at_least(limit.value - clear, layout)} further apart: {shown(limit.value, layout)} are "
        "to be clear."
    )
    if clear <= SAME_MM:
        return found(verdict="fail", says=f"{both} run into each other.", change=change)
    return found(verdict="caution", says=f"{both} are only {shown(clear, layout)} apart.", change=change)


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
