"""How sure a layout's figures are: ± (95 %) of stations, holes and gaps, from how the tubes were measured."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


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


def known(label: str, all_known: Iterable[KnownTo]) -> KnownTo | None:
    """That of one clamp; None where nothing is known of it.

    >>> known("A1", (KnownTo("A1", 1.0, 2.0, 0.5, True),)).across_mm
    2.0
    """
    return next((each for each in all_known if each.clamp == label), None)
