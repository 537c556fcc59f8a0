"""The order in which parts are laid: some good ones, then small changes to the best, as long as work lasts.

Bounded by work and never by time, and with its own numbers for chance: the same parts always come to lie the
same way.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from random import Random

from clampwright.nesting.placing import OneSheet, Placer
from clampwright.structure.wording import counted

Order = tuple[int, ...]
Score = tuple[int, float]
"""Sheets, then the sum of lengths in use, mm, without margins."""
Step = Callable[[str], None]

WORK_FEW, WORK_EACH = 15000, 400
"""How much a search may do, in no-fit polygons taken off: in all, and for every part beside."""
_SAME_MM = 1e-3
_CHANCE = 19


@dataclass(frozen=True, slots=True)
class Found:
    """A way to lay all parts."""

    score: Score
    sheets: tuple[OneSheet, ...]


def search(placer: Placer, orders: Sequence[Order], least: Score, step: Step = lambda words: None) -> Found:
    """The best way found, starting with `orders`; done early where it is as good as `least`."""
    tried = _Trying(placer)
    for order in orders:
        for sunk in (False, True):
            tried.attempt(order, sunk)
            if tried.best.score <= _nearly(least):
                return tried.best
    chance = Random(_CHANCE)
    enough = WORK_FEW + WORK_EACH * len(orders[0])
    told = 0
    while placer.work < enough:
        order, sunk = _changed(tried.order, chance), chance.random() < 0.5
        if not tried.attempt(order, sunk):
            placer.work += 1
        if tried.best.score <= _nearly(least):
            break
        if placer.work * 4 // enough > told:
            told = placer.work * 4 // enough
            step(f"nesting, {min(100, 25 * told)} %: {_words(tried.best.score)}")
    return tried.best


class _Trying:
    """The best so far, with the states on the way to it: orders that begin alike share their beginning."""

    def __init__(self, placer: Placer) -> None:
        self._placer = placer
        self._ways: dict[tuple[Order, bool], list[OneSheet]] = {}
        self.order: Order = ()
        self.best = Found((10**9, math.inf), ())

    def attempt(self, order: Order, sunk: bool) -> bool:
        """Lay the parts in this order, up to where it gets worse than the best; whether it had any to lay."""
        done = self._known(order, sunk)
        sheets = self._ways.get((order[:done], sunk), [])
        if done == len(order):
            return False
        ways = {}
        for count in range(done + 1, len(order) + 1):
            sheets = self._placer.add(sheets, order[count - 1], sunk)
            ways[order[:count], sunk] = sheets
            if _score(sheets) > _nearly(self.best.score):
                return True
        score = _score(sheets)
        if score < self.best.score:
            self.best = Found(score, tuple(sheets))
        self._keep(order, sunk, ways)
        return True

    def _known(self, order: Order, sunk: bool) -> int:
        return next((k for k in range(len(order), 0, -1) if (order[:k], sunk) in self._ways), 0)

    def _keep(self, order: Order, sunk: bool, ways: dict[tuple[Order, bool], list[OneSheet]]) -> None:
        """The states on the way to the order that is changed next."""
        self.order = order
        begun = {(order[:k], sunk) for k in range(len(order) + 1)}
        self._ways = {key: way for key, way in self._ways.items() if key in begun or key[1] != sunk} | ways


def _changed(order: Order, chance: Random) -> Order:
    """Two parts exchanged, or one moved elsewhere."""
    i, j = chance.randrange(len(order)), chance.randrange(len(order))
    changed = list(order)
    if chance.random() < 0.5:
        changed[i], changed[j] = changed[j], changed[i]
    else:
        changed.insert(j, changed.pop(i))
    return tuple(changed)


def _score(sheets: Sequence[OneSheet]) -> Score:
    return len(sheets), math.fsum(sheet.top for sheet in sheets)


def _nearly(score: Score) -> Score:
    return score[0], score[1] + _SAME_MM


def _words(score: Score) -> str:
    return f"{counted(score[0], 'sheet')}, {score[1]:.0f} mm of length"
