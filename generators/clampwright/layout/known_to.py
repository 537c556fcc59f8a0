"""How sure a layout's figures are: ± (95 %) of stations, holes and gaps, from how the tubes were measured."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Apart:
    """What measuring the distance between two tubes again, abreast of a clamp, does for its `across_mm`."""

    one: str
    """The reference's tube."""
    other: str
    """The clamp's own tube."""
    station_mm: float
    """Along the clamp's own tube."""
    distance_mm: float
    """Between the axes as laid out."""
    spread_mm: float
    """± (95 %) that the distance is known to now."""
    shared_mm2: float
    """1.96² times the covariance of that distance with the bolt's place against its hole."""
    mark_mm: float | None = None
    """Station of the mark on the clamp's own tube; None: it has none."""

    def left_mm(self, across_mm: float, measured_mm: float) -> float:
        """± that is left of `across_mm` once the distance is measured to ± `measured_mm`.

        A measurement of q narrows r: var r − cov(r, q)² / (var q + σ²).

        >>> round(Apart("a", "b", 0.0, 150.0, 2.0, 4.0).left_mm(2.5, 0.0), 3)
        1.5
        """
        gained = self.shared_mm2**2 / (self.spread_mm**2 + measured_mm**2) if self.shared_mm2 else 0.0
        return math.sqrt(max(0.0, across_mm**2 - gained))

    def needed_mm(self, across_mm: float, wanted_mm: float) -> float | None:
        """± to which the distance has to be measured for no more than ± `wanted_mm` to be left; None where no
        measurement of it is enough.

        >>> round(Apart("a", "b", 0.0, 150.0, 2.0, 4.0).needed_mm(2.0, 1.0), 3)
        1.155
        """
        over = across_mm**2 - wanted_mm**2
        if over <= 0:
            return math.inf
        least = self.shared_mm2**2 / over - self.spread_mm**2
        return math.sqrt(least) if least > 0 else None


@dataclass(frozen=True, slots=True)
class KnownTo:
    """± (95 %) of what one clamp's place rests on, after the part has settled on its clamps."""

    clamp: str
    """Label of the loop clamp."""
    station_mm: float
    """± of the station at which it ends when the part is on."""
    across_mm: float
    """± of its bolt against its hole, across the tube in the plane of the part: what no sliding takes up."""
    gap_mm: float
    """± of the length that its bushing or spacer has to fill."""
    given: bool
    """False where a default that nobody measured stands behind it."""
    most_from: str = ""
    """What the most of `across_mm` or `gap_mm` comes from, a phrase: "the place of middle-left", "the clamps'
    reach, which nobody measured"."""
    across_given: bool = True
    """As `given`, of `across_mm` alone."""
    gap_given: bool = True
    """As `given`, of `gap_mm` alone."""
    gap_most_from: str = ""
    """As `most_from`, of `gap_mm` alone."""
    reach_mm: float = 0.0
    """± of `across_mm` that comes from reaches nobody measured."""
    seat_mm: float = 0.0
    """± of `gap_mm` that comes from seats nobody measured."""
    carries: bool = False
    """True for a foot that the part stands on with its packing as listed: its gap is what it was cut to."""
    apart: Apart | None = None
    """What measuring again would do; None on the reference tube."""


def known(label: str, all_known: Iterable[KnownTo]) -> KnownTo | None:
    """That of one clamp; None where nothing is known of it.

    >>> known("A1", (KnownTo("A1", 1.0, 2.0, 0.5, True),)).across_mm
    2.0
    """
    return next((each for each in all_known if each.clamp == label), None)
