"""What sits on a bolt: the bolt, washers, bushings and the nut, each in its own frame and in the stack."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterator
from functools import lru_cache

from clampwright.layout.joined import Joint
from clampwright.layout.placed import Stack, StackItem
from clampwright.quantities import Vec2, Vec3
from clampwright.solids.body import Body
from clampwright.solids.place import Place, standing
from clampwright.solids.shapes import Shape, fuse, hexagon, ring
from clampwright.trade.bolts import BoltLength, bolt
from clampwright.trade.hardware import Nut

Bushing = tuple[str, Shape]
"""Product and shape of a bushing in a stack."""


@lru_cache(maxsize=64)
def bolt_shape(length: BoltLength) -> Shape:
    """A bolt, underside of the head at z = 0, shank downwards.

    The thread is drawn as a cylinder at its pitch diameter, d - (3 sqrt(3)/8) P: the 60 degree profile
    that unified and metric threads share.
    """
    size = bolt(length.bolt)
    pitch_d = size.nominal_mm - 3 * math.sqrt(3) / 8 * size.pitch_mm
    head = hexagon(size.head_across_flats_mm, 0.0, size.head_height_mm)
    grip = max(0.0, length.grip_mm)
    thread = ring(pitch_d, 0.0, length.length_mm - grip, Place((0.0, 0.0, -length.length_mm)))
    shank = [ring(size.nominal_mm, 0.0, grip, Place((0.0, 0.0, -grip)))] if grip > 0 else []
    return fuse(head, [*shank, thread])


@lru_cache(maxsize=64)
def nut_shape(nut: Nut) -> Shape:
    """A lock nut, bearing face at z = 0, body downwards.

    Where no document gives its height it is drawn as high as the bolt is thick.
    """
    nominal = bolt(nut.bolt).nominal_mm
    height = nut.height_mm if nut.height_mm is not None else nominal
    return hexagon(nut.across_flats_mm, nominal, height, Place((0.0, 0.0, -height)))


@lru_cache(maxsize=64)
def layer_shape(item: StackItem) -> Shape:
    """One piece of a washer, shim or bushing, upper face at z = 0."""
    if item.od_mm is None or item.id_mm is None:
        raise ValueError(f"a {item.name} without diameters cannot be drawn")
    return ring(item.od_mm, item.id_mm, item.thickness_mm, Place((0.0, 0.0, -item.thickness_mm)))


def joint_bodies(joint: Joint, beside: Vec3, bushing: Callable[[StackItem], Bushing]) -> Iterator[Body]:
    """Every body on the bolt of a joint, where it sits in the world.

    Parameters
    ----------
    joint : Joint
        The bolt and what is on it.
    beside : Vec3
        World direction that a corner of head and nut points along, as far as it is square to the bolt.
    bushing : Callable[[StackItem], Bushing]
        The product and the shape (upper face at z = 0) of a bushing of the stack.
    """
    up = (-joint.axis[0], -joint.axis[1], -joint.axis[2])
    return stack_bodies(joint.label, joint.stack, (0.0, 0.0), 0.0, standing(joint.head, up, beside), bushing)


def plain_layer(item: StackItem) -> Bushing:
    """A washer, shim or bushing without chamfers, and its part number as its product."""
    return item.part or item.name, layer_shape(item)


def stack_bodies(
    label: str,
    stack: Stack,
    at: Vec2,
    head: float,
    part: Place,
    bushing: Callable[[StackItem], Bushing] = plain_layer,
) -> Iterator[Body]:
    """Every body of one stack but plate, lug, panel and feet, which are shown by their owners.

    Parameters
    ----------
    label : str
        Label of the hole.
    stack : Stack
        What is on the bolt.
    at : Vec2
        Hole centre in the part's frame, mm.
    head : float
        Height of the face under the head in the part's frame, mm; the bolt points down.
    part : Place
        The part's frame in the world.
    bushing : Callable[[StackItem], Bushing]
        The product and the shape (upper face at z = 0) of a bushing of the stack.
    """
    if stack.chosen is not None:
        length = stack.chosen.length
        yield Body(f"bolt {label}", length.part, "bolt", bolt_shape(length), _at(at, head, part))
    made: Counter[str] = Counter()
    for piece, top in _pieces(stack, head):
        role = "bushing" if piece.name == "bushing" else "washer"
        product, shape = (bushing if role == "bushing" else plain_layer)(piece)
        name = f"{piece.name.removesuffix('s')} {label}"
        made[name] += 1
        mark = f" no. {made[name]}" if made[name] > 1 else ""
        yield Body(name + mark, product, role, shape, _at(at, top, part))
    z = head - sum(i.thickness_mm * i.count for i in stack.items)
    yield Body(f"nut {label}", stack.nut.part, "nut", nut_shape(stack.nut), _at(at, z, part))


def head_height(stack: Stack, plate_top: float) -> float:
    """Height of the face under the head of a plate's stack: the plate's far face and what lies on it, mm."""
    return plate_top + sum(i.thickness_mm * i.count for i in _above_plate(stack))


def _pieces(stack: Stack, head: float) -> Iterator[tuple[StackItem, float]]:
    """Each round piece (washer, shim, bushing) with the height of its upper face."""
    z = head
    for item in stack.items:
        for _ in range(item.count):
            if item.od_mm is not None:
                yield item, z
            z -= item.thickness_mm


def _above_plate(stack: Stack) -> list[StackItem]:
    names = [item.name for item in stack.items]
    return list(stack.items[: names.index("plate")]) if "plate" in names else []


def _at(at: Vec2, z: float, part: Place) -> Place:
    return Place((at[0], at[1], z)).within(part)
