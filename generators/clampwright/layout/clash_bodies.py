"""The simple bodies that a layout's tubes, clamps, tools and components are checked with, in the world."""

from __future__ import annotations

from clampwright.layout.bodies import Box, Cylinder
from clampwright.layout.joined import Loop
from clampwright.layout.placed import Frame, PlacedComponent
from clampwright.quantities import Vec2, Vec3
from clampwright.quantities.directions import along
from clampwright.structure.tubes import Tube


def tube_body(tube: Tube) -> Cylinder:
    """The tube itself.

    >>> tube_body(Tube("t", (0.0, 0.0, 0.0), (100.0, 0.0, 0.0), 20.0)).radius_mm
    10.0
    """
    return Cylinder(tube.start, tube.end, tube.od_mm / 2)


def band_body(place: Loop) -> Cylinder:
    """The clamp's loop with its cushion, as a drum of the band's width round the tube."""
    half = place.clamp.band_width_mm / 2
    start = along(place.centre, (place.axis, -half))
    return Cylinder(start, along(place.centre, (place.axis, half)), place.clamp.outside_radius_mm)


def feet_body(place: Loop) -> Box:
    """Both feet squeezed together, from abreast of the tube's axis to their free end."""
    clamp, out = place.clamp, outward(place)
    length = clamp.reach_mm + clamp.foot_end_mm
    centre = along(place.centre, (out, length / 2), (place.bolt_axis, clamp.seat_mm - clamp.feet_mm / 2))
    axes = (place.axis, out, place.bolt_axis)
    return Box(centre, axes, (clamp.band_width_mm / 2, length / 2, clamp.feet_mm / 2))


def outward(place: Loop) -> Vec3:
    """Unit vector from the tube towards the bolt: turn · (bolt axis × tube axis)."""
    (mx, my, mz), (ax, ay, az) = place.bolt_axis, place.axis
    across = (my * az - mz * ay, mz * ax - mx * az, mx * ay - my * ax)
    return (place.turn * across[0], place.turn * across[1], place.turn * across[2])


def component_body(component: PlacedComponent, frame: Frame, thickness_mm: float) -> Box | None:
    """The component's body standing on the plate's far face; None where the recipe gave none."""
    if component.body is None:
        return None
    length, width, height = component.body
    (a, b), c = component.corners[0], component.corners[1]
    run = ((c[0] - a) / length, (c[1] - b) / length)
    along_x = direction(frame, run)
    along_y = direction(frame, (-run[1], run[0]))
    u = sum(p[0] for p in component.corners) / 4
    v = sum(p[1] for p in component.corners) / 4
    centre = point(frame, (u, v), thickness_mm + height / 2)
    return Box(centre, (along_x, along_y, frame.n), (length / 2, width / 2, height / 2))


def plate_box(frame: Frame, box: tuple[float, float, float, float], thickness_mm: float) -> Box:
    """The box round the plate, from its outline's own box (u_min, v_min, u_max, v_max)."""
    u0, v0, u1, v1 = box
    centre = point(frame, ((u0 + u1) / 2, (v0 + v1) / 2), thickness_mm / 2)
    return Box(centre, (frame.u, frame.v, frame.n), ((u1 - u0) / 2, (v1 - v0) / 2, thickness_mm / 2))


def point(frame: Frame, at: Vec2, z_mm: float) -> Vec3:
    """A place in the part's frame, in the world.

    >>> level = Frame((1.0, 2.0, 3.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    >>> point(level, (10.0, 20.0), 5.0)
    (11.0, 22.0, 8.0)
    """
    return along(frame.origin, (frame.u, at[0]), (frame.v, at[1]), (frame.n, z_mm))


def direction(frame: Frame, run: Vec2) -> Vec3:
    """A direction in the plate, in the world."""
    return along((0.0, 0.0, 0.0), (frame.u, run[0]), (frame.v, run[1]))
