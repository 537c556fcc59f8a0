"""Scans made up in the test: a frame of tubes before a firewall, seen from a few places, with noise.

A place of a skin is seen from a stand point where it faces it and no tube stands between. The noise is
normal, along the line of sight and, a third as large, across it; strays lie anywhere.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.structure.found import FoundTube

Array = npt.NDArray[np.float64]
FIVE_EIGHTHS, THREE_QUARTERS = 15.875, 19.05


@dataclass(frozen=True)
class Made:
    """A tube of a made-up scan: ends of its axis (mm) and outside diameter."""

    start: tuple[float, float, float]
    end: tuple[float, float, float]
    od: float

    @property
    def axis(self) -> Array:
        """Unit vector from start to end."""
        along = np.subtract(self.end, self.start)
        return np.asarray(along / np.linalg.norm(along))

    @property
    def length(self) -> float:
        """Length of the axis."""
        return float(np.linalg.norm(np.subtract(self.end, self.start)))


FRAME = (
    Made((0, 0, 0), (420, 80, 60), THREE_QUARTERS),
    Made((0, 350, 0), (420, 270, 60), THREE_QUARTERS),
    Made((0, 0, 300), (400, 90, 260), THREE_QUARTERS),
    Made((0, 350, 300), (400, 260, 260), THREE_QUARTERS),
    Made((30, 15, 25), (380, 70, 235), FIVE_EIGHTHS),
    Made((30, 335, 25), (380, 280, 235), FIVE_EIGHTHS),
    Made((430, 100, 85), (430, 250, 85), FIVE_EIGHTHS),
    Made((20, 30, 310), (20, 320, 310), FIVE_EIGHTHS),
)
STANDS = ((700.0, -500.0, 700.0), (900.0, 800.0, 500.0), (600.0, 100.0, -700.0))


def skin(tube: Made, count: int, rng: np.random.Generator) -> tuple[Array, Array]:
    """Points spread evenly over a tube's skin, and their outward normals."""
    axis = tube.axis
    u = np.cross(axis, [0.3, 0.5, 0.8])
    u = u / np.linalg.norm(u)
    v = np.cross(axis, u)
    turn, along = rng.uniform(0, 2 * np.pi, count), rng.uniform(0, tube.length, count)
    out = np.outer(np.cos(turn), u) + np.outer(np.sin(turn), v)
    return np.asarray(tube.start) + np.outer(along, axis) + 0.5 * tube.od * out, out


def box(
    low: Sequence[float], high: Sequence[float], count: int, rng: np.random.Generator
) -> tuple[Array, Array]:
    """Points on the six faces of a box, and their outward normals."""
    size = np.subtract(high, low)
    area = np.array([size[1] * size[2], size[0] * size[2], size[0] * size[1]])
    face = rng.choice(3, count, p=area / area.sum())
    side = rng.integers(0, 2, count)
    at = rng.random((count, 3))
    at[np.arange(count), face] = side
    normals = np.zeros((count, 3))
    normals[np.arange(count), face] = 2.0 * side - 1.0
    return np.asarray(low) + at * size, normals


def ball(middle: Sequence[float], radius: float, count: int, rng: np.random.Generator) -> tuple[Array, Array]:
    """Points on a sphere, and their outward normals."""
    out = rng.normal(size=(count, 3))
    out /= np.linalg.norm(out, axis=1)[:, None]
    return np.asarray(middle) + radius * out, out


def matched(made: Made, tubes: Sequence[FoundTube]) -> FoundTube | None:
    """The found tube that lies along a made one, if any: within 2° and 3 mm."""
    for found in tubes:
        if (
            abs(float(np.dot(found.tube.direction, made.axis))) > np.cos(np.deg2rad(2.0))
            and max(off(made, found)) < 3.0
        ):
            return found
    return None


