"""A start built up point by point: four that hold each other, then each next one from those that stand."""

from __future__ import annotations

import numpy as np

from clampwright.structure.survey.kinds import Array


def built_up(known: Array, lot: np.random.Generator) -> Array | None:
    """Points placed one after the other by their distances to those placed before, shape (points, 3).

    Each next point is the one with most distances to placed ones: four or more give its place by linear least
    squares (differences of squares), three leave two places, of which one is drawn by lot, fewer leave the
    rest to the lot.

    Parameters
    ----------
    known
        Measured distances, shape (points, points); infinite where none was measured.
    lot
        Also draws the four points to begin with.

    Returns
    -------
    None where no four points have all six distances.
    """
    first = _four(known, lot)
    if first is None:
        return None
    figure = np.zeros((len(known), 3))
    figure[first] = _tetrahedron(known[np.ix_(first, first)], lot)
    placed, waiting = list(first), [i for i in range(len(known)) if i not in first]
    size = float(np.median(known[np.isfinite(known) & (known > 0)]))
    while waiting:
        reach = np.sum(np.isfinite(known[np.ix_(waiting, placed)]), axis=1)
        number = waiting.pop(int(np.argmax(reach + 0.5 * lot.random(len(reach)))))
        near = [p for p in placed if np.isfinite(known[number, p])]
        figure[number] = _next_place(figure[near], known[number, near], size, lot)
        placed.append(number)
    return figure


def _four(known: Array, lot: np.random.Generator) -> list[int] | None:
    """Four points with all six distances, well spread, by lot."""
    linked = np.isfinite(known) & (known > 0)
    best, most = None, 0.0
    for _ in range(40):
        a = int(lot.integers(len(known)))
        four, open_ones = [a], linked[a]
        while len(four) < 4 and open_ones.any():
            chosen = int(lot.choice(np.flatnonzero(open_ones)))
            four.append(chosen)
            open_ones = open_ones & linked[chosen]
        if len(four) == 4:
            volume = _volume(known[np.ix_(four, four)])
            if volume > most:
                best, most = four, volume
    return best


def _volume(far: Array) -> float:
    """Square of the volume that four points span, by their distances (Cayley, Menger), up to a factor."""
    bordered = np.ones((5, 5))
    bordered[0, 0] = 0.0
    bordered[1:, 1:] = far**2
    return float(np.linalg.det(bordered))


def _tetrahedron(far: Array, lot: np.random.Generator) -> Array:
    a, b, c = far[0, 1], far[0, 2], far[1, 2]
    x = (a**2 + b**2 - c**2) / (2 * a)
    base = np.array([[0.0, 0.0, 0.0], [a, 0.0, 0.0], [x, np.sqrt(max(b**2 - x**2, 0.0)), 0.0]])
    return np.vstack([base, _two_places(base, far[3, :3], lot)])


def _next_place(near: Array, far: Array, size: float, lot: np.random.Generator) -> Array:
    if len(near) >= 4:
        rows, right = 2.0 * (near[1:] - near[0]), _squares(near, far)
        at, _, rank, values = np.linalg.lstsq(rows, right, rcond=None)
        if rank == 3 and values[2] > 0.02 * values[0]:
            return np.asarray(_nearer(at, near, far), dtype=float)
    if len(near) >= 3:
        return _nearer(_two_places(near[:3], far[:3], lot), near, far)
    middle = near.mean(axis=0) if len(near) else np.zeros(3)
    way = lot.normal(size=3)
    return middle + (float(far.mean()) if len(near) else size) * way / np.linalg.norm(way)


def _squares(near: Array, far: Array) -> Array:
    square = np.sum(near**2, axis=1)
    return np.asarray((square[1:] - square[0]) - (far[1:] ** 2 - far[0] ** 2), dtype=float)


def _two_places(near: Array, far: Array, lot: np.random.Generator) -> Array:
    """One of the two places at given distances from three points, by lot."""
    rows, right = 2.0 * (near[1:] - near[0]), _squares(near, far)
    at = near[0] + np.linalg.lstsq(rows, right - rows @ near[0], rcond=None)[0]
    normal = np.cross(near[1] - near[0], near[2] - near[0])
    normal = normal / max(float(np.linalg.norm(normal)), 1e-9)
    height = np.sqrt(max(float(far[0] ** 2 - np.sum((at - near[0]) ** 2)), 0.0))
    return np.asarray(at + lot.choice((-1.0, 1.0)) * height * normal, dtype=float)


def _nearer(at: Array, near: Array, far: Array) -> Array:
    """A few steps of least squares for one point."""
    for _ in range(4):
        away = at - near
        length = np.maximum(np.linalg.norm(away, axis=1), 1e-6)
        at = at - np.linalg.lstsq(away / length[:, None], length - far, rcond=1e-3)[0]
    return at
