"""A plate laid out by hand: every place in it is written down or follows from one line of arithmetic.

Two tubes cross the part's frame square to its normal: tube `low` runs along u, tube `high` slopes across
it and lies a bushing's length deeper. The whole stands turned and far from the world's origin.
"""

from __future__ import annotations

import math
from dataclasses import replace

from clampwright.layout.outline import Arc, Line, Outline
from clampwright.layout.placed import (
    BoltChoice,
    ClampPlace,
    FitUp,
    FitUpPlan,
    Frame,
    HardwareLine,
    Hole,
    PlacedComponent,
    PlateLayout,
    ShimReady,
    Stack,
    StackItem,
)
from clampwright.quantities import Vec2, Vec3
from clampwright.recipe.model import (
    Clamps,
    Fastener,
    Measured,
    Measuring,
    Plate,
    PlateJob,
    Recipe,
    Template,
    Zone,
)
from clampwright.recipe.shop import usual_shop
from clampwright.structure.tubes import Structure, Tube
from clampwright.trade.bolts import BoltLength
from clampwright.trade.clamps import loop_clamp
from clampwright.trade.hardware import Torque, nut
from clampwright.trade.materials import material

WIDTH, HEIGHT, CORNER, THICKNESS = 150.0, 100.0, 6.0, 2.286
CLAMP_HOLES: dict[str, Vec2] = {
    "A1": (15.0, 20.0),
    "A2": (135.0, 20.0),
    "B1": (20.0, 80.0),
    "B2": (130.0, 84.0),
}
CLAMP_HOLE_D, COMPONENT_HOLE_D, LIGHTENING_D = 4.8514, 4.9784, 16.0
BUSHING = 12.7
TUBE_OD = 19.05

_cos, _sin, _tilt = math.cos(0.7), math.sin(0.7), math.radians(25)
_n: Vec3 = (_sin * math.sin(_tilt), -_cos * math.sin(_tilt), math.cos(_tilt))
_u: Vec3 = (_cos, _sin, 0.0)
_v: Vec3 = (_n[1] * _u[2] - _n[2] * _u[1], _n[2] * _u[0] - _n[0] * _u[2], _n[0] * _u[1] - _n[1] * _u[0])
FRAME = Frame((400.0, -120.0, 250.0), _u, _v, _n)

LOOP = replace(
    loop_clamp(TUBE_OD, "CH"),
    loop_mm=19.05,
    reach_mm=19.812,
    seat_mm=13.1318,
    feet_mm=2.54,
    band_width_mm=12.7,
    band_mm=0.8128,
    outside_radius_mm=13.1318,
    foot_hole_mm=5.0,
    foot_end_mm=6.35,
    measured=frozenset({"reach"}),
)


def to_world(p: Vec3) -> Vec3:
    """A point of the part's frame in the world."""
    f = FRAME
    x, y, z = (o + p[0] * a + p[1] * b + p[2] * c for o, a, b, c in zip(f.origin, f.u, f.v, f.n, strict=True))
    return (x, y, z)


def turned(d: Vec3) -> Vec3:
    """A direction of the part's frame in the world."""
    x, y, z = (d[0] * a + d[1] * b + d[2] * c for a, b, c in zip(FRAME.u, FRAME.v, FRAME.n, strict=True))
    return (x, y, z)


def rounded_rectangle(width: float, height: float, r: float) -> Outline:
    """A rounded rectangle with its lower left corner at the origin."""
    corners = [((width - r, 0), (width, r)), ((width, height - r), (width - r, height))]
    corners += [((r, height), (0, height - r)), ((0, r), (r, 0))]
    centres = [(width - r, r), (width - r, height - r), (r, height - r), (r, r)]
    pieces: list[Line | Arc] = []
    last = corners[-1][1]
    for (start, end), centre in zip(corners, centres, strict=True):
        pieces += [Line(last, start), Arc(start, end, centre, True)]
        last = end
    return Outline(tuple(pieces))


