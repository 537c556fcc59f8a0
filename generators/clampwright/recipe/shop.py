"""The table [shop] of a recipe: what a shop is told beside the part itself. Every key may be left out."""

from __future__ import annotations

from clampwright.recipe.fields import Field, LeftOut, Table, Values
from clampwright.recipe.measures import Increment, Length
from clampwright.recipe.model import Shop
from clampwright.recipe.readers import Several, Text, Whole, one_of
from clampwright.trade.tables import rule

_SIDE = Length("sheet")

SHOP = Table(
    (
        Field(
            "drawing",
            one_of("iso", "ansi"),
            "Sheets that drawings stand on: A4, A3 ... or A, B ...",
            LeftOut(None, "iso in millimetres, ansi in inches"),
            '"iso" | "ansi"',
        ),
        Field(
            "projection",
            one_of("third", "first"),
            "Angle of projection of the drawings.",
            LeftOut("third", "third"),
            '"first"',
        ),
        Field(
            "tolerances",
            one_of("f", "m", "c", "v", "inch"),
            "General tolerance: a class of ISO 2768-1, or inch decimals.",
            LeftOut(None, "m in millimetres, inch in inches"),
            '"m" | "inch"',
        ),
        Field("finish", Text("a finish"), "Finish of the made parts.", LeftOut("", "none"), '"alodine"'),
        Field(
            "edge_break",
            Length("edge-break"),
            "How much sharp edges are broken by.",
            LeftOut(None, "the usual with file and cloth"),
            '"0.3 mm" | "0.010 in"',
        ),
        Field("quantity", Whole("shop-sets"), "Sets to be made.", LeftOut(1, "one"), "2"),
        Field(
            "spares",
            Whole("spares"),
            "Bought hardware on top of what is fitted, percent.",
            LeftOut(None, "the usual; never less than one of nuts and washers"),
            "20",
        ),
        Field(
            "chord_error",
            Length("chord-error"),
            "How far a mesh for a printed fit check may stray from the true surface.",
            LeftOut(None, "fine enough for a plastic print"),
            '"0.05 mm" | "0.002 in"',
        ),
        Field(
            "stock_sheet",
            Several(_SIDE, 2, 2, "lengths [width, length]", "the rolling direction runs along the length"),
            "Sheet that flat parts are nested on: width, and length along the rolling direction.",
            LeftOut(None, "the plate's own sheet, or a usual one"),
            '["500 mm", "1000 mm"] | ["24 in", "48 in"]',
        ),
        Field(
            "kerf",
            Increment("kerf"),
            "Width that the jet or beam takes between two parts.",
            LeftOut(None, "a usual waterjet"),
            '"1 mm" | "0.040 in"',
        ),
        Field(
            "edge_margin",
            Increment("sheet-margin"),
            "Rim of a stock sheet that no part may come into.",
            LeftOut(None, "a usual one"),
            '"10 mm" | "3/8 in"',
        ),
        Field(
            "grain",
            one_of("any", "along", "across"),
            "Long side of a flat part to the rolling direction.",
            LeftOut("any", "any"),
            '"along"',
        ),
    ),
    "What a shop is told beside the part.",
)


def shop_of(values: Values, units: str) -> Shop:
    """The typed table; what was left out is filled in from the rules."""
    inch = units == "in"
    return Shop(
        drawing=values["drawing"] or ("ansi" if inch else "iso"),
        projection=values["projection"],
        tolerances=values["tolerances"] or ("inch" if inch else "m"),
        finish=values["finish"],
        edge_break_mm=_or(values["edge_break"], "edge-break"),
        quantity=values["quantity"],
        spares_percent=int(_or(values["spares"], "spares-usual")),
        chord_error_mm=_or(values["chord_error"], "fit-check-chord-error"),
        stock_sheet_mm=values["stock_sheet"],
        kerf_mm=_or(values["kerf"], "jet-kerf-usual"),
        edge_margin_mm=_or(values["edge_margin"], "sheet-margin-usual"),
        grain=values["grain"],
    )


def usual_shop(units: str) -> Shop:
    """What a recipe without a [shop] table tells a shop.

    >>> usual_shop("in").drawing, usual_shop("mm").tolerances
    ('ansi', 'm')
    """
    left_out = {field.key: field.default.value for field in SHOP.fields if isinstance(field.default, LeftOut)}
    return shop_of(left_out, units)


def _or(written: float | None, row: str) -> float:
    return rule(row).value if written is None else written
