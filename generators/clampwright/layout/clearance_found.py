"""What the exact solids leave between two things of a layout, and what their simple bodies say beside it."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.layout.clearance_known import Clear

CLAMPS = "clamp to clamp"
STRUCTURE = "to a tube or panel"
PARTS = "between parts"
KEEP_OUT = "to a keep-out"
OWN_STACK = "in one stack"
"""The kinds of pairs; only what runs into each other is told of the last, as it touches by design."""


@dataclass(frozen=True, slots=True)
class Clearance:
    """The least distance between the solids of two things, mm.

    `kind` is one of those above.
    """

    one: str
    """In words: "clamp A1", "bolt B2", "component separator"."""
    other: str
    kind: str
    exact_mm: float
    """0 where they touch or run into each other."""
    common_mm3: float
    """Volume that both fill; 0 unless they run into each other."""
    simple_mm: float | None
    """What the simple bodies leave between them; None where one has none."""
    asked_mm: float | None = None
    """Distance that a keep-out asks for."""
    known: Clear | None = None
    """The exact distance with its ±; None where they touch or run into each other."""

    @property
    def clear(self) -> Clear:
        """The exact distance, with its ± where that is known."""
        return self.known or Clear(self.exact_mm)
