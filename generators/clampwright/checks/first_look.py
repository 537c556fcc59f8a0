"""A first look at many bodies at once: distances that they certainly keep, so that few are measured exactly.

Every body lies within a capsule (its core, a segment, and a radius) and within a box along the world's axes.
The distance of two cores less both radii, and of a core from such a box, is never more than the bodies' own
distance, and numpy finds it for thousands of pairs in one go.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import hypot

import numpy as np
import numpy.typing as npt

from clampwright.layout.bodies import Body, Box, clearance
from clampwright.layout.joined import Named

Array = npt.NDArray[np.float64]
_TINY = 1e-12


@dataclass(frozen=True, slots=True)
class Cores:
    """Capsules round bodies: ends of cores (..., n, 3) and radii (n); and boxes along the world's axes."""

    start: Array
    end: Array
    radius: Array
    low: Array
    """Lower corners (n, 3) of the boxes: of a box-shaped body itself, of any other its core."""
    high: Array
    skin: Array
    """What a body may stand out of its box, mm: its radius, 0 for a box-shaped one."""


@dataclass(frozen=True, slots=True)
class Nearest:
    """The nearest of many pairs: its state, the two bodies by index, and their exact distance."""

    state: int
    body: int
    other: int
    clear_mm: float


Placed = Callable[[Body, int], Body]
"""A body as it lies in a state, by the state's number."""


def cores(bodies: Sequence[Named]) -> Cores:
    """Capsules that hold the bodies: a box lies round a core along its longest side.

    >>> box = Box((0.0, 0.0, 0.0), ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)), (3.0, 4.0, 9.0))
    >>> held = cores([Named("box", "box", box)])
    >>> held.end.tolist(), held.radius.tolist()
    ([[0.0, 0.0, 9.0]], [5.0])
    """
    rows = np.array([_core(named.body) for named in bodies], dtype=float).reshape(-1, 14)
    return Cores(rows[:, :3], rows[:, 3:6], rows[:, 6], rows[:, 7:10], rows[:, 10:13], rows[:, 13])


def _core(body: Body) -> tuple[float, ...]:
    """Start, end, radius; low, high, skin."""
    if not isinstance(body, Box):
        low = (min(a, b) for a, b in zip(body.start, body.end, strict=True))
        high = (max(a, b) for a, b in zip(body.start, body.end, strict=True))
        return (*body.start, *body.end, body.radius_mm, *low, *high, body.radius_mm)
    longest = max(range(3), key=lambda i: body.half[i])
    along, half = body.axes[longest], body.half[longest]
    radius = hypot(*(h for i, h in enumerate(body.half) if i != longest))
    start = (c - half * a for c, a in zip(body.centre, along, strict=True))
    end = (c + half * a for c, a in zip(body.centre, along, strict=True))
    out = [sum(h * abs(a[i]) for h, a in zip(body.half, body.axes, strict=True)) for i in range(3)]
    low = (c - o for c, o in zip(body.centre, out, strict=True))
    high = (c + o for c, o in zip(body.centre, out, strict=True))
    return (*start, *end, radius, *low, *high, 0.0)


def surely(one: Cores, other: Cores) -> Array:
    """Distance that each body of one surely keeps from each of another; shape (..., n, m).

    The greater of two: distance of the cores less both radii, and of one's core from the other's box.
    """
    return np.maximum(_of_cores(one, other), _of_boxes(one, other))


def from_box(centre: Array, axes: Array, half: Array, other: Cores) -> Array:
    """Distance that a box surely keeps from bodies, however it lies: their cores seen along its own axes.

    Parameters
    ----------
    centre, axes
        Of the box in each state, shapes (states, 3) and (states, 3, 3), one axis a row.
    half
        Its half sizes, shape (3).
    other
        The bodies; the answer has the shape (states, bodies).
    """
    ends = np.stack([other.start, other.end])
    seen = np.einsum("sij,esbj->esbi", axes, ends[:, None] - centre[None, :, None])
    gap = np.maximum(np.maximum(seen.min(axis=0) - half, -half - seen.max(axis=0)), 0.0)
    apart: Array = np.sqrt(_dot(gap, gap)) - other.radius
    return apart


def _of_boxes(one: Cores, other: Cores) -> Array:
    low = np.minimum(one.start, one.end)[..., :, None, :]
    high = np.maximum(one.start, one.end)[..., :, None, :]
    gap = np.maximum(np.maximum(other.low - high, low - other.high), 0.0)
    apart: Array = np.sqrt(_dot(gap, gap)) - one.radius[:, None] - other.skin
    return apart


def _of_cores(one: Cores, other: Cores) -> Array:
    """Distance of segments (Ericson, Real-Time Collision Detection, 5.1.9), less the radii."""
    p, u = one.start[..., :, None, :], (one.end - one.start)[..., :, None, :]
    q, v = other.start, other.end - other.start
    w = p - q
    a = np.maximum(_dot(u, u), _TINY)
    e = np.maximum(_dot(v, v), _TINY)
    b, c, f = _dot(u, v), _dot(u, w), _dot(v, w)
    flat = a * e - b * b
    s = np.clip(np.where(flat > _TINY * a * e, (b * f - c * e) / np.maximum(flat, _TINY), 0.0), 0.0, 1.0)
    t = np.clip((b * s + f) / e, 0.0, 1.0)
    s = np.clip((b * t - c) / a, 0.0, 1.0)
    gap = w + s[..., None] * u - t[..., None] * v
    apart: Array = np.sqrt(_dot(gap, gap)) - one.radius[:, None] - other.radius
    return apart


def _dot(a: Array, b: Array) -> Array:
    found: Array = np.einsum("...k,...k->...", a, b)
    return found


def nearest_to_each(
    bodies: Sequence[Named],
    least: Array,
    others: Sequence[Named],
    placed: Placed,
    moves: Array | None = None,
) -> list[Nearest]:
    """For each of the others, the nearest body in any state, measured exactly in as few tries as can be.

    Parameters
    ----------
    bodies
        Those that move.
    least
        Distances that they surely keep, shape (states, bodies, others).
    others
        Those that stay.
    placed
        How a body lies in a state.
    moves
        How far each body moves against each of the others, any way, shape (bodies, others): taken off
        their distance.
    """
    off = np.zeros(least.shape[1:]) if moves is None else moves
    return [
        _nearest(bodies, (least - off)[..., k], off[:, k].tolist(), k, other, placed)
        for k, other in enumerate(others)
    ]


def _nearest(
    bodies: Sequence[Named], least: Array, off: list[float], k: int, other: Named, placed: Placed
) -> Nearest:
    flat = least.ravel()
    best = Nearest(0, 0, k, np.inf)
    for index in np.argsort(flat, kind="stable").tolist():
        if flat[index] >= best.clear_mm or best.clear_mm <= 0.0:
            break
        state, body = divmod(index, least.shape[1])
        clear = max(0.0, clearance(placed(bodies[body].body, state), other.body) - off[body])
        if clear < best.clear_mm:
            best = Nearest(state, body, k, clear)
    return best
