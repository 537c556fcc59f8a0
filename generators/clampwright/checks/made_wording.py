"""Words of the checks of finished parts: ways on the plate, shifts and turns, how well it was measured."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from itertools import combinations

from clampwright.checks.asked import SAME_MM
from clampwright.checks.finding import Finding
from clampwright.checks.wording import shown
from clampwright.layout.as_made import BestFit, GroupFit
from clampwright.layout.joined import Joined
from clampwright.quantities import Vec2, fixed, length_mm
from clampwright.recipe.measured_model import MeasuredPart
from clampwright.trade.tables import rule

_EIGHTH = math.sin(math.pi / 8)


@dataclass(frozen=True, slots=True)
class Made:
    """What the checks of finished parts look at."""

    layout: Joined
    measured: MeasuredPart
    fit: BestFit

    @property
    def given(self) -> bool:
        """Whether somebody said how well it was measured."""
        return self.measured.plus_minus_mm is not None

    @property
    def error_mm(self) -> float:
        """± (95 %) of a measured figure: stated, or the usual of calipers."""
        stated = self.measured.plus_minus_mm
        return rule("caliper-error").value if stated is None else stated

    @property
    def size_error_mm(self) -> float:
        """± (95 %) of a size that calipers take between their jaws: a diameter, a length, a thickness."""
        stated = self.measured.plus_minus_mm
        return rule("caliper-size-error").value if stated is None else stated

    def measured_to(self) -> str:
        """Of places, in words: "measured to ± 0.15 mm, a default nobody stated"."""
        return f"measured to ± {shown(self.error_mm, self.layout)}{self._default}"

    def sized_to(self) -> str:
        """The same of diameters, lengths and the thickness."""
        return f"measured to ± {shown(self.size_error_mm, self.layout)}{self._default}"

    @property
    def _default(self) -> str:
        return "" if self.given else ", a default nobody stated"


def toward(way: Vec2) -> str:
    """A direction on the plate, seen from the component side with its datum corner at the lower left.

    >>> toward((-1.0, 0.0)), toward((0.7, 0.7))
    ('toward the left edge', 'toward the right and top edges')
    """
    across = "" if abs(way[0]) <= _EIGHTH else "right" if way[0] > 0 else "left"
    up = "" if abs(way[1]) <= _EIGHTH else "top" if way[1] > 0 else "bottom"
    if across and up:
        return f"toward the {across} and {up} edges"
    return f"toward the {across or up} edge"


def moved(group: GroupFit, layout: Joined) -> str:
    """A group's shift and turn in words; "" where they are too small to tell.

    "0.20 mm right and 0.10 mm down, turned 0.11° counter-clockwise".
    """
    least = rule("made-shift-told").value
    parts = []
    for value, plus, minus in ((group.shift[0], "right", "left"), (group.shift[1], "up", "down")):
        if abs(value) >= least:
            parts.append(f"{shown(abs(value), layout)} {plus if value > 0 else minus}")
    words = " and ".join(parts)
    degrees = math.degrees(group.turn_rad)
    if f"{abs(degrees):.2f}" != "0.00":
        turn = f"turned {abs(degrees):.2f}° {'counter-clockwise' if degrees > 0 else 'clockwise'}"
        words = f"{words}, {turn}" if words else turn
    return words


def told_apart(values_mm: Sequence[float], layout: Joined) -> tuple[str, ...]:
    """Lengths with so many decimals that those which differ are shown to.

    Up to two more than usual; those that agree even then are as good as equal.
    """
    units = layout.recipe.units
    usual, one = {"mm": 2, "in": 3}[units], length_mm(1.0, units)
    if not _shown_alike([shown(value, layout) for value in values_mm], values_mm):
        return tuple(shown(value, layout) for value in values_mm)
    for decimals in range(usual + 1, usual + 3):
        told = tuple(f"{fixed(value / one, decimals)} {units}" for value in values_mm)
        if not _shown_alike(told, values_mm):
            break
    return told


def _shown_alike(told: Sequence[str], values_mm: Sequence[float]) -> bool:
    """Whether two that differ are shown as one."""
    return any(
        length_mm(a) == length_mm(b) and abs(x - y) > SAME_MM
        for (a, x), (b, y) in combinations(zip(told, values_mm, strict=True), 2)
    )


def recoded(found: Finding, code: str, what: str) -> Finding:
    """A finding of another check as one of this."""
    return partial(Finding, code, what)(
        found.where,
        found.verdict,
        found.value,
        found.limit,
        found.unit,
        found.says,
        found.change,
        found.sources,
        found.plus_minus,
    )
