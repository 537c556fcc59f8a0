"""Numbers that say how the arithmetic is done, not how anything is measured."""

from __future__ import annotations

SPAN = 1000.0
"""Length of the upward vector, of the order of the figure's size: columns of like weight."""

UP = (0.0, 0.0, SPAN)

SEED = 20
"""Of the starts that are drawn by lot: the same survey gives the same answer."""
