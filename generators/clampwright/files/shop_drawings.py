"""What a shop makes parts from: the drawing of every flat part and the turning sheet, as PDF and DXF.

Nothing is written of a drawing whose numbers differ from the solid that the STEP file is made from.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from clampwright.checks.finding import Finding
from clampwright.files.drawing_dxf import drawing_dxf
from clampwright.files.pdf import pdf
from clampwright.files.written import Written
from clampwright.layout.cut_long import as_marked
from clampwright.layout.joined import Joined
from clampwright.layout.placed import PlateLayout
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.layout.shop.told import FlatPart, ForWhich, TurnedGroup
from clampwright.layout.shop.turned import turned
from clampwright.sheets.drawing import Dimension, Sheet
from clampwright.sheets.shop.turning_figure import PER_SHAPE, TurnedViews, drawn_of, shapes
from clampwright.sheets.shop.turning_sheet import TurningHead, turning_sheet
from clampwright.solids.no_part import NoPart

Findings = tuple[Finding, ...]
Step = Callable[[str], None]
FLAT_VIEWS = ("front", "right", "top")


class DrawingDiffers(NoPart):
    """A drawing says another number than the solid has: neither may leave the house."""


def shop_drawings(layout: Joined, findings: Findings, step: Step) -> Iterator[Written]:
    """The drawings of a layout of any kind; loads the CAD kernel where there is anything to draw.

    Raises
    ------
    DrawingDiffers
        A dimension of a drawing is not that of the solid.
    """
    step("drawings")
    if isinstance(layout, PlateLayout):
        for part in flat_parts(layout):
            yield from drawing_files(f"{part.number}-drawing", flat_sheet(layout, part, findings))
    groups = turned([layout])
    if groups:
        yield from drawing_files(f"{layout.recipe.name}-turning", recipe_turning(layout, groups, findings))


def drawing_files(name: str, sheet: Sheet) -> Iterator[Written]:
    """A sheet for people and printers, and for CAD."""
    facts = (("pages", len(sheet.pages)),)
    dimensions = sum(len(page.dimensions) for page in sheet.pages)
    yield Written(f"{name}.pdf", pdf(sheet), sheet.title, facts)
    about = f"{sheet.title}: the sheet in millimetres of the paper"
    yield Written(f"{name}.dxf", drawing_dxf(sheet, about), about, (*facts, ("dimensions", dimensions)))


def flat_sheet(layout: PlateLayout, part: FlatPart, findings: Findings) -> Sheet:
    """The drawing of a flat part, from views of its solid, held against it.

    Raises
    ------
    DrawingDiffers
        What the drawing says is not what the solid has.
    """
    from clampwright.files.agree import disagreements
    from clampwright.sheets.shop.flat_drawing import flat_drawing
    from clampwright.solids.plate import plate
    from clampwright.solids.shop_views import views_of

    solid = plate(layout)
    sheet = flat_drawing(part, views_of(solid, FLAT_VIEWS), findings)
    _refuse(part.number, disagreements(part, solid, dimensions_of(sheet)))
    return sheet


def recipe_turning(layout: Joined, groups: Sequence[TurnedGroup], findings: Findings) -> Sheet:
    """The turning sheet of one recipe, held against the solids that it is drawn from and those of the layout.

    Raises
    ------
    DrawingDiffers
        What the sheet says is not what the solids have.
    """
    recipe = layout.recipe
    head = TurningHead(f"{recipe.name}-turning", recipe.about, recipe.digest, recipe.units)
    sheet = turning_sheet(groups, recipe.shop, head, findings, turned_views(groups))
    _refuse(head.number, tuple(_turned_differing(layout, groups, sheet)))
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


def _turned_differing(layout: Joined, groups: Sequence[TurnedGroup], sheet: Sheet) -> Iterator[str]:
    """Drawn groups against their solids, dimension by dimension; every line against the layout's solids.

    The solid of a piece that is left long has the length that it is trimmed to.
    """
    from clampwright.files.agree import disagreements
    from clampwright.solids.bushing import bushing_body

    told = dimensions_of(sheet)
    drawn = [drawn_of(shape) for shape in shapes(groups)]
    for number, group in enumerate(drawn):
        yield from disagreements(group, _made(group), told[PER_SHAPE * number : PER_SHAPE * (number + 1)])
    parts = {part.mark: part for part in as_marked(layout)}
    for group in groups:
        for which in group.belongs:
            solid = bushing_body(parts[which.mark]).shape
            for text in disagreements(_finished(group, which), solid):
                yield f"{group.number}, {which.mark}: {text}"


def _finished(group: TurnedGroup, which: ForWhich) -> TurnedGroup:
    """The group with the length that its pieces have in the end."""
    share = which.finished_mm / group.length_mm
    return replace(group, length_mm=which.finished_mm, mass_each_kg=group.mass_each_kg * share)


def _made(group: TurnedGroup) -> Any:
    from clampwright.solids.bushing import bushing_shape

    return bushing_shape(group.length_mm, group.od_mm, group.bore_mm, group.chamfer_mm)


def _refuse(number: str, differing: Sequence[str]) -> None:
    if differing:
        raise DrawingDiffers(f"{number}: {'; '.join(differing)}")
