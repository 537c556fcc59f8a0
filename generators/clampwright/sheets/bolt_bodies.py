"""What sits on a bolt as simple bodies for the pictures: its round layers, head and nut."""

from __future__ import annotations

from clampwright.layout.bodies import Cylinder
from clampwright.layout.joined import Joint
from clampwright.quantities.directions import along
from clampwright.sheets.stack_shapes import sizes


def layers(joint: Joint) -> tuple[tuple[str, Cylinder], ...]:
    """(name, body) of bolt and round layers, in the order in which to draw them: bolt, layers, head, nut."""
    size, pieces = sizes(joint.stack), []
    depth = 0.0
    for item in joint.stack.items:
        thick = item.thickness_mm * item.count
        if item.od_mm and thick > 0:
            pieces.append((item.name, _piece(joint, depth, depth + thick, item.od_mm)))
        depth += thick
    bolt = _piece(joint, 0.0, max(size.end, size.stack), size.shank)
    head = _piece(joint, 0.0 - size.head_high, 0.0, size.head_across)
    nut = _piece(joint, size.stack, size.stack + size.nut_high, size.nut_across)
    return (("bolt", bolt), *pieces, ("head", head), ("nut", nut))


def _piece(joint: Joint, top: float, bottom: float, od_mm: float) -> Cylinder:
    return Cylinder(along(joint.head, (joint.axis, top)), along(joint.head, (joint.axis, bottom)), od_mm / 2)
