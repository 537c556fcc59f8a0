"""The plate's outline about what it must carry, in the plan (from the middle of the clamp holes)."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.increment import up_to
from clampwright.layout.outline import Outline
from clampwright.layout.outlines import Disc, filleted_polygon, rounded_hull, rounded_rectangle, snapped
from clampwright.quantities import Vec2, show_length
from clampwright.recipe.model import Plate
from clampwright.trade.tables import rule

Holes = Sequence[tuple[Vec2, float]]
"""Centre and diameter of each bolt hole."""
Notes = tuple[tuple[str, str], ...]


def polygon_outline(plate: Plate, units: str) -> tuple[Outline, Notes]:
    """The polygon that the recipe gives, with rounded corners."""
    _refuse_crossed(plate.points)
    radius, notes = _corner_radius(plate, math.inf, units)
    outline = filleted_polygon(plate.points, radius)
    return outline, notes


def outline_about(
    plate: Plate, holes: Holes, footprints: Sequence[Sequence[Vec2]], units: str
) -> tuple[Outline, Notes]:
    """Rounded rectangle or rounded hull about holes and footprints, each with its margin.

    Where the recipe gives no margin: rule `edge-distance-preferred` times the hole's diameter and rule
    `margin-allowance` about holes, rule `footprint-margin` about footprints. Sizes are rounded up to the
    increment, both sides of the middle of the clamp holes, so that this middle lies on the increment too.
    """
    margins = [_hole_margin(plate, diameter) for _, diameter in holes]
    beside = plate.margin_mm if plate.margin_mm is not None else rule("footprint-margin").value
    discs = [(centre, margin) for (centre, _), margin in zip(holes, margins, strict=True)]
    discs += [(corner, beside) for corners in footprints for corner in corners]
    radius, notes = _corner_radius(plate, min(margins), units)
    if plate.margin_mm is None:
        least = show_length(min(margins), units)
        text = f"{least} about the smallest hole, {show_length(beside, units)} about footprints (by rule)"
        notes = (("plate.margin", text), *notes)
    if plate.outline == "rounded hull":
        return rounded_hull([snapped((c, max(r, radius)), plate.round_to_mm) for c, r in discs]), notes
    return rounded_rectangle(_box_about(discs, radius, plate.round_to_mm), radius), notes


def _hole_margin(plate: Plate, diameter_mm: float) -> float:
    if plate.margin_mm is not None:
        return plate.margin_mm
    return rule("edge-distance-preferred").value * diameter_mm + rule("margin-allowance").value


def _corner_radius(plate: Plate, most: float, units: str) -> tuple[float, Notes]:
    """Corner radius; the default is no larger than the margin, so that a corner hole loses nothing."""
    if plate.corner_radius_mm is not None:
        return plate.corner_radius_mm, ()
    if plate.outline == "rounded hull":
        return 0.0, (("plate.corner_radius", "that of the margins (a rounded hull)"),)
    radius = min(rule("corner-radius-default").value, most)
    return radius, (("plate.corner_radius", f"{show_length(radius, units)} (by rule)"),)


def _box_about(discs: Sequence[Disc], radius: float, increment: float) -> tuple[float, float, float, float]:
    """The least box, rounded outward, whose rounded corners still take in every disc."""
    low = [min(c[i] - r for c, r in discs) for i in (0, 1)]
    high = [max(c[i] + r for c, r in discs) for i in (0, 1)]
    grow = 0.0
    while True:
        u0, v0 = (-up_to(grow - x, increment) for x in low)
        u1, v1 = (up_to(x + grow, increment) for x in high)
        short = max(_corner_shortfall(disc, (u0, v0, u1, v1), radius) for disc in discs)
        if short <= 1e-9:
            return u0, v0, u1, v1
        grow += short


def _corner_shortfall(disc: Disc, box: tuple[float, float, float, float], radius: float) -> float:
    """How far a disc stands out over the arc of the corner it lies in; 0 or below where it does not."""
    (u, v), r = disc
    radius = min(radius, (box[2] - box[0]) / 2, (box[3] - box[1]) / 2)
    du = max(box[0] + radius - u, u - box[2] + radius)
    dv = max(box[1] + radius - v, v - box[3] + radius)
    if du <= 0 or dv <= 0:
        return 0.0
    return math.hypot(du, dv) + r - radius


def _refuse_crossed(points: Sequence[Vec2]) -> None:
    count = len(points)
    if count < 3:
        raise CannotLayOut("a polygon needs three corners", "give at least three points in plate.points")
    sides = [(points[i], points[(i + 1) % count]) for i in range(count)]
    for (i, one), (j, other) in combinations(enumerate(sides), 2):
        if j - i in (1, count - 1) or not _cross(one, other):
            continue
        raise CannotLayOut(
            f"side {i + 1} of plate.points crosses side {j + 1}",
            "give the corners in order round the plate",
        )
    if abs(sum(a[0] * b[1] - a[1] * b[0] for a, b in sides)) < 1e-6:
        raise CannotLayOut("the polygon encloses nothing", "give corners that do not lie on one line")


def _cross(one: tuple[Vec2, Vec2], other: tuple[Vec2, Vec2]) -> bool:
    (a, b), (c, d) = one, other
    return _side(a, b, c) * _side(a, b, d) < 0 and _side(c, d, a) * _side(c, d, b) < 0


def _side(a: Vec2, b: Vec2, p: Vec2) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
