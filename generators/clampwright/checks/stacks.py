"""The bolted stacks of a layout, each with the labels of what it holds."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.layout.placed import PlateLayout, Stack, StackItem


@dataclass(frozen=True, slots=True)
class Bolted:
    """A stack, where it stands, and whether its feet and lug are known (True where it has none)."""

    label: str
    owner: str
    stack: Stack
    feet_measured: bool
    lug_known: bool


def bolted(layout: PlateLayout) -> tuple[Bolted, ...]:
    """Every stack: the clamps' in their order, then each component's, hole by hole."""
    clamps = [Bolted(c.label, c.label, c.stack, "feet" in c.measured, True) for c in layout.clamps]
    carried = [
        Bolted(label, part.name, stack, True, _has_lug(stack))
        for part in layout.components
        for label, stack in zip(part.holes, part.stacks, strict=False)
    ]
    return (*clamps, *carried)


def _has_lug(stack: Stack) -> bool:
    return any(i.name == "component lug" for i in stack.items)


def feet_thickness(stack: Stack) -> float:
    """Thickness of the clamp feet in a stack, mm; 0 where there are none."""
    return sum(i.thickness_mm * i.count for i in stack.items if i.name == "clamp feet")


def single_washers(stack: Stack) -> tuple[StackItem, ...]:
    """The washers under the head and the nut, not those that pack a gap."""
    return tuple(i for i in stack.items if i.name == "washer")
