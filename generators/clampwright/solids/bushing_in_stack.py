"""Bushings where they sit in a stack, as they are made: with the part's mark and its chamfers."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from clampwright.layout.bushing_parts import chamfer_made
from clampwright.layout.joined import Joined
from clampwright.layout.placed import StackItem
from clampwright.solids.bushing import bushing_layer, bushing_product, made_for
from clampwright.solids.fastener import Bushing, plain_layer


def bushings_as_made(layout: Joined, labels: Iterable[str]) -> Callable[[StackItem], Bushing]:
    """What stands for a bushing in the stack at one of these labels: product and shape, upper face at z = 0.

    A layer that no listed part is made for is drawn plain.
    """
    wanted, parts = frozenset(labels), layout.bushings

    def bushing(item: StackItem) -> Bushing:
        part = made_for(parts, wanted, item)
        if part is None:
            return plain_layer(item)
        shape = bushing_layer(part.length_mm, part.od_mm, part.id_mm, chamfer_made(part))
        return bushing_product(part), shape

    return bushing
