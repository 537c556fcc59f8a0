"""Keys of bushings and spacers as parts to be made."""

from __future__ import annotations

from clampwright.quantities import show_length
from clampwright.recipe.bushing_model import BushingStock
from clampwright.recipe.fields import ByRule, Field, LeftOut, Table, Values
from clampwright.recipe.measures import Increment, Length
from clampwright.recipe.readers import OneOf, one_of
from clampwright.recipe.written import Entry
from clampwright.trade.bolts import bolt
from clampwright.trade.tube_stock import bushing_materials


def _materials() -> tuple[str, ...]:
    return tuple(material.name for material in bushing_materials())


BUSHINGS = Table(
    (
        Field(
            "material",
            OneOf(_materials, "a bushing material"),
            "What they are made of.",
            LeftOut(None, "by the zone's temperature"),
            '"6061-T6"',
        ),
        Field(
            "make",
            one_of("tube", "rod"),
            "Cut from stock tube, or turned and bored from rod.",
            LeftOut(None, "tube where a stock size fits the bolt"),
            '"rod"',
        ),
        Field(
            "od",
            Length("bushing-od"),
            "Outside diameter.",
            LeftOut(None, "by rule for the bolt"),
            '"11 mm" | "7/16 in"',
        ),
        Field(
            "kerf",
            Increment("kerf"),
            "Width of the saw cut.",
            ByRule("bushing-kerf-default", "bushing-kerf-default", "a usual saw"),
            '"1.5 mm" | "1/16 in"',
        ),
        Field(
            "stock_length",
            Increment("stock-length"),
            "Length of the stock that is bought.",
            ByRule("bushing-stock-length-default", "bushing-stock-length-default", "a usual short length"),
            '"300 mm" | "12 in"',
        ),
    ),
    "What bushings are made from.",
)


def stock(values: Values) -> BushingStock:
    """The typed stock."""
    keys = ("material", "make", "od", "kerf", "stock_length")
    return BushingStock(*(values[key] for key in keys))


def bushing_faults(entry: Entry, values: Values, fastener: Values) -> None:
    """Note a bushing that the bolt does not go through."""
    od = values.get("od")
    if od is None or "bolt" not in fastener:
        return
    size = bolt(fastener["bolt"])
    if od <= size.shank_max_mm:
        shank = show_length(size.shank_max_mm, entry.units)
        hint = "the outside diameter of the bushing, with a wall left round the bolt"
        entry.inside("od").wrong(f"more than the shank of {size.name}, {shank}", hint)
