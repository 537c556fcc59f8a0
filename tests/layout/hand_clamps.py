"""Clamps, components and holes built by hand: straight tubes along u on a plate seen from above."""

from __future__ import annotations

from math import cos, radians, sin

from clampwright.layout.placed import ClampPlace, Frame, Hole, PlacedComponent, StackItem
from clampwright.layout.stacks import build_stack, clamp_items, component_items
from clampwright.trade.clamps import LoopClamp
from clampwright.trade.hardware import nut

INCH = 25.4
PLATE = 0.090 * INCH
FEET = 0.1025 * INCH
FRAME = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def loop(measured: frozenset[str] = frozenset(), seat_mm: float = 12.8) -> LoopClamp:
    """A clamp on a 3/4 in tube whose foot hole is 0.203 in."""
    return LoopClamp(
        part="MS21919WCH12",
        dash=12,
        loop_mm=19.05,
        reach_mm=19.8,
        seat_mm=seat_mm,
        feet_mm=FEET,
        band_width_mm=12.7,
        band_mm=0.8,
        outside_radius_mm=13.1,
        foot_hole_mm=0.203 * INCH,
        foot_end_mm=7.0,
        band="CRES",
        cushion="silicone",
        max_temperature_c=204.0,
        mass_kg=0.02,
        measured=measured,
        source="assumed",
    )


def place(
    label: str,
    tube: str,
    at: tuple[float, float],
    *,
    turn: int = 1,
    gap_mm: float = 0.0,
    seat_z_mm: float = 0.0,
    packing: tuple[StackItem, ...] = (),
    measured: frozenset[str] = frozenset({"reach", "seat", "feet"}),
    degrees: float = 0.0,
    seat_mm: float = 12.8,
) -> ClampPlace:
    """A clamp whose tube runs at an angle from u in the plate's plane."""
    clamp = loop(measured, seat_mm)
    stack = build_stack("AN3", clamp_items(PLATE, packing, FEET, "AN3"), nut("MS21044", "AN3"))
    return ClampPlace(
        label=label,
        tube=tube,
        station_mm=at[0],
        side="inboard",
        turn=turn,
        clamp=clamp,
        centre=(at[0], at[1] - turn * clamp.reach_mm, seat_z_mm - clamp.seat_mm),
        axis=(cos(radians(degrees)), sin(radians(degrees)), 0.0),
        bolt_axis=(0.0, 0.0, 1.0),
        at=at,
        at_exact=at,
        seat_z_mm=seat_z_mm,
        packing=packing,
        gap_mm=gap_mm,
        tilt_rad=0.0,
        station_given=True,
        stack=stack,
        measured=measured,
    )


def clamp_hole(label: str, at: tuple[float, float], diameter_in: float = 0.196) -> Hole:
    """A clamp's hole in the plate, #9 unless told otherwise."""
    return Hole(label, "clamp", label, at, diameter_in * INCH, "AN3", "#9", "#40")


def component_hole(label: str, owner: str, diameter_in: float = 0.196, fastener: str = "AN3") -> Hole:
    """A hole of a component."""
    return Hole(label, "component", owner, (0.0, 0.0), diameter_in * INCH, fastener, "#9", "#40")


def component(name: str, holes: tuple[str, ...], lug_in: float = 0.125) -> PlacedComponent:
    """A component held by AN3 bolts through its lugs."""
    stack = build_stack("AN3", component_items(lug_in * INCH, PLATE, "AN3"), nut("MS21044", "AN3"))
    return PlacedComponent(name, (0.0, 0.0), 0.0, 0.6, 20.0, holes, None, (), tuple(stack for _ in holes))


def four() -> tuple[tuple[ClampPlace, ...], tuple[Hole, ...]]:
    """Two clamps on each of two parallel tubes: A below, B above, holes towards each other."""
    spots = {"A1": (20.0, 20.0), "A2": (140.0, 20.0), "B1": (20.0, 110.0), "B2": (140.0, 110.0)}
    clamps = tuple(
        place(label, "lower" if label[0] == "A" else "upper", at, turn=1 if label[0] == "A" else -1)
        for label, at in spots.items()
    )
    return clamps, tuple(clamp_hole(label, at) for label, at in spots.items())
