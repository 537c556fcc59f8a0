"""Layouts made by hand for the sheets that serve every kind: any tubes, any clamps, invented parts."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from joined_recipes import carried, recipe, stand_off_job
from numpy.typing import NDArray

from clampwright.layout.bushing_parts import BushingPart
from clampwright.layout.joined import Joint, Loop, Named
from clampwright.layout.known_to import KnownTo
from clampwright.layout.placed import HardwareLine, StackItem
from clampwright.layout.stacks import build_stack, plain_items
from clampwright.quantities import Vec2, Vec3
from clampwright.recipe.model import Recipe, Template
from clampwright.structure.tubes import Structure, Tube
from clampwright.trade.clamps import LoopClamp, loop_clamp
from clampwright.trade.hardware import nut_for

Array = NDArray[np.float64]


@dataclass(frozen=True)
class ByHand:
    """A layout of no kind in particular."""

    recipe: Recipe
    loops: tuple[Loop, ...]
    joints: tuple[Joint, ...]
    lines: tuple[Tube, ...] = ()
    parts: tuple[Named, ...] = ()
    bushings: tuple[BushingPart, ...] = ()
    hardware: tuple[HardwareLine, ...] = ()
    known_to: tuple[KnownTo, ...] = ()
    assumed: tuple[tuple[str, str], ...] = (("clamps.code", "CH: assumed"),)


def vec(v: Array) -> Vec3:
    """As the project writes points."""
    return float(v[0]), float(v[1]), float(v[2])


def unit(v: Array) -> Array:
    """Of length 1."""
    return np.asarray(v / np.linalg.norm(v))


def clamp_for(od_mm: float) -> LoopClamp:
    """A clamp of the family; a made-up one for tubes that it has none for."""
    try:
        return loop_clamp(od_mm, "CH")
    except LookupError:
        near = loop_clamp(50.0 if od_mm > 50 else 6.35, "CH")
        more = (od_mm - near.loop_mm) / 2
        return replace(
            near,
            loop_mm=od_mm,
            reach_mm=near.reach_mm + more,
            seat_mm=near.seat_mm + more,
            outside_radius_mm=near.outside_radius_mm + more,
        )


def loop_on(tube: Tube, label: str, station: float, turned: float, turn: int = 1) -> Loop:
    """A clamp whose bolt axis is turned so far (rad) about its tube from some direction square to it."""
    a = np.asarray(tube.direction)
    first = unit(np.cross(a, np.eye(3)[int(np.argmin(np.abs(a)))]))
    n = math.cos(turned) * first + math.sin(turned) * np.cross(a, first)
    clamp = clamp_for(tube.od_mm)
    return Loop(
        label, tube.name, station, "left", turn, clamp, tube.point(station), tube.direction, vec(n), 0.0,
        False, frozenset(),
    )  # fmt: skip


def joint_on(loop: Loop, bushing_mm: float = 0.0, bolt: str = "AN3") -> Joint:
    """A bolt through a lug, a bushing and a clamp's feet."""
    pieces = [StackItem("component lug", "component lug", 3.0)]
    if bushing_mm:
        pieces.append(StackItem("bushing", "bushing, 6061-T6", bushing_mm, od_mm=11.1125, id_mm=5.0165))
    pieces.append(StackItem("clamp feet", "clamp feet", loop.clamp.feet_mm))
    stack = build_stack(bolt, plain_items(tuple(pieces), bolt), nut_for(bolt, 90.0))
    n, a = np.asarray(loop.bolt_axis), np.asarray(loop.axis)
    foot = np.asarray(loop.centre) + loop.clamp.seat_mm * n
    foot = foot + loop.turn * loop.clamp.reach_mm * np.cross(n, a)
    above = stack.thickness_mm - loop.clamp.feet_mm - stack.items[-1].thickness_mm
    return Joint(loop.label, "separator", vec(foot + above * n), vec(-n), stack, (loop.label,))


def layout_of(
    placed: Sequence[tuple[Tube, Sequence[tuple[float, float]]]],
    *,
    units: str = "mm",
    prints: tuple[Vec2, ...] = (),
    bushing_mm: float = 6.0,
    lines: tuple[Tube, ...] = (),
) -> ByHand:
    """Tubes with (station, turned) of each clamp on them."""
    loops = tuple(
        loop_on(tube, f"{'ABCDEFGH'[n]}{k}", station, turned, 1 if k % 2 else -1)
        for n, (tube, clamps) in enumerate(placed)
        for k, (station, turned) in enumerate(clamps, 1)
    )
    tubes = Structure(tuple(tube for tube, _ in placed if tube not in lines))
    made = recipe("stand-off", stand_off_job(carried=carried()), tubes, units=units)
    made = replace(made, template=Template(("letter", "a4"), prints))
    return ByHand(made, loops, tuple(joint_on(loop, bushing_mm) for loop in loops), lines)


LEVEL = Tube("lower-left", (100.0, -50.0, 20.0), (700.0, 150.0, 120.0), 19.05)
UPRIGHT = Tube("ring-left", (0.0, 0.0, 0.0), (0.0, 5.0, 400.0), 15.875)
WIDE = Tube("wide", (0.0, 0.0, 0.0), (800.0, 0.0, 0.0), 76.2)
THIN = Tube("thin", (0.0, 0.0, 0.0), (300.0, 10.0, 0.0), 3.175)
SHORT = Tube("short", (0.0, 0.0, 0.0), (30.0, 0.0, 0.0), 12.7)

USUAL = layout_of([(LEVEL, [(150.0, 0.7), (270.0, 0.7)]), (UPRIGHT, [(120.0, 2.0)])])
