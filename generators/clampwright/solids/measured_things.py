"""The things of a layout between which clearances are measured: their solids, and their simple bodies.

A thing is a clamp, a bolt with everything on it, a component, a plate, a carried line, a tube, a panel or a
keep-out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from clampwright.layout import joint_solids
from clampwright.layout.bodies import Box, Cylinder
from clampwright.layout.clash_bodies import band_body
from clampwright.layout.joined import Joined, Joint, Loop
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.quantities.directions import along
from clampwright.solids.body import Body
from clampwright.solids.joined_assembly import near_joints
from clampwright.solids.measure import box_mm
from clampwright.solids.place import Place
from clampwright.solids.shapes import Shape, moved
from clampwright.solids.surroundings import held_in, panel_patch, whole
from clampwright.solids.thing import Solid, Thing
from clampwright.solids.tube import Near, stretch_shown, tube_place, tube_shape
from clampwright.structure.surroundings import KeepOut, Panel
from clampwright.structure.tubes import Tube

HARDWARE = ("bolt", "washer", "bushing", "nut")
"""Roles of what sits on a bolt."""

MOVERS = ("clamp", "bolt", "part", "line")
"""Sorts of things that a recipe adds: what stands there already is not measured against itself."""


def things(layout: Joined, bodies: Sequence[Body]) -> tuple[Thing, ...]:
    """Everything of a layout that clearances are measured between."""
    near = near_joints(layout)
    return (
        *_clamps(layout, bodies),
        *_bolts(layout, bodies),
        *_parts(layout, bodies),
        *(_line(line, layout, near) for line in layout.lines),
        *(_round("tube", tube, 0.0, tube.length_mm) for tube in layout.recipe.structure.tubes),
        *(_panel(panel, bodies, near) for panel in layout.recipe.structure.panels),
        *(_keep_out(body) for body in layout.recipe.structure.keep_outs),
    )


def _clamps(layout: Joined, bodies: Sequence[Body]) -> Iterator[Thing]:
    """The band stands for the clamp: the cushion lies within it."""
    bands = {body.name.split(" ")[1]: body for body in bodies if body.role == "band"}
    for loop in layout.loops:
        stack = {_closed_on(loop, layout)}
        for joint in layout.joints:
            if loop.label in joint.clamps:
                stack |= {f"bolt {joint.label}", *_on_bolt(joint, layout)}
        loop_body, feet = joint_solids.loop_bodies(loop)
        yield Thing(
            "clamp",
            loop.label,
            f"clamp {loop.label}",
            (_solid(bands[loop.label]),),
            (loop_body.body, feet.body),
            frozenset(stack),
            drum=band_body(loop),
        )


def _bolts(layout: Joined, bodies: Sequence[Body]) -> Iterator[Thing]:
    held: dict[str, list[Solid]] = {}
    for body in bodies:
        if body.role in HARDWARE:
            held.setdefault(body.name.split(" no. ")[0].rsplit(" ", 1)[1], []).append(_solid(body))
    for joint in layout.joints:
        solids = tuple(held.get(joint.label, ()))
        simple = tuple(named.body for named in joint_solids.joint_bodies(joint))
        label = joint.label
        if solids:
            yield Thing("bolt", label, f"bolt {label}", solids, simple, _on_bolt(joint, layout))


def _on_bolt(joint: Joint, layout: Joined) -> frozenset[str]:
    """Keys of what a bolt holds together, and of what its clamps are closed on: their reach settles that."""
    found = {f"clamp {label}" for label in joint.clamps}
    found |= {_closed_on(loop, layout) for loop in layout.loops if loop.label in joint.clamps}
    if joint.owner not in joint.clamps:
        found.add(f"part {joint.owner}")
    if isinstance(layout, StandOffLayout) and layout.panel is not None:
        found.add(f"panel {layout.panel.name}")
    return frozenset(found)


def _closed_on(loop: Loop, layout: Joined) -> str:
    line = any(line.name == loop.tube for line in layout.lines)
    return f"{'line' if line else 'tube'} {loop.tube}"


def _parts(layout: Joined, bodies: Sequence[Body]) -> Iterator[Thing]:
    """Plate and components; everything of a plate's layout but the tubes is bolted to the plate."""
    on_plate = {
        *(f"bolt {joint.label}" for joint in layout.joints),
        *(f"clamp {loop.label}" for loop in layout.loops),
        *(f"part {body.name.removeprefix('component ')}" for body in bodies if body.role == "component"),
    }
    for body in bodies:
        if body.role == "plate":
            yield _part(body, "plate", "plate", on_plate, layout)
        elif body.role == "component":
            yield _part(body, body.name.removeprefix("component "), body.name, set(), layout)


def _part(body: Body, label: str, what: str, stack: set[str], layout: Joined) -> Thing:
    simple = tuple(part.body for part in layout.parts if part.owner == label)
    return Thing("part", label, what, (_solid(body),), simple, frozenset(stack))


def _line(line: Tube, layout: Joined, near: Near) -> Thing:
    """A carried line, at least as long as it is shown."""
    stations = [loop.station_mm for loop in layout.loops if loop.tube == line.name]
    shown = stretch_shown(line, near, stations, ends=False) or (0.0, 0.0)
    return _round("line", line, min(0.0, shown[0]), max(line.length_mm, shown[1]))


def _round(sort: str, tube: Tube, low: float, high: float) -> Thing:
    body = Cylinder(tube.point(low), tube.point(high), tube.od_mm / 2)
    shape = moved(tube_shape(tube.od_mm, high - low), tube_place(tube, low))
    return Thing(sort, tube.name, f"{sort} {tube.name}", (Solid(shape, body),), (body,), frozenset())


def _panel(panel: Panel, bodies: Sequence[Body], near: Near) -> Thing:
    """A panel as a slab as wide as the ball round the part; with its hole where it holds the line."""
    own = next((b for b in bodies if b.role == "panel" and b.product == f"panel {panel.name}"), None)
    above = sum((m - p) * n for m, p, n in zip(near.middle, panel.point, panel.normal, strict=True))
    foot = along(near.middle, (panel.normal, -above))
    solid = _solid(own or panel_patch(panel, foot, (1.0, 0.0, 0.0), near.reach_mm, None))
    return Thing("panel", panel.name, f"panel {panel.name}", (solid,), (solid.held_in,), frozenset())


def _keep_out(body: KeepOut) -> Thing:
    shape, place = whole(body)
    held = held_in(body)
    solids, what = (Solid(moved(shape, place), held),), f"keep-out {body.name}"
    return Thing("keep-out", body.name, what, solids, (held,), frozenset(), asked_mm=body.distance_mm)


def _solid(body: Body) -> Solid:
    return Solid(body.placed(), box_of(body.shape, body.place))


def box_of(shape: Shape, place: Place) -> Box:
    """The box round a shape along the axes of its own frame, in the world."""
    (x0, y0, z0), (x1, y1, z1) = box_mm(shape)
    centre = place.point(((x0 + x1) / 2, (y0 + y1) / 2, (z0 + z1) / 2))
    return Box(centre, (place.x, place.y, place.z), ((x1 - x0) / 2, (y1 - y0) / 2, (z1 - z0) / 2))
