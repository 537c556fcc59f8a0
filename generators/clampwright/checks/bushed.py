"""The bushings of a layout where they stand: their joint, their layer in its stack, and the part as made."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.layout.bushing_parts import BushingPart
from clampwright.layout.joined import Joined, Joint
from clampwright.layout.placed import StackItem


@dataclass(frozen=True, slots=True)
class Bushed:
    """One bushing in a joint's stack. `part` is None where the parts list has it not."""

    joint: Joint
    item: StackItem
    part: BushingPart | None
    neighbours: tuple[StackItem, ...]
    """The layers that it bears on."""

    @property
    def od_mm(self) -> float:
        """Outside diameter."""
        return self.item.od_mm or 0.0

    @property
    def id_mm(self) -> float:
        """Bore."""
        return self.item.id_mm or 0.0

    @property
    def length_mm(self) -> float:
        """Length in the stack."""
        return self.item.thickness_mm * self.item.count


def bushed(layout: Joined) -> tuple[Bushed, ...]:
    """Every bushing in every stack, joint by joint."""
    parts = layout.bushings
    found = []
    for joint in layout.joints:
        items = joint.stack.items
        for i, item in enumerate(items):
            if item.name == "bushing" and item.od_mm is not None and item.id_mm is not None:
                beside = (*items[max(0, i - 1) : i], *items[i + 1 : i + 2])
                found.append(Bushed(joint, item, _part(joint, item, parts), beside))
    return tuple(found)


def _part(joint: Joint, item: StackItem, parts: tuple[BushingPart, ...]) -> BushingPart | None:
    """The part made for a joint; of several lengths the one nearest to the layer's."""
    labels = {joint.label, *joint.clamps}
    mine = [part for part in parts if any(fill.where in labels for fill in part.fills)]
    return min(mine, key=lambda part: abs(part.length_mm - item.thickness_mm), default=None)
