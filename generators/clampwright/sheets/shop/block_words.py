"""What the fields of a title block say, in the words that they are printed in."""

from __future__ import annotations

from collections.abc import Sequence

from clampwright.checks.finding import Finding
from clampwright.layout.shop.told import FlatPart
from clampwright.quantities import show_mass
from clampwright.recipe.model import Shop
from clampwright.sheets.both_units import both
from clampwright.sheets.shop.block import Block
from clampwright.sheets.verdict import by_code, counts, failing
from clampwright.trade.general_tolerances import block_words

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
    return Block(
        number=part.number,
        title=part.title,
        about=part.about or part.recipe,
        document="part drawing",
        revision=part.digest,
        scale=scale,
        units=units_words(part.units),
        tolerances=tolerance_words(part.shop, part.units),
        material=material_words(part.material.name, part.specification),
        stock=f"sheet {both(part.thickness_mm, part.units)}",
        finish=part.shop.finish or "none asked for",
        edge_break=edge_words(part.shop, part.units),
        quantity=str(part.quantity),
        mass=mass_words(part.mass_kg, part.units),
        projection=part.shop.projection,
        checks=counts(findings),
        sheet=sheet,
        sheets=sheets,
        stop=by_code(failing(findings)),
    )


def units_words(units: str) -> str:
    """The drawing's units in a sentence: an inch drawing has millimetres behind in brackets.

    >>> units_words("in"), units_words("mm")
    ('ALL SIZES IN INCHES [MILLIMETRES IN BRACKETS]', 'ALL SIZES IN MILLIMETRES')
    """
    return "ALL SIZES IN INCHES [MILLIMETRES IN BRACKETS]" if units == "in" else "ALL SIZES IN MILLIMETRES"


def material_words(name: str, spec: str) -> str:
    """A material and its temper with the specification that it is ordered by.

    >>> material_words("6061-T6", "AMS 4027"), material_words("acetal", "")
    ('6061-T6 to AMS 4027, with certificate', 'acetal')
    """
    return f"{name} to {spec}, with certificate" if spec else name


def tolerance_words(shop: Shop, units: str) -> tuple[str, ...]:
    """General tolerances, a line each; the units have a field of their own.

    >>> from clampwright.recipe.shop import usual_shop
    >>> tolerance_words(usual_shop("in"), "in")[0]
    '.X ± .030;  .XX ± .010;  .XXX ± .005'
    """
    return tuple(line.replace("  ", ";  ") for line in block_words(shop, units)[1:])


def edge_words(shop: Shop, units: str) -> str:
    """What is done to sharp edges.

    >>> from clampwright.recipe.shop import usual_shop
    >>> edge_words(usual_shop("mm"), "mm")
    'break 0.30 mm (0.012 in), no burrs'
    """
    if shop.edge_break_mm <= 0:
        return "deburr, no sharp edge"
    return f"break {both(shop.edge_break_mm, units)}, no burrs"


def mass_words(kg: float, units: str) -> str:
    """Mass of one piece, the recipe's unit first.

    >>> mass_words(0.1, "mm"), mass_words(0.1, "in")
    ('100.0 g (3.5 oz)', '3.5 oz (100.0 g)')
    """
    small = kg < _SMALL_KG
    metric, other = show_mass(kg, "g" if small else "kg"), show_mass(kg, "oz" if small else "lb")
    return f"{metric} ({other})" if units == "mm" else f"{other} ({metric})"
