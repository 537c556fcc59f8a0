"""How far a size may be off, and why that is told at all."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limits:
    """How far a size may be off, and why it is told at all. Without it the general tolerance holds."""

    under_mm: float
    """Below the nominal size, positive."""
    over_mm: float
    why: str
    """A few words for the drawing: "so that the bolt fits", "as supplied"."""
    source: str
    """A key of sources.toml."""

    @property
    def even(self) -> bool:
        """Whether it is as much above as below: ±.

        >>> Limits(0.1, 0.1, "", "assumed").even, Limits(0.0, 0.15, "", "assumed").even
        (True, False)
        """
        return abs(self.over_mm - self.under_mm) <= 1e-9

    def holds(self, nominal_mm: float, size_mm: float) -> bool:
        """Whether a finished size is within the limits, its ends included.

        >>> Limits(0.0, 0.15, "", "assumed").holds(4.85, 5.0), Limits(0.0, 0.15, "", "assumed").holds(5, 4.9)
        (True, False)
        """
        return nominal_mm - self.under_mm - 1e-9 <= size_mm <= nominal_mm + self.over_mm + 1e-9
