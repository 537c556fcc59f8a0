"""The bushings under a plate as parts to be made, and what they are cut from."""

from __future__ import annotations

from clampwright.layout.bushing_cuts import cut_list
from clampwright.layout.bushing_making import made_part, made_up
from clampwright.layout.bushing_parts import BushingPart, CutList
from clampwright.layout.bushing_stock import choose_stock
from clampwright.layout.increment import up_to
from clampwright.layout.placed import ClampPlace, PlateLayout, StackItem
from clampwright.recipe.bushing_model import BushingStock
from clampwright.trade.tables import rule


def plate_bushings(layout: PlateLayout) -> tuple[BushingPart, ...]:
    """Bushings under the plate as it is laid out, one a length, the shortest first."""
    held: dict[StackItem, list[ClampPlace]] = {}
    for clamp in layout.clamps:
        for item in clamp.packing:
            if item.name == "bushing":
                held.setdefault(item, []).append(clamp)
    lengths = sorted(held, key=lambda item: item.thickness_mm)
    zone, units = layout.recipe.zone, layout.recipe.units
    return tuple(
        made_part(
            f"S{number}",
            item.thickness_mm,
            choose_stock(held[item][0].stack.bolt, _usual_stock(), zone.temperature_c, units),
            [made_up(c.label, c.gap_mm, c.packing) for c in held[item]],
        )
        for number, item in enumerate(lengths, 1)
    )


def plate_cuts(layout: PlateLayout) -> CutList:
    """What to buy and cut for the bushings under a plate, by the usual saw and length of stock.

    Where a bushing is longer than that, the stock is as many usual lengths long as it takes.
    """
    parts, stock = plate_bushings(layout), _usual_stock()
    longest = max((part.length_mm for part in parts), default=0.0) + rule("bushing-facing").value
    bar = max(stock.stock_length_mm, up_to(longest, stock.stock_length_mm))
    return cut_list(parts, stock.kerf_mm, bar, layout.recipe.units)


def _usual_stock() -> BushingStock:
    """A plate's recipe says nothing of what its bushings are made from."""
    kerf, length = rule("bushing-kerf-default").value, rule("bushing-stock-length-default").value
    return BushingStock(None, None, None, kerf, length)
