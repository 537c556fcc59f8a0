"""Flat parts made by hand, and a second opinion on how a nest lies: shapely on fine polygons."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import shapely

from clampwright.layout.outline import Arc, Line, Outline
from clampwright.layout.outlines import filleted_polygon, rounded_hull, rounded_rectangle
from clampwright.layout.shop.told import Bend, FlatPart, ToldHole
from clampwright.nesting.nested import Laid
from clampwright.quantities import Vec2
from clampwright.recipe.shop import usual_shop
from clampwright.trade.materials import material

STEP_RAD = 0.002
"""Of a fine polygon: a chord of a 100 mm arc lies within 0.05 um of it."""


def part(
    number: str,
    outline: Outline,
    quantity: int = 1,
    *,
    bends: tuple[Bend, ...] = (),
    holes: tuple[ToldHole, ...] = (),
    thickness_mm: float = 1.6,
    name: str = "6061-T6",
    **shop: Any,
) -> FlatPart:
    """A part with what the shop is told; the metric shop's usual values where nothing is said."""
    told = replace(usual_shop("mm"), **shop)
    stuff = material(name)
    mass = outline.area_mm2() * thickness_mm * stuff.density_kg_m3 * 1e-9
    return FlatPart(
        number=number,
        title=number,
        recipe=f"{number}-recipe",
        about="",
        digest="0" * 16,
        units="mm",
        material=stuff,
        thickness_mm=thickness_mm,
        outline=to_datum(outline),
        holes=holes,
        quantity=quantity,
        mass_kg=mass,
        shop=told,
        bends=bends,
    )


def to_datum(outline: Outline) -> Outline:
    """The outline with the corner of its box at the origin."""
    x0, y0, _, _ = outline.box()
    return outline.moved((-x0, -y0))


def polygon(*points: Vec2) -> Outline:
    """Straight lines between the points."""
    after = [*points[1:], points[0]]
    return Outline(tuple(Line(a, b) for a, b in zip(points, after, strict=True)))


def rectangle(wide: float, high: float) -> Outline:
    """Sharp corners."""
    return polygon((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))


def rounded(wide: float, high: float, radius: float) -> Outline:
    """Round corners."""
    return rounded_rectangle((0.0, 0.0, wide, high), radius)


def angle(wide: float, high: float, leg: float, radius: float = 0.0) -> Outline:
    """An L, its inner corner rounded too where there is a radius."""
    points = ((0.0, 0.0), (wide, 0.0), (wide, leg), (leg, leg), (leg, high), (0.0, high))
    return filleted_polygon(points, radius) if radius else polygon(*points)


def disc(radius: float) -> Outline:
    """A whole circle."""
    return Outline((Arc((2 * radius, radius), (2 * radius, radius), (radius, radius), True),))


def hull(*discs: tuple[Vec2, float]) -> Outline:
    """A band round discs."""
    return rounded_hull(list(discs))


def fine(laid: Laid) -> Any:
    """The part as it lies, as a shapely polygon with its corners on the true outline."""
    return shapely.Polygon([laid.place(p) for piece in laid.part.outline.pieces for p in _points(piece)])


def _points(piece: Line | Arc) -> Sequence[Vec2]:
    if isinstance(piece, Line):
        return [piece.start]
    count = max(2, math.ceil(piece.sweep / STEP_RAD))
    each = piece.sweep / count * (1 if piece.ccw else -1)
    (u, v), r = piece.centre, piece.radius_mm
    start = piece.start_angle
    return [(u + r * math.cos(start + k * each), v + r * math.sin(start + k * each)) for k in range(count)]
