"""What the fields of a title block say, in the words that they are printed in."""

from __future__ import annotations

import re
from collections.abc import Sequence

from clampwright.checks.finding import Finding
from clampwright.layout.shop.told import FlatPart
from clampwright.quantities import show_mass
from clampwright.recipe.model import Shop
from clampwright.sheets.both_units import both
from clampwright.sheets.lettering import bound
from clampwright.sheets.shop.block import Block
from clampwright.sheets.shop.cell_or_note import cell_or_note
from clampwright.sheets.shop.flat_notes import material_of, notes, stock_of
from clampwright.sheets.verdict import counts, failing, in_short
from clampwright.trade.general_tolerances import block_words

_BETWEEN = re.compile("(?<![,;]) ")
"""Spaces within one tolerance."""
NO_FINISH = "none asked for"
_SMALL_KG = 0.5
"""Below it a mass is told in grams and ounces."""


def flat_block(
    part: FlatPart, findings: Sequence[Finding], scale: str, sheet: int = 1, sheets: int = 1
) -> Block:
    """Title block of a part cut from sheet.

    Parameters
    ----------
    part : FlatPart
        The part.
    findings : Sequence[Finding]
        Of its recipe: one that fails says DO NOT MAKE.
    scale : str
        "1:2".
    sheet, sheets : int
        Which sheet of how many.
    """
    told = tuple(notes(part))
    return Block(
        number=part.number,
        title=part.title,
        about=part.about or part.recipe,
        document="part drawing",
        revision=part.digest,
        scale=scale,
        units=units_words(part.units),
        tolerances=tolerance_words(part.shop, part.units),
        material=cell_or_note("material", material_of(part), told),
        stock=cell_or_note("stock", stock_of(part), told),
        finish=cell_or_note("finish", part.shop.finish or NO_FINISH, told),
        edge_break=edge_words(part.shop, part.units),
        quantity=str(part.quantity),
        mass=mass_words(part.mass_kg, part.units),
        projection=part.shop.projection,
        checks=counts(findings),
        sheet=sheet,
        sheets=sheets,
        stop=in_short(failing(findings)),
    )


def units_words(units: str) -> str:
    """The drawing's units in a sentence: an inch drawing has millimetres behind in brackets.

    >>> units_words("in"), units_words("mm")
    ('ALL SIZES IN INCHES [MILLIMETRES IN BRACKETS]', 'ALL SIZES IN MILLIMETRES')
    """
    return "ALL SIZES IN INCHES [MILLIMETRES IN BRACKETS]" if units == "in" else "ALL SIZES IN MILLIMETRES"


def tolerance_words(shop: Shop, units: str) -> tuple[str, ...]:
    r"""General tolerances, a line each, broken only between two of them; the units have their own field.

    >>> from clampwright.recipe.shop import usual_shop
    >>> tolerance_words(usual_shop("in"), "in")[0].replace("\xa0", " ")
    '.X ± .030; .XX ± .010; .XXX ± .005'
    """
    lines = (line.replace("  ", "; ") for line in block_words(shop, units)[1:])
    return tuple(_BETWEEN.sub(lambda space: bound(space[0]), line) for line in lines)


def edge_words(shop: Shop, units: str) -> str:
    """What is done to sharp edges.

    >>> from clampwright.recipe.shop import usual_shop
    >>> edge_words(usual_shop("mm"), "mm")
    'break 0.30 mm (0.012 in) at most, no burrs'
    """
    if shop.edge_break_mm <= 0:
        return "deburr, no sharp edge"
    return f"break {both(shop.edge_break_mm, units)} at most, no burrs"


def mass_words(kg: float, units: str) -> str:
    """Mass of one piece, the recipe's unit first.

    >>> mass_words(0.1, "mm"), mass_words(0.1, "in")
    ('100.0 g (3.5 oz)', '3.5 oz (100.0 g)')
    """
    small = kg < _SMALL_KG
    metric, other = show_mass(kg, "g" if small else "kg"), show_mass(kg, "oz" if small else "lb")
    return f"{metric} ({other})" if units == "mm" else f"{other} ({metric})"
