"""The drawing of a part cut from sheet: views, dimensions, tables, notes, on the smallest sheet that does."""

from __future__ import annotations

from collections.abc import Sequence

from clampwright.checks.finding import Finding
from clampwright.layout.shop.told import FlatPart
from clampwright.sheets.drawing import Item, Page, Sheet
from clampwright.sheets.shop.block import block_items
from clampwright.sheets.shop.block_words import flat_block
from clampwright.sheets.shop.border import border_items
from clampwright.sheets.shop.flat_plan import Plan, planned
from clampwright.solids.view_lines import ViewLines


def flat_drawing(part: FlatPart, views: Sequence[ViewLines], findings: Sequence[Finding]) -> Sheet:
    """The drawing of a part cut from sheet, bent or not.

    Holes are placed in the view where they are few and lie apart, else in a table. The smallest sheet is
    taken on which the part is drawn large enough and everything finds a place that touches nothing.

    Parameters
    ----------
    part : FlatPart
        What the shop is told.
    views : Sequence[ViewLines]
        Of the finished solid: those that `views_wanted` names. A part with bends may have its "flat pattern"
        among them; what is missing is drawn from the part itself.
    findings : Sequence[Finding]
        Of the recipe. One that fails says DO NOT MAKE on every sheet.

    Raises
    ------
    NoRoom
        Where the part fits on no sheet at any scale.

    Examples
    --------
    >>> from clampwright.layout.outlines import rounded_rectangle
    >>> from clampwright.layout.shop.told import ToldHole
    >>> from clampwright.recipe.shop import usual_shop
    >>> from clampwright.trade.materials import material
    >>> holes = tuple(ToldHole(f"A{n}", (20.0 * n, 15.0), 4.9, "M5", "clamp", "4.9", "") for n in (1, 2))
    >>> outline, alloy, shop = rounded_rectangle((0, 0, 60, 30), 5), material("6061-T6"), usual_shop("mm")
    >>> part = FlatPart(
    ...     "strap", "Strap", "strap", "", "", "mm", alloy, 2.0, outline, holes, 1, 0.01, shop
    ... )
    >>> sorted(each.text for each in flat_drawing(part, (), ()).pages[0].dimensions)
    ['15', '2', '20', '2x Ø4.9', '30', '40', '4x R5', '60']
    """
    plan = planned(part, views, flat_block(part, findings, "").stop)
    contents = [(*plan.items, *plan.share.tables), *plan.share.later]
    border, title = border_items(plan.sheet), f"{part.title}, {part.number}"
    pages = tuple(
        Page(
            title,
            plan.sheet.width_mm,
            plan.sheet.height_mm,
            (*border, *_block(part, findings, plan, number, len(contents)), *items),
            dimensions=plan.dimensions if number == 1 else (),
        )
        for number, items in enumerate(contents, 1)
    )
    return Sheet(f"{part.number}-drawing", f"{part.title}: drawing", pages, true_scale=False)


def _block(
    part: FlatPart, findings: Sequence[Finding], plan: Plan, number: int, count: int
) -> tuple[Item, ...]:
    return block_items(flat_block(part, findings, plan.words, number, count), plan.sheet)
