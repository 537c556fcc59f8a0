"""What sits on a bolt, as simple bodies in the world: head, nut, bushings, and the tools that turn them."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from clampwright.layout.bodies import Cylinder
from clampwright.layout.clash_bodies import band_body, feet_body
from clampwright.layout.joined import Joint, Loop, Named
from clampwright.layout.placed import Stack, StackItem
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along
from clampwright.trade.bolts import bolt
from clampwright.trade.tables import rule

_ROUND = ("bushing", "shim", "washers")
"""Layers that fill a gap as rings round the bolt."""


@dataclass(frozen=True, slots=True)
class Layer:
    """A layer of a stack and where along the bolt it lies, mm from the face under the head."""

    item: StackItem
    start_mm: float
    end_mm: float


def layers(stack: Stack) -> tuple[Layer, ...]:
    """The layers from the head to the nut with their places along the bolt; a row of equal pieces is one.

    >>> from clampwright.trade.hardware import nut
    >>> items = (StackItem("washer", "thin", 0.8), StackItem("bushing", "S1", 12.0))
    >>> stack = Stack("AN3", items, 12.8, nut("MS21044", "AN3"), None, None, None, None)
    >>> [(layer.item.part, layer.start_mm, layer.end_mm) for layer in layers(stack)]
    [('thin', 0.0, 0.8), ('S1', 0.8, 12.8)]
    """
    found, depth = [], 0.0
    for item in stack.items:
        end = depth + item.thickness_mm * item.count
        found.append(Layer(item, depth, end))
        depth = end
    return tuple(found)


def corners_radius(across_flats_mm: float) -> float:
    """Half the width across corners of a hexagon, mm: flats over the square root of three.

    >>> round(corners_radius(9.525), 3)
    5.499
    """
    return across_flats_mm / sqrt(3.0)


def bearing_radius(stack: Stack) -> float:
    """Radius of the largest washer, head or nut of a stack, mm; washers that fill a gap are not counted."""
    flats = max(bolt(stack.bolt).head_across_flats_mm, stack.nut.across_flats_mm)
    washers = (i.od_mm / 2 for i in stack.items if i.name == "washer" and i.od_mm is not None)
    return max(corners_radius(flats), *washers, 0.0)


def end_mm(joint: Joint) -> float:
    """How far nut and bolt reach from the face under the head, mm; the nut alone where no bolt is chosen.

    A nut of unknown height counts as high as the bolt is thick.
    """
    stack = joint.stack
    height = stack.nut.height_mm if stack.nut.height_mm is not None else bolt(stack.bolt).nominal_mm
    length = stack.chosen.length.length_mm if stack.chosen is not None else 0.0
    return max(length, stack.thickness_mm + height)


def at(joint: Joint, depth_mm: float) -> Vec3:
    """The place on a bolt's axis so far from the face under its head, towards the nut; world."""
    return along(joint.head, (joint.axis, depth_mm))


def head_body(joint: Joint) -> Cylinder:
    """Head and the washers under it, as a cylinder of the larger of the two."""
    low = 0.0
    for layer in layers(joint.stack):
        if layer.item.name != "washer":
            break
        low = layer.end_mm
    return _along(joint, -bolt(joint.stack.bolt).head_height_mm, low, bearing_radius(joint.stack))


def nut_body(joint: Joint) -> Cylinder:
    """Nut and bolt end, as a cylinder over the nut's corners."""
    radius = corners_radius(joint.stack.nut.across_flats_mm)
    return _along(joint, joint.stack.thickness_mm, end_mm(joint), radius)


def bushing_bodies(joint: Joint) -> tuple[Named, ...]:
    """Bushings, shims and packing washers of a joint, each where it lies along the bolt."""
    return tuple(
        Named(
            f"{layer.item.name} of {joint.label}",
            joint.label,
            _along(joint, layer.start_mm, layer.end_mm, layer.item.od_mm / 2),
        )
        for layer in layers(joint.stack)
        if layer.item.name in _ROUND and layer.item.od_mm is not None
    )


def head_socket(joint: Joint) -> Cylinder:
    """A socket and its drive standing on the head."""
    radius = bolt(joint.stack.bolt).socket_od_mm / 2
    return _along(joint, -rule("socket-length").value, 0.0, radius)


def nut_socket(joint: Joint) -> Cylinder:
    """A socket and its drive on the nut, as far out as it must go to be pulled off over the bolt's end."""
    end = end_mm(joint) + rule("socket-length").value
    return _along(joint, joint.stack.thickness_mm, end, bolt(joint.stack.bolt).socket_od_mm / 2)


def drawn_out(joint: Joint) -> Cylinder:
    """What the bolt sweeps over, outside its head's seat, when it is put in from the head's side."""
    return _along(joint, -_swept_mm(joint), 0.0, _head_radius(joint))


def drawn_out_behind(joint: Joint) -> Cylinder:
    """What the bolt would sweep over if it were turned round: put in from where the nut is now."""
    thick = joint.stack.thickness_mm
    return _along(joint, thick, thick + _swept_mm(joint), _head_radius(joint))


def loop_bodies(loop: Loop) -> tuple[Named, Named]:
    """Loop and feet of a clamp."""
    band, feet = band_body(loop), feet_body(loop)
    return (
        Named(f"loop of {loop.label}", loop.label, band),
        Named(f"feet of {loop.label}", loop.label, feet),
    )


def joint_bodies(joint: Joint) -> tuple[Named, ...]:
    """Everything of a bolt that stands out of its stack, and the bushings in it."""
    head = Named(f"bolt head of {joint.label}", joint.label, head_body(joint))
    nut = Named(f"nut of {joint.label}", joint.label, nut_body(joint))
    return (head, nut, *bushing_bodies(joint))


def _swept_mm(joint: Joint) -> float:
    """Length of the bolt with its head, or of the stack and nut where no bolt is chosen."""
    chosen = joint.stack.chosen
    length = chosen.length.length_mm if chosen is not None else end_mm(joint)
    return length + bolt(joint.stack.bolt).head_height_mm


def _head_radius(joint: Joint) -> float:
    return corners_radius(bolt(joint.stack.bolt).head_across_flats_mm)


def _along(joint: Joint, start_mm: float, stop_mm: float, radius_mm: float) -> Cylinder:
    return Cylinder(at(joint, start_mm), at(joint, stop_mm), radius_mm)
