"""Which of the round things in a STEP file are tubes, and why the others are none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from clampwright.structure.step.axes import Line, runs_of
from clampwright.structure.step.pieces import Run, Whole
from clampwright.structure.uncertainty import Array
from clampwright.trade.tables import rule


@dataclass(frozen=True, slots=True, eq=False)
class Taken:
    """Something that is offered as a tube."""

    whole: Whole
    covered: Array
    """Angle covered at evenly spaced stations of each of its runs, radians, weighed by length."""
    weights: Array
    bore_mm: float | None

    @property
    def coverage_rad(self) -> float:
        """Mean over its length, gaps left out."""
        return float(np.average(self.covered, weights=self.weights))

    @property
    def median_rad(self) -> float:
        """What it has at least over half its length."""
        order = np.argsort(self.covered)
        shares = np.cumsum(self.weights[order]) / np.sum(self.weights)
        return float(self.covered[order][int(np.searchsorted(shares, 0.5))])

    @property
    def diameters_long(self) -> float:
        return self.whole.length_mm / self.whole.od_mm


@dataclass(frozen=True, slots=True, eq=False)
class Refused:
    """Something round that is no tube, and why; `whole` for where it is."""

    whole: Whole
    why: str
    """"" where it is round all right, and too short."""


def judged(whole: Whole, bores: Sequence[Line]) -> Taken | Refused:
    """Whether a whole is offered as a tube.

    It is where it has skin nearly all round (rule `step-round-least`) over enough of its length (rule
    `step-round-share`), and is long enough for a clamp: as long as it is thick, and rule `tube-length-least`.
    """
    least = np.radians(rule("step-round-least").value)
    if max(run.wide_rad for run in whole.runs) < least:
        return Refused(whole, "rounded corner, fillet or half-round: skin on one side only")
    covered = np.concatenate([run.covered() for run in whole.runs])
    lengths = [run.high_mm - run.low_mm for run in whole.runs]
    weights = np.repeat(lengths, len(covered) // len(whole.runs))
    if np.average(covered >= least, weights=weights) < rule("step-round-share").value:
        return Refused(whole, "rounded corner, fillet or half-round: not round over most of its length")
    if whole.length_mm < shortest_mm(whole.od_mm) - rule("step-same-within").value:
        return Refused(whole, "")
    return Taken(whole, covered, weights, _bore(whole, bores))


def shortest_mm(od_mm: float) -> float:
    """Shortest tube that is offered: as long as it is thick, and rule `tube-length-least`."""
    return max(od_mm, rule("tube-length-least").value)


def _bore(whole: Whole, bores: Sequence[Line]) -> float | None:
    """Diameter of the hole about a whole's axis that runs through most of it; None for a solid bar."""
    found = [
        (length, 2 * line.radius_mm)
        for line in bores
        if line.radius_mm < whole.line.radius_mm and whole.line.shares_axis(line)
        for length in [_length_in(whole, line)]
        if length >= rule("step-bore-share").value * whole.length_mm
    ]
    return max(found)[1] if found else None


def _length_in(whole: Whole, line: Line) -> float:
    least = np.radians(rule("step-round-least").value)
    runs = (Run(line, faces) for faces in runs_of(line))
    common = (whole.common(run) for run in runs if run.wide_rad >= least)
    return sum(high - low for low, high in filter(None, common))
