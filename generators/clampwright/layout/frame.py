"""How the plate stands in the world: its normal from the tubes, and its own directions u and v."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.drilled_holes import letters
from clampwright.layout.plane_of_axes import AMBIGUOUS, best_plane, lean_deg, tilts_deg
from clampwright.quantities import Vec3
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]
Notes = tuple[tuple[str, str], ...]

_NOTHING = 1e-6
"""Millimetres, or parts of one, that are only noise."""
_UP: Vec3 = (0.0, 0.0, 1.0)


@dataclass(frozen=True, slots=True)
class Attitude:
    """Directions of the part in the world: u along the tubes, v across them, n out of its far face.

    Unit vectors, right-handed. `assumed` says what was taken for granted to find them.
    """

    u: Vec3
    v: Vec3
    n: Vec3
    assumed: Notes


def attitude(tubes: Sequence[Tube], toward: Vec3 | None) -> Attitude:
    """Directions of a part that lies on tubes, the same whichever way the tubes or the world are turned.

    n is square to the tubes (see `plate_normal`), towards `toward`. u is the direction in the plane that most
    of the tubes run in: for two tubes the bisector of their angle, and the first tube's own direction where
    they cross nearly squarely. v = n × u points from the first tube to the others.

    >>> lower = Tube("lower", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0), 19.05)
    >>> upper = Tube("upper", (500.0, 150.0, 0.0), (0.0, 150.0, 0.0), 19.05)
    >>> attitude([lower, upper], (0.0, 0.0, 1.0))
    Attitude(u=(1.0, 0.0, 0.0), v=(0.0, 1.0, 0.0), n=(0.0, 0.0, 1.0), assumed=())
    """
    square, notes = plate_normal(tubes)
    n, facing = _faced(square, toward)
    u = _along(tubes, n)
    v = np.cross(n, u)
    if _points_back(tubes, u, v):
        u, v = -u, -v
    return Attitude(_vec(u), _vec(v), _vec(n), (*notes, *facing))


def plate_normal(tubes: Sequence[Tube]) -> tuple[Array, Notes]:
    """Direction most nearly square to all the tubes (either sign), and what was assumed to find it.

    Two tubes: a1 × a2. More: the eigenvector of the least eigenvalue of Σ a aᵀ. Tubes within rule
    `tubes-parallel-most` of one direction: square to that direction and to the plane that their axes lie
    nearest to, because a cross product would magnify the error of the measured ends. The best plane of the
    axes is taken too where a normal square to the tubes leans off it by more than rule `normal-lean-most` and
    no tube then stands farther out of square than rule `tilt-fail`: tubes side by side that differ a little
    in slope would stand the plate on edge, on bushings as long as the tubes are apart.

    Raises
    ------
    CannotLayOut
        One tube; tubes on one line; tubes that run in so many directions that no plane suits them.

    >>> a = Tube("a", (0.0, 0.0, 0.0), (400.0, 0.0, 0.0), 19.05)
    >>> b = Tube("b", (0.0, 0.0, 30.0), (0.0, 300.0, 30.0), 19.05)
    >>> plate_normal([a, b])[0].tolist()
    [0.0, 0.0, 1.0]
    """
    if len(tubes) < 2:
        raise CannotLayOut(
            "a plate on one tube is free to turn round it", "name a second tube in clamps.on or in clamps.at"
        )
    directions = np.array([t.direction for t in tubes])
    _, vectors = np.linalg.eigh(directions.T @ directions)
    mean = vectors[:, 2]
    spread = 2 * float(np.degrees(np.arccos(np.clip(np.abs(directions @ mean), 0, 1)).max()))
    if spread <= rule("tubes-parallel-most").value:
        return _square_to_plane_of_axes(tubes, mean), _note_of_spread(spread)
    flat = best_plane(tubes)
    lies = flat is not None and float(tilts_deg(tubes, flat).max()) <= rule("tilt-fail").value
    try:
        square = _square_to_tubes(tubes, directions)
    except CannotLayOut:
        if flat is None or not lies:
            raise
        return flat, _note_of_plane(tubes, flat, None)
    if flat is None or lean_deg(square, flat) <= rule("normal-lean-most").value:
        return square, ()
    if lies:
        return flat, _note_of_plane(tubes, flat, lean_deg(square, flat))
    return square, _note_of_lean(tubes, flat, lean_deg(square, flat))


def _square_to_tubes(tubes: Sequence[Tube], directions: Array) -> Array:
    if len(tubes) == 2:
        return _unit(np.cross(directions[0], directions[1]))
    values, vectors = np.linalg.eigh(directions.T @ directions)
    if values[0] > AMBIGUOUS * values[1]:
        raise CannotLayOut(
            f"the tubes {_names(tubes)} run in so many directions that no plate lies on all of them",
            "leave out of clamps.on the tube that runs across the plate",
        )
    normal: Array = vectors[:, 0]
    _refuse_steep(tubes, normal)
    return normal


def _note_of_plane(tubes: Sequence[Tube], flat: Array, lean: float | None) -> Notes:
    says = f"in the plane of the axes, {_tilted(tubes, flat)}"
    if lean is None:
        return (("plate normal", f"{says}, because nothing is square to all the tubes"),)
    because = f"square to the tubes it would stand {lean:.0f} deg off and need long bushings"
    return (("plate normal", f"{says}, because {because}"),)


def _note_of_lean(tubes: Sequence[Tube], flat: Array, lean: float) -> Notes:
    says = (
        f"square to the tubes, {lean:.0f} deg off the plane of their axes, which takes long bushings "
        f"(in that plane the clamps would be {_tilted(tubes, flat)})"
    )
    return (("plate normal", says),)


def _tilted(tubes: Sequence[Tube], normal: Array) -> str:
    """How far the clamps of each tube are out of square: "3.2 deg out of square at A and B"."""
    groups: dict[str, list[str]] = {}
    for letter, tilt in zip(letters(len(tubes)), tilts_deg(tubes, normal), strict=True):
        groups.setdefault(f"{tilt:.1f} deg", []).append(letter)
    (first, at), *others = groups.items()
    said = [f"{first} out of square at {' and '.join(at)}"]
    return ", ".join([*said, *(f"{tilt} at {' and '.join(those)}" for tilt, those in others)])


def _square_to_plane_of_axes(tubes: Sequence[Tube], mean: Array) -> Array:
    starts = np.array([t.start for t in tubes])
    directions = np.array([t.direction for t in tubes])
    middle = (starts + np.array([t.end for t in tubes])).mean(axis=0) / 2
    stations = (middle - starts) @ mean / (directions @ mean)
    points = starts + stations[:, None] * directions
    points = points - points.mean(axis=0)
    values, vectors = np.linalg.eigh(points.T @ points)
    if math.sqrt(max(values[2], 0.0)) < min(t.od_mm for t in tubes) / 2:
        raise CannotLayOut(
            f"the axes of {_names(tubes)} lie on one line, so that nothing fixes the plate's direction",
            "name a tube that runs beside them in clamps.on, or correct the coordinates of the tubes",
        )
    if values[1] > AMBIGUOUS * values[2]:
        raise CannotLayOut(
            f"the parallel tubes {_names(tubes)} stand as much one above another as side by side",
            "leave out of clamps.on the tube that lies farthest from the plate",
        )
    return _unit(np.cross(mean, vectors[:, 2]))


def _note_of_spread(spread_deg: float) -> Notes:
    if spread_deg < math.degrees(_NOTHING):
        return ()
    says = f"square to the plane of the tubes' axes (they are parallel within {spread_deg:.2g} deg)"
    return (("plate normal", says),)


def _refuse_steep(tubes: Sequence[Tube], normal: Array) -> None:
    tilts = tilts_deg(tubes, normal)
    worst = int(np.argmax(tilts))
    if tilts[worst] > rule("tilt-most").value:
        raise CannotLayOut(
            f"{tubes[worst].name} leaves the best plane of {_names(tubes)} by {tilts[worst]:.0f} deg",
            f"leave {tubes[worst].name} out of clamps.on",
        )


def _faced(normal: Array, toward: Vec3 | None) -> tuple[Array, Notes]:
    """The normal with the sign that `toward` asks for."""
    wanted = _unit(np.array(toward if toward is not None else _UP, dtype=float))
    rise = float(normal @ wanted)
    if abs(rise) >= math.sin(math.radians(rule("toward-least").value)):
        facing = normal if rise > 0 else -normal
        return facing, () if toward is not None else _note_of_up(facing)
    largest = int(np.argmax(np.round(np.abs(normal), 6)))
    facing = normal if normal[largest] > 0 else -normal
    if toward is None:
        says = (
            f"{_shown(facing)} (the plate stands upright and upwards did not decide; the far face looks so)"
        )
        return facing, (("plate.toward", says),)
    raise CannotLayOut(
        f"plate.toward {_shown(np.array(toward))} lies in the plate and does not tell its faces apart",
        f"give plate.toward as {_shown(facing)} or {_shown(-facing)}",
    )


def _note_of_up(facing: Array) -> Notes:
    off = math.degrees(math.acos(min(1.0, float(facing @ np.array(_UP)))))
    if off <= rule("upwards-off-most").value:
        return (("plate.toward", "[0, 0, 1] (the far face looks upwards)"),)
    says = f"[0, 0, 1] (upwards; the far face looks along {_shown(facing)}, {off:.0f} deg off it)"
    return (("plate.toward", says),)


def _along(tubes: Sequence[Tube], n: Array) -> Array:
    """Direction in the plane that most of the tubes run in; either sign."""
    directions = np.array([t.direction for t in tubes])
    flat = directions - np.outer(directions @ n, n)
    values, vectors = np.linalg.eigh(flat.T @ flat)
    crosswise = math.cos(math.radians(rule("tubes-crosswise-least").value))
    if values[2] - values[1] < crosswise * (values[2] + values[1]):
        return _unit(flat[0])
    return _unit(vectors[:, 2] - (vectors[:, 2] @ n) * n)


def _points_back(tubes: Sequence[Tube], u: Array, v: Array) -> bool:
    """Whether v leads away from the other tubes (or, where they lie both ways, u against the first one)."""
    middles = (np.array([t.start for t in tubes]) + np.array([t.end for t in tubes])) / 2
    across = (middles[1:] - middles[0]) @ v
    for offset in (float(across.mean()), *across.tolist()):
        if abs(offset) > _NOTHING:
            return bool(offset < 0)
    return bool(np.array(tubes[0].direction) @ u < 0)


def _unit(vector: Array) -> Array:
    return vector / np.linalg.norm(vector)


def _vec(vector: Array) -> Vec3:
    x, y, z = (vector + 0.0).tolist()
    return x, y, z


def _names(tubes: Sequence[Tube]) -> str:
    return ", ".join(t.name for t in tubes)


def _shown(direction: Array) -> str:
    x, y, z = (round(float(c), 2) + 0.0 for c in direction)
    return f"[{x:g}, {y:g}, {z:g}]"
