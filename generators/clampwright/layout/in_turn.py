"""A body's place found by conditions in order: each takes of its freedom what those before it left."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.clamp_rows import Linear

Array = npt.NDArray[np.float64]

EXACT = 1e-9
"""Below this share of the whole a condition says nothing of a way of moving."""


@dataclass(frozen=True, slots=True)
class Condition:
    """Figures that are to stay as designed, in the sense of least squares; `least` is the smallest effect,
    a millimetre of movement, at which a way of moving still serves to keep them."""

    figures: tuple[Linear, ...]
    least: float = EXACT


def condition(figures: Iterable[Linear], least: float = EXACT) -> Condition:
    """Figures to be kept together."""
    return Condition(tuple(figures), least)


def in_turn(conditions: Sequence[Condition], count: int) -> Array:
    """Twists of the body, one an input, shape (6, count).

    The first condition is met as well as can be; each further one by the movements that leave those before it
    as they are; what nothing says anything of does not move.
    """
    twists, free = np.zeros((6, count)), np.eye(6)
    for each in conditions:
        if not each.figures or not free.shape[1]:
            continue
        moves = np.array([figure.twist for figure in each.figures]) @ free
        off = np.array([figure.after(twists) for figure in each.figures])
        left, sizes, right = np.linalg.svd(moves)
        serves = sizes > each.least * len(each.figures) ** 0.5
        kept = int(serves.sum())
        steps = right[:kept].T @ ((left[:, :kept].T @ off) / sizes[:kept, None])
        twists = twists - free @ steps
        free = free @ right[kept:].T
    return twists
