"""Runs of skin on one line joined to what is one tube."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.structure.step.axes import Line, OnLine, runs_of
from clampwright.structure.step.covered import covered
from clampwright.structure.uncertainty import Array
from clampwright.trade.tables import rule

_LOOKED_AT = 9


@dataclass(frozen=True, slots=True, eq=False)
class Run:
    """A stretch of a line without a gap."""

    line: Line
    faces: tuple[OnLine, ...]

    @property
    def low_mm(self) -> float:
        return min(face.low_mm for face in self.faces)

    @property
    def high_mm(self) -> float:
        return max(face.high_mm for face in self.faces)

    @property
    def solids(self) -> set[int]:
        return {face.skin.solid for face in self.faces}

    @property
    def wide_rad(self) -> float:
        """At least as much as it covers round its axis at any station."""
        return sum(face.wide_rad for face in self.faces)

    def covered(self) -> Array:
        """Angle covered at evenly spaced stations, radians."""
        return covered(self.faces, self.low_mm, self.high_mm)

    def holds(self, points: Array) -> npt.NDArray[np.bool_]:
        """Which points lie inside it, were it solid between square ends."""
        heights = (points - self.line.point) @ self.line.along
        near = self.line.off(points) <= self.line.radius_mm
        inside: npt.NDArray[np.bool_] = (heights >= self.low_mm) & (heights <= self.high_mm) & near
        return inside


@dataclass(frozen=True, slots=True, eq=False)
class Gap:
    """Where a joined tube has no skin of its own."""

    low_mm: float
    high_mm: float
    by_tube: bool
    """Another tube fills it; False: something else does, or nothing."""


@dataclass(frozen=True, slots=True, eq=False)
class Whole:
    """What may be a tube: one run, or several with the gaps between them."""

    runs: tuple[Run, ...]
    gaps: tuple[Gap, ...]

    @property
    def line(self) -> Line:
        return self.runs[0].line

    @property
    def low_mm(self) -> float:
        return self.runs[0].low_mm

    @property
    def high_mm(self) -> float:
        return self.runs[-1].high_mm

    @property
    def length_mm(self) -> float:
        return self.high_mm - self.low_mm

    @property
    def od_mm(self) -> float:
        return 2 * self.line.radius_mm

    @property
    def faces(self) -> tuple[OnLine, ...]:
        return tuple(face for run in self.runs for face in run.faces)

    @property
    def solids(self) -> set[int]:
        return {face.skin.solid for face in self.faces}

    def common(self, other: Run) -> tuple[float, float] | None:
        """Heights between which a run about the same axis lies beside it; None where it does nowhere."""
        low, high = self._heights(other)
        low, high = max(low, self.low_mm), min(high, self.high_mm)
        return (low, high) if high - low > rule("step-same-within").value else None

    def apart_mm(self, other: Run) -> float:
        """Length along the axis between it and a run about the same axis; negative where they overlap."""
        low, high = self._heights(other)
        return max(low - self.high_mm, self.low_mm - high)

    def _heights(self, other: Run) -> tuple[float, float]:
        ends = np.array([other.line.at(height) for height in (other.low_mm, other.high_mm)])
        low, high = sorted(map(float, (ends - self.line.point) @ self.line.along))
        return low, high


def wholes_of(lines: Sequence[Line]) -> tuple[Whole, ...]:
    """Everything on the lines, runs joined across gaps that are no end of the tube.

    Two runs about one axis with one diameter are one tube where another tube fills the gap between them, or
    where the gap is short (rule `step-gap-most`) and both runs are of one solid: something is welded round
    it there.
    """
    runs = {id(line): tuple(Run(line, faces) for faces in runs_of(line)) for line in lines}
    least = np.radians(rule("step-round-least").value)
    around = [run for line in lines for run in runs[id(line)] if run.wide_rad >= least]
    return tuple(whole for line in lines for whole in _joined(runs[id(line)], around))


def _joined(runs: Sequence[Run], around: Sequence[Run]) -> Iterator[Whole]:
    whole = Whole((runs[0],), ())
    for run in runs[1:]:
        gap = _gap(whole.runs[-1], run, around)
        if gap is None:
            yield whole
            whole = Whole((run,), ())
        else:
            whole = Whole((*whole.runs, run), (*whole.gaps, gap))
    yield whole


def _gap(below: Run, above: Run, around: Sequence[Run]) -> Gap | None:
    least = np.radians(rule("step-round-least").value)
    if min(below.wide_rad, above.wide_rad) < least:
        return None
    low, high = below.high_mm, above.low_mm
    shares = (np.arange(_LOOKED_AT) + 0.5) / _LOOKED_AT
    points = below.line.point + (low + shares * (high - low))[:, None] * below.line.along
    held = np.zeros(_LOOKED_AT, dtype=bool)
    for run in around:
        if not below.line.shares_axis(run.line):
            held |= run.holds(points)
    if held.all():
        return Gap(low, high, by_tube=True)
    short = high - low <= rule("step-gap-most").value * 2 * below.line.radius_mm
    return Gap(low, high, by_tube=False) if short and below.solids & above.solids else None