WASHER = StackItem("washer", "AN960-10", 1.6, 1, 11.1125, 5.1562, 0.0008, "assumed")
THIN = StackItem("washer", "AN960-10L", 0.8128, 1, 11.1125, 5.1562, 0.0004, "assumed")
SPACER = StackItem("bushing", "bushing, 6061-T6", BUSHING, 1, 11.1125, 5.0165, 0.0026, "assumed")
NUT = replace(nut("MS21044", "AN3"), height_mm=6.0, across_flats_mm=9.525)
TORQUE = Torque("10-32", "tension", 2.2597, 2.8246, "assumed")


def bolt_choice(dash: int, grip: float, length: float) -> BoltChoice:
    """A bolt that is said to fit."""
    return BoltChoice(
        BoltLength(f"AN3-{dash}A", "AN3", dash, grip, length, 0.005, "assumed"), -0.5, 0.6, 2.0, True
    )


def clamp_stack(packing: tuple[StackItem, ...]) -> Stack:
    """Thin washer, plate, packing, feet, washer, nut."""
    feet = StackItem("clamp feet", LOOP.part, LOOP.feet_mm)
    items = (THIN, StackItem("plate", "plate", THICKNESS), *packing, feet, WASHER)
    chosen = bolt_choice(10, 14.2875, 27.0) if packing else bolt_choice(4, 3.175, 13.49375)
    return Stack("AN3", items, sum(i.thickness_mm * i.count for i in items), NUT, chosen, None, None, TORQUE)


def clamp_at(label: str, axis: Vec3, turn: int, packing: tuple[StackItem, ...]) -> ClampPlace:
    """A clamp whose hole axis is its plate hole's: centre = hole - turn * reach * (n x a)."""
    gap = sum(i.thickness_mm for i in packing)
    u, v = CLAMP_HOLES[label]
    aside = (-axis[1], axis[0])
    centre = (u - turn * LOOP.reach_mm * aside[0], v - turn * LOOP.reach_mm * aside[1], -gap - LOOP.seat_mm)
    tube = {"A": "low", "B": "high"}[label[0]]
    station = math.dist(to_world(centre), TUBES[tube].start)
    return ClampPlace(
        label, tube, station, "inboard", turn, LOOP, to_world(centre), turned(axis), FRAME.n, 0.0, True,
        frozenset({"reach"}), (u, v), (u, v), -gap, packing, gap, clamp_stack(packing),
    )  # fmt: skip


_slope = math.atan2(4.0, 110.0)
ALONG_U: Vec3 = (1.0, 0.0, 0.0)
SLOPING: Vec3 = (math.cos(_slope), math.sin(_slope), 0.0)


def _tube(name: str, first: str, axis: Vec3, turn: int, depth: float) -> Tube:
    u, v = CLAMP_HOLES[first]
    shift = turn * LOOP.reach_mm
    start = (u + shift * axis[1] - 180 * axis[0], v - shift * axis[0] - 180 * axis[1], -depth)
    end = (start[0] + 500 * axis[0], start[1] + 500 * axis[1], start[2])
    return Tube(name, to_world(start), to_world(end), TUBE_OD)


TUBES = {
    "low": _tube("low", "A1", ALONG_U, 1, LOOP.seat_mm),
    "high": _tube("high", "B1", SLOPING, -1, LOOP.seat_mm + BUSHING),
}

COIL_HOLES: dict[str, Vec2] = {"C1": (45.0, 38.0), "C2": (85.0, 38.0), "C3": (85.0, 62.0), "C4": (45.0, 62.0)}
RELAY_HOLES: dict[str, Vec2] = {"D1": (119.0, 36.0), "D2": (119.0, 64.0)}


def _component_stack() -> Stack:
    items = (THIN, StackItem("component lug", "", 3.175), StackItem("plate", "plate", THICKNESS), WASHER)
    thickness = sum(i.thickness_mm for i in items)
    return Stack("AN3", items, thickness, NUT, bolt_choice(5, 6.35, 15.08), None, None, TORQUE)


