"""Every example recipe laid out, and a plate of a small metric recipe."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from clampwright.layout.joined import Joined
from clampwright.layout.kinds import lay_out
from clampwright.layout.placed import PlateLayout
from clampwright.recipe.read import read, read_text

RECIPES = Path(__file__).parents[3] / "recipes"
EXAMPLES = (
    *("bundle-on-firewall", "coil-plate", "coil-plate-too-narrow", "oil-hose-stand-off", "plain-pair"),
    *("regulator-too-wide", "separator-bushings", "two-tube-minimum", "two-tubes-by-tape"),
)
PLATES = ("coil-plate", "coil-plate-too-narrow", "two-tube-minimum", "two-tubes-by-tape")


@cache
def example(name: str) -> Joined:
    """An example recipe's layout."""
    return lay_out(read(RECIPES / f"{name}.toml"))


def metric_plate(shop: str = "", error: str = "0.1", bolt: str = "M5", more: str = "") -> PlateLayout:
    """Two parallel tubes measured well, a relay on M5 bolts; lines of the recipe may be added."""
    lines = [
        'kind = "accessory plate"',
        'name = "relay-plate"',
        'units = "mm"',
        f"measuring.error = {error}",
        f'fastener.bolt = "{bolt}"',
        "clamps.at = [",
        "  { tube = 'low', station = 150, reach = 20, seat = 12 },",
        "  { tube = 'low', station = 350, reach = 20, seat = 12 },",
        "  { tube = 'high', station = 250, reach = 20, seat = 12 },",
        "]",
        "plate.round_to = 0",
        "structure.tubes.low = { start = [0, 0, 0], end = [500, 0, 0], od = 19.05 }",
        "structure.tubes.high = { start = [0, 150, 0], end = [500, 150, 0], od = 19.05 }",
        'carries = [{ name = "relay", mass = "0.1 kg", holes = [[-15, 0], [15, 0]], bolt = "M5" }]',
        *([f"shop = {{ {shop} }}"] if shop else []),
        *([more] if more else []),
    ]
    found = lay_out(read_text("\n".join(lines)))
    assert isinstance(found, PlateLayout)
    return found
