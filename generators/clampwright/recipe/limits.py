"""What a recipe may ask for at the least and at the most: the `recipe-...` rows of the rules."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from clampwright.trade.tables import rule

_NOISE = 1e-9
"""Share of a limit by which the conversion of a unit may miss it."""


@dataclass(frozen=True, slots=True)
class Limits:
    """Least and greatest value, both allowed, in the project's own unit."""

    least: float
    most: float

    def hold(self, value: float) -> bool:
        """Whether a value is within them."""
        low, high = self.least - _NOISE * abs(self.least), self.most + _NOISE * abs(self.most)
        return low <= value <= high


@cache
def limits(name: str) -> Limits:
    """The limits of a quantity or count.

    >>> limits("tube-od")
    Limits(least=3.0, most=76.2)
    """
    return Limits(rule(f"recipe-{name}-least").value, rule(f"recipe-{name}-most").value)
