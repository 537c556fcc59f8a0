"""Keys of clamps, bolts and nuts: the same ones in every kind of recipe."""

from __future__ import annotations

from clampwright.recipe.fields import LEFT_OUT, Assumed, Field, LeftOut, Table
from clampwright.recipe.measures import Length
from clampwright.recipe.readers import HoleSize, OneOf, Text, Whole
from clampwright.trade.bolts import bolt_names
from clampwright.trade.cushions import clamp_codes
from clampwright.trade.hardware import nut_series

TUBE_NAME = Text("a tube's name")

_NOT_MEASURED = LeftOut(None, "the family's, not measured")

CODE = Field(
    "code",
    OneOf(clamp_codes, "a band and cushion"),
    "Band and cushion of the clamps.",
    LeftOut(None, "by temperature and fluids"),
    '"CH"',
)
_FASTENER = (
    Field(
        "bolt",
        OneOf(bolt_names, "a bolt"),
        "Bolt of the clamps.",
        Assumed("AN3", "what the feet of the clamps are drilled for", "practice"),
        '"AN3"',
    ),
    Field(
        "nut",
        OneOf(nut_series, "a series of lock nuts"),
        "Series of the lock nuts.",
        LeftOut(None, "by the zone's temperature"),
        '"MS21045"',
    ),
    Field(
        "nut_height",
        Length("nut-height"),
        "Height of the nut, measured.",
        LEFT_OUT,
        '"6.4 mm" | "0.25 in"',
    ),
)


def sizes(meets: str, on: str = "tube") -> tuple[Field, ...]:
    """Sizes of a clamp that is closed on a tube or a line, and whose outer foot meets something.

    >>> [field.key for field in sizes("plate")]
    ['reach', 'seat', 'feet', 'dash']
    """
    axis = f"{on.capitalize()} axis"
    seat = f"{axis} to the outer face of the foot that meets the {meets}, measured along the bolt."
    return (
        Field(
            "reach", Length("reach"), f"{axis} to bolt axis, measured.", _NOT_MEASURED, '"20 mm" | "0.78 in"'
        ),
        Field("seat", Length("seat"), seat, _NOT_MEASURED, '"13 mm" | "0.51 in"'),
        Field(
            "feet",
            Length("feet"),
            "Both feet squeezed together, measured.",
            _NOT_MEASURED,
            '"3.2 mm" | "0.125 in"',
        ),
        Field(
            "dash",
            Whole("dash"),
            "Size of the clamp in sixteenths of an inch.",
            LeftOut(None, f"by the {on}'s outside diameter"),
            "12",
        ),
    )


def fastener(hole_about: str = "") -> Table:
    """The bolts and nuts of the clamps, with the key `hole` where there is a hole to drill for them.

    >>> [field.key for field in fastener().fields]
    ['bolt', 'nut', 'nut_height']
    """
    left_out = LeftOut(None, "the drill for the bolt")
    hole = Field("hole", HoleSize(), hole_about, left_out, '"#11"')
    return Table((*_FASTENER, *((hole,) if hole_about else ())), "Bolts and nuts of the clamps.")
