"""One way to hold the component, in plain numbers: what answers, clamps and sentences are made from."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from clampwright.layout.bodies import Box
from clampwright.layout.clash_bodies import point
from clampwright.layout.joined import Loop, Named
from clampwright.layout.mounting.clamp_loops import loops_of
from clampwright.layout.mounting.holders import Holder
from clampwright.layout.mounting.normals import reference_of
from clampwright.layout.mounting.solving import Solved
from clampwright.layout.placed import Frame
from clampwright.layout.tube_lines import TubeLine
from clampwright.quantities import Vec2, Vec3
from clampwright.quantities.directions import along
from clampwright.recipe.bushing_model import MountedComponent, Pose


@dataclass(frozen=True, slots=True)
class Way:
    """The component in the world, and for each of its holes the clamp that holds it."""

    frame: Frame
    held: tuple[Holder, ...]
    """The tubes that carry a clamp, in the recipe's order."""
    lines: tuple[TubeLine, ...]
    loops: tuple[Loop, ...]
    """One a hole."""
    misfits: tuple[Vec2, ...]
    """From the middle of each hole to the clamp's bolt, in the component's frame."""
    gaps: tuple[float, ...]
    """From each foot up to its lug; negative where the foot would be in the lug."""
    off_mm: float
    """Off the place asked for, in plan."""
    turned_rad: float
    """Off the direction asked for."""


def way_of(solved: Solved, number: int) -> Way:
    """One of the ranked trials as a way."""
    tried = solved.ranked.tried
    group = int(tried.group[number])
    tubes = solved.sets[group]
    held = tuple(solved.held[member] for member in tubes.members)
    tilted = tried.lines[number].tolist()
    turn = [1 if line % 2 == 0 else -1 for line in tilted]
    at = list(zip([line // 2 for line in tilted], tried.stations[number].tolist(), turn, strict=True))
    cos, sin = float(np.cos(tried.theta[number])), float(np.sin(tried.theta[number]))
    stands, (x, y) = tubes.stands, tried.shift[number].tolist()
    origin = along(
        reference_of(solved.held), (stands.u, x), (stands.v, y), (stands.n, float(tried.height[number]))
    )
    x_axis, y_axis = _mixed(stands.u, stands.v, cos, sin), _mixed(stands.u, stands.v, -sin, cos)
    frame = Frame(origin, x_axis, y_axis, stands.n)
    nu = solved.search.plans.nu[group, tried.lines[number]]
    out = nu * tried.misfit[number][:, None]
    misfits = np.column_stack([out[:, 0] * cos + out[:, 1] * sin, out[:, 1] * cos - out[:, 0] * sin])
    radius = solved.search.pattern.radius_mm
    return Way(
        frame,
        held,
        tubes.lines,
        loops_of(held, tubes.lines, at),
        tuple((float(u) + 0.0, float(v) + 0.0) for u, v in misfits),
        tuple(tried.gaps[number].tolist()),
        float(tried.off[number]),
        float(tried.turned[number]) / radius,
    )


def component_box(component: MountedComponent, frame: Frame) -> Named | None:
    """The component's body where it sits; None where the recipe gave no box."""
    if component.body is None:
        return None
    length, width, height = component.body
    centre = point(frame, (0.0, 0.0), component.body_base_mm + height / 2)
    half = (length / 2, width / 2, height / 2)
    return Named(component.name, component.name, Box(centre, (frame.u, frame.v, frame.n), half))


def bolt_place(way: Way, component: MountedComponent, hole: int) -> Vec2:
    """Where a hole's clamp bolt comes, in the component's frame."""
    (x, y), (du, dv) = component.lugs[hole].at, way.misfits[hole]
    return (x + du, y + dv)


def within_pose(way: Way, pose: Pose) -> Way:
    """A way with its distance and turn from what the pose asks for, which it was found without."""
    off, turned = 0.0, 0.0
    n, u = np.array(way.frame.n), np.array(way.frame.u)
    if pose.at is not None:
        away = np.array(way.frame.origin) - np.array(pose.at)
        off = float(np.linalg.norm(away - (away @ n) * n))
    if pose.along is not None:
        wanted = np.array(pose.along) - (np.array(pose.along) @ n) * n
        turned = float(np.arctan2(np.linalg.norm(np.cross(wanted, u)), wanted @ u))
    return replace(way, off_mm=off, turned_rad=turned)


def _mixed(u: Vec3, v: Vec3, a: float, b: float) -> Vec3:
    x, y, z = along((0.0, 0.0, 0.0), (u, a), (v, b))
    return (x, y, z)
