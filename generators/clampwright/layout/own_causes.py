"""What errs beside the tubes: clamps' reach and seat, rounded holes, places of a line, panel or component."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from clampwright.layout.joined import Loop
from clampwright.trade.tables import rule

REACH, SEAT, ROUNDED, PLACE = "reach", "seat", "rounded", "place"


@dataclass(frozen=True, slots=True)
class OwnCause:
    """One cause of error of a layout's own; every clamp in `clamps` errs by it alike."""

    kind: str
    """"reach", "seat", "rounded" (a hole's coordinate) or "place" (of line, panel or component)."""
    of: tuple[str, ...]
    """Labels of the clamps that it belongs to, or the name of the line, panel or component."""
    axis: int
    """Coordinate: 0, 1, 2; 0 where there is but one."""
    sigma_mm: float
    """One standard deviation."""
    given: bool
    said: str
    """What it is, a phrase: "the clamps' reach, which nobody measured"."""


def clamp_causes(loops: Sequence[Loop], coverage: float) -> Iterator[OwnCause]:
    """Reach and seat: measured clamps err each on its own, unmeasured ones of one size alike."""
    for kind in (REACH, SEAT):
        for loop in loops:
            if kind in loop.measured:
                sigma = rule("caliper-error").value / coverage
                yield OwnCause(kind, (loop.label,), 0, sigma, True, f"the clamps' {kind} as measured")
        unmeasured = [loop for loop in loops if kind not in loop.measured]
        for size in dict.fromkeys(loop.clamp.dash for loop in unmeasured):
            labels = tuple(loop.label for loop in unmeasured if loop.clamp.dash == size)
            sigma = rule("reach-error-default").value / coverage
            yield OwnCause(kind, labels, 0, sigma, False, f"the clamps' {kind}, which nobody measured")


def rounded_causes(loops: Sequence[Loop], increment_mm: float) -> Iterator[OwnCause]:
    """Both coordinates of each hole, evenly spread over the increment: standard deviation r/√12 (JCGM 100,
    4.3.7)."""
    if increment_mm > 0:
        for loop in loops:
            for axis in (0, 1):
                sigma = increment_mm / 12**0.5
                yield OwnCause(ROUNDED, (loop.label,), axis, sigma, True, "rounding of the holes")


def place_causes(
    name: str, error_mm: float, given: bool, coverage: float, axes: int = 3
) -> Iterator[OwnCause]:
    """A measured place: each coordinate on its own."""
    for axis in range(axes):
        yield OwnCause(PLACE, (name,), axis, error_mm / coverage, given, f"the place of {name}")
