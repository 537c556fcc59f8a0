"""Layouts of any tubes for property tests, and where round a tube something points, worked out on its own."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from hypothesis import strategies as st
from sheets.joined.by_hand import ByHand, layout_of

from clampwright.layout.joined import Loop
from clampwright.structure.tubes import Tube


def independent_clock(loop: Loop, direction: np.ndarray) -> float:
    """Degrees from the world's z (x for an upright tube), clockwise for who looks along the tube.

    By the signed angle between the two in the plane square to the tube.
    """
    a = np.asarray(loop.axis)
    up = np.array([1.0, 0.0, 0.0]) if abs(a[2]) >= math.cos(math.radians(10.0)) else np.array([0.0, 0.0, 1.0])
    zero = up - (up @ a) * a
    flat = direction - (direction @ a) * a
    angle = math.acos(np.clip(zero @ flat / np.linalg.norm(zero) / np.linalg.norm(flat), -1, 1))
    return math.degrees(angle if a @ np.cross(zero, flat) >= 0 else -angle) % 360


def feet_direction(loop: Loop) -> np.ndarray:
    """From the tube to the bolt."""
    return loop.turn * np.cross(loop.bolt_axis, loop.axis)


tubes = st.builds(
    lambda x, y, z, od: Tube("t", (0.0, 0.0, 0.0), (x, y, z), od),
    st.floats(-500.0, 500.0),
    st.floats(-500.0, 500.0),
    st.floats(30.0, 500.0),
    st.one_of(st.floats(3.0, 76.2), st.sampled_from([120.0, 19.05])),
)
clamps = st.lists(st.tuples(st.floats(-50.0, 800.0), st.floats(0.0, 6.3)), min_size=1, max_size=4)


@st.composite
def any_layout(draw: st.DrawFn) -> ByHand:
    """Tubes of any direction and size, clamps anywhere on them, printers that are off."""
    count = draw(st.integers(1, 3))
    placed = [(replace(draw(tubes), name=f"tube-{n}"), draw(clamps)) for n in range(count)]
    prints = draw(st.lists(st.tuples(st.floats(94.0, 106.0), st.floats(94.0, 106.0)), max_size=2))
    return layout_of(placed, units=draw(st.sampled_from(["mm", "in"])), prints=tuple(prints))
