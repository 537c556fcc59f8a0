"""Drawings of plates of any shape and any number of holes: nothing touches, every hole is said once."""

from __future__ import annotations

import math
import random

from hypothesis import given, settings
from hypothesis import strategies as st
from sheets.shop.collisions_on_page import collisions
from sheets.shop.dimensions_true import untrue
from sheets.shop.holes_said import holes_said_once
from sheets.shop.told_parts import PROJECTIONS, STANDARDS, UNITS, hand_made

from clampwright.layout.outline import Outline
from clampwright.layout.outlines import filleted_polygon, rounded_hull, rounded_rectangle
from clampwright.layout.shop.told import FlatPart
from clampwright.quantities import Vec2
from clampwright.sheets.shop.flat_drawing import flat_drawing

DIAMETERS = (2.5, 4.85, 6.6, 12.0)
SHAPES = ("rectangle", "hull", "polygon", "round")
LAST_RESORT = "leader on extension line"
"""Among so many lines a leader may find no way round; never so on the examples' drawings."""
SIZES = {
    "plate": ((60.0, 250.0), (60.0, 250.0)),
    "long and thin": ((250.0, 900.0), (15.0, 40.0)),
    "tall and thin": ((15.0, 40.0), (250.0, 900.0)),
    "tiny": ((12.0, 30.0), (12.0, 30.0)),
}


@st.composite
def parts(draw: st.DrawFn) -> FlatPart:
    """A plate with 2 to 60 holes, some nearly touching."""
    chance = random.Random(draw(st.integers(0, 10**6)))
    across, along = SIZES[draw(st.sampled_from(sorted(SIZES)))]
    width, height = chance.uniform(*across), chance.uniform(*along)
    shape = draw(st.sampled_from(SHAPES))
    outline = outline_of(shape, width, height, chance)
    wanted = draw(st.one_of(st.integers(2, 12), st.integers(12, 60)))
    holes = holes_in(outline, wanted, chance, regular=draw(st.booleans()))
    units, standard, projection = (draw(st.sampled_from(each)) for each in (UNITS, STANDARDS, PROJECTIONS))
    thickness = chance.choice((0.8, 2.29, 6.35))
    return hand_made(outline, holes, units, standard, projection, thickness)


def outline_of(shape: str, width: float, height: float, chance: random.Random) -> Outline:
    """An outline of about that size."""
    least = min(width, height)
    if shape == "round":
        return rounded_hull([((0.0, 0.0), least / 2)])
    if shape == "rectangle":
        return rounded_rectangle((0.0, 0.0, width, height), chance.choice((0.0, least / 8, least / 2)))
    corners: list[Vec2] = [(0.0, 0.0), (width, chance.uniform(0, 0.2) * height), (width * 0.9, height)]
    corners.append((chance.uniform(0, 0.3) * width, height * chance.uniform(0.8, 1.0)))
    if shape == "hull":
        return rounded_hull([(corner, chance.uniform(0.08, 0.2) * least) for corner in corners])
    corners.insert(3, (width * 0.55, height * 0.6))
    return filleted_polygon(corners, chance.choice((0.0, least / 20)))


def holes_in(
    outline: Outline, count: int, chance: random.Random, *, regular: bool
) -> list[tuple[Vec2, float]]:
    """Holes that lie inside and do not meet; `regular` ones in rows."""
    x0, y0, x1, y1 = outline.box()
    found: list[tuple[Vec2, float]] = []
    columns = max(1, round(math.sqrt(count)))
    for n in range(count * 12):
        diameter = chance.choice(DIAMETERS) if min(x1 - x0, y1 - y0) > 35 else 2.5
        if regular:
            u, v = (n % columns + 0.5) / columns, (n // columns + 0.5) / columns
            if v > 1:
                break
        else:
            u, v = chance.random(), chance.random()
        at = (x0 + u * (x1 - x0), y0 + v * (y1 - y0))
        if not outline.contains(at) or outline.distance(at) < diameter / 2 + 0.5:
            continue
        if all(math.dist(at, other) > (diameter + size) / 2 + 0.3 for other, size in found):
            found.append((at, diameter))
        if len(found) == count:
            break
    return found


@settings(max_examples=120, deadline=None)
@given(parts())
def test_nothing_touches_on_any_plate(part: FlatPart) -> None:
    sheet = flat_drawing(part, (), ())
    for page in sheet.pages:
        assert [each for each in collisions(page) if each.what != LAST_RESORT] == []
        assert untrue(page, part.units) == []
    assert holes_said_once(part, sheet) == []
