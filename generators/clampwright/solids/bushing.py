"""A bushing as it is made: turned or cut to length, with every edge of its ends chamfered."""

from __future__ import annotations

import math
from functools import lru_cache
from itertools import pairwise

from clampwright.layout.bushing_parts import BushingPart, chamfer_made
from clampwright.layout.outline import Line, Outline
from clampwright.layout.placed import StackItem
from clampwright.quantities import Vec2
from clampwright.solids.body import Body
from clampwright.solids.place import Place
from clampwright.solids.shapes import Shape, moved, revolved

_WHOLE = 1e-9
_SAME_MM = 1e-6


def bushing_body(part: BushingPart) -> Body:
    """The bushing in its own frame: bore along z, lower end at z = 0."""
    shape = bushing_shape(part.length_mm, part.od_mm, part.id_mm, chamfer_made(part))
    return Body(f"bushing {part.mark}", bushing_product(part), "bushing", shape, Place())


def bushing_product(part: BushingPart) -> str:
    """What it is called in files: its mark and material."""
    return f"bushing {part.mark}, {part.material}"


@lru_cache(maxsize=64)
def bushing_shape(length_mm: float, od_mm: float, id_mm: float, chamfer_mm: float) -> Shape:
    """A bushing along z from z = 0, its four edges chamfered at 45 degrees; the bore is one cylinder."""
    outer, inner, c = od_mm / 2, id_mm / 2, chamfer_mm
    corners: list[Vec2] = [
        (inner + c, 0.0),
        (outer - c, 0.0),
        (outer, c),
        (outer, length_mm - c),
        (outer - c, length_mm),
        (inner + c, length_mm),
        (inner, length_mm - c),
        (inner, c),
    ]
    kept = [a for a, b in pairwise([*corners, corners[0]]) if math.dist(a, b) > _WHOLE]
    return revolved(Outline(tuple(Line(a, b) for a, b in pairwise([*kept, kept[0]]))))


@lru_cache(maxsize=64)
def bushing_layer(length_mm: float, od_mm: float, id_mm: float, chamfer_mm: float) -> Shape:
    """The same with its upper end at z = 0, as a stack takes its layers."""
    return moved(bushing_shape(length_mm, od_mm, id_mm, chamfer_mm), Place((0.0, 0.0, -length_mm)))


def made_for(
    bushings: tuple[BushingPart, ...], labels: frozenset[str], item: StackItem
) -> BushingPart | None:
    """The bushing that is made for a layer of a stack at one of these labels; None: none is listed."""
    for part in bushings:
        fits = abs(part.length_mm - item.thickness_mm) <= _SAME_MM
        if fits and any(fill.where in labels for fill in part.fills):
            return part
    return None