def off(made: Made, found: FoundTube) -> tuple[float, float]:
    """How far each end of a found axis lies from the true axis."""
    apart = [np.cross(np.subtract(end, made.start), made.axis) for end in (found.tube.start, found.tube.end)]
    return float(np.linalg.norm(apart[0])), float(np.linalg.norm(apart[1]))


def turned(made: Made, found: FoundTube) -> float:
    """Angle between a found axis and the true one, degrees."""
    return float(np.rad2deg(np.arcsin(np.linalg.norm(np.cross(found.tube.direction, made.axis)))))


def engine_bay(count: int, rng: np.random.Generator, tubes: Sequence[Made] = FRAME) -> tuple[Array, Array]:
    """Skin of a frame, a firewall, two boxes, a ball and a bolt: about `count` points, by area."""
    parts = [(skin, tube.od * np.pi * tube.length, tube) for tube in tubes]
    bolt = Made((215.0, 175.0, 120.0), (215.0, 175.0, 155.0), 6.35)
    parts.append((skin, bolt.od * np.pi * bolt.length, bolt))
    boxes = (
        ((-22, -200, -150), (-20, 550, 450)),
        ((120, 140, 100), (220, 210, 140)),
        ((60, 150, 200), (90, 180, 290)),
    )
    areas = [area for _, area, _ in parts]
    faces = [2 * (a * b + b * c + c * a) for a, b, c in (np.subtract(high, low) for low, high in boxes)]
    total = sum(areas) + sum(faces) + 4 * np.pi * 45**2
    each = count / total
    made = [skin(tube, int(each * area), rng) for _, area, tube in parts]
    made += [box(low, high, int(each * area), rng) for (low, high), area in zip(boxes, faces, strict=True)]
    made.append(ball((300, 180, 170), 45.0, int(each * 4 * np.pi * 45**2), rng))
    return np.concatenate([p for p, _ in made]), np.concatenate([n for _, n in made])


def scanned(
    points: Array,
    normals: Array,
    noise: float,
    rng: np.random.Generator,
    stands: Sequence[Sequence[float]] = STANDS,
    tubes: Sequence[Made] = FRAME,
    strays: float = 0.01,
) -> Array:
    """What is seen of skin from stand points, with noise and a share of strays."""
    seen = []
    for stand in stands:
        sight = np.asarray(stand) - points
        sight /= np.linalg.norm(sight, axis=1)[:, None]
        shows = np.einsum("ij,ij->i", sight, normals) > 0.17
        shows[shows] = ~hidden(points[shows] + 0.5 * normals[shows], np.asarray(stand), tubes)
        noisy = points[shows] + noise * rng.normal(size=(int(shows.sum()), 1)) * sight[shows]
        seen.append(noisy + noise / 3 * rng.normal(size=noisy.shape))
    every = np.concatenate(seen)
    low, high = every.min(axis=0), every.max(axis=0)
    return np.concatenate([every, rng.uniform(low, high, (int(strays * len(every)), 3))])


def hidden(points: Array, stand: Array, tubes: Sequence[Made]) -> npt.NDArray[np.bool_]:
    """Whether a tube stands between points and a stand point: the line between comes within its radius."""
    hid = np.zeros(len(points), dtype=bool)
    sight = stand - points
    for tube in tubes:
        axis, to = tube.axis, points - np.asarray(tube.start)
        b = sight @ axis
        a = np.einsum("ij,ij->i", sight, sight)
        d, e = np.einsum("ij,ij->i", sight, to), to @ axis
        s = np.clip((b * e - d) / np.maximum(a - b * b, 1e-9), 0.0, 1.0)
        t = np.clip(e + s * b, 0.0, tube.length)
        s = np.clip((t * b - d) / a, 0.0, 1.0)
        nearest = to + s[:, None] * sight - np.outer(t, axis)
        hid |= np.einsum("ij,ij->i", nearest, nearest) < (0.5 * tube.od) ** 2
    return hid
