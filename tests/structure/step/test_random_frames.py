"""Random frames of tubes that do not touch: every one found, with its ends and both diameters."""

from __future__ import annotations

import math
import tempfile
from pathlib import Path

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from structure.step.kernel_shapes import bar, cut, free_form, fused, together, written

from clampwright.quantities import Vec3
from clampwright.structure.step.here import tubes_here

_AT = st.tuples(*[st.integers(-600, 600)] * 3)
_OD = st.sampled_from([9.525, 12.7, 15.875, 19.05, 22.0, 31.75])
_TUBE = st.tuples(_AT, _AT, _OD, st.sampled_from([None, 0.75, 0.9]), st.booleans())

Drawn = tuple[Vec3, Vec3, float, float | None, bool]


@settings(deadline=None, max_examples=25)
@given(st.lists(_TUBE, min_size=3, max_size=8), st.sampled_from(["MM", "INCH", "M"]), st.booleans())
def test_every_tube_of_a_random_frame_is_found(drawn: list[Drawn], unit: str, one_part: bool) -> None:
    tubes = clear_of_one_another([tube for tube in drawn if math.dist(tube[0], tube[1]) > 6 * tube[2]])
    assume(len(tubes) >= 3)
    shapes = [shape(*tube) for tube in tubes]
    with tempfile.TemporaryDirectory() as folder:
        parts = [together(shapes)] if one_part else shapes
        found = tubes_here(written(Path(folder) / "frame.step", parts, unit))
    assert len(found.tubes) == len(tubes)
    for start, end, od, bore, _ in tubes:
        one = min(found.tubes, key=lambda one: apart((one.tube.start, one.tube.end), (start, end)))
        assert apart((one.tube.start, one.tube.end), (start, end)) < 1e-6
        assert one.tube.od_mm == pytest.approx(od, abs=1e-8)
        assert one.bore_mm == (None if bore is None else pytest.approx(od * bore, abs=1e-8))
        assert one.doubts == ()
    assert len({one.tube.name.lower() for one in found.tubes}) == len(tubes)


def shape(start: Vec3, end: Vec3, od: float, bore: float | None, soft: bool) -> object:
    whole = bar(start, end, od, None if bore is None else bore * od)
    return free_form(whole) if soft else whole


def apart(found: tuple[Vec3, Vec3], true: tuple[Vec3, Vec3]) -> float:
    ways = (true, true[::-1])
    return min(max(math.dist(a, b) for a, b in zip(found, way, strict=True)) for way in ways)


def clear_of_one_another(tubes: list[Drawn]) -> list[Drawn]:
    """Those that stay clear of all before them, by points along both axes."""
    kept: list[Drawn] = []
    for tube in tubes:
        if all(nearest(tube, other) > tube[2] + other[2] for other in kept):
            kept.append(tube)
    return kept


def nearest(one: Drawn, other: Drawn) -> float:
    shares = np.linspace(0, 1, 200)[:, None]
    a, b = (np.array(t[0]) + shares * np.subtract(t[1], t[0]) for t in (one, other))
    return float(np.min(np.linalg.norm(a[:, None] - b[None], axis=-1)))


@settings(deadline=None, max_examples=12)
@given(
    st.floats(0.5, math.pi / 2),
    st.floats(-10.0, 10.0),
    st.sampled_from([(31.75, 25.4), (25.4, 19.05), (31.75, 12.7), (25.4, 9.525)]),
    st.booleans(),
)
def test_two_tubes_through_one_another_are_two_however_they_cross(
    angle: float, offset: float, ods: tuple[float, float], hollow: bool
) -> None:
    """Welded to one body, from 30° to square, the thinner one wholly or partly through the thicker."""
    x, z = 300 * math.cos(angle), 300 * math.sin(angle)
    ends = {ods[0]: ((0, 0, -300), (0, 0, 300)), ods[1]: ((-z, offset, -x), (z, offset, x))}
    body = fused(*(bar(*ends[od], od) for od in ods))
    if hollow:
        body = cut(body, fused(*(bar(*ends[od], od - 3) for od in ods)))
    with tempfile.TemporaryDirectory() as folder:
        found = tubes_here(written(Path(folder) / "crossing.step", [body]))
    assert len(found.tubes) == 2
    for one in found.tubes:
        od = min(ods, key=lambda od: abs(od - one.tube.od_mm))
        assert apart((one.tube.start, one.tube.end), ends[od]) < 1e-6
        assert one.bore_mm == (pytest.approx(od - 3) if hollow else None)
        assert one.doubts == ()
