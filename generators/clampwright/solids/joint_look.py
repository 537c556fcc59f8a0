"""From where to look at a layout so that its joints are seen: the world's up is up in the picture.

Some slanting looks are tried. Each place on a bolt that loops, tubes and components leave in view counts,
the more the squarer the bolt is looked at; looks along a tube count less.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product

from clampwright.layout.bodies import Body, Capsule, Cylinder, bound, clearance
from clampwright.layout.clash_bodies import tube_body
from clampwright.layout.joined import Joined, Joint
from clampwright.layout.joint_solids import loop_bodies
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along, cross, dot
from clampwright.solids.joined_assembly import near_joints
from clampwright.solids.place import Place
from clampwright.solids.views import look

TURNS_DEG = tuple(range(20, 380, 45))
"""Turns of the eye round the world's z that are tried."""

RISES_DEG = (25, -25)
"""Heights of the eye that are tried, the likelier first."""

PLACES = (0.1, 0.5, 0.9)
"""Places on a bolt that are looked for, in shares of its stack."""

FROM_ABOVE = 0.15
"""What a look from above has over one from below, in shares of bolts seen."""

ALONG_TUBE = 0.75
"""Cosine between look and tube from which on a look counts less."""

BEHIND_PANEL = 0.5
"""What a look from behind the panel that holds the line loses, in shares of bolts seen."""

THIN_MM = 0.1
"""Radius of a look, which must find a gap."""

_DIGITS = 6


def joint_look(layout: Joined) -> Place:
    """The frame of a picture that shows the joints best, about the middle of the layout."""
    near = near_joints(layout)
    eyes = [_eye(turn, rise) for rise, turn in product(RISES_DEG, TURNS_DEG)]
    hides = tuple(_hides(layout))
    worth = [round(_worth(eye, layout, hides, 2 * near.reach_mm), _DIGITS) for eye in eyes]
    eye = eyes[worth.index(max(worth))]
    away = (-eye[0], -eye[1], -eye[2])
    turned = look(away, cross(away, (0.0, 0.0, 1.0)))
    return Place(near.middle, turned.x, turned.z)


def _eye(turn_deg: float, rise_deg: float) -> Vec3:
    turn, rise = math.radians(turn_deg), math.radians(rise_deg)
    return (math.cos(rise) * math.cos(turn), math.cos(rise) * math.sin(turn), math.sin(rise))


def _hides(layout: Joined) -> Iterator[Body]:
    """What can stand before a bolt, as simple bodies."""
    for loop in layout.loops:
        yield loop_bodies(loop)[0].body
    yield from (part.body for part in layout.parts)
    yield from (tube_body(tube) for tube in (*layout.recipe.structure.tubes, *layout.lines))


def _worth(eye: Vec3, layout: Joined, hides: Sequence[Body], far_mm: float) -> float:
    seen = [_seen(joint, eye, hides, far_mm) for joint in layout.joints]
    used = {loop.tube: loop.axis for loop in layout.loops}
    slant = sum(max(0.0, abs(dot(eye, axis)) - ALONG_TUBE) for axis in used.values()) / max(1, len(used))
    above = FROM_ABOVE if eye[2] > 0 else 0.0
    return sum(seen) / max(1, len(seen)) - slant + above - _behind(eye, layout)


def _behind(eye: Vec3, layout: Joined) -> float:
    panel = layout.panel if isinstance(layout, StandOffLayout) else None
    return BEHIND_PANEL if panel is not None and dot(eye, panel.normal) <= 0 else 0.0


def _seen(joint: Joint, eye: Vec3, hides: Sequence[Body], far_mm: float) -> float:
    square = math.hypot(*cross(eye, joint.axis))
    points = [along(joint.head, (joint.axis, share * joint.stack.thickness_mm)) for share in PLACES]
    free = [not any(_blocks(body, point, eye, far_mm) for body in hides) for point in points]
    return square * sum(free) / len(free)


def _blocks(body: Body, point: Vec3, eye: Vec3, far_mm: float) -> bool:
    middle, radius = bound(body)
    off = cross((middle[0] - point[0], middle[1] - point[1], middle[2] - point[2]), eye)
    if not isinstance(body, Cylinder) and math.hypot(*off) > radius:
        return False
    return clearance(Capsule(point, along(point, (eye, far_mm)), THIN_MM), body) <= 0.0
