"""What a shop makes parts from: the drawing of every flat part and the turning sheet, as PDF and DXF.

Nothing is written of a drawing whose numbers differ from the solid that the STEP file is made from.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from clampwright.checks.finding import Finding
from clampwright.files.drawing_dxf import drawing_dxf
from clampwright.files.pdf import pdf
from clampwright.files.written import Written
from clampwright.layout.cut_long import as_first_made
from clampwright.layout.joined import Joined
from clampwright.layout.placed import PlateLayout
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.layout.shop.told import FlatPart, TurnedGroup
from clampwright.layout.shop.turned import turned
from clampwright.recipe.model import Shop
from clampwright.sheets.drawing import Dimension, Sheet
from clampwright.sheets.shop.dimensioning.lanes import NoRoom
from clampwright.sheets.shop.turning_figure import PER_SHAPE, TurnedViews, drawn_of, shapes
from clampwright.sheets.shop.turning_sheet import TurningHead, turning_sheet
from clampwright.solids.no_part import NoPart

Findings = tuple[Finding, ...]


class DrawingDiffers(NoPart):
    """A drawing says another number than the solid has: neither may leave the house."""

    own_fault = True


class NotDrawn(NoPart):
    """A drawing finds no room for all that must be said on any of its sheets."""


def shop_sheets(layout: Joined, findings: Findings) -> Iterator[tuple[str, Sheet]]:
    """The drawings of a layout of any kind with the names of their files; loads the CAD kernel for any.

    Raises
    ------
    DrawingDiffers
        A dimension of a drawing is not that of the solid.
    """
    recipe = layout.recipe
    if isinstance(layout, PlateLayout):
        for part in flat_parts(layout):
            yield f"{part.number}-drawing", flat_sheet(layout, part, findings)
    groups = turned([layout])
    if groups:
        name = f"{recipe.name}-turning"
        head = TurningHead(name, recipe.about, recipe.digest, recipe.units)
        yield name, turned_sheet([layout], groups, recipe.shop, head, findings)


def drawing_pdf(name: str, sheet: Sheet, more: str = "") -> Written:
    """A drawing for people and printers; `more` is added to what it is."""
    return Written(f"{name}.pdf", pdf(sheet), sheet.title + more, (("pages", len(sheet.pages)),))


def drawing_for_cad(name: str, sheet: Sheet, more: str = "") -> Written:
    """The same drawing as DXF, its dimensions native."""
    about = f"{sheet.title}{more}: the sheet in millimetres of the paper, not to cut from"
    facts = (("pages", len(sheet.pages)), ("dimensions", len(dimensions_of(sheet))))
    return Written(f"{name}.dxf", drawing_dxf(sheet, about), about, facts)


def flat_sheet(layout: PlateLayout, part: FlatPart, findings: Findings) -> Sheet:
    """The drawing of a flat part, from views of its solid, held against it.

    Raises
    ------
    DrawingDiffers
        What the drawing says is not what the solid has.
    NotDrawn
        It finds no room on any sheet.
    """
    from clampwright.files.agree import disagreements
    from clampwright.sheets.shop.flat_drawing import flat_drawing
    from clampwright.sheets.shop.flat_views import views_wanted
    from clampwright.solids.plate import plate
    from clampwright.solids.shop_views import views_of

    solid = plate(layout)
    try:
        sheet = flat_drawing(part, views_of(solid, views_wanted(part)), findings)
    except NoRoom as full:
        raise NotDrawn(f"{part.number} cannot be drawn: {full}") from full
    _refuse(part.number, disagreements(part, solid, dimensions_of(sheet)))
    return sheet


def turned_sheet(
    layouts: Sequence[Joined],
    groups: Sequence[TurnedGroup],
    shop: Shop,
    head: TurningHead,
    findings: Findings,
) -> Sheet:
    """The turning sheet of a recipe or a bay, held against the solids it is drawn from and the layouts' own.

    Raises
    ------
    DrawingDiffers
        What the sheet says is not what the solids have.
    """
    sheet = turning_sheet(groups, shop, head, findings, turned_views(groups))
    _refuse(head.number, tuple(_turned_differing(layouts, groups, sheet)))
    return sheet


def dimensions_of(sheet: Sheet) -> tuple[Dimension, ...]:
    """All of its dimensions, page after page."""
    return tuple(each for page in sheet.pages for each in page.dimensions)


def turned_views(groups: Sequence[TurnedGroup]) -> Mapping[str, TurnedViews]:
    """Section and end of the solid of every group that a drawing shows, by its number."""
    from clampwright.solids.shop_looks import END_ON
    from clampwright.solids.shop_views import bore_section, view_at

    found = {}
    for group in map(drawn_of, shapes(groups)):
        solid = _made(group)
        end = view_at(solid, END_ON, "end", hidden=False)
        found[group.number] = TurnedViews(bore_section(solid), end)
    return found


def _turned_differing(
    layouts: Sequence[Joined], groups: Sequence[TurnedGroup], sheet: Sheet
) -> Iterator[str]:
    """Drawn groups against their solids, dimension by dimension; every line against the layouts' bushings."""
    from clampwright.files.agree import disagreements
    from clampwright.solids.bushing import bushing_body

    told = dimensions_of(sheet)
    for number, group in enumerate(map(drawn_of, shapes(groups))):
        yield from disagreements(group, _made(group), told[PER_SHAPE * number : PER_SHAPE * (number + 1)])
    parts = {(one.recipe.name, part.mark): part for one in layouts for part in as_first_made(one)}
    for group in groups:
        for which in group.belongs:
            solid = bushing_body(parts[which.recipe, which.mark]).shape
            for text in disagreements(group, solid):
                yield f"{group.number}, {which.mark} of {which.recipe}: {text}"


def _made(group: TurnedGroup) -> Any:
    from clampwright.solids.bushing import bushing_shape

    return bushing_shape(group.length_mm, group.od_mm, group.bore_mm, group.chamfer_mm)


def _refuse(number: str, differing: Sequence[str]) -> None:
    if differing:
        raise DrawingDiffers(f"{number}: {'; '.join(differing)}")
