"""A component with lugs as a reference body, in its own frame: its box, and a lug at every hole.

A lug has its own height and thickness. Where it stands beside the box it is an ear; where the box covers the
hole, the box is open above and below the lug, as wide as the wrench. A lug that no ear joins to the box,
being higher or lower than all of it, stands on a leg. What the recipe does not say is not drawn: without a
box there are only the lugs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.drilled_holes import bolt_hole
from clampwright.quantities import Vec2, Vec3
from clampwright.recipe.bushing_model import BushingJob, MountedComponent
from clampwright.solids.body import Body
from clampwright.solids.component import EAR_SHARE
from clampwright.solids.lugs import TALL_MM, Bore, covered, drum, ear, inside, room_round
from clampwright.solids.place import Place, place_of
from clampwright.solids.shapes import NotASolid, Shape, cut, fuse, polygon, prism

LUG_DIAMETERS = 0.5
"""Thickness of a lug in hole diameters, where neither it nor the component's height is known."""

JOINED_MM = 1e-3
"""A lug and the box that share less height than this are not one piece."""


@dataclass(frozen=True, slots=True)
class Ear:
    """A lug: its hole, the height of its near face and its thickness, mm."""

    bore: Bore
    near_mm: float
    thickness_mm: float

    @property
    def far_mm(self) -> float:
        """Height of its far face."""
        return self.near_mm + self.thickness_mm


@dataclass(frozen=True, slots=True)
class Block:
    """The box round a component: length, width and height, and the height of its underside, mm."""

    size: Vec3
    base_mm: float

    @property
    def top_mm(self) -> float:
        """Height of its upper side."""
        return self.base_mm + self.size[2]


def mounted_body(layout: BushingLayout) -> Body:
    """The component where it sits in the world."""
    job = layout.recipe.asked(BushingJob)
    name = f"component {job.component.name}"
    shape = mounted_shape(job.component, job.fastener.bolt)
    return Body(name, name, "component", shape, place_of(layout.frame))


def mounted_shape(component: MountedComponent, bolt: str) -> Shape:
    """The component in its own frame; lugs apart from one another where no box joins them."""
    hole = component.hole_mm if component.hole_mm is not None else bolt_hole(bolt, None).diameter_mm
    room = room_round(bolt, hole)
    default = LUG_DIAMETERS * hole if component.body is None else EAR_SHARE * component.body[2]
    ears = tuple(
        Ear(
            Bore(lug.at, hole, room),
            lug.near_face_mm,
            default if lug.thickness_mm is None else lug.thickness_mm,
        )
        for lug in component.lugs
    )
    return _shape(None if component.body is None else Block(component.body, component.body_base_mm), ears)


@lru_cache(maxsize=64)
def _shape(block: Block | None, ears: tuple[Ear, ...]) -> Shape:
    discs = [drum(e.bore.at, 2 * e.bore.room_mm, e.near_mm, e.thickness_mm) for e in ears]
    holes = [drum(e.bore.at, e.bore.hole_mm, e.near_mm - 1.0, e.thickness_mm + 2.0) for e in ears]
    if block is None:
        return cut(fuse(discs[0], discs[1:]), holes)
    box = _box(block)
    try:
        opened = cut(box, _rooms(ears))
        shape = cut(fuse(opened, _joined(block, ears)), holes)
    except NotASolid:
        return box
    return shape if shape.isValid() else box


def _box(block: Block) -> Shape:
    length, width, height = block.size
    signs = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return prism(
        polygon([(x * length / 2, y * width / 2) for x, y in signs]), [], height, _at_height(block.base_mm)
    )


def _rooms(ears: Sequence[Ear]) -> list[Shape]:
    """What bolt, wrench and bushing take out of the box above and below each lug."""
    above = [drum(e.bore.at, 2 * e.bore.room_mm, e.far_mm) for e in ears]
    return above + [drum(e.bore.at, 2 * e.bore.room_mm, e.near_mm - TALL_MM) for e in ears]


def _joined(block: Block, ears: Sequence[Ear]) -> list[Shape]:
    """The ears, each reaching into the box, and the legs of those that lie above or below it."""
    made: list[Shape] = []
    size = (block.size[0], block.size[1])
    for e in ears:
        beside = not covered(e.bore.at, size, e.bore.room_mm)
        inner = inside(e.bore.at, size, e.bore.room_mm)
        if beside:
            made.append(
                prism(ear(e.bore.at, inner, e.bore.room_mm), [], e.thickness_mm, _at_height(e.near_mm))
            )
        made += _leg(block, e, inner if beside else e.bore.at)
    return made


def _leg(block: Block, e: Ear, at: Vec2) -> list[Shape]:
    low, high = min(e.near_mm, block.top_mm), max(e.far_mm, block.base_mm)
    apart = min(e.far_mm, block.top_mm) - max(e.near_mm, block.base_mm) < JOINED_MM
    if not apart:
        return []
    return [drum(at, 2 * e.bore.room_mm, low, high - low)]


def _at_height(z: float) -> Place:
    return Place((0.0, 0.0, z))
