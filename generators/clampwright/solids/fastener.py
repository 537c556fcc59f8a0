"""What sits on a bolt: the bolt, washers, bushings and the nut, each in its own frame and in the stack."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from functools import lru_cache

from clampwright.layout.placed import Stack, StackItem
from clampwright.quantities import Vec2
from clampwright.solids.body import Body
from clampwright.solids.place import Place
from clampwright.solids.shapes import Shape, fuse, hexagon, ring
from clampwright.trade.bolts import BoltLength, bolt
from clampwright.trade.hardware import Nut


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


def stack_bodies(label: str, stack: Stack, at: Vec2, plate_top: float, part: Place) -> Iterator[Body]:
    """Every body of one stack but plate, lug and feet, which are shown by their owners.

    Parameters
    ----------
    label : str
        Label of the hole.
    stack : Stack
        What is on the bolt.
    at : Vec2
        Hole centre in the part's frame, mm.
    plate_top : float
        Far face of the plate in the part's frame: its thickness, mm.
    part : Place
        The part's frame in the world.
    """
    head = plate_top + sum(i.thickness_mm * i.count for i in _above_plate(stack))
    if stack.chosen is not None:
        length = stack.chosen.length
        yield Body(f"bolt {label}", length.part, "bolt", bolt_shape(length), _at(at, head, part))
    made: Counter[str] = Counter()
    for piece, top in _pieces(stack, head):
        role = "bushing" if piece.name == "bushing" else "washer"
        name = f"{piece.name.removesuffix('s')} {label}"
        made[name] += 1
        mark = f" no. {made[name]}" if made[name] > 1 else ""
        yield Body(name + mark, piece.part or piece.name, role, layer_shape(piece), _at(at, top, part))
    z = head - sum(i.thickness_mm * i.count for i in stack.items)
    yield Body(f"nut {label}", stack.nut.part, "nut", nut_shape(stack.nut), _at(at, z, part))


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
