"""Where a search starts: from the measured distances alone, by eye where that is given, and by lot."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from clampwright.structure.survey.built_up import built_up
from clampwright.structure.survey.frame import into_frame
from clampwright.structure.survey.kinds import Array
from clampwright.structure.survey.model import CENTRE, OUTSIDE, Along, Distance, Plumb, Survey
from clampwright.structure.survey.units import SEED

_PAIRS = (1, 4, 10, 10, 10)
"""Figures in each round, every one as it is and mirrored."""


def rounds(survey: Survey) -> Iterator[Array]:
    """Starts in rounds, shape (many, places, 3): the likeliest first, further ones if asked for.

    The first figure comes from the shortest ways along the measured distances by classical
    multidimensional scaling (Torgerson); then figures built up point by point, the first one disturbed, and
    figures drawn by lot. Every one is given as it is and mirrored. The same survey gives the same starts.
    """
    lot = np.random.default_rng(SEED)
    known = measured(survey)
    far = shortest(known)
    size = float(np.max(far, initial=1.0))
    plain = scaled(far)
    for turn, pairs in enumerate(_PAIRS):
        figures = [plain] if turn == 0 else []
        while len(figures) < pairs:
            built = built_up(known, lot) if len(figures) % 2 == 0 else None
            noise = (0.05, 0.4)[len(figures) // 2 % 2] * size * lot.normal(size=plain.shape)
            figures.append(plain + noise if built is None else built)
        both = [into_frame(survey, figure * sign) for figure in figures for sign in (1.0, -1.0)]
        yield np.stack([*_by_eye(survey, plain, turn, lot, size), *both])


def measured(survey: Survey) -> Array:
    """Measured distances, centre to centre as near as can be told, infinite where there is none."""
    count = len(survey.points)
    number = {point.name: i for i, point in enumerate(survey.points)}
    known = np.full((count, count), np.inf)
    np.fill_diagonal(known, 0.0)
    for a, b, length in _lengths(survey):
        i, j = number[a], number[b]
        known[i, j] = known[j, i] = min(known[i, j], length)
    return known


def shortest(known: Array) -> Array:
    """The shortest way between every two points; twice the median where no way leads from one to the other.

    >>> shortest(np.array([[0.0, 2.0, np.inf], [2.0, 0.0, 3.0], [np.inf, 3.0, 0.0]]))[0].tolist()
    [0.0, 2.0, 5.0]
    """
    far = known.copy()
    for middle in range(len(far)):
        far = np.minimum(far, far[:, middle, None] + far[None, middle, :])
    lengths = known[np.isfinite(known) & (known > 0)]
    far[~np.isfinite(far)] = 2.0 * float(np.median(lengths)) if lengths.size else 1.0
    return far


def _lengths(survey: Survey) -> Iterator[tuple[str, str, float]]:
    plumb = {frozenset((m.a, m.b)) for m in survey.measurements if isinstance(m, Plumb)}
    for m in survey.measurements:
        if isinstance(m, Distance):
            walls = sum(survey.tube(name).od_mm / 2 for name in m.over if name)
            sign = {CENTRE: 0.0, OUTSIDE: -1.0}.get(m.how, 1.0)
            yield m.a, m.b, max(m.value_mm + sign * walls, 0.1 * m.value_mm)
        elif isinstance(m, Along) and m.axis == "z" and frozenset((m.a, m.b)) in plumb and m.value_mm:
            yield m.a, m.b, abs(m.value_mm)


def scaled(far: Array) -> Array:
    """Points in space that lie about as far apart as `far` says, shape (points, 3).

    >>> square = np.array([[0, 3, 5, 4], [3, 0, 4, 5], [5, 4, 0, 3], [4, 5, 3, 0.0]])
    >>> figure = scaled(square)
    >>> np.linalg.norm(figure[0] - figure[2]).round(6).item()
    5.0
    """
    count = len(far)
    centred = np.eye(count) - np.full((count, count), 1.0 / max(count, 1))
    inner = -0.5 * centred @ far**2 @ centred
    values, vectors = np.linalg.eigh(inner)
    best = np.argsort(values)[::-1][:3]
    figure = np.zeros((count, 3))
    figure[:, : len(best)] = vectors[:, best] * np.sqrt(np.maximum(values[best], 0.0))
    return figure


def _by_eye(survey: Survey, plain: Array, turn: int, lot: np.random.Generator, size: float) -> list[Array]:
    """A start where points were placed by eye; the others where the distances put them, fitted to these."""
    known = [i for i, point in enumerate(survey.points) if point.rough is not None]
    if turn or len(known) < 3:
        return []
    placed = np.array([survey.points[i].rough for i in known], dtype=float)
    fitted = []
    for mirrored in (plain, plain * (1.0, 1.0, -1.0)):
        figure = laid_on(mirrored, known, placed) + 1e-3 * size * lot.normal(size=plain.shape)
        figure[known] = placed
        fitted.append(into_frame(survey, figure, keep=True))
    return fitted


def laid_on(figure: Array, known: list[int], placed: Array) -> Array:
    """A figure turned and shifted so that some of its points lie nearest to given places (Kabsch)."""
    own, target = figure[known].mean(axis=0), placed.mean(axis=0)
    u, _, v = np.linalg.svd((figure[known] - own).T @ (placed - target))
    sign = np.sign(np.linalg.det(u @ v)) or 1.0
    turn = u @ np.diag([1.0, 1.0, sign]) @ v
    return np.asarray((figure - own) @ turn + target, dtype=float)
