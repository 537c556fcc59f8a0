"""The kinds of clamps of a layout, each once."""

from __future__ import annotations

from clampwright.layout.joined import Joined
from clampwright.trade.clamps import LoopClamp


def clamp_kinds(layout: Joined) -> tuple[LoopClamp, ...]:
    """One clamp of each part number, in the order of the layout."""
    return tuple({c.clamp.part: c.clamp for c in layout.loops}.values())
