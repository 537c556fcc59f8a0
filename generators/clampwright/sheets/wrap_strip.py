"""Paper strips that are wrapped round tubes: how long, from which station to which, where marks lie."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from clampwright.layout.clock import Clock
from clampwright.layout.joined import Joined, Loop, line_named
from clampwright.layout.packing import STEPS
from clampwright.sheets.where_on_tube import face_clock, feet_clock
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule

WORDS = 13.0
"""Along the tube, between the edge that is laid at a station and the first band: room for its words."""

BEYOND = 6.0
"""From the last band to the other edge."""

_APART_DEG = 20.0
_SEAMS = tuple(sorted((15.0 + 30.0 * n for n in range(12)), key=lambda deg: (abs(deg - 180.0), deg)))
"""Between the hours, so that no tick lies on the seam; the bottom of the tube first."""


@dataclass(frozen=True, slots=True)
class Strip:
    """One strip: round the tube to the right (clockwise seen from the start), along it upwards."""

    tube: Tube
    loops: tuple[Loop, ...]
    """By station."""
    low_mm: float
    """Stations of its lower and upper edge."""
    high_mm: float
    by_upper: bool
    """Whether it is the upper edge that is laid at its station; else the lower one."""
    seam_deg: float
    """Clock of its left edge."""
    zero: Clock
    """Of any direction: what counts as zero on this tube."""

    @property
    def length_mm(self) -> float:
        """Round the tube: pi times its outside diameter, the paper's thickness not counted."""
        return math.pi * self.tube.od_mm

    @property
    def height_mm(self) -> float:
        """Along the tube."""
        return self.high_mm - self.low_mm

    @property
    def edge_mm(self) -> float:
        """Station of the edge that is laid at its station."""
        return self.high_mm if self.by_upper else self.low_mm

    @property
    def mark_up_mm(self) -> float | None:
        """Distance of the tube's mark from the lower edge; None where there is none, or not on this strip.

        >>> tube = Tube("t", (0, 0, 0), (9, 0, 0), 20.0, mark_mm=4.0)
        >>> Strip(tube, (), 1.0, 9.0, False, 195.0, None).mark_up_mm
        3.0
        """
        mark = self.tube.mark_mm
        return self.up(mark) if mark is not None and self.low_mm <= mark <= self.high_mm else None

    def across(self, deg: float) -> float:
        """Distance of a clock from the left edge, mm.

        >>> round(Strip(Tube("t", (0, 0, 0), (9, 0, 0), 20.0), (), 0, 9, False, 195.0, None).across(0.0), 3)
        28.798
        """
        return (deg - self.seam_deg) % 360.0 / 360.0 * self.length_mm

    def up(self, station_mm: float) -> float:
        """Distance of a station from the lower edge, mm."""
        return station_mm - self.low_mm


@dataclass(frozen=True, slots=True)
class Piece:
    """As much of a strip as fits across a page: from `start` to `end` mm from its left edge."""

    strip: Strip
    number: int
    count: int
    start: float
    end: float

    @property
    def name(self) -> str:
        """The clamps it marks, and which piece it is."""
        labels = ", ".join(loop.label for loop in self.strip.loops)
        return labels + (f", piece {self.number} of {self.count}" if self.count > 1 else "")


def strips(layout: Joined, most_mm: float) -> tuple[Strip, ...]:
    """The strips of every tube that has clamps, tube by tube; neighbours share one not longer than `most_mm`.

    Carried lines have none.
    """
    units = layout.recipe.units
    carried = {line.name for line in layout.lines}
    tubes = dict.fromkeys(loop.tube for loop in layout.loops if loop.tube not in carried)
    made = []
    for name in tubes:
        tube = line_named(name, layout)
        held = sorted((loop for loop in layout.loops if loop.tube == name), key=lambda loop: loop.station_mm)
        made += [_strip(tube, group, units) for group in _groups(held, most_mm)]
    return tuple(made)


def _groups(loops: Sequence[Loop], most_mm: float) -> list[tuple[Loop, ...]]:
    groups: list[list[Loop]] = []
    for loop in loops:
        if groups and _together(groups[-1], loop, most_mm):
            groups[-1].append(loop)
        else:
            groups.append([loop])
    return [tuple(group) for group in groups]


def _together(group: Sequence[Loop], loop: Loop, most_mm: float) -> bool:
    """Whether a clamp's band lies clear of the last one's, and near enough to the first one's."""
    low, high = _band(loop)
    step = max(rule(f"wrap-edge-step-{each}").value for each in STEPS.values())
    return low >= _band(group[-1])[1] and high - _band(group[0])[0] + WORDS + BEYOND + step <= most_mm


def _band(loop: Loop) -> tuple[float, float]:
    half = loop.clamp.band_width_mm / 2
    return loop.station_mm - half, loop.station_mm + half


def _strip(tube: Tube, loops: tuple[Loop, ...], units: str) -> Strip:
    low, high, by_upper = _edges(_band(loops[0])[0], _band(loops[-1])[1], tube, units)
    return Strip(tube, loops, low, high, by_upper, _seam(loops), feet_clock(loops[0]))


def _edges(first: float, last: float, tube: Tube, units: str) -> tuple[float, float, bool]:
    """Stations of both edges; the one that is laid at its station is a multiple of the step, on the tube.

    Steps count from the tube's mark where it has one, else from its start.
    """
    step, zero = rule(f"wrap-edge-step-{STEPS[units]}").value, tube.mark_mm or 0.0
    low = zero + math.floor((first - zero - WORDS) / step + 1e-9) * step
    high = zero + math.ceil((last - zero + WORDS) / step - 1e-9) * step
    if low < 0 and high <= tube.length_mm:
        return first - BEYOND, high, True
    return low, last + BEYOND, False


def _seam(loops: Sequence[Loop]) -> float:
    """Clock of the seam: away from every mark, at the bottom if it may be."""
    marks = [0.0, *(c(loop).deg for loop in loops for c in (feet_clock, face_clock))]

    def clear(seam: float) -> float:
        return min(min((seam - mark) % 360.0, (mark - seam) % 360.0) for mark in marks)

    return next((seam for seam in _SEAMS if clear(seam) >= _APART_DEG), max(_SEAMS, key=clear))


def pieces(strip: Strip, wide_mm: float) -> tuple[Piece, ...]:
    """A strip in equal pieces, each of which fits across `wide_mm` with its tab."""
    room = wide_mm - rule("wrap-tab").value
    count = max(1, math.ceil(strip.length_mm / room - 1e-9))
    each = strip.length_mm / count
    return tuple(Piece(strip, n + 1, count, n * each, (n + 1) * each) for n in range(count))
