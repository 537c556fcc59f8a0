"""How true a print is: the correction from the measured bars, and the error that is left."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.quantities import Vec2
from clampwright.trade.tables import rule


def bar_mm() -> float:
    """Length of the bars that are measured: 100 mm."""
    return rule("bar-metric").value


def tolerance_mm() -> float:
    """How far from its length a bar may measure on a print that needs no correction."""
    return rule("print-tolerance").value / 100 * bar_mm()


@dataclass(frozen=True, slots=True)
class PrintCheck:
    """What the measured bars say.

    `stretch` are the factors across and along that this file is drawn with; `last` is the last measured
    pair, `refused` the pairs too far off to be measurements of these bars.
    """

    stretch: Vec2
    last: Vec2 | None
    prints: int
    verified: bool
    refused: tuple[Vec2, ...]

    def last_error(self, span: Vec2) -> float | None:
        """How far off the last print put two points that lie `span` mm apart (across, along)."""
        if self.last is None:
            return None
        across, along = (length / bar_mm() - 1 for length in self.last)
        return math.hypot(span[0] * across, span[1] * along)


def print_check(prints: tuple[Vec2, ...]) -> PrintCheck:
    """The correction after the prints so far, oldest first.

    A pair with a bar outside the tolerance multiplies the stretch by 100/measured, across and along; the
    print is verified once the last pair lies within it.

    Examples
    --------
    >>> first = print_check(((99.2, 99.4),))
    >>> [round(factor, 5) for factor in first.stretch], first.verified
    ([1.00806, 1.00604], False)
    >>> print_check(((99.2, 99.4), (100.05, 99.95))).verified
    True
    """
    bar, tolerance, most = bar_mm(), tolerance_mm(), rule("template-bar-most").value
    across = along = 1.0
    verified = False
    refused = []
    last = None
    for pair in prints:
        off = max(abs(length - bar) for length in pair)
        if not off <= most:
            refused.append(pair)
            verified = False
            continue
        last = pair
        verified = off <= tolerance + 1e-9
        if not verified:
            across, along = across * bar / pair[0], along * bar / pair[1]
    return PrintCheck((across, along), last, len(prints), verified, tuple(refused))


def reading_error(span: Vec2) -> float:
    """± at two points `span` mm apart from reading the bars: distance times reading over bar length."""
    return math.hypot(*span) * rule("template-bar-reading").value / bar_mm()


def tolerated_error(span: Vec2) -> float:
    """± at two points `span` mm apart on a print whose bars just lie within the tolerance."""
    return math.hypot(*span) * tolerance_mm() / bar_mm()
