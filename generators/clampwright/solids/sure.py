"""How sure the exact clearances are: ± (95 %) from how the tubes were measured."""

from __future__ import annotations

from itertools import product

from clampwright.layout.bodies import clearance
from clampwright.layout.clearance_known import Clear, Side, clear_along, clear_between
from clampwright.layout.drift import Drift
from clampwright.layout.drifts import Drifts, drifts
from clampwright.layout.joined import Joined
from clampwright.layout.rides_on import held_off
from clampwright.solids.apart import Places
from clampwright.solids.thing import Thing


class Sure:
    """A layout's drifts, as its things go with them."""

    __slots__ = ("_drifts", "_off")

    def __init__(self, layout: Joined) -> None:
        self._drifts: Drifts = drifts(layout)
        self._off = held_off(layout)

    def known(self, a: Thing, b: Thing, mm: float, places: Places) -> Clear:
        """An exact distance with its ±.

        The least of what it may be by any of its nearest places; its ± no less than that of the simple
        bodies, which are looked at to their ends.
        """
        one, other = self._side(a, b), self._side(b, a)
        known = [clear_along(mm, p, q, one, other, self._drifts) for p, q in places]
        known += self._simple(a, b, one, other, mm)
        return max(known, key=lambda clear: clear.plus_minus_mm, default=Clear(mm))

    def _simple(self, a: Thing, b: Thing, one: Side, other: Side, mm: float) -> list[Clear]:
        pairs = list(product(a.simple, b.simple))
        if not pairs:
            return []
        p, q = min(pairs, key=lambda pair: clearance(*pair))
        clear = clear_between(Side(p, one.drift, one.name), Side(q, other.drift, other.name), self._drifts)
        off = clear.plus_minus_mm
        return [Clear(mm, off, clear.measured_mm, clear.most_from, clear.default)]

    def _side(self, thing: Thing, other: Thing) -> Side:
        return Side(thing.solids[0].held_in, self._drift(thing, other), thing.what)

    def _drift(self, thing: Thing, other: Thing) -> Drift | None:
        if thing.sort in ("panel", "keep-out"):
            return None
        if thing.sort == "tube":
            return self._drifts.tubes.get(thing.label)
        off = self._off
        if (
            thing.sort == "line"
            and off is not None
            and other.key in (f"tube {off.tube}", f"clamp {off.label}")
        ):
            return self._drifts.owners[off.label]
        return self._drifts.owners.get(thing.label, self._drifts.part)
