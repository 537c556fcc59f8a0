"""Everything that a recipe adds to the bay, and what it has to keep away from, as simple bodies."""

from __future__ import annotations

from dataclasses import replace

from clampwright.layout.bodies import Body, Box, Capsule
from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.clash_bodies import tube_body
from clampwright.layout.joined import Joined, Named
from clampwright.layout.joint_solids import joint_bodies, loop_bodies
from clampwright.layout.rides_on import held_off
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.recipe.bushing_model import BushingJob
from clampwright.recipe.stand_off_model import StandOffJob
from clampwright.structure.surroundings import KeepOut

AXES = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def added(layout: Joined) -> tuple[Named, ...]:
    """Loops, feet, bolt heads, nuts, bushings, parts and lines of a layout."""
    return (
        *(body for loop in layout.loops for body in loop_bodies(loop)),
        *(body for joint in layout.joints for body in joint_bodies(joint)),
        *layout.parts,
        *line_bodies(layout),
    )


def line_bodies(layout: Joined) -> tuple[Named, ...]:
    """The lines that are carried."""
    return tuple(Named(line.name, line.name, tube_body(line)) for line in layout.lines)


def lines_at_bolt(layout: Joined) -> tuple[Named, ...]:
    """The lines that are carried, as they lie beside their own bolt: one that gives goes with its spacer."""
    off = held_off(layout)
    return tuple(line if off is None else replace(line, owner=off.label) for line in line_bodies(layout))


def tube_bodies(layout: Joined) -> tuple[Named, ...]:
    """Every tube of the structure."""
    return tuple(Named(f"tube {t.name}", t.name, tube_body(t)) for t in layout.recipe.structure.tubes)


def keep_out_body(kept: KeepOut) -> Body:
    """A keep-out's own body: round with round ends, or a box along the world's axes.

    >>> keep_out_body(KeepOut("case", (0.0, 0.0, 0.0), (4.0, -2.0, 6.0), None, 10.0, "engine", "other")).half
    (2.0, 1.0, 3.0)
    """
    if kept.od_mm is not None:
        return Capsule(kept.start, kept.end, kept.od_mm / 2)
    (a, b, c), (d, e, f) = kept.start, kept.end
    centre = ((a + d) / 2, (b + e) / 2, (c + f) / 2)
    return Box(centre, AXES, (abs(d - a) / 2, abs(e - b) / 2, abs(f - c) / 2))


def keep_outs(layout: Joined) -> tuple[Named, ...]:
    """Every keep-out of the structure as a body, in the recipe's order."""
    return tuple(Named(k.name, k.name, keep_out_body(k)) for k in layout.recipe.structure.keep_outs)


def whole_rides_on(layout: Joined) -> str:
    """What a layout's clamps and parts ride on: "mount" or "engine"."""
    if isinstance(layout, BushingLayout):
        return layout.recipe.asked(BushingJob).component.rides_on
    return "mount"


def line_rides_on(layout: Joined) -> str:
    """What the far end of a carried line is held on: "mount" or "engine"; "" where there is no line."""
    if isinstance(layout, StandOffLayout):
        return layout.recipe.asked(StandOffJob).carried.rides_on
    return ""
