"""Layers of a stack that checks ask for."""

from __future__ import annotations

from clampwright.layout.placed import Stack, StackItem


def feet_thickness(stack: Stack) -> float:
    """Thickness of the clamp feet in a stack, mm; 0 where there are none."""
    return sum(i.thickness_mm * i.count for i in stack.items if i.name == "clamp feet")


def single_washers(stack: Stack) -> tuple[StackItem, ...]:
    """The washers under the head and the nut, not those that pack a gap."""
    return tuple(i for i in stack.items if i.name == "washer")
