"""Which tubes can hold the component together, and how it stands on them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import numpy.typing as npt

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.frame import Attitude, plate_normal
from clampwright.layout.mounting.holders import Holder
from clampwright.layout.tube_lines import TubeLine, tube_lines
from clampwright.quantities import Vec3
from clampwright.recipe.bushing_model import Pose
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]

_UP: Vec3 = (0.0, 0.0, 1.0)
_AHEAD: Vec3 = (1.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class TubeSet:
    """Some of the tubes, all of which carry a clamp, and the component's directions on them.

    n is its z; u and v lie in its plane, u along the direction asked for its x where one was.
    """

    members: tuple[int, ...]
    stands: Attitude
    lines: tuple[TubeLine, ...]


@dataclass(frozen=True, slots=True)
class Refused:
    """Tubes that cannot hold it together, and why."""

    members: tuple[int, ...]
    why: str
    change: str


def tube_sets(
    held: Sequence[Holder], pose: Pose, most: int
) -> tuple[tuple[TubeSet, ...], tuple[Refused, ...]]:
    """Every choice of 1 to `most` of the tubes that the component can stand on, and those it cannot.

    n is square to the tubes as `frame.plate_normal` has it; on one tube it is `up` made square to that. Its
    sign is towards `up`. Tubes are refused together where one stands farther out of square than rule
    `tilt-fail`, or n farther off a given `up` than rule `mounting-up-off-most`.
    """
    reference = reference_of(held)
    good: list[TubeSet] = []
    bad: list[Refused] = []
    for size in range(1, min(most, len(held)) + 1):
        for members in combinations(range(len(held)), size):
            try:
                good.append(_set(members, held, pose, reference))
            except CannotLayOut as refusal:
                bad.append(Refused(members, refusal.why, refusal.change))
    return tuple(good), tuple(bad)


def reference_of(held: Sequence[Holder]) -> Vec3:
    """The place that plan and height count from: the mean of the tubes' ends."""
    x, y, z = np.mean([p for h in held for p in (h.tube.start, h.tube.end)], axis=0).tolist()
    return (x, y, z)


def square_to(direction: Sequence[float] | Array, axis: Sequence[float] | Array) -> Array | None:
    """A direction made square to an axis (unit); None where it nearly lies along it.

    >>> square_to((1.0, 0.0, 1.0), (0.0, 0.0, 1.0)).tolist()
    [1.0, 0.0, 0.0]
    """
    d, a = np.array(direction, dtype=float), np.array(axis, dtype=float)
    flat = d - (d @ a) * a
    size = float(np.linalg.norm(flat))
    if size < math.sin(math.radians(rule("clock-upright").value)):
        return None
    square: Array = flat / size
    return square


def stands(n: Array, along: Vec3 | None) -> Attitude | None:
    """Directions u, v, n: u along what is asked for x; None where that nearly lies along n."""
    choices = (_AHEAD, (0.0, 1.0, 0.0)) if along is None else (along,)
    u = next((found for c in choices if (found := square_to(c, n)) is not None), None)
    return None if u is None else Attitude(_vec(u), _vec(np.cross(n, u)), _vec(n), ())


def _set(members: tuple[int, ...], held: Sequence[Holder], pose: Pose, reference: Vec3) -> TubeSet:
    tubes = [held[i].tube for i in members]
    if len(tubes) == 1:
        n = _normal_on_one(tubes[0].direction, pose.up)
    else:
        n = _faced(plate_normal(tubes)[0], pose.up)
    attitude = stands(n, pose.along)
    if attitude is None:
        raise CannotLayOut("pose.along points out of the component's base on them", "give another pose.along")
    lines = tube_lines(tubes, attitude, reference)
    worst = max(lines, key=lambda line: line.tilt_rad)
    if math.degrees(worst.tilt_rad) > rule("tilt-fail").value:
        raise CannotLayOut(
            f"a clamp on {worst.tube.name} would stand {math.degrees(worst.tilt_rad):.1f} deg out of square",
            f"leave {worst.tube.name} out",
        )
    return TubeSet(members, attitude, lines)


def _normal_on_one(axis: Vec3, up: Vec3 | None) -> Array:
    for wanted in (_UP, _AHEAD) if up is None else (up,):
        square = square_to(wanted, axis)
        if square is not None:
            _refuse_far(square, up)
            return square
    raise CannotLayOut("pose.up runs along the tube", "give another pose.up")


def _faced(normal: Array, up: Vec3 | None) -> Array:
    """The normal with the sign that `up` asks for; left out, upwards, or where that does not decide as the
    largest part of it is positive."""
    rise = float(normal @ np.array(_UP if up is None else up))
    if up is None and abs(rise) < math.sin(math.radians(rule("toward-least").value)):
        rise = float(normal[int(np.argmax(np.round(np.abs(normal), 6)))])
    facing: Array = normal if rise > 0 else -normal
    _refuse_far(facing, up)
    return facing


def _refuse_far(n: Array, up: Vec3 | None) -> None:
    if up is None:
        return
    off = math.degrees(math.acos(min(1.0, float(n @ np.array(up)))))
    if off > rule("mounting-up-off-most").value:
        shown = ", ".join(f"{c + 0.0:.2f}" for c in n)
        raise CannotLayOut(
            f"square to them its z would look along [{shown}], {off:.0f} deg off pose.up",
            f"give pose.up as [{shown}] or the opposite",
        )


def _vec(vector: Array) -> Vec3:
    x, y, z = (vector + 0.0).tolist()
    return (x, y, z)