def _components() -> tuple[PlacedComponent, ...]:
    coil = PlacedComponent(
        "coil pack", (65.0, 50.0), 0.0, 0.64, 28.0, tuple(COIL_HOLES), (60.0, 40.0, 56.0),
        ((35.0, 30.0), (95.0, 30.0), (95.0, 70.0), (35.0, 70.0)), (_component_stack(),) * 4,
    )  # fmt: skip
    relay = PlacedComponent(
        "relay", (119.0, 50.0), math.pi / 2, 0.05, 12.0, tuple(RELAY_HOLES), (16.0, 22.0, 24.0),
        ((130.0, 42.0), (130.0, 58.0), (108.0, 58.0), (108.0, 42.0)), (_component_stack(),) * 2,
    )  # fmt: skip
    return coil, relay


def _holes() -> tuple[Hole, ...]:
    clamps = [Hole(k, "clamp", k, at, CLAMP_HOLE_D, "AN3", "#11", "#40") for k, at in CLAMP_HOLES.items()]
    coil = [
        Hole(k, "component", "coil pack", at, COMPONENT_HOLE_D, "AN3", "#9", "#40")
        for k, at in COIL_HOLES.items()
    ]
    relay = [
        Hole(k, "component", "relay", at, COMPONENT_HOLE_D, "AN3", "#9", "#40")
        for k, at in RELAY_HOLES.items()
    ]
    return (
        *clamps,
        *coil,
        *relay,
        Hole("L1", "lightening", "", (75.0, 83.0), LIGHTENING_D, "", "hole saw", "1/4"),
    )


def _recipe() -> Recipe:
    none = Measured()
    job = PlateJob(
        Fastener("AN3", None, None, None),
        Clamps(None, ("low", "high"), 2, "inboard", none, None, ()),
        Plate("6061-T6", THICKNESS, "rounded rectangle", (), None, None, (0.0, 0.0, 1.0), 0.0, 0.5, (), None),
        (),
    )
    zone, error = Zone(93.0, True, ("oil",)), Measuring(1.5, False)
    return Recipe(
        "accessory plate", "coil-plate", "Coil pack on two tubes", "mm", None,
        Structure(tuple(TUBES.values())), zone, error, Template(("a4",), ()), usual_shop("in"),
        job, (("zone", "200 degF"),),
        "0123456789abcdef",
    )  # fmt: skip


def _plate_kg() -> float:
    """Rectangle less what its corners lack and its holes, times thickness and density."""
    area = WIDTH * HEIGHT - (4 - math.pi) * CORNER**2
    area -= sum(math.pi / 4 * hole.diameter_mm**2 for hole in _holes())
    return area * THICKNESS * 1e-9 * material("6061-T6").density_kg_m3


def hand_layout() -> PlateLayout:
    """The whole layout."""
    bare, packed = (), (SPACER,)
    clamps = (
        clamp_at("A1", ALONG_U, 1, bare),
        clamp_at("A2", ALONG_U, 1, bare),
        clamp_at("B1", SLOPING, -1, packed),
        clamp_at("B2", SLOPING, -1, packed),
    )
    hardware = (
        HardwareLine("AN3-4A", "bolt", 2, (2.2597, 2.8246), 0.0045, "A1 A2", "assumed"),
        HardwareLine("MS21919WCH12", "loop clamp", 4, None, 0.014, "A1 A2 B1 B2", "assumed"),
        HardwareLine("shim, stainless", "shim", 1, None, None, "A1", "assumed"),
    )
    plan = FitUpPlan(
        1.5,
        False,
        tuple(
            FitUp(
                label, "pilot, transfer in place" if label[0] == "B" else "drill now", 1.5, 0.1, "assumed", ""
            )
            for label in (*CLAMP_HOLES, *COIL_HOLES, *RELAY_HOLES)
        ),
        (ShimReady("B1", BUSHING, BUSHING - 1.0, BUSHING + 1.0, "cut long, trim in place"),),
    )
    return PlateLayout(
        _recipe(), FRAME, rounded_rectangle(WIDTH, HEIGHT, CORNER), THICKNESS, material("6061-T6"), _holes(),
        clamps, _components(), _plate_kg(), 0.78, (66.0, 50.0, 24.0), hardware, plan,
        (("plate.toward", "upwards"),),
    )  # fmt: skip


def without_packing() -> PlateLayout:
    """The same with nothing packed: to show that bushings follow the layout."""
    whole = hand_layout()
    return replace(whole, clamps=tuple(replace(c, packing=()) for c in whole.clamps))
