"""Bolted stacks as JSON."""

from __future__ import annotations

from clampwright.files.json_text import Json, number, numbers
from clampwright.layout.placed import BoltChoice, Stack, StackItem


def stack(found: Stack) -> Json:
    """A stack from the bolt's head to the nut, the bolt chosen and its neighbours."""
    torque = found.torque
    return {
        "bolt": found.bolt,
        "layers": [layer(item) for item in found.items],
        "thickness_mm": number(found.thickness_mm),
        "nut": found.nut.part,
        "nut_height_mm": number(found.nut.height_mm),
        "chosen": _choice(found.chosen),
        "below": _choice(found.below),
        "above": _choice(found.above),
        "torque_n_m": None if torque is None else numbers((torque.low_nm, torque.high_nm)),
        "torque_source": None if torque is None else torque.source,
    }


def layer(item: StackItem) -> Json:
    """One layer: `count` equal pieces."""
    return {
        "name": item.name,
        "part": item.part,
        "thickness_mm": number(item.thickness_mm),
        "count": item.count,
        "od_mm": number(item.od_mm),
        "id_mm": number(item.id_mm),
    }


def _choice(choice: BoltChoice | None) -> Json | None:
    if choice is None:
        return None
    return {
        "part": choice.length.part,
        "grip_mm": number(choice.length.grip_mm),
        "length_mm": number(choice.length.length_mm),
        "shank_past_stack_mm": number(choice.shank_past_stack_mm),
        "threads_in_stack": number(choice.threads_in_stack),
        "threads_showing": number(choice.threads_showing),
        "fits": choice.fits,
    }
