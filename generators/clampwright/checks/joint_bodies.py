"""What sticks out of the plate at each bolt, as simple bodies: head above, nut and bolt end below."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.checks.bearing import bearing_radius, corners_radius
from clampwright.layout.bodies import Body, Cylinder
from clampwright.layout.clash_bodies import band_body, component_body, feet_body, socket_body, tube_body
from clampwright.layout.placed import PlateLayout, Stack
from clampwright.quantities import Vec2
from clampwright.trade.bolts import bolt
from clampwright.trade.tables import rule


@dataclass(frozen=True, slots=True)
class Joint:
    """One bolted hole: its label, what it holds, its place in the plate and its stack."""

    label: str
    owner: str
    at: Vec2
    stack: Stack


@dataclass(frozen=True, slots=True)
class Named:
    """A body with the words that name it in a sentence, and the label it belongs to."""

    what: str
    owner: str
    body: Body


def joints(layout: PlateLayout) -> tuple[Joint, ...]:
    """Every bolted hole of a layout, clamps first."""
    at = {hole.label: hole.at for hole in layout.holes}
    return tuple(Joint(b.label, b.owner, at[b.label], b.stack) for b in layout.joints if b.label in at)


def head_seat_mm(joint: Joint, layout: PlateLayout) -> float:
    """Height of the head's underside in the part's frame: the plate's far face and what lies on it."""
    names = [item.name for item in joint.stack.items]
    above = joint.stack.items[: names.index("plate")] if "plate" in names else ()
    return layout.thickness_mm + sum(item.thickness_mm * item.count for item in above)


def nut_face_mm(joint: Joint, layout: PlateLayout) -> float:
    """Height of the nut's bearing face in the part's frame (below 0: under the plate)."""
    return head_seat_mm(joint, layout) - joint.stack.thickness_mm


def lowest_mm(joint: Joint, layout: PlateLayout) -> float:
    """Height of the lowest place of nut and bolt in the part's frame."""
    chosen, nut = joint.stack.chosen, joint.stack.nut
    end = head_seat_mm(joint, layout) - chosen.length.length_mm if chosen is not None else 0.0
    height = nut.height_mm if nut.height_mm is not None else bolt(joint.stack.bolt).nominal_mm
    return min(end, nut_face_mm(joint, layout) - height)


def head_body(joint: Joint, layout: PlateLayout) -> Cylinder:
    """Washer and head of a bolt, as a cylinder of the larger of the two."""
    top = head_seat_mm(joint, layout) + bolt(joint.stack.bolt).head_height_mm
    return socket_body(layout.frame, joint.at, layout.thickness_mm, top, 2 * bearing_radius(joint.stack))


def nut_body(joint: Joint, layout: PlateLayout) -> Cylinder:
    """Nut and bolt end of a joint, as a cylinder over the nut's corners."""
    top, end = nut_face_mm(joint, layout), lowest_mm(joint, layout)
    return socket_body(layout.frame, joint.at, end, top, 2 * corners_radius(joint.stack.nut.across_flats_mm))


def wrench_body(joint: Joint, layout: PlateLayout) -> Cylinder:
    """A socket on the nut, pulled off along the bolt."""
    top = nut_face_mm(joint, layout)
    length = rule("socket-length").value + top - lowest_mm(joint, layout)
    return socket_body(layout.frame, joint.at, top - length, top, bolt(joint.stack.bolt).socket_od_mm)


def clamp_bodies(layout: PlateLayout) -> tuple[Named, ...]:
    """Loop and feet of every clamp."""
    return tuple(
        Named(f"{word} of {c.label}", c.label, body)
        for c in layout.clamps
        for word, body in (("loop", band_body(c)), ("feet", feet_body(c)))
    )


def tube_bodies(layout: PlateLayout) -> tuple[Named, ...]:
    """Every tube of the structure."""
    return tuple(Named(f"tube {t.name}", t.name, tube_body(t)) for t in layout.recipe.structure.tubes)


def component_bodies(layout: PlateLayout) -> tuple[Named, ...]:
    """The bodies of the components that have one."""
    made = ((c, component_body(c, layout.frame, layout.thickness_mm)) for c in layout.components)
    return tuple(Named(c.name, c.name, body) for c, body in made if body is not None)
